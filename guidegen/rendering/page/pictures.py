"""Photos as rendering sees them: values about files that somebody else makes, and the views pages show them by."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Protocol

from markupsafe import Markup

from guidegen.model.names import Photo


class Picture(Protocol):
    """A photo of the site: its sizes as width and height, narrowest first and never none, and where each lies."""

    @property
    def sizes(self) -> Sequence[tuple[int, int]]: ...

    def path(self, width: int, ending: str) -> str: ...


# Photos by their path relative to the content folder.
Pictures = Mapping[str, Picture]


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureView:
    """A picture as a page shows it: links relative to that page; width and height of its largest size.

    Where the page carries the picture in itself, `inside` is the element that shows it, `jpeg` and `webp` are empty,
    and `large` leads to `place`, the id for that very link.
    """

    src: str
    jpeg: str
    webp: str
    large: str
    width: int
    height: int
    alt: str
    caption: str = ""
    place: str = ""
    inside: Markup = field(default_factory=Markup)


def picture_file(photo: Photo | None, pictures: Pictures) -> str | None:
    """A photo's largest file by its path in the site, None where there is none to show."""
    picture = pictures.get(photo.path) if photo is not None and photo.path else None
    return picture.path(picture.sizes[-1][0], "jpg") if picture is not None else None
