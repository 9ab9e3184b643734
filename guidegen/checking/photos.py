"""Which photos guides show, and which lie beside them that none does."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import PurePosixPath

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.listed import some_of
from guidegen.base.source import Span
from guidegen.imaging.kinds import ENDINGS
from guidegen.model.guide import Guide
from guidegen.model.names import Photo
from guidegen.model.site import Archive

_SHOWN = 4


def photos_of(guide: Guide) -> Iterator[Photo]:
    """Every photo that a guide shows, its cover first."""
    if guide.cover is not None:
        yield guide.cover
    for step in guide.steps:
        yield from step.photos
    for reference in guide.reference:
        yield reference.photo
    for passage in guide.body.passages:
        yield from passage.photos


def all_photos(archive: Archive) -> Iterator[Photo]:
    """Every photo that guides and pages of words show."""
    for guide in archive.guides:
        yield from photos_of(guide)
    for page in archive.pages:
        yield from page.text.photos


def unused_photos(
    guides: Iterable[Guide], files: Iterable[str], unread: Iterable[str]
) -> Iterator[Diagnostic]:
    """unused-photo: once for each guide's folder, and once for what lies among the guides without one.

    Nothing is told of a folder whose guide could not be read in full, or sought a photo in vain (`unread`), and
    nothing at all where that is so of a shared list.
    """
    several = tuple(guides)
    doubtful = {file.rpartition("/")[0] for file in unread}
    if "shared" in doubtful:
        return
    used = {photo.path for guide in several for photo in photos_of(guide)}
    folders = {guide.file.rpartition("/")[0]: guide for guide in several if guide.file.count("/") > 1}
    left: dict[str, list[str]] = {}
    for path in sorted(files):
        if path.startswith("guides/") and path not in used and path.casefold().endswith(ENDINGS):
            folder = "/".join(path.split("/")[:2])
            left.setdefault(folder if folder in folders else "guides", []).append(path)
    for folder, paths in left.items():
        if folder in doubtful:
            continue
        guide = folders.get(folder)
        names = [str(PurePosixPath(path).relative_to(folder)) for path in paths]
        yield Diagnostic(
            code="unused-photo",
            message=f"Nothing shows {some_of(names, _SHOWN)}.",
            span=Span.of_file(guide.file if guide is not None else paths[0]),
            help=f"Add photo: {{file: {names[0]}, alt: what it shows}} to a step, or take it out of the folder.",
        )
