"""Pages of words about the archive itself, and what the search has of them."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from guidegen.model.site import TextPage
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.frame import frame_of
from guidegen.rendering.page.page import Page
from guidegen.rendering.page.passages import Passages
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import text_page_file

# As much of a description as search engines show.
_SHOWN = 160


def text_pages(pages: Iterable[TextPage], context: SiteContext) -> Iterator[Page]:
    """Each page; it is kept for where there is no network once it was visited."""
    for one in pages:
        path = text_page_file(one.slug)
        about = textwrap.shorten(one.text.plain.replace("\n", " "), _SHOWN, placeholder=" …")
        frame = frame_of(context, path, "page", title=one.title, description=about, kept_with=path)
        values = {
            "frame": frame,
            "title": one.title,
            "text": Passages(context=context, page=path).html(one.text),
        }
        yield Page(path=path, template="page.html", values=values)


def text_page_entry(page: TextPage, context: SiteContext) -> str:
    """A page's part of the search index."""
    entry = {
        "page": text_page_file(page.slug),
        "title": page.title,
        "facts": context.language.t("page.kind"),
        "text": " ".join(page.text.plain.split()),
    }
    return script_json(entry)
