"""Many photos at once, over all cores, each encoded once in its life; results come in order, one by one."""

from __future__ import annotations

import os
import threading
from collections import deque
from collections.abc import Iterable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import nullcontext
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import Protocol, Self

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Span
from guidegen.imaging import trouble
from guidegen.imaging.derive import derive
from guidegen.imaging.falls import opening
from guidegen.imaging.limits import LARGE_FILE, Budget
from guidegen.imaging.load import decode, open_photo, read_bytes
from guidegen.imaging.picture import (
    SMALL,
    WIDTHS,
    Picture,
    digest_of,
    facts_key,
    facts_of,
    file_name,
    key_of,
    picture_of,
    sizes_for,
)
from guidegen.imaging.trouble import Trouble

# Results that wait for one before them hold no pixels, so the queue may run a little ahead of the cores.
_AHEAD = 4
# The width at which a photo is opened that is only looked at: every byte is read, and few pixels are made.
_GLANCE = 64


class Store(Protocol):
    """Where encoded photos live on disk, by key. Several threads use it at the same time."""

    def has(self, key: str) -> bool:
        """Whether the key is there."""

    def get(self, key: str) -> bytes | None:
        """What was put there, None where nothing is."""

    def put(self, key: str, data: bytes) -> None:
        """Keep the bytes under the key; what was there already is the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Original:
    """A photo as an author gave it. `name` is as written and `span` where; `digest` its content's, where known."""

    path: Path
    name: str
    span: Span
    digest: str | None = None


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


class Developing(Iterator[Developed]):
    """Photos that are being developed meanwhile; each is given out once it is done, in the order given.

    Memory does not grow with their number. Only the store's own failures are raised.
    """

    # Threads, for Pillow lets go of the interpreter's lock to decode, shrink, convert and encode: 24 photos of
    # 12 megapixels on two cores took 1.8 times less than on one, and two processes were no faster. Threads
    # need no start-up, and a killed build leaves none behind.

    def __init__(self, originals: Iterable[Original], store: Store, *, cores: int | None = None) -> None:
        cores = cores or usable_cores()
        self._room = _Darkroom(store)
        self._coming = iter(originals)
        self._pool = ThreadPoolExecutor(cores, thread_name_prefix="photo")
        self._waiting: deque[Future[Developed]] = deque()
        self._begin(cores * _AHEAD)

    def __next__(self) -> Developed:
        if not self._waiting:
            raise StopIteration
        done = self._waiting.popleft().result()
        self._begin(1)
        return done

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        """Also where the reader stops early, or the store fails."""
        self._pool.shutdown(cancel_futures=True)

    def _begin(self, several: int) -> None:
        self._waiting.extend(
            self._pool.submit(self._room.develop, one) for one in islice(self._coming, several)
        )


def develop(originals: Iterable[Original], store: Store, *, cores: int | None = None) -> Iterator[Developed]:
    """Develop photos as they are asked for, in the order given. See `Developing`."""
    with Developing(originals, store, cores=cores) as done:
        yield from done


def look_at(originals: Iterable[Original], store: Store) -> Iterator[Developed]:
    """As `develop`, but nothing is encoded or kept: a photo that the store does not know is only opened in full."""
    room = _Darkroom(store, keep=False)
    with ThreadPoolExecutor(usable_cores(), thread_name_prefix="photo") as pool:
        yield from pool.map(room.develop, originals)


def usable_cores() -> int:
    """How many cores this process may use, which can be fewer than the machine has."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


class _Darkroom:
    """What the threads of one run share."""

    def __init__(self, store: Store, *, keep: bool = True) -> None:
        self._store = store
        self._keep = keep
        self._budget = Budget()
        self._one_large = threading.Lock()
        # One lock for every first byte of a digest: of two copies of a photo, the second finds the files of the first.
        self._alone = tuple(threading.Lock() for _ in range(256))

    def develop(self, original: Original) -> Developed:
        if original.digest is not None and (known := self._known(key_of(original.digest))):
            return _result(original, original.digest, known, encoded=False)
        with self._one_large if _is_large(original.path) else nullcontext():
            data = read_bytes(original.path)
            if isinstance(data, Trouble):
                return _failed(original, None, data)
            digest = digest_of(data)
            key = key_of(digest)
            with self._alone[int(digest[:2], 16)]:
                if known := self._known(key):
                    return _result(original, digest, known, encoded=False)
                with opening(original.name):
                    made = self._encode(key, data)
        if isinstance(made, Trouble):
            return _failed(original, digest, made)
        return _result(original, digest, made, encoded=self._keep)

    def _known(self, key: str) -> Picture | None:
        facts = self._store.get(facts_key(key))
        picture = picture_of(facts) if facts is not None else None
        if picture is None or picture.key != key:
            return None
        return picture if all(self._store.has(kept) for _, kept in picture.files) else None

    def _encode(self, key: str, data: bytes) -> Picture | Trouble:
        width = WIDTHS[-1] if self._keep else _GLANCE
        opened = open_photo(data, width)
        if isinstance(opened, Trouble):
            return opened
        with self._budget.hold(opened.weight):
            loaded = decode(opened, width)
            if isinstance(loaded, Trouble):
                return loaded
            sizes = sizes_for(loaded.width, loaded.height)
            if sizes is None:
                return trouble.too_long(loaded.width, loaded.height)
            if not self._keep:
                return Picture(
                    key=key,
                    width=loaded.width,
                    height=loaded.height,
                    sizes=sizes,
                    colour="",
                    animated=loaded.animated,
                )
            derived = derive(loaded.image, sizes)
        for (width, ending), encoded in derived.files.items():
            self._store.put(file_name(key, width, ending), encoded)
        picture = Picture(
            key=key,
            width=loaded.width,
            height=loaded.height,
            sizes=sizes,
            colour=derived.colour,
            animated=loaded.animated,
        )
        self._store.put(facts_key(key), facts_of(picture))
        return picture


def _is_large(path: Path) -> bool:
    try:
        return path.stat().st_size > LARGE_FILE
    except OSError:  # reading it will say why
        return False


def _failed(original: Original, digest: str | None, found: Trouble) -> Developed:
    diagnostic = found.diagnostic(original.name, original.span)
    return Developed(original=original, digest=digest, diagnostics=(diagnostic,))


def _result(original: Original, digest: str, picture: Picture, *, encoded: bool) -> Developed:
    diagnostics = []
    if picture.animated:
        diagnostics.append(trouble.animated(original.name, original.span))
    if picture.width < SMALL:
        diagnostics.append(trouble.small(original.name, picture.width, SMALL, original.span))
    return Developed(
        original=original, digest=digest, picture=picture, encoded=encoded, diagnostics=tuple(diagnostics)
    )
