"""Which pages a site has, and what each is made from, so that one that would come out the same need not be rendered."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from guidegen.model.paint import Mix, Paint, Palette
from guidegen.rendering.archive.colours_page import colours_view
from guidegen.rendering.archive.home_page import home_view, newest_first
from guidegen.rendering.archive.not_found_page import not_found_view
from guidegen.rendering.archive.paint_pages import PotUses, paints_view, pot_page
from guidegen.rendering.archive.shelf_page import shelf_view
from guidegen.rendering.archive.teaching_pages import cautions_view, techniques_view
from guidegen.rendering.exports.guide_files import palette_exports
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.frame import frame_of
from guidegen.rendering.page.page import Export, Page
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import (
    CAUTIONS,
    COLOURS,
    HOME,
    NOT_FOUND,
    PAINTS,
    SHELF,
    TECHNIQUES,
    relative,
)
from guidegen.rendering.theme.templates import Templates


def archive_pages(
    summaries: Sequence[Summary], context: SiteContext, templates: Templates
) -> Iterator[Page | Export]:
    """The pages about the whole archive."""
    t = context.language.t
    palette = context.palette_tools.palette
    ordered = newest_first(summaries)
    found = PotUses.of(ordered, palette)
    home = home_view(ordered, context)
    script = context.assets.search if home.finder else ""
    yield Page(
        path=HOME,
        template="home.html",
        values={"frame": frame_of(context, HOME, "home", script=script), "home": home},
    )
    yield Page(
        path=COLOURS,
        template="colours.html",
        values={
            "frame": frame_of(context, COLOURS, "colours", title=t("colours.title")),
            "colours": colours_view(ordered),
        },
    )
    yield Page(
        path=PAINTS,
        template="paints.html",
        values={
            "frame": frame_of(context, PAINTS, "paints", title=t("paints.all")),
            "paints": paints_view(found, context),
        },
    )
    for file, data in palette_exports(palette, context.site.title).items():
        yield Export(path=file, data=data)
    for pot in _pots(palette):
        path = context.pots[pot.full_name]
        view = pot_page(pot, found, context)
        frame = frame_of(context, path, "pot", title=view.title)
        yield Page(path=path, template="paint.html", values={"frame": frame, "paint": view})
    yield Page(
        path=SHELF,
        template="shelf.html",
        values={
            "frame": frame_of(context, SHELF, "shelf", title=t("shelf.title")),
            "shelf": shelf_view(ordered, context),
        },
    )
    yield Page(
        path=TECHNIQUES,
        template="techniques.html",
        values={
            "frame": frame_of(context, TECHNIQUES, "techniques", title=t("techniques.title")),
            "techniques": techniques_view(ordered, context),
        },
    )
    yield Page(
        path=CAUTIONS,
        template="cautions.html",
        values={
            "frame": frame_of(context, CAUTIONS, "cautions", title=t("care.title")),
            "cautions": cautions_view(context),
        },
    )
    yield Page(
        path=NOT_FOUND,
        template="404.html",
        values={"lost": not_found_view(context.site, context.language, templates)},
    )


def gone_page(path: str, context: SiteContext, templates: Templates) -> Page:
    """The page for an address whose page the author took away while others still lead to it."""
    lost = not_found_view(context.site, context.language, templates)
    return Page(path=path, template="404.html", values={"lost": replace(lost, home=relative(HOME, path))})


def _pots(palette: Palette) -> tuple[Paint | Mix, ...]:
    return (*palette.paints, *palette.mixes)
