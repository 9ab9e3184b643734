"""All files of one guide: a page and a bench for each variant, data, and pages at old addresses."""

from __future__ import annotations

from collections.abc import Mapping

from guidegen.base.paths import slug
from guidegen.computing.guide.computed_guide import ComputedGuide, compute_guide
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.model.guide import Guide
from guidegen.rendering.archive.search_index import with_entry
from guidegen.rendering.exports.guide_files import exports_of, offered
from guidegen.rendering.guide.bench_page import bench_view
from guidegen.rendering.guide.figures import FILE, figures_view
from guidegen.rendering.guide.guide_page import guide_view
from guidegen.rendering.guide.guide_view import GuideView
from guidegen.rendering.guide.json_ld import guide_json_ld
from guidegen.rendering.guide.summary import Summary, social_of, summary_of
from guidegen.rendering.guide.variants import choice_views, variants
from guidegen.rendering.page.frame import frame_of
from guidegen.rendering.page.page import Export, Page
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.social_pictures import SocialPicture
from guidegen.rendering.page.urls import (
    SUMMARY,
    bench_file,
    guide_file,
    relative,
)
from guidegen.rendering.site.summary_file import guide_in_short


def guide_pages(
    guide: Guide, context: SiteContext, palette_tools: PaletteTools
) -> tuple[Summary, tuple[Page | Export, ...]]:
    """A guide in short for the pages about all, and its own files: a page a variant, data, old addresses."""
    made: list[Page | Export] = []
    summary: Summary | None = None
    files: Mapping[str, bytes] = {}
    every = variants(guide)
    for path, choice in every.items():
        computed = compute_guide(guide, palette_tools, choice=choice)
        if summary is None:
            files = exports_of(computed, context)
            summary = with_entry(summary_of(computed, context.chips, drawn=FILE in files), computed, context)
            made += [Export(path=guide_file(guide.slug, name), data=data) for name, data in files.items()]
            in_short = guide_in_short(summary, guide, context)
            made.append(Export(path=guide_file(guide.slug, SUMMARY), data=in_short))
        view = guide_view(
            computed, context, path, choices=choice_views(guide, every, path), exports=offered(files)
        )
        social = social_of(summary, context)
        frame = frame_of(
            context,
            path,
            "guide",
            title=guide.title,
            description=guide.summary,
            script=context.assets.script,
            social=social,
            language=guide.language,
            data=guide_json_ld(computed, view, context, path, social),
            kept_with=bench_file(path),
        )
        values = {"frame": frame, "guide": view, "figures": figures_view(computed, context)}
        made.append(Page(path=path, template="guide.html", values=values))
        made.append(_bench(computed, view, path, context, social))
    old = (slug(name.text) for name in guide.was)
    if summary is None:
        raise LookupError(guide.slug)
    social = social_of(summary, context)
    made.extend(_moved(guide, address, context, social) for address in old if address not in context.guides)
    return summary, tuple(made)


def _bench(
    computed: ComputedGuide, guide: GuideView, page: str, context: SiteContext, social: SocialPicture | None
) -> Page:
    path = bench_file(page)
    title = context.language.t("bench.title", guide=guide.title)
    about = context.language.t("about.bench", title=guide.title)
    frame = frame_of(
        context,
        path,
        "bench",
        title=title,
        description=about,
        script=context.assets.bench,
        canonical=page,
        social=social,
        kept_with=page,
    )
    view = bench_view(computed, guide, page, context.language)
    return Page(path=path, template="bench.html", values={"frame": frame, "bench": view})


def _moved(guide: Guide, old: str, context: SiteContext, social: SocialPicture | None) -> Page:
    path, now = guide_file(old), guide_file(guide.slug)
    link = relative(now, path)
    frame = frame_of(context, path, "moved", title=guide.title, canonical=now, social=social)
    return Page(path=path, template="moved.html", values={"frame": frame, "title": guide.title, "link": link})
