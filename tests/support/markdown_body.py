"""Markdown read as the text of a guide with some steps and a few files around it."""

from __future__ import annotations

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.listing import Listing
from guidegen.base.source import Source
from guidegen.base.stamp import Stamp
from guidegen.model.guide import Body
from guidegen.reading.markdown.body import read_body
from guidegen.reading.types.parse_context import ParseContext

FILE = "guides/ferry-watch/guide.md"
FILES = Listing(
    {
        path: Stamp(1, 1, 1, 1)
        for path in (
            "guides/ferry-watch/coats.jpg",
            "guides/ferry-watch/two words.jpg",
            "guides/ferry-watch/Öl.jpg",
            "guides/harbour.jpg",
            "as-is/sheet.pdf",
        )
    }
)
TITLES = ("Coats", "Darken the folds", "Boards", "Coats", "*Fog* & oil")


def read(text: str, titles: tuple[str, ...] = TITLES) -> tuple[Body, list[Diagnostic]]:
    context = ParseContext(Source(file=FILE, text=text), FILES)
    return read_body(context, 0, titles), context.diagnostics


def html(text: str) -> str:
    """The HTML of a text without steps, about which there is nothing to tell."""
    body, told = read(text, ())
    assert told == []
    return body.before.html
