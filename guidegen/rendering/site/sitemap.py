"""The list of pages for search engines, by the protocol of sitemaps.org, version 0.9."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence

from guidegen.model.web_address import WebAddress
from guidegen.rendering.page.escaping import xml_text
from guidegen.rendering.page.urls import SITEMAP

# The protocol's bound on one file; its other, of 50 MB, is not reached by so many addresses of ours.
MOST_PAGES = 50_000

_HEAD = '<?xml version="1.0" encoding="UTF-8"?>'
_SPACE = "http://www.sitemaps.org/schemas/sitemap/0.9"


def sitemaps(
    site: WebAddress, pages: Iterable[str], days: Mapping[str, dt.date], most: int = MOST_PAGES
) -> dict[str, bytes]:
    """The list by its path in the site; with more pages than one may hold, a list of lists and those.

    `days` has the day of a page where one is known.
    """
    ordered = sorted(pages)
    if len(ordered) <= most:
        return {SITEMAP: _list(site, ordered, days)}
    stem = SITEMAP.removesuffix(".xml")
    parts = [ordered[at : at + most] for at in range(0, len(ordered), most)]
    files = {f"{stem}-{number}.xml": _list(site, part, days) for number, part in enumerate(parts, 1)}
    lists = [f"<sitemap><loc>{xml_text(site.file(path))}</loc></sitemap>" for path in files]
    whole = "\n".join([_HEAD, f'<sitemapindex xmlns="{_SPACE}">', *lists, "</sitemapindex>"])
    return {SITEMAP: f"{whole}\n".encode(), **files}


def _list(site: WebAddress, pages: Sequence[str], days: Mapping[str, dt.date]) -> bytes:
    lines = [_HEAD, f'<urlset xmlns="{_SPACE}">']
    for page in pages:
        day = f"<lastmod>{days[page].isoformat()}</lastmod>" if page in days else ""
        lines.append(f"<url><loc>{xml_text(site.file(page))}</loc>{day}</url>")
    return ("\n".join([*lines, "</urlset>"]) + "\n").encode()
