"""The author's Markdown on a page: its pictures put in, with the widths that the site has of them."""

from __future__ import annotations

from markupsafe import Markup

from guidegen.model.guide import Passage
from guidegen.rendering.desk import Desk


def passage_html(passage: Passage | None, desk: Desk, page: str) -> Markup:
    """A passage as safe HTML, empty where there is none."""
    if passage is None:
        return Markup()
    del desk, page
    return Markup(passage.html)  # noqa: S704 - reading.markdown shows raw HTML as text
