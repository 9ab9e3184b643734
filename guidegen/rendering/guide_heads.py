"""What the heads of a guide's own pages say besides: where they belong, how they are shared, what is kept offline."""

from __future__ import annotations

from dataclasses import replace

from guidegen.computing.worked import Worked
from guidegen.model.guide import Guide
from guidegen.rendering.desk import Desk
from guidegen.rendering.frame import Frame
from guidegen.rendering.guide_view import GuideView
from guidegen.rendering.how_to import how_to
from guidegen.rendering.offline import offline_of
from guidegen.rendering.sharing import share_of
from guidegen.rendering.socials import Social
from guidegen.rendering.summary import Summary
from guidegen.rendering.urls import bench_file, guide_file


def social_of(guide: Summary, desk: Desk) -> Social | None:
    """A guide's picture for sharing, None where none are made."""
    if desk.socials is None:
        return None
    colours = tuple(chip.fill for chip in guide.strip if chip.fill)
    return desk.socials.of_guide(guide.title, guide.cover, colours, desk.pictures, desk.language)


def guide_head(
    frame: Frame, worked: Worked, view: GuideView, desk: Desk, page: str, social: Social | None
) -> Frame:
    """Of a guide's page for one choice of variants, which is a page of its own: its steps differ."""
    guide = worked.guide
    share = share_of(
        desk,
        page,
        title=guide.title,
        description=frame.description,
        social=social,
        language=guide.language,
    )
    return replace(
        frame,
        share=share,
        data=how_to(worked, view, desk, page, social),
        offline=offline_of(desk, page, bench_file(page)),
    )


def bench_head(frame: Frame, guide: Guide, desk: Desk, page: str, social: Social | None) -> Frame:
    """Of the bench of a guide's page, which has nothing that is not on `page` too."""
    bench = bench_file(page)
    title = desk.language.t("bench.title", guide=guide.title)
    share = share_of(desk, bench, title=title, description=frame.description, canonical=page, social=social)
    return replace(frame, share=share, offline=offline_of(desk, bench, page))


def moved_head(frame: Frame, guide: Guide, desk: Desk, page: str, social: Social | None) -> Frame:
    """Of an old address, which stands for the new one."""
    place = guide_file(guide.slug)
    about = frame.description
    share = share_of(desk, page, title=guide.title, description=about, canonical=place, social=social)
    return replace(frame, share=share)
