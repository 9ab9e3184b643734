"""The photos of a site: developed while pages are made of those that are done, and looked at for `check`."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Self

from guidegen.base.activity import busy_with
from guidegen.base.diagnostic import Diagnostic
from guidegen.building.memory import Memory
from guidegen.imaging.develop import Developing, Original, Store, look_at
from guidegen.imaging.picture import Picture
from guidegen.model.guide import Guide
from guidegen.model.names import Photo
from guidegen.reading.content.discover import Found


def photos_of(guide: Guide) -> Iterator[Photo]:
    """Every photo that a guide shows, its cover first."""
    if guide.cover is not None:
        yield guide.cover
    for step in guide.steps:
        yield from step.photos
    for reference in guide.reference:
        yield reference.photo
    for passage in (guide.body.before, *guide.body.under.values(), guide.body.after):
        yield from passage.photos


class Photos(Mapping[str, Picture]):
    """All photos of some guides, by their path in content: each developed once, however many guides show it.

    One that the memory knows is not even opened. Whoever asks for another waits until it is done; all that come after
    it are developed meanwhile. What is wrong with one is told where it is first named.
    """

    def __init__(
        self,
        guides: Iterable[Guide],
        found: Found,
        store: Store,
        memory: Memory,
        looked_at: int,
        progress: Callable[[int, int], None],
    ) -> None:
        """Begin. `looked_at` is the time before the content's files were listed."""
        self._memory, self._looked_at, self._progress = memory, looked_at, progress
        self._finished = False
        self._originals = originals_of(guides, found.root)
        self._stamps = {path: found.listing.files.get(path) for path in self._originals}
        known = {
            path: memory.developed_before(path, photo, self._stamps[path])
            for path, photo in self._originals.items()
        }
        self._done = {path: done for path, done in known.items() if done is not None}
        lacking = [path for path, done in known.items() if done is None]
        self._lacking = iter(lacking)
        self._developing = Developing((self._originals[path] for path in lacking), store)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self._developing.__exit__()

    def __getitem__(self, path: str) -> Picture:
        if path in self._originals:
            while path not in self._done:
                self._next()
        picture = self._done[path].picture
        if picture is None:
            raise KeyError(path)
        return picture

    def __iter__(self) -> Iterator[str]:
        self.finish()
        return (path for path in self._originals if self._done[path].picture is not None)

    def __len__(self) -> int:
        return sum(1 for _ in self)

    def finish(self) -> None:
        """Wait for all of them, and keep in mind what became of each."""
        if self._finished:
            return
        while len(self._done) < len(self._originals):
            self._next()
        kept = {
            path: (stamp, replace(self._done[path], encoded=False))
            for path, stamp in self._stamps.items()
            if stamp is not None
        }
        self._memory.keep_photos(kept, self._looked_at)
        self._finished = True

    @property
    def diagnostics(self) -> tuple[Diagnostic, ...]:
        """What there is to tell of all of them."""
        self.finish()
        return tuple(told for path in self._originals for told in self._done[path].diagnostics)

    @property
    def encoded(self) -> int:
        """How many this build has encoded so far."""
        return sum(done.encoded for done in self._done.values())

    def _next(self) -> None:
        path = next(self._lacking)
        with busy_with(path):
            self._done[path] = next(self._developing)
        self._progress(len(self._done), len(self._originals))


def look_at_photos(
    guides: Iterable[Guide], found: Found, store: Store, memory: Memory, looked_at: int
) -> list[Diagnostic]:
    """What there is to tell of photos, with nothing encoded."""
    first = originals_of(guides, found.root)
    stamps = {path: found.listing.files.get(path) for path in first}
    before = {path: memory.looked_before(path, photo, stamps[path]) for path, photo in first.items()}
    opened = look_at((photo for path, photo in first.items() if before[path] is None), store)
    looked = {}
    for path, known in before.items():
        with busy_with(path):
            looked[path] = known or next(opened)
    if None in before.values():
        memory.keep_looks({path: (stamps[path], done) for path, done in looked.items()}, looked_at)
    return [told for photo in looked.values() for told in photo.diagnostics]


def originals_of(guides: Iterable[Guide], content: Path) -> dict[str, Original]:
    """The photos of some guides, each once, by their path in content, as they are first named."""
    first: dict[str, Original] = {}
    for guide in guides:
        for photo in photos_of(guide):
            if photo.path is not None and photo.path not in first:
                first[photo.path] = Original(path=content / photo.path, name=photo.file, span=photo.span)
    return first
