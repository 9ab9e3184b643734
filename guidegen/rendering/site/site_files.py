"""The files about the whole site that no page shows: feed, sitemap, offline worker and web app manifest."""

from __future__ import annotations

import datetime as dt
import posixpath
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import chain

from guidegen.base.paths import slug
from guidegen.model.guide import Guide
from guidegen.rendering.archive.home_page import newest_first
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.offline import keep_list, manifest, worker
from guidegen.rendering.page.page import Export, digest
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import (
    FEED,
    HOME,
    KEEP_LIST,
    MANIFEST,
    NOT_FOUND,
    WORKER,
    guide_file,
    old_pot_pages,
)
from guidegen.rendering.site.feed import feed
from guidegen.rendering.site.sitemap import sitemaps
from guidegen.rendering.site.summary_file import KeptGuide
from guidegen.rendering.theme.templates import Templates


def site_files(
    guides: Sequence[Guide],
    summaries: Sequence[Summary],
    made: Mapping[str, str],
    context: SiteContext,
    templates: Templates,
    *,
    sizes: Mapping[str, int],
    shown: int = 0,
    loose: Iterable[str] = (),
    kept: Sequence[KeptGuide] = (),
) -> Iterator[Export]:
    """Each file. `made` has the key of every other page and export by its path; `guides` are those with a page.

    `sizes` has the bytes of every page by its path, `shown` is what all that pages show comes to.
    `loose` are the files that the author has copied in, as content has them. `kept` are those whose pages stay as an
    earlier build made them, told of in `summaries` and `made` too.
    """
    copied = [path.removeprefix("as-is/") for path in loose]
    yield Export(
        path=WORKER, data=worker(templates, context, _version(made, context), made=made, loose=copied)
    )
    yield Export(path=MANIFEST, data=manifest(context))
    by_slug = {guide.slug: guide for guide in guides}
    old = chain((slug(name.text) for one in guides for name in one.was), *(one.was for one in kept))
    moved = tuple(guide_file(was, "") for was in old if was not in by_slug)
    gone = {guide_file(address) for address in context.site.gone}
    gone -= {guide_file(one.slug) for one in guides} | {guide_file(one.slug) for one in kept}
    yield Export(path=KEEP_LIST, data=keep_list((*moved, *gone), sizes, shown))
    address = context.site.url
    if address is None:
        return
    newest = newest_first(summaries)
    entries = {guide.slug: guide.feed_entry for guide in kept if guide.feed_entry}
    yield Export(path=FEED, data=feed(by_slug, newest, context, address, entries))
    hidden = {NOT_FOUND, *gone, *old_pot_pages(context.palette_tools.palette, context.pots)}
    drafts = tuple(guide_file(short.slug, "") for short in summaries if short.draft)
    pages = [path for path in _found(made, (*drafts, *moved)) if path not in hidden]
    for path, data in sitemaps(address, pages, _days(pages, newest)).items():
        yield Export(path=path, data=data)


def _found(made: Iterable[str], hidden: tuple[str, ...]) -> Iterator[str]:
    """The pages that search engines may find: none in folders that are hidden, and no bench."""
    for path in made:
        if path.endswith(".html") and not path.startswith(hidden) and not is_bench(path):
            yield path


def _version(made: Mapping[str, str], context: SiteContext) -> str:
    """What changes with whatever is kept for use without a network."""
    keys = sorted(
        (path, key)
        for path, key in made.items()
        if (path.startswith(("guides/", "pages/")) or path == HOME) and path.endswith(".html")
    )
    return digest(repr(context.assets), *(f"{path} {key}" for path, key in keys))[:16]


def _days(pages: Iterable[str], newest: Sequence[Summary]) -> dict[str, dt.date]:
    """The day of the last change of each page whose guide tells it, and of the home page."""
    days = {short.slug: day for short in newest if (day := short.latest) is not None and not short.draft}
    dated = {path: days[name] for path in pages if (name := _guide_of(path)) in days}
    if days:
        dated[HOME] = max(days.values())
    return dated


def is_bench(path: str) -> bool:
    """Whether a page is a guide's bench: its guide's page has all that it has, so it need not be found by itself."""
    folder, name = posixpath.split(path)
    return folder.startswith("guides/") and (name == "bench.html" or name.startswith("bench-"))


def _guide_of(path: str) -> str:
    """The slug of the guide that a page belongs to, '' for none."""
    folder, _, rest = path.partition("/")
    return rest.partition("/")[0] if folder == "guides" else ""
