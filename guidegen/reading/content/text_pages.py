"""content/pages/NAME.md: a page of words about the archive itself, its front matter by the table."""

from __future__ import annotations

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.listing import Listing
from guidegen.base.source import Source
from guidegen.model.site import TextPage
from guidegen.reading.types.base import SHORT_TEXT
from guidegen.reading.types.keys import Key, Record, read_record
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.types.values import Whole, YesNo
from guidegen.reading.yaml.front_matter import FileKind

TEXT_PAGE = Record(
    noun="page",
    about="A page of words in the site's look.",
    keys=(
        Key("title", SHORT_TEXT, "What the page is called.", required=True, example="About the circle"),
        Key("menu", YesNo(), "Whether it stands in the menu.", default="no, it stands in the foot"),
        Key("order", Whole(low=0, example="2"), "Where it stands among the pages.", default="0"),
    ),
)
_KIND = FileKind("page", ("title",), "its title")


def read_text_page(
    source: Source, slug: str, listing: Listing
) -> tuple[TextPage | None, tuple[Diagnostic, ...]]:
    """A page; None where its front matter cannot be read at all. What cannot be read of it is told and left out."""
    context = ParseContext(source, listing)
    parts = context.front_matter(_KIND)
    fields = read_record(TEXT_PAGE, parts[0], "", context) if parts is not None else None
    if parts is None or fields is None:
        return None, tuple(context.diagnostics)
    from guidegen.reading.markdown.body import read_body

    text = read_body(context, parts[1], ()).before
    values = {"title": "", **fields.values}
    page = TextPage(**values, slug=slug, file=source.file, text=text, span=fields.span)
    return page, tuple(context.diagnostics)
