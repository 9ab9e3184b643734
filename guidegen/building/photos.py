"""The photos of a site: developed for its pages, or only looked at for `check`."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from contextlib import closing
from dataclasses import dataclass, replace
from pathlib import Path

from guidegen.base.activity import busy_with
from guidegen.base.diagnostic import Diagnostic
from guidegen.building.memory import Memory
from guidegen.imaging.ahead import PhotosAhead
from guidegen.imaging.develop import Original, Store, develop, look_at
from guidegen.imaging.picture import Picture
from guidegen.model.names import Photo
from guidegen.reading.content.discover import ContentFiles


@dataclass(frozen=True, slots=True, kw_only=True)
class DevelopedPhotos:
    """What became of all photos of a site: the pictures by their path in content, and how many were encoded now."""

    pictures: Mapping[str, Picture]
    diagnostics: tuple[Diagnostic, ...]
    encoded: int


def develop_photos(
    photos: Iterable[Photo],
    found: ContentFiles,
    store: Store,
    memory: Memory,
    looked_at: int,
    progress: Callable[[int, int], None],
    cores: int | None = None,
) -> DevelopedPhotos:
    """Develop photos on all cores, each once, however often it is shown.

    One that the memory knows is not even opened. `looked_at` is the time before the content's files were listed. What
    is wrong with a photo is told where it is first named.
    """
    originals = originals_of(photos, found.root)
    stamps = {path: found.listing.files.get(path) for path in originals}
    known = {path: memory.developed_before(path, photo, stamps[path]) for path, photo in originals.items()}
    lacking = [path for path, done in known.items() if done is None]
    done = {path: photo for path, photo in known.items() if photo is not None}
    with closing(develop((originals[path] for path in lacking), store, cores=cores)) as developed:
        for path in lacking:
            with busy_with(path):
                done[path] = next(developed)
            progress(len(done), len(originals))
    if lacking or known.keys() != memory.developed.keys():
        memory.keep_photos(
            {path: (stamp, replace(done[path], encoded=False)) for path, stamp in stamps.items() if stamp},
            looked_at,
        )
    every = [done[path] for path in originals]
    return DevelopedPhotos(
        pictures={path: done[path].picture for path in originals if done[path].picture is not None},  # type: ignore[misc]
        diagnostics=tuple(one for photo in every for one in photo.diagnostics),
        encoded=sum(photo.encoded for photo in every),
    )


def look_at_photos(
    photos: Iterable[Photo],
    found: ContentFiles,
    store: Store,
    memory: Memory,
    looked_at: int,
    ahead: PhotosAhead,
) -> list[Diagnostic]:
    """What there is to tell of photos, with nothing encoded; of those that were opened ahead, what was found then."""
    first = originals_of(photos, found.root)
    stamps = {path: found.listing.files.get(path) for path in first}
    before = {
        path: memory.looked_before(path, photo, stamps[path]) or ahead.look_at(photo)
        for path, photo in first.items()
    }
    looked = {}
    with closing(look_at((photo for path, photo in first.items() if before[path] is None), store)) as opened:
        for path, known in before.items():
            with busy_with(path):
                looked[path] = known or next(opened)
    if None in before.values():
        memory.keep_looks({path: (stamps[path], done) for path, done in looked.items()}, looked_at)
    return [told for photo in looked.values() for told in photo.diagnostics]


def originals_of(photos: Iterable[Photo], content: Path) -> dict[str, Original]:
    """Photos, each once, by their path in content, as they are first named."""
    first: dict[str, Original] = {}
    several = tuple(photos)
    credited = {photo.path for photo in several if photo.by}
    for photo in several:
        if photo.path is not None and photo.path not in first:
            first[photo.path] = Original(
                path=content / photo.path,
                name=photo.file,
                span=photo.span,
                credited=photo.path in credited,
            )
    return first
