"""A guide's Markdown: divided among its steps, made into safe HTML, with place-holders for what rendering knows.

A picture is `<img data-photo="N">` with N its place among the passage's photos, from 0; where it makes up a
paragraph of its own, or one with other pictures only, it is `<img data-photo="N" data-alone>` outside of any `<p>`.
`PHOTO_HOLDER` finds them. A link to a page of the site is `<a data-to="guide:SLUG">`, see `markdown.links.Target`;
`LINK_HOLDER` finds those. No author can forge either: raw HTML is shown as text, and every attribute is made here.
Cells of tables carry `data-align` instead of a style. Headings begin at level two before and after the steps, at
level three under a step, and leave no level out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import NamedTuple
from urllib.parse import unquote

from markdown_it.token import Token

from guidegen.base.paths import slug
from guidegen.base.source import Span
from guidegen.base.suggest import MOST_SLIPS, folded
from guidegen.model.guide import Body, Passage
from guidegen.model.names import Name, Photo
from guidegen.reading.markdown.links import is_text_page, is_web, target_of
from guidegen.reading.markdown.parser import reader
from guidegen.reading.markdown.places import BlockPlaces
from guidegen.reading.types.parse_context import LONGEST_NAME, ParseContext, near
from guidegen.reading.types.photos import photo_path, tell_no_alt
from guidegen.reading.yaml.quoting import shortened

PHOTO_HOLDER = re.compile(r'<img data-photo="([0-9]+)"( data-alone)?>')
LINK_HOLDER = re.compile(r'<a data-to="([a-z]+):([^"]*)">')

# Sixty printed pages. Markdown's readers take longer than linear time on hostile texts; at this length the worst
# that was tried stays under a second.
LONGEST_BODY = 100_000

_NO_SPACE = re.compile(r"#{1,6}(?=[^#\s])(.*\S)")
_NUMBERED = re.compile(r"(?:step\s*)?[0-9]+\s*[.):–-]?\s*", re.IGNORECASE)
# What may be meant as a picture. Both parts are bounded, or a text of nothing but their beginnings would take hours.
_MEANT_AS_PICTURE = re.compile(r"!\[([^\[\]]{0,200})\]\(([^()<>\"]{1,200})\)")
_BLANK_IN_NAME = re.compile(r"\S\s")
_ENDING = re.compile(r"\.[A-Za-z0-9]{2,5}\Z")


def read_body(context: ParseContext, start: int, titles: tuple[str, ...]) -> Body:
    """The text from an offset on, divided among the steps with these titles; the first of two alike takes it.

    Tells missing-photo, photo-without-alt and heading-near-a-step.
    """
    text = context.source.text[start:]
    if len(text) > LONGEST_BODY:
        context.say(
            "bad-value",
            f"The guide's text has {len(text):,} characters, {LONGEST_BODY:,} at most can be read.",
            context.source.span(start + LONGEST_BODY, start + LONGEST_BODY),
            "Divide it among several guides.",
        )
        return Body()
    places = BlockPlaces(context.source, start)
    sections = _sections(reader().parse(text), titles, places, context)
    anchors: dict[str, int] = {}
    for number, title in enumerate(titles):
        anchors.setdefault(slug(title), number)
    passages = {
        where: _Writer(context, places, anchors, where).passage(tokens) for where, tokens in sections.items()
    }
    return Body(
        before=passages.get(_BEFORE, Passage()),
        under={where: passage for where, passage in sorted(passages.items()) if where >= 0},
        after=passages.get(_AFTER, Passage()),
    )


_BEFORE, _AFTER = -2, -1


def _sections(
    tokens: list[Token], titles: tuple[str, ...], places: BlockPlaces, context: ParseContext
) -> dict[int, list[Token]]:
    """The blocks that go before the steps, under each by its index, and after them; in the order of the text."""
    first: dict[str, int] = {}
    for number, title in enumerate(titles):
        if title:
            first.setdefault(folded(title), number)
    sections: dict[int, list[Token]] = {}
    where: int = _BEFORE
    reached, skip, looked = False, 0, 0
    for at, token in enumerate(tokens):
        if skip:
            skip -= 1
            continue
        if token.type == "heading_open" and token.level == 0:
            heading = tokens[at + 1]
            index = next((first[key] for key in _labels(heading) if key in first), None)
            if token.tag == "h2" and index is not None:
                where, reached, skip = index, True, 2
                sections.setdefault(where, [])
                continue
            if token.tag in {"h1", "h2"}:
                where = _AFTER if reached else _BEFORE
            looked += 1
            near_one = None if index == where else index
            known = titles if looked <= MOST_SLIPS else ()
            _tell_near(token, heading, known, first, near_one if known else None, places, context)
        if token.type == "paragraph_open" and token.level == 0:
            _tell_no_space(tokens[at + 1], titles, first, places, context)
        sections.setdefault(where, []).append(token)
    return sections


def _tell_no_space(
    paragraph: Token,
    titles: tuple[str, ...],
    first: Mapping[str, int],
    places: BlockPlaces,
    context: ParseContext,
) -> None:
    """heading-near-a-step: a line that begins like a heading, and is none for want of a space."""
    line = paragraph.content.partition("\n")[0]
    found = _NO_SPACE.match(line)
    title = titles[first[folded(found[1])]] if found and folded(found[1]) in first else ""
    if found and (title or line.startswith("##")):
        context.say(
            "heading-near-a-step",
            f"“{shortened(line)}” is no heading, since there is no space after its signs.",
            places.span(places.lines_of(paragraph), paragraph.content, 0, len(line)),
            f"Write ## {title}." if title else f"Write ## {shortened(found[1])}, or take the signs out.",
        )


def _labels(heading: Token) -> tuple[str, str]:
    """A heading as it is compared with titles: as typed, and without Markdown's signs."""
    return folded(heading.content), folded(_plain_inline(heading))


def _tell_near(
    token: Token,
    heading: Token,
    titles: tuple[str, ...],
    first: Mapping[str, int],
    index: int | None,
    places: BlockPlaces,
    context: ParseContext,
) -> None:
    """heading-near-a-step: nearly a title, or a title with too few or too many #. `first` has the titles' places."""
    if not titles:
        return
    text = heading.content
    nearly = "nearly "
    if index is not None:
        best: str | None = titles[index]
        nearly = ""
        help_line = f"Write ## {best} if the text under it belongs to that step."
    elif token.tag == "h2":
        bare = folded(_NUMBERED.sub("", text, count=1))
        best = titles[first[bare]] if bare in first else near(text, tuple(filter(None, titles)))
        help_line = f"Write ## {best} if the text under it belongs to that step, else choose another heading."
    else:
        return
    if best is None:
        return
    lines = places.lines_of(heading)
    context.say(
        "heading-near-a-step",
        f"The heading “{shortened(text)}” is {nearly}the step “{best}”, but its text stands apart from it.",
        places.span(lines, text, 0, len(text)),
        help_line,
    )


class _Piece(NamedTuple):
    """A block with inline text and where its lines begin in the file."""

    block: Token
    lines: tuple[int, ...]


class _Writer:
    """Turns the blocks of one passage into HTML, collecting its photos and links."""

    def __init__(
        self, context: ParseContext, places: BlockPlaces, anchors: Mapping[str, int], where: int
    ) -> None:
        self.context, self.places, self.anchors = context, places, anchors
        self.lowest = 3 if where >= 0 else 2
        self.photos: list[Photo] = []
        self.links: list[Name] = []

    def passage(self, tokens: list[Token]) -> Passage:
        """The passage of some top-level blocks."""
        self._level_headings(tokens)
        for at, token in enumerate(tokens):
            if token.type == "inline":
                self._inline(_Piece(token, self.places.lines_of(token)))
                if tokens[at - 1].type == "paragraph_open" and _only_pictures(token):
                    tokens[at - 1].hidden = tokens[at + 1].hidden = True
                    for child in token.children or []:
                        child.meta = child.meta | {"alone": True}
            elif token.type in {"th_open", "td_open"} and "style" in token.attrs:
                token.attrs = {"data-align": str(token.attrs["style"]).rpartition(":")[2]}
        html = reader().renderer.render(tokens, reader().options, {}).strip()
        return Passage(html=html, plain=_plain(tokens), photos=tuple(self.photos), links=tuple(self.links))

    def _level_headings(self, tokens: list[Token]) -> None:
        before = self.lowest - 1
        for token in tokens:
            if token.type in {"heading_open", "heading_close"}:
                if token.type == "heading_open":
                    before = max(self.lowest, min(int(token.tag[1]), before + 1))
                token.tag = f"h{before}"

    def _inline(self, piece: _Piece) -> None:
        open_links: list[bool] = []
        for child in piece.block.children or []:
            if child.type == "image":
                self._picture(child, piece)
            elif child.type == "link_open":
                open_links.append(self._link(child, piece))
            elif child.type == "link_close" and not open_links.pop():
                child.type, child.tag, child.content = "text", "", ""
            elif child.type == "text":
                self._tell_blank(child.content, piece)

    def _picture(self, token: Token, piece: _Piece) -> None:
        content = piece.block.content
        start, end = token.meta["start"], token.meta["end"]
        whole = self.places.span(piece.lines, content, start, end)
        typed = str(token.attrs["src"])
        file = unquote(typed)
        span = next(filter(None, (self._file_span(name, piece, start, end) for name in (file, typed))), whole)
        alt = " ".join(_plain_inline(token).split())
        path = photo_path(file[:LONGEST_NAME], span, self.context)
        if not alt and path is not None:
            tell_no_alt(
                whole, file, self.context, "Write what it shows between the brackets: ![what it shows](file)."
            )
        caption = " ".join(str(token.attrs.get("title", "")).split())
        token.type = "photo"
        token.meta = {"photo": len(self.photos)}
        self.photos.append(Photo(file=file, path=path, alt=alt, caption=caption, span=span))

    def _file_span(self, file: str, piece: _Piece, start: int, end: int) -> Span | None:
        """The file's name within the picture's Markdown, where it stands as typed."""
        at = piece.block.content.rfind(file, start, end) if file else -1
        return self.places.span(piece.lines, piece.block.content, at, at + len(file)) if at >= 0 else None

    def _link(self, token: Token, piece: _Piece) -> bool:
        """Point a link where it leads; False, with nothing left of it, where that is nowhere safe."""
        href = str(token.attrs.get("href", ""))
        target = target_of(href, self.context.folder, self.context.listing, self.anchors)
        kind, _, name = target.to.partition(":")
        if kind == "guide" and "start" in token.meta:
            span = self.places.span(piece.lines, piece.block.content, token.meta["start"], token.meta["end"])
            self.links.append(Name(text=name, span=span))
        lost = kind == "page" and not is_text_page(name, self.context.listing)
        if target.href:
            token.attrs = {"href": target.href}
        elif target.to and not lost:
            token.attrs = {"data-to": target.to}
        else:
            if lost or is_web(href):
                self._tell_no_address(href, token, piece, lost=lost)
            token.type, token.tag, token.content, token.attrs = "text", "", "", {}
            return False
        return True

    def _tell_no_address(self, href: str, token: Token, piece: _Piece, *, lost: bool) -> None:
        """bad-link, where the link stands: a reference is told where it is used."""
        start, end = token.meta["start"], token.meta["end"]
        self.context.say(
            "bad-link",
            f"“{shortened(unquote(href))}” is no {'page in pages/' if lost else 'address that can be followed'}, so its words "
            "stand there without a link.",
            self.places.span(piece.lines, piece.block.content, start, end),
            "Write the name of a file there." if lost else "Copy it from the browser's address line.",
        )

    def _tell_blank(self, text: str, piece: _Piece) -> None:
        """missing-photo for a picture that is none, since its file's name has a blank in it."""
        for found in _MEANT_AS_PICTURE.finditer(text):
            if not (_ENDING.search(found[2]) and _BLANK_IN_NAME.search(found[2])):
                continue
            at = piece.block.content.find(found[0])
            start = max(at, 0)
            self.context.say(
                "missing-photo",
                f"The file's name “{shortened(found[2])}” has a blank in it, so this is no picture.",
                self.places.span(
                    piece.lines, piece.block.content, start, start + len(found[0]) if at >= 0 else start
                ),
                f"Put the name between < and >: ![{found[1]}](<{found[2]}>)",
            )


def _only_pictures(block: Token) -> bool:
    children = [
        child
        for child in block.children or []
        if child.type != "softbreak" and (child.type != "text" or child.content.strip())
    ]
    return bool(children) and all(child.type == "photo" for child in children)


def _plain(tokens: list[Token]) -> str:
    """The words of some blocks, one block a line."""
    lines = (
        _plain_inline(token) if token.type == "inline" else token.content.strip()
        for token in tokens
        if token.type in {"inline", "fence", "code_block"}
    )
    return "\n".join(line for line in (" ".join(line.split()) for line in lines) if line)


def _plain_inline(block: Token) -> str:
    return "".join(_words(block.children or []))


def _words(children: list[Token]) -> Iterator[str]:
    for child in children:
        if child.type in {"text", "code_inline", "text_special"}:
            yield child.content
        elif child.type in {"softbreak", "hardbreak"}:
            yield " "
