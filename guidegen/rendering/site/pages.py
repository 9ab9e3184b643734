"""Which pages a site has, and what each is made from, so that one that would come out the same need not be rendered."""

from __future__ import annotations
from guidegen.rendering.page.page import Page, Export

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from guidegen.base.paths import slug
from guidegen.computing.guide.computed_guide import ComputedGuide, compute_guide
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.model.guide import Guide
from guidegen.model.paint import Mix, Paint, Palette
from guidegen.rendering.guide.bench_page import bench_view
from guidegen.rendering.archive.colours_page import colours_view
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.theme.templates import Templates
from guidegen.rendering.exports.guide_files import exports_of, offered, palette_exports
from guidegen.rendering.guide.figures import FILE, figures_view
from guidegen.rendering.page.frame import frame_of
from guidegen.rendering.guide.heads import bench_head, guide_head, moved_head, social_of
from guidegen.rendering.guide.guide_page import guide_view
from guidegen.rendering.guide.guide_view import GuideView
from guidegen.rendering.archive.teaching_pages import cautions_view, techniques_view
from guidegen.rendering.archive.home_page import home_view, newest_first
from guidegen.rendering.site.summary_file import guide_in_short
from guidegen.rendering.archive.not_found_page import lost_view
from guidegen.rendering.archive.paint_pages import Whereabouts, paints_view, pot_page
from guidegen.rendering.archive.search_index import with_entry
from guidegen.rendering.archive.shelf_page import shelf_view
from guidegen.rendering.page.social_pictures import Social
from guidegen.rendering.guide.summary import Summary, summary_of
from guidegen.rendering.page.urls import (
    CAUTIONS,
    COLOURS,
    HOME,
    NOT_FOUND,
    PAINTS,
    SHELF,
    SUMMARY,
    TECHNIQUES,
    bench_file,
    guide_file,
    relative,
)
from guidegen.rendering.guide.variants import choice_views, variants














def archive_pages(summaries: Sequence[Summary], context: SiteContext, templates: Templates) -> Iterator[Page | Export]:
    """The pages about the whole archive."""
    t = context.language.t
    palette = context.palette_tools.palette
    ordered = newest_first(summaries)
    found = Whereabouts.of(ordered, palette)
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
        path=NOT_FOUND, template="404.html", values={"lost": lost_view(context.site, context.language, templates)}
    )


def gone_page(path: str, context: SiteContext, templates: Templates) -> Page:
    """The page for an address whose page the author took away while others still lead to it."""
    lost = lost_view(context.site, context.language, templates)
    return Page(path=path, template="404.html", values={"lost": replace(lost, home=relative(HOME, path))})


def _pots(palette: Palette) -> tuple[Paint | Mix, ...]:
    return (*palette.paints, *palette.mixes)
