"""Photos as rendering sees them: values about files that somebody else makes, and the views pages show them by."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Protocol

from guidegen.model.names import Photo
from guidegen.rendering.page.urls import relative


class Picture(Protocol):
    """A photo of the site: its sizes as width and height, narrowest first and never none, and where each lies."""

    @property
    def sizes(self) -> Sequence[tuple[int, int]]: ...

    def path(self, width: int, ending: str) -> str: ...


# Photos by their path relative to the content folder.
Pictures = Mapping[str, Picture]


@dataclass(frozen=True, slots=True, kw_only=True)
class PictureView:
    """A picture as a page shows it: links relative to that page; width and height of its largest size."""

    src: str
    jpeg: str
    webp: str
    large: str
    width: int
    height: int
    alt: str
    caption: str = ""


def picture_view(photo: Photo | None, pictures: Pictures, page: str, *, alt: str = "") -> PictureView | None:
    """The view of a photo, None where there is none to show. `alt` stands where the author gave none."""
    picture = pictures.get(photo.path) if photo is not None and photo.path else None
    if photo is None or picture is None:
        return None
    widths = [width for width, _ in picture.sizes]
    width, height = picture.sizes[-1]
    return PictureView(
        src=relative(picture.path(widths[min(1, len(widths) - 1)], "jpg"), page),
        jpeg=_widths(picture, widths, "jpg", page),
        webp=_widths(picture, widths, "webp", page),
        large=relative(picture.path(width, "jpg"), page),
        width=width,
        height=height,
        alt=photo.alt or alt,
        caption=photo.caption,
    )


def _widths(picture: Picture, widths: Sequence[int], ending: str, page: str) -> str:
    return ", ".join(f"{relative(picture.path(width, ending), page)} {width}w" for width in widths)


def picture_file(photo: Photo | None, pictures: Pictures) -> str | None:
    """A photo's largest file by its path in the site, None where there is none to show."""
    picture = pictures.get(photo.path) if photo is not None and photo.path else None
    return picture.path(picture.sizes[-1][0], "jpg") if picture is not None else None
