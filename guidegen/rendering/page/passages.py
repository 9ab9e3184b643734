"""The author's Markdown on a page: its pictures put in, its links led to the pages that there are."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from html import unescape

from markupsafe import Markup

from guidegen.model.guide import Passage
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import guide_file, text_page_file

# What reading.markdown leaves to be filled in; everything else of a passage is finished HTML.
_PHOTO = re.compile(r'<img data-photo="(\d+)"( data-alone)?>')
_LINK = re.compile(r'<a data-to="([^"]*)">(.*?)</a>', re.DOTALL)

# How wide a picture of the text is shown.
SIZES = "(min-width: 42rem) 38rem, 94vw"


@dataclass(frozen=True, slots=True, kw_only=True)
class Passages:
    """Turns passages into HTML for one page. `steps` leads to the guide's steps on that page, by place in the guide."""

    context: SiteContext
    page: str
    steps: Mapping[int, str] = field(default_factory=dict)

    def html(self, passage: Passage | None) -> Markup:
        """A passage as safe HTML, empty where there is none."""
        if passage is None:
            return Markup()
        text = _LINK.sub(self._link, passage.html)
        text = _PHOTO.sub(lambda found: self._photo(passage, found), text)
        return Markup(text)  # noqa: S704 - reading shows raw HTML as text and leaves no other attributes

    def _photo(self, passage: Passage, found: re.Match[str]) -> str:
        view = self.context.picture(passage.photos[int(found[1])], self.page)
        if view is None:
            return ""
        image = view.inside or Markup(
            '<picture><source type="image/webp" srcset="{}" sizes="{}"><img src="{}" srcset="{}"'
            ' sizes="{}" width="{}" height="{}" alt="{}" loading="lazy" decoding="async"></picture>'
        ).format(view.webp, SIZES, view.src, view.jpeg, SIZES, view.width, view.height, view.alt)
        among_words = found[2] is None
        if not (among_words and view.inside):  # nothing would open it large there
            place = Markup(' id="{}"').format(view.place) if view.place else ""
            image = Markup('<a{} href="{}">{}</a>').format(place, view.large, image)
        if among_words:
            return image
        caption = Markup("<figcaption>{}</figcaption>").format(view.caption) if view.caption else ""
        return Markup('<figure class="photo">{}{}</figure>').format(image, caption)

    def _link(self, found: re.Match[str]) -> str:
        href = self._address(unescape(found[1]))
        return Markup('<a href="{}">').format(href) + Markup(found[2] + "</a>") if href else found[2]  # noqa: S704

    def _address(self, target: str) -> str:
        """Where a link leads, '' where it leads nowhere."""
        kind, _, name = target.partition(":")
        if kind == "guide" and (name in self.context.guides or name in self.context.site.gone):
            return self.context.links.to(guide_file(name), self.page)
        if kind == "page":
            path = text_page_file(name)
            return (
                self.context.links.to(path, self.page)
                if any(path == one.path for one in self.context.pages)
                else ""
            )
        if kind == "step" and name.isdecimal():
            return self.steps.get(int(name), "")
        return self.context.links.to(name, self.page) if kind == "file" else ""
