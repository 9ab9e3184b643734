"""Many photos at once, over all cores, each encoded once in its life; results come in order, one by one.

Photos are read, decoded and encoded in worker processes, so that a library which crashes over one of them takes nothing
else along. Workers know nothing of the store: they ask the parent.
"""

from __future__ import annotations

from collections.abc import Generator, Iterable, Iterator
from contextlib import closing
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.errors import MachineError
from guidegen.base.source import Span
from guidegen.base.workers import LATER, Ask, LostWorkerError, Parent, in_workers
from guidegen.imaging import trouble
from guidegen.imaging.derive import derive
from guidegen.imaging.limits import LARGE_FILE, Budget
from guidegen.imaging.load import decode, load_full, open_photo, read_bytes
from guidegen.imaging.picture import (
    SMALL,
    WIDTHS,
    Picture,
    digest_of,
    facts_key,
    facts_of,
    file_name,
    kept_width,
    key_of,
    picture_of,
    sizes_for,
)
from guidegen.imaging.trouble import Trouble

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

# The width at which a photo is opened that is only looked at: every byte is read, and few pixels are made.
_GLANCE = 64


class Store(Protocol):
    """Where encoded photos live on disk, by key."""

    def has(self, key: str) -> bool:
        """Whether the key is there."""

    def get(self, key: str) -> bytes | None:
        """What was put there, None where nothing is."""

    def put(self, key: str, data: bytes) -> None:
        """Keep the bytes under the key; what was there already is the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Original:
    """A photo as an author gave it. `name` is as written and `span` where; `digest` its content's, where known.

    `credited` is whether its author says who took it.
    """

    path: Path
    name: str
    span: Span
    digest: str | None = None
    credited: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Developed:
    """What became of one original. The files of `picture` lie in the store; it is None for a `bad-photo`.

    `encoded` is whether this run did the work; `digest` is None where the file could not be read.
    """

    original: Original
    digest: str | None = None
    picture: Picture | None = None
    encoded: bool = False
    diagnostics: tuple[Diagnostic, ...] = ()


def develop(
    originals: Iterable[Original], store: Store, *, cores: int | None = None
) -> Generator[Developed, None, None]:
    """Develop photos as they are asked for, in the order given.

    Memory does not grow with their number. Raised are only the store's own failures, and MachineError where a library
    crashes over a photo.
    """
    return _worked_on(originals, store, cores, keep=True)


def look_at(originals: Iterable[Original], store: Store) -> Generator[Developed, None, None]:
    """As `develop`, but nothing is encoded or kept: a photo that the store does not know is only opened in full."""
    return _worked_on(originals, store, None, keep=False)


def _worked_on(
    originals: Iterable[Original], store: Store, cores: int | None, *, keep: bool
) -> Generator[Developed, None, None]:
    # Loaded here, they are there in every fork, each of which would take 50 ms to load them.
    from PIL import JpegImagePlugin, WebPImagePlugin  # noqa: F401

    dispatcher = _PhotoDispatcher(originals, store, keep=keep)
    with closing(in_workers(partial(worked, keep=keep), dispatcher.jobs(), dispatcher, cores=cores)) as done:
        try:
            yield from done
        except LostWorkerError as lost:
            raise crashed_over(dispatcher.given[lost.job].name) from None


def load_apart(path: Path, name: str, span: Span) -> tuple[NDArray[np.uint8] | None, tuple[Diagnostic, ...]]:
    """`load_full` in a worker process."""
    with closing(in_workers(_loaded, [(path, name, span)])) as loaded:
        try:
            return next(loaded)
        except LostWorkerError:
            raise crashed_over(name) from None


def _loaded(
    photo: tuple[Path, str, Span], _ask: Ask
) -> tuple[NDArray[np.uint8] | None, tuple[Diagnostic, ...]]:
    return load_full(*photo)


def crashed_over(name: str) -> MachineError:
    """The failure to raise where the process that read a photo died: a library crashed, or the system ended it."""
    return MachineError(
        f"The library that reads photos has crashed over “{name}”.",
        "Take that photo out, or open it in a picture program and save it anew as JPEG. The site is as it was.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """What a worker made of a photo: `found` with its `files` by their keys, or a picture that was known already."""

    digest: str | None
    found: Picture | Trouble
    files: dict[str, bytes] = field(default_factory=dict)


# What a worker asks: to read a large file; what is known of a key, and else for the work on it; for room to decode.
ALONE, _KEY, ROOM = "alone", "key", "room"


def worked(original: Original, ask: Ask, *, keep: bool) -> Worked:
    """Runs in a worker: reads a photo and encodes it, or with `keep` false opens it in full."""
    if original.digest is not None and (known := ask((_KEY, key_of(original.digest)))):
        return Worked(digest=original.digest, found=known)
    if _is_large(original.path):
        ask((ALONE, ""))
    data = read_bytes(original.path)
    if isinstance(data, Trouble):
        return Worked(digest=None, found=data)
    digest = digest_of(data)
    key = key_of(digest)
    if digest != original.digest and (known := ask((_KEY, key))):
        return Worked(digest=digest, found=known)
    files: dict[str, bytes] = {}
    return Worked(digest=digest, found=_encoded(key, data, ask, files if keep else None), files=files)


def _encoded(key: str, data: bytes, ask: Ask, files: dict[str, bytes] | None) -> Picture | Trouble:
    """Decode a photo and put its encoded sizes into `files`; with None it is only opened in full."""
    width = WIDTHS[-1] if files is not None else _GLANCE
    opened = open_photo(data, width)
    if isinstance(opened, Trouble):
        return opened
    ask((ROOM, opened.weight))
    loaded = decode(opened, width)
    if isinstance(loaded, Trouble):
        return loaded
    sizes = sizes_for(loaded.width, loaded.height)
    if sizes is None:
        return trouble.too_long(loaded.width, loaded.height)
    colour, weight = "", 0
    if files is not None:
        derived = derive(loaded.image, sizes)
        files |= {file_name(key, width, ending): done for (width, ending), done in derived.files.items()}
        kept = kept_width([width for width, _ in sizes])
        colour, weight = derived.colour, len(derived.files[kept, "webp"])
    return Picture(
        key=key,
        width=loaded.width,
        height=loaded.height,
        sizes=sizes,
        colour=colour,
        animated=loaded.animated,
        names=loaded.names,
        weight=weight,
    )


class _PhotoDispatcher(Parent[Developed]):
    """Answers the workers' questions: which photos the store knows, and when there is memory for the next.

    `given` are the photos being worked on, by number.
    """

    def __init__(self, originals: Iterable[Original], store: Store, *, keep: bool) -> None:
        self.given: dict[int, Original] = {}
        self._originals = originals
        self._store = store
        self._keep = keep
        self._budget = Budget()
        # Who holds what only one may hold: large files, and each key, so that copies of a photo are encoded once.
        self._held: dict[tuple[str, str], int] = {}

    def jobs(self) -> Iterator[Original]:
        """Every photo, noted as it is given out."""
        for number, original in enumerate(self._originals):
            self.given[number] = original
            yield original

    def answer(self, job: int, question: Any) -> Any:
        """Leave to go on, as None, or the picture that is known already."""
        kind, what = question
        if kind == ROOM:
            return None if self._budget.take(job, what) else LATER
        if self._held.get(question, job) != job:
            return LATER
        known = self._known(what) if kind == _KEY else None
        if known is None:
            self._held[question] = job
        return known

    def finished(self, job: int, result: Worked) -> Developed:
        """Put what was encoded into the store."""
        original = self.given.pop(job)
        self.lost(job)
        for key, encoded in result.files.items():
            self._store.put(key, encoded)
        if result.files and isinstance(result.found, Picture):
            self._store.put(facts_key(result.found.key), facts_of(result.found))
        return developed_of(original, result)

    def lost(self, job: int) -> None:
        """Free whatever the job held, since its worker has died."""
        self._budget.give_back(job)
        self._held = {what: holder for what, holder in self._held.items() if holder != job}

    def _known(self, key: str) -> Picture | None:
        facts = self._store.get(facts_key(key))
        picture = picture_of(facts) if facts is not None else None
        if picture is None or picture.key != key:
            return None
        return picture if all(self._store.has(kept) for _, kept in picture.files) else None


def developed_of(original: Original, result: Worked) -> Developed:
    """The record of an original, from what a worker made of its file."""
    found = result.found
    if isinstance(found, Trouble):
        diagnostic = found.diagnostic(original.name, original.span)
        return Developed(original=original, digest=result.digest, diagnostics=(diagnostic,))
    return Developed(
        original=original,
        digest=result.digest,
        picture=found,
        encoded=bool(result.files),
        diagnostics=tuple(_told_of(found, original)),
    )


def _told_of(picture: Picture, original: Original) -> Iterator[Diagnostic]:
    if picture.animated:
        yield trouble.animated(original.name, original.span)
    if picture.width < SMALL:
        yield trouble.small(original.name, picture.width, SMALL, original.span)
    if picture.names and not original.credited:
        yield trouble.names_somebody(original.name, original.span)


def _is_large(path: Path) -> bool:
    try:
        return path.stat().st_size > LARGE_FILE
    except OSError:  # reading it will say why
        return False
