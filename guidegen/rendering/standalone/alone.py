"""A finished page written again for a life without its site: its pictures inside, links into the site turned to words."""

from __future__ import annotations

import base64
import re
from collections.abc import Mapping
from dataclasses import dataclass
from html import escape
from html.parser import HTMLParser
from urllib.parse import quote

DATA_BLOCK = "application/json"
# The class of a photo that is shown more than once.
AGAIN = "again"

# HTML, §13.1.2: these have no end tag.
_VOID = frozenset(
    ["area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"]
)
# Of the void ones, these speak of a site and its files; a picture's other sizes are not needed either.
_OF_THE_SITE = frozenset(["base", "link", "meta", "source"])
_KEPT_META = frozenset(["viewport", "description", "color-scheme", "theme-color", "author"])
# What tells a browser how to fetch a picture; these are there already.
_OF_FETCHING = frozenset(["src", "srcset", "sizes", "loading", "fetchpriority", "decoding"])
# Left out when a dead link was all that they held.
_HOLDERS = frozenset(["dd", "div", "li", "nav", "ol", "p", "ul"])
_FOLLOWED = re.compile(r"#|(?:https?|mailto):", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Embedded:
    """A picture to put inside: its media type and its bytes."""

    type: str
    data: bytes

    @property
    def address(self) -> str:
        """The picture as an address (RFC 2397), fit for an attribute. A drawing travels as text, shorter than base64."""
        if self.type == "image/svg+xml":
            return f"data:{self.type}," + quote(self.data.decode(), safe=" !$'()*+,-./:;<=>?@[]^_`{|}~")
        return f"data:{self.type};base64,{base64.b64encode(self.data).decode('ascii')}"


def alone(html: str, pictures: Mapping[str, Embedded], *, head: str, foot: str) -> str:
    """The page with `head` at the start of its head and `foot` at the end of its body, for its scripts and styles go.

    `pictures` are by address as the page writes it; one that is shown more than once is kept once. Links within the
    page and to the world outside stay. One into the site leaves its words, but nothing where it has no address or
    stands in a `nav` without being the current one; what then holds nothing goes with it.
    """
    page = _Rewriter(pictures, head, foot)
    page.feed(html.replace("\r\n", "\n"))
    page.close()
    return page.text()


@dataclass(slots=True)
class _Open:
    """An element that is not closed yet. `at` is where its start tag stands in what is written, `end` its end tag;
    `gone` whether it goes with all that is in it, `lost` whether something in it did.
    """

    tag: str
    at: int
    end: str
    gone: bool = False
    lost: bool = False
    links: int = 0


@dataclass(frozen=True, slots=True)
class _Shown:
    """A place where a picture is shown; how is decided once it is known how often it is."""

    picture: Embedded
    attributes: Mapping[str, str]

    @property
    def sized(self) -> bool:
        return {"width", "height"} <= self.attributes.keys()

    def whole(self) -> str:
        rest = "".join(f' {key}="{escape(value)}"' for key, value in self.attributes.items())
        return f'<img src="{self.picture.address}"{rest}>'

    def kept(self, name: str) -> str:
        width, height = self._size()
        return f'<image id="{name}" width="{width}" height="{height}" href="{self.picture.address}"/>'

    def again(self, name: str) -> str:
        width, height = self._size()
        alt = self.attributes.get("alt", "")
        said = f'role="img" aria-label="{escape(alt)}"' if alt else 'aria-hidden="true"'
        return (
            f'<svg class="{AGAIN}" {said} width="{width}" height="{height}" viewBox="0 0 {width} {height}"'
            f' preserveAspectRatio="xMidYMid slice"><use href="#{name}"/></svg>'
        )

    def _size(self) -> tuple[str, str]:
        return escape(self.attributes["width"]), escape(self.attributes["height"])


class _Rewriter(HTMLParser):
    """Writes a page again as it reads it. What need not change stays to the letter."""

    def __init__(self, pictures: Mapping[str, Embedded], head: str, foot: str) -> None:
        super().__init__(convert_charrefs=False)
        self._pictures = pictures
        self._head, self._foot = head, foot
        self._out: list[str | _Shown] = []
        self._open: list[_Open] = []
        self._silent = False  # inside a script or style that stays behind
        self._body = 0
        self._large = 0

    def text(self) -> str:
        """All that was written."""
        often: dict[Embedded, list[_Shown]] = {}
        for part in self._out:
            if isinstance(part, _Shown) and part.sized:
                often.setdefault(part.picture, []).append(part)
        names = {
            picture: f"kept-{at}" for at, (picture, those) in enumerate(often.items(), 1) if len(those) > 1
        }
        if names:
            kept = "".join(often[picture][0].kept(name) for picture, name in names.items())
            hidden = '<svg class="shapes" width="0" height="0" aria-hidden="true">'
            self._out.insert(self._body, f"{hidden}<defs>{kept}</defs></svg>")
        return "".join(
            part
            if isinstance(part, str)
            else part.again(names[part.picture])
            if part.sized and part.picture in names
            else part.whole()
            for part in self._out
        )

    def handle_decl(self, decl: str) -> None:
        self._out.append(f"<!{decl}>")

    def handle_data(self, data: str) -> None:
        if not self._silent:
            self._out.append(data)

    def handle_entityref(self, name: str) -> None:
        self._out.append(f"&{name};")

    def handle_charref(self, name: str) -> None:
        self._out.append(f"&#{name};")

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag in _VOID:
            self.handle_starttag(tag, attrs)
        else:
            self._out.append(self.get_starttag_text() or "")

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        raw = self.get_starttag_text() or ""
        if tag == "img":
            self._picture(given)
        elif tag in _VOID:
            if tag not in _OF_THE_SITE or given.get("name") in _KEPT_META:
                self._out.append(raw)
        elif tag == "a":
            self._link(raw, given)
        elif tag in ("script", "style"):
            self._silent = given.get("type") != DATA_BLOCK
            self._begin(tag, raw, gone=self._silent)
        else:
            self._begin(tag, raw)
            if tag == "head":
                self._out.append(self._head)
            elif tag == "body":
                self._body = len(self._out)

    def handle_endtag(self, tag: str) -> None:
        if all(one.tag != tag for one in self._open):
            return
        if tag == "body":
            self._out.append(self._foot)
        while self._open[-1].tag != tag:  # one whose end tag may be left out
            self._close(self._open.pop(), "")
        found = self._open.pop()
        self._close(found, found.end)
        if tag in ("script", "style"):
            self._silent = False

    def _begin(self, tag: str, raw: str, end: str | None = None, *, gone: bool = False) -> None:
        self._open.append(_Open(tag, len(self._out), f"</{tag}>" if end is None else end, gone=gone))
        self._out.append(raw)

    def _close(self, element: _Open, end: str) -> None:
        outer = self._open[-1] if self._open else _Open("", 0, "")
        inside = self._out[element.at + 1 :]
        idle = all(isinstance(part, str) and not part.strip() for part in inside)
        if element.gone or (element.lost and idle and element.tag in _HOLDERS):
            del self._out[element.at :]
            outer.lost = outer.lost or element.tag not in ("script", "style")
            return
        start = self._out[element.at]
        if element.tag == "nav" and element.lost and not element.links and isinstance(start, str):
            # Words that lead nowhere are no way through the page.
            self._out[element.at] = '<div role="group"' + start[len("<nav") :]
            end = end and "</div>"
        self._out.append(end)
        outer.lost = outer.lost or element.lost
        outer.links += element.links + (element.end == "</a>")

    def _link(self, raw: str, given: Mapping[str, str]) -> None:
        href = given.get("href")
        if href is None or _FOLLOWED.match(href):
            self._begin("a", raw)
            return
        if href in self._pictures:
            self._open_large()
            return
        in_nav = any(one.tag == "nav" for one in self._open)
        current = in_nav and "aria-current" in given
        self._begin(
            "a", *(("<b>", "</b>") if current else ("", "")), gone=not href or (in_nav and not current)
        )
        self._open[-1].lost = current

    def _open_large(self) -> None:
        """A photo that the page's script opens large stays a link, to itself: what it led to is inside it."""
        if all(one.tag != "figure" for one in self._open):
            self._begin("a", "", "")
            return
        self._large += 1
        self._begin("a", f'<a id="photo-{self._large}" href="#photo-{self._large}">')

    def _picture(self, given: Mapping[str, str]) -> None:
        picture = self._pictures.get(given.get("src", ""))
        if picture is None:
            self._out.append(escape(given.get("alt", "")))
            return
        kept = {name: value for name, value in given.items() if name not in _OF_FETCHING}
        self._out.append(_Shown(picture, kept))
