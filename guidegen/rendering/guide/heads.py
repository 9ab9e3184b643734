"""What the heads of a guide's own pages say besides: where they belong, how they are shared, what is kept offline."""

from __future__ import annotations

from dataclasses import replace

from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.model.guide import Guide
from guidegen.rendering.guide.guide_view import GuideView
from guidegen.rendering.guide.json_ld import guide_json_ld
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.frame import Frame
from guidegen.rendering.page.offline import offline_of
from guidegen.rendering.page.sharing import share_of
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.social_pictures import SocialPicture
from guidegen.rendering.page.urls import bench_file, guide_file


def social_of(guide: Summary, context: SiteContext) -> SocialPicture | None:
    """A guide's picture for sharing, None where none are made."""
    if context.socials is None:
        return None
    colours = tuple(chip.fill for chip in guide.strip if chip.fill)
    return context.socials.of_guide(guide.title, guide.cover, colours, context.pictures, context.language)


def guide_head(
    frame: Frame,
    computed: ComputedGuide,
    view: GuideView,
    context: SiteContext,
    page: str,
    social: SocialPicture | None,
) -> Frame:
    """Of a guide's page for one choice of variants, which is a page of its own: its steps differ."""
    guide = computed.guide
    share = share_of(
        context,
        page,
        title=guide.title,
        description=frame.description,
        social=social,
        language=guide.language,
    )
    return replace(
        frame,
        share=share,
        data=guide_json_ld(computed, view, context, page, social),
        offline=offline_of(context, page, bench_file(page)),
    )


def bench_head(
    frame: Frame, guide: Guide, context: SiteContext, page: str, social: SocialPicture | None
) -> Frame:
    """Of the bench of a guide's page, which has nothing that is not on `page` too."""
    bench = bench_file(page)
    title = context.language.t("bench.title", guide=guide.title)
    share = share_of(
        context, bench, title=title, description=frame.description, canonical=page, social=social
    )
    return replace(frame, share=share, offline=offline_of(context, bench, page))


def moved_head(
    frame: Frame, guide: Guide, context: SiteContext, page: str, social: SocialPicture | None
) -> Frame:
    """Of an old address, which stands for the new one."""
    place = guide_file(guide.slug)
    about = frame.description
    share = share_of(context, page, title=guide.title, description=about, canonical=place, social=social)
    return replace(frame, share=share)
