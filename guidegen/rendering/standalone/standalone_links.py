"""Links and pictures of a page that travels alone, with its photos inside."""

from __future__ import annotations

import base64
import re
from collections import Counter
from collections.abc import Iterable
from urllib.parse import quote

from markupsafe import Markup, escape

from guidegen.rendering.page.pictures import Picture, PictureView

# Where a photo goes once it is known how often the page shows it.
_PHOTO_HERE = re.compile(r"<!--(photo-\d+)-->")


def data_address(media_type: str, data: bytes) -> str:
    """A picture as an address (RFC 2397), fit for an attribute. A drawing travels as text, of code points that an address
    may have (RFC 3986, 2), and still shorter than base64.
    """
    if media_type == "image/svg+xml":
        return f"data:{media_type}," + quote(data.decode(), safe="!$'()*+,-./:;=?@_~")
    return f"data:{media_type};base64,{base64.b64encode(data).decode('ascii')}"


class StandaloneLinks:
    """The links of one page: it leads to no other, and a picture to itself, for the page's script to open it large.

    `photos` are as WebP.
    """

    def __init__(self, photos: Iterable[tuple[Picture, bytes]]) -> None:
        """Nothing is shown yet."""
        self._addresses = {picture: data_address("image/webp", data) for picture, data in photos}
        self._shown: dict[str, PictureView] = {}

    def to(self, target: str, page: str) -> str:
        del target, page
        return ""

    def picture(self, picture: Picture, page: str, *, alt: str, caption: str) -> PictureView:
        del page
        place = f"photo-{len(self._shown) + 1}"
        width, height = picture.sizes[-1]
        self._shown[place] = PictureView(
            src=self._addresses[picture],
            jpeg="",
            webp="",
            large=f"#{place}",
            width=width,
            height=height,
            alt=alt,
            caption=caption,
            place=place,
            inside=Markup(f"<!--{place}-->"),  # noqa: S704  a place is made of letters and digits
        )
        return self._shown[place]

    def with_photos(self, html: str) -> tuple[str, str]:
        """The rendered page with its photos in it, and what has to stand beside: those that it shows more than once."""
        views = (self._shown[place] for place in _PHOTO_HERE.findall(html) if place in self._shown)
        often = Counter(view.src for view in views)
        names = {src: f"kept-{n}" for n, src in enumerate(often, 1) if often[src] > 1}
        kept: dict[str, str] = {}

        def element(here: re.Match[str]) -> str:
            view = self._shown.get(here[1])
            if view is None:  # of an author's own template
                return here[0]
            size = f'width="{view.width}" height="{view.height}"'
            name = names.get(view.src)
            if name is None:
                return f'<img src="{view.src}" {size} alt="{escape(view.alt)}">'
            kept.setdefault(name, f'<image id="{name}" {size} href="{view.src}"/>')
            said = f'role="img" aria-label="{escape(view.alt)}"' if view.alt else 'aria-hidden="true"'
            return (
                f'<svg class="again" {said} {size} viewBox="0 0 {view.width} {view.height}"'
                f' preserveAspectRatio="xMidYMid slice"><use href="#{name}"/></svg>'
            )

        html = _PHOTO_HERE.sub(element, html)
        shapes = '<svg class="shapes" width="0" height="0" aria-hidden="true"><defs>{}</defs></svg>'
        return html, shapes.format("".join(kept.values())) if kept else ""
