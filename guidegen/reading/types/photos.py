"""Types of photos: which file a typed name means, and what the picture says to somebody who cannot see it."""

from __future__ import annotations

import posixpath
from dataclasses import dataclass, replace
from typing import NamedTuple

from guidegen.base.listing import ResolvedPath, Why, relative_to
from guidegen.base.source import Span
from guidegen.model.names import Photo
from guidegen.reading.types.base import NAME_TEXT, PERSON, TEXT, Fields, Type, list_of
from guidegen.reading.types.keys import Key, Record, record_of
from guidegen.reading.types.parse_context import ParseContext, near
from guidegen.reading.yaml.nodes import MapNode, Node, Scalar
from guidegen.reading.yaml.quoting import shortened

# Among how many neighbours a missing file's name is looked for.
_NEIGHBOURS = 500


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoFile(Type[Photo]):
    """A photo's file, by its path from the folder that it is written in."""

    expected: str = "a photo's file"
    example: str = "finished.jpg"

    def read(self, node: Node, key: str, context: ParseContext) -> Photo | None:
        """The photo without alt; its path is None where the file is not there, which is told."""
        if not isinstance(node, Scalar):
            self.refuse(node, key, context)
            return None
        text = NAME_TEXT.read(node, key, context)
        if not text:
            return None
        return Photo(
            file=text,
            path=photo_path(text, context.span(node), context, diagnosed=node.diagnosed),
            span=context.span(node),
        )


PHOTO_FILE = PhotoFile()


def photo_path(typed: str, span: Span, context: ParseContext, *, diagnosed: bool = False) -> str | None:
    """The file that a typed path means, relative to content; missing-photo where there is none."""
    place = context.listing.find(context.folder, typed)
    if place.path is None and not diagnosed:
        message, help_line = _missing(typed, place, context)
        context.say("missing-photo", message, span, help_line)
    return place.path


def _missing(typed: str, place: ResolvedPath, context: ParseContext) -> tuple[str, str]:
    """The message and the help for a photo that is not there."""
    shown = shortened(typed)
    if place.why is Why.ELSEWHERE:
        return (
            f"The photo “{shown}” lies on another site, and pages of this one ask nothing of others.",
            "Save the photo beside the guide and write its file's name.",
        )
    if place.why is Why.OUTSIDE:
        return (
            f"The photo “{shown}” lies outside the content folder.",
            "Put it beside the guide and write its file's name alone.",
        )
    best = _nearest_file(typed, context)
    return (
        f"There is no photo “{shown}” here.",
        f"Write {best}."
        if best
        else f"Put the file into {context.folder or 'the content folder'}, or correct its name.",
    )


def _nearest_file(typed: str, context: ParseContext) -> str | None:
    """A file of that name at or below the guide's folder, else one of nearly that name in the folder meant."""
    folder, _, name = typed.replace("\\", "/").rpartition("/")
    below = f"{context.folder}/" if context.folder else ""
    for place in sorted(place for place in context.listing.folders if f"{place}/".startswith(below)):
        if name in context.listing.folders[place]:
            return relative_to(context.folder, posixpath.join(place, name))
    meant = posixpath.normpath(posixpath.join(context.folder, folder))
    for place in dict.fromkeys((meant, context.folder)):
        stems = {posixpath.splitext(other)[0]: other for other in context.listing.beside(place)[:_NEIGHBOURS]}
        best = near(posixpath.splitext(name)[0], tuple(stems))
        if best is not None:
            return relative_to(context.folder, posixpath.join(place, stems[best]))
    return None


_ADD_ALT = "Add alt: and what it shows, in a few words."


def tell_no_alt(span: Span, file: str, context: ParseContext, help_line: str = _ADD_ALT) -> None:
    """Tell photo-without-alt."""
    context.say(
        "photo-without-alt",
        f"The photo “{shortened(file)}” says nothing to somebody who cannot see it.",
        span,
        help_line,
    )


PHOTO = Record(
    noun="photo",
    about="A picture, with the words that stand for it where it cannot be seen.",
    keys=(
        Key("file", PHOTO_FILE, "The file, from the folder that this is written in.", required=True),
        Key(
            "alt",
            TEXT,
            "What the picture shows, for somebody who cannot see it.",
            required=True,
            example="Five watchmen in yellow coats on a jetty",
        ),
        Key("caption", TEXT, "A line under the picture.", example="By lamplight"),
        Key("by", PERSON, "Who took it: a key of the site's people, or a name.", example="Marl"),
        Key(
            "licence",
            TEXT,
            "On what terms others may use it.",
            also=("license",),
            example="free to copy",
        ),
    ),
)


class WrittenPhoto(NamedTuple):
    """A photo as written; `bare` where its file alone was given, so that its alt may stand elsewhere."""

    photo: Photo
    bare: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoOf(Type[WrittenPhoto]):
    """A bare file, or a group of keys."""

    expected: str = "a photo's file, or {file, alt, caption}"
    example: str = "{file: finished.jpg, alt: Five watchmen on a jetty}"
    record: Record = PHOTO

    def read(self, node: Node, key: str, context: ParseContext) -> WrittenPhoto | None:
        bare = not isinstance(node, MapNode)
        photo = (PHOTO_FILE if bare else _PHOTO_RECORD).read(node, key, context)
        return WrittenPhoto(photo, bare) if photo is not None else None


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverOf(Type[Photo]):
    """One photo; a bare file has no alt, which is told."""

    expected: str = "a photo's file, or {file, alt, caption}"
    example: str = "{file: finished.jpg, alt: Five watchmen on a jetty}"
    record: Record = PHOTO

    def read(self, node: Node, key: str, context: ParseContext) -> Photo | None:
        written = PHOTO_OF.read(node, key, context)
        return with_alt(written, "", context) if written is not None else None


def with_alt(written: WrittenPhoto, alt: str, context: ParseContext) -> Photo:
    """The photo, with `alt` if it is a bare file; photo-without-alt if that is empty and there is a photo."""
    if not written.bare:
        return written.photo
    if not alt and written.photo.path is not None:
        tell_no_alt(written.photo.span, written.photo.file, context)
    return replace(written.photo, alt=alt)


def photo_from(fields: Fields) -> Photo | None:
    """A photo from a group with file, alt and caption."""
    photo: Photo | None = fields.values.get("file")
    if photo is None:
        return None
    said = {key: fields.values[key] for key in ("alt", "caption", "by", "licence") if key in fields.values}
    return replace(photo, **said)


_PHOTO_RECORD = record_of(PHOTO, photo_from)
PHOTO_OF = PhotoOf()
PHOTOS = list_of(PHOTO_OF, "a photo, or a list of photos", commas=True)
