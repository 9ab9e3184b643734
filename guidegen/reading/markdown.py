"""A guide's text: Markdown divided among the steps, safe HTML with place-holders for pictures and links."""

from __future__ import annotations

import html
import posixpath
import re
from collections.abc import Iterator, Sequence
from functools import cache
from typing import TYPE_CHECKING
from urllib.parse import unquote, urlsplit

from guidegen.base.paths import slug
from guidegen.base.source import Span
from guidegen.base.suggest import folded
from guidegen.model.guide import Body, Passage
from guidegen.model.names import Photo
from guidegen.reading.photos import photo_path, tell_no_alt
from guidegen.reading.sheet import Sheet, near

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.token import Token

# A text this long takes a second to read; a guide's is a hundredth of it.
LONGEST_TEXT = 400_000

# What a link to another guide or to a file of as-is begins with in a passage's HTML; rendering puts the real address.
TO_GUIDE = "guidegen-guide:"
TO_FILE = "guidegen-file:"

_IMAGE = re.compile(r"!\[(?:[^\]\\]|\\.)*\](?:\([^)\n]*\)|\[[^\]\n]*\])?")
_GUIDE_FILE = re.compile(r"(?:.*/)?(?:guide\.md|([^/]+)\.md|index\.html)")
_SAFE = ("http", "https", "mailto")


def read_body(sheet: Sheet, start: int, titles: Sequence[str]) -> Body:
    """The text from a character offset on. `titles` are the steps' titles in order, inserted ones too.

    In the HTML the n-th picture of a passage is `<img data-photo="n">`, which an author cannot write since raw HTML
    is shown as text; links to guides and files of as-is begin with `TO_GUIDE` and `TO_FILE`.
    """
    text = sheet.source.text[start:]
    if len(text) > LONGEST_TEXT:
        sheet.say(
            "bad-value",
            f"The guide's text is longer than {LONGEST_TEXT:,} characters.",
            sheet.source.span(start, start),
            "Divide it into several guides.",
        )
        return Body()
    first_line = sheet.source.position(start)[0]
    reader = _Reader(sheet, first_line)
    before: list[Token] = []
    after: list[Token] = []
    under: dict[int, list[Token]] = {}
    by_title: dict[str, int] = {}
    for index, title in enumerate(titles):
        by_title.setdefault(folded(title), index)
    for heading, tokens in _sections(_markdown().parse(text)):
        step = by_title.get(folded(heading)) if heading is not None else None
        if step is not None:
            under.setdefault(step, []).extend(tokens[3:])
            continue
        if heading is not None:
            reader.tell_near(heading, tokens[0], titles)
        (after if under else before).extend(tokens)
    return Body(
        before=reader.passage(before, 0),
        under={index: reader.passage(tokens, 1) for index, tokens in under.items()},
        after=reader.passage(after, 0),
    )


@cache
def _markdown() -> MarkdownIt:
    from markdown_it import MarkdownIt

    # Raw HTML is off, so it is shown as text; what a link may lead to is decided in `_Reader`.
    reader = MarkdownIt("commonmark", {"html": False, "maxNesting": 40}).enable(["table", "strikethrough"])
    reader.validateLink = _any  # type: ignore[method-assign]
    return reader


def _any(url: str) -> bool:
    del url
    return True


def _sections(tokens: list[Token]) -> Iterator[tuple[str | None, list[Token]]]:
    """Runs of blocks that begin with a heading of level one or two; level one's title is given as None."""
    title: str | None = None
    section: list[Token] = []
    for at, token in enumerate(tokens):
        if token.type == "heading_open" and token.level == 0 and token.tag in {"h1", "h2"}:
            if section:
                yield title, section
            title = _plain(tokens[at + 1]).strip() if token.tag == "h2" else None
            section = []
        section.append(token)
    if section:
        yield title, section


def _plain(inline: Token) -> str:
    """The words of a paragraph or heading, without marks and pictures."""
    return "".join(
        child.content
        if child.type in {"text", "code_inline"}
        else " "
        if child.type in {"softbreak", "hardbreak"}
        else ""
        for child in inline.children or ()
    )


class _Reader:
    def __init__(self, sheet: Sheet, first_line: int) -> None:
        self.sheet = sheet
        self.first_line = first_line

    def tell_near(self, heading: str, token: Token, titles: Sequence[str]) -> None:
        """heading-near-a-step."""
        best = near(heading, list(dict.fromkeys(titles)))
        if best is None:
            return
        self.sheet.say(
            "heading-near-a-step",
            f"The heading “{heading}” is close to the step “{best}”, but not equal, so its text stands apart from it.",
            self._lines(token),
            f"Write ## {best} to put it under that step.",
        )

    def passage(self, tokens: list[Token], deeper: int) -> Passage:
        """The HTML of some blocks; headings go down by `deeper` levels, and never above the second."""
        photos: list[Photo] = []
        words: list[str] = []
        for token in tokens:
            if token.type in {"heading_open", "heading_close"}:
                token.tag = f"h{min(6, max(2, int(token.tag[1]) + deeper))}"
            if token.type == "inline":
                self._inline(token, photos)
                words.append(_plain(token))
            elif token.type in {"fence", "code_block"}:
                words.append(token.content)
        reader = _markdown()
        text = reader.renderer.render(tokens, reader.options, {}).strip()
        return Passage(html=text, plain=" ".join(" ".join(words).split()), photos=tuple(photos))

    def _inline(self, token: Token, photos: list[Photo]) -> None:
        places = iter(self._images(token))
        closing: list[bool] = []
        for child in token.children or ():
            if child.type == "image":
                self._image(child, next(places, self._lines(token)), photos)
            elif child.type == "link_open":
                target = self._target(str(child.attrs.get("href", "")), token)
                closing.append(target is None)
                if target is None:
                    child.type, child.tag, child.content = "text", "", ""
                else:
                    child.attrs = {"href": target}
                    if urlsplit(target).scheme in _SAFE[:2]:
                        child.attrs["rel"] = "noopener noreferrer"
            elif child.type == "link_close" and closing.pop():
                child.type, child.tag, child.content = "text", "", ""

    def _image(self, child: Token, span: Span, photos: list[Photo]) -> None:
        file = unquote(str(child.attrs.get("src", "")))
        alt = "".join(part.content for part in child.children or ()) or child.content
        path = photo_path(file, span, self.sheet)
        if not alt.strip():
            tell_no_alt(span, file, self.sheet)
        child.children = None
        child.type, child.content = "html_inline", ""
        if path is not None:
            child.content = f'<img data-photo="{len(photos)}">'
            caption = str(child.attrs.get("title", ""))
            photos.append(Photo(file=file, path=path, alt=alt.strip(), caption=caption, span=span))
        child.attrs = {}

    def _target(self, href: str, token: Token) -> str | None:
        """Where a link may lead: another site, a place in this page, a guide, a file of as-is; else nowhere."""
        href = html.unescape(href)
        try:
            parts = urlsplit(href)
        except ValueError:
            return None
        if parts.scheme or href.startswith("//"):
            return (
                href if parts.scheme.lower() in _SAFE and (parts.netloc or parts.scheme == "mailto") else None
            )
        if not parts.path:
            return f"#{parts.fragment}" if parts.fragment else None
        mark = f"#{parts.fragment}" if parts.fragment else ""
        path = posixpath.normpath(posixpath.join(self.sheet.folder, unquote(parts.path)))
        folder, _, rest = path.partition("/")
        if folder == "as-is" and path in self.sheet.listing.files:
            return f"{TO_FILE}{rest}{mark}"
        if folder == "guides" and rest:
            return self._guide(path, rest, token, mark)
        return None

    def _guide(self, path: str, rest: str, token: Token, mark: str) -> str | None:
        known = self.sheet.listing.files
        name = rest.partition("/")[0].removesuffix(".md")
        if f"guides/{name}/guide.md" in known or f"guides/{name}.md" in known:
            return f"{TO_GUIDE}{slug(name)}{mark}"
        if not _GUIDE_FILE.fullmatch(path):
            return None
        self.sheet.say(
            "unknown-guide",
            f"The text links to “{rest}”, and there is no such guide.",
            self._lines(token),
            "Correct the link, or take it out.",
        )
        return None

    def _lines(self, token: Token) -> Span:
        """The first line of a block, from its first letter."""
        line = self.first_line + (token.map[0] if token.map else 0)
        text = self.sheet.source.line(line)
        column = len(text) - len(text.lstrip()) + 1
        return Span(
            file=self.sheet.source.file,
            line=line,
            column=column,
            end_line=line,
            end_column=max(column, len(text.rstrip()) + 1),
        )

    def _images(self, token: Token) -> list[Span]:
        """The pictures of a block in order, as they are written."""
        if not token.map:
            return []
        first, last = (self.first_line + offset for offset in token.map)
        start = self.sheet.source.offset(first, 1)
        end = (
            self.sheet.source.offset(last, 1)
            if last <= len(self.sheet.source.starts)
            else len(self.sheet.source.text)
        )
        found = list(_IMAGE.finditer(self.sheet.source.text, start, end))
        wanted = sum(child.type == "image" for child in token.children or ())
        return [self.sheet.source.span(*one.span()) for one in found] if len(found) == wanted else []
