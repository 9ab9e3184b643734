"""Where the links of a page lead, and what it shows its pictures by."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from guidegen.rendering.page.pictures import Picture, PictureView
from guidegen.rendering.page.urls import relative


class Links(Protocol):
    """What decides it: a page of the site leads to others, one that is sent alone does not."""

    def to(self, target: str, page: str) -> str:
        """The link from a page to a file of the site, '' where nobody could follow it; `target` may carry a #place."""

    def picture(self, picture: Picture, page: str, *, alt: str, caption: str) -> PictureView:
        """A picture as the page shows it."""


class SiteLinks:
    """Relative addresses, for a page with its site around it."""

    def to(self, target: str, page: str) -> str:
        return relative(target, page)

    def picture(self, picture: Picture, page: str, *, alt: str, caption: str) -> PictureView:
        widths = [width for width, _ in picture.sizes]
        width, height = picture.sizes[-1]
        return PictureView(
            src=relative(picture.path(widths[min(1, len(widths) - 1)], "jpg"), page),
            jpeg=_widths(picture, widths, "jpg", page),
            webp=_widths(picture, widths, "webp", page),
            large=relative(picture.path(width, "jpg"), page),
            width=width,
            height=height,
            alt=alt,
            caption=caption,
        )


def _widths(picture: Picture, widths: Sequence[int], ending: str, page: str) -> str:
    return ", ".join(f"{relative(picture.path(width, ending), page)} {width}w" for width in widths)
