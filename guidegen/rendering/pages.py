"""Which pages a site has, and what each is made from, so that one that would come out the same need not be rendered."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from guidegen.base.paths import slug
from guidegen.computing.worked import Worked, work_out
from guidegen.computing.workshop import Workshop
from guidegen.model.guide import Guide
from guidegen.model.paint import Mix, Paint, Palette
from guidegen.rendering.bench_page import bench_view
from guidegen.rendering.colours_page import colours_view
from guidegen.rendering.desk import Desk
from guidegen.rendering.environment import Templates
from guidegen.rendering.exports import exports_of, offered, palette_exports
from guidegen.rendering.figures import FILE, figures_view
from guidegen.rendering.frame import frame_of
from guidegen.rendering.guide_heads import bench_head, guide_head, moved_head, social_of
from guidegen.rendering.guide_page import guide_view
from guidegen.rendering.guide_view import GuideView
from guidegen.rendering.handbook_pages import cautions_view, techniques_view
from guidegen.rendering.home_page import home_view, newest_first
from guidegen.rendering.in_short import guide_in_short
from guidegen.rendering.lost_page import lost_view
from guidegen.rendering.paint_pages import Whereabouts, paints_view, pot_page
from guidegen.rendering.search_index import with_entry
from guidegen.rendering.shelf_page import shelf_view
from guidegen.rendering.socials import Social
from guidegen.rendering.summary import Summary, summary_of
from guidegen.rendering.urls import (
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
from guidegen.rendering.variants import choice_views, variants


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A page of the site. `values` are plain frozen values, whose text tells two pages apart."""

    path: str
    template: str
    values: Mapping[str, object]

    def key(self, version: str) -> str:
        """The same for pages that come out the same; `version` stands for the templates and the program."""
        return digest(version, self.path, self.template, repr(self.values))

    def render(self, templates: Templates) -> bytes:
        """The page's bytes."""
        return templates.render(self.template, self.values)


@dataclass(frozen=True, slots=True, kw_only=True)
class Export:
    """A file of the site that needs no template."""

    path: str
    data: bytes

    def key(self, version: str) -> str:
        """The same for files with the same bytes."""
        return digest(version, self.path, "", self.data.decode(errors="replace"))

    def render(self, templates: Templates) -> bytes:
        """The file's bytes."""
        del templates
        return self.data


def digest(*parts: str) -> str:
    """Stands for all of these texts, in this order."""
    return hashlib.sha256("\0".join(parts).encode("utf-8", "surrogatepass")).hexdigest()


def guide_pages(guide: Guide, desk: Desk, workshop: Workshop) -> tuple[Summary, tuple[Page | Export, ...]]:
    """A guide in short for the pages about all, and its own files: a page a variant, data, old addresses."""
    made: list[Page | Export] = []
    summary: Summary | None = None
    files: Mapping[str, bytes] = {}
    every = variants(guide)
    for path, choice in every.items():
        worked = work_out(guide, workshop, choice=choice)
        if summary is None:
            files = exports_of(worked, desk)
            summary = with_entry(summary_of(worked, desk.chips, drawn=FILE in files), worked, desk)
            made += [Export(path=guide_file(guide.slug, name), data=data) for name, data in files.items()]
            in_short = guide_in_short(summary, guide, desk)
            made.append(Export(path=guide_file(guide.slug, SUMMARY), data=in_short))
        view = guide_view(
            worked, desk, path, choices=choice_views(guide, every, path), exports=offered(files)
        )
        frame = frame_of(
            desk, path, "guide", title=guide.title, description=guide.summary, script=desk.assets.script
        )
        social = social_of(summary, desk)
        head = guide_head(frame, worked, view, desk, path, social)
        values = {"frame": head, "guide": view, "figures": figures_view(worked, desk)}
        made.append(Page(path=path, template="guide.html", values=values))
        made.append(_bench(worked, view, path, desk, social))
    old = (slug(name.text) for name in guide.was)
    if summary is None:
        raise LookupError(guide.slug)
    social = social_of(summary, desk)
    made.extend(_moved(guide, address, desk, social) for address in old if address not in desk.guides)
    return summary, tuple(made)


def _bench(worked: Worked, guide: GuideView, page: str, desk: Desk, social: Social | None) -> Page:
    path = bench_file(page)
    title = desk.language.t("bench.title", guide=guide.title)
    about = desk.language.t("about.bench", title=guide.title)
    frame = frame_of(desk, path, "bench", title=title, description=about, script=desk.assets.bench)
    head = bench_head(frame, worked.guide, desk, page, social)
    view = bench_view(worked, guide, page, desk.language)
    return Page(path=path, template="bench.html", values={"frame": head, "bench": view})


def _moved(guide: Guide, old: str, desk: Desk, social: Social | None) -> Page:
    path = guide_file(old)
    link = relative(guide_file(guide.slug), path)
    frame = moved_head(frame_of(desk, path, "moved", title=guide.title), guide, desk, path, social)
    return Page(path=path, template="moved.html", values={"frame": frame, "title": guide.title, "link": link})


def archive_pages(summaries: Sequence[Summary], desk: Desk, templates: Templates) -> Iterator[Page | Export]:
    """The pages about the whole archive."""
    t = desk.language.t
    palette = desk.workshop.palette
    ordered = newest_first(summaries)
    found = Whereabouts.of(ordered, palette)
    home = home_view(ordered, desk)
    script = desk.assets.search if home.finder else ""
    yield Page(
        path=HOME,
        template="home.html",
        values={"frame": frame_of(desk, HOME, "home", script=script), "home": home},
    )
    yield Page(
        path=COLOURS,
        template="colours.html",
        values={
            "frame": frame_of(desk, COLOURS, "colours", title=t("colours.title")),
            "colours": colours_view(ordered),
        },
    )
    yield Page(
        path=PAINTS,
        template="paints.html",
        values={
            "frame": frame_of(desk, PAINTS, "paints", title=t("paints.all")),
            "paints": paints_view(found, desk),
        },
    )
    for file, data in palette_exports(palette, desk.site.title).items():
        yield Export(path=file, data=data)
    for pot in _pots(palette):
        path = desk.pots[pot.full_name]
        view = pot_page(pot, found, desk)
        frame = frame_of(desk, path, "pot", title=view.title)
        yield Page(path=path, template="paint.html", values={"frame": frame, "paint": view})
    yield Page(
        path=SHELF,
        template="shelf.html",
        values={
            "frame": frame_of(desk, SHELF, "shelf", title=t("shelf.title")),
            "shelf": shelf_view(ordered, desk),
        },
    )
    yield Page(
        path=TECHNIQUES,
        template="techniques.html",
        values={
            "frame": frame_of(desk, TECHNIQUES, "techniques", title=t("techniques.title")),
            "techniques": techniques_view(ordered, desk),
        },
    )
    yield Page(
        path=CAUTIONS,
        template="cautions.html",
        values={
            "frame": frame_of(desk, CAUTIONS, "cautions", title=t("care.title")),
            "cautions": cautions_view(desk),
        },
    )
    yield Page(
        path=NOT_FOUND, template="404.html", values={"lost": lost_view(desk.site, desk.language, templates)}
    )


def gone_page(path: str, desk: Desk, templates: Templates) -> Page:
    """The page for an address whose page the author took away while others still lead to it."""
    lost = lost_view(desk.site, desk.language, templates)
    return Page(path=path, template="404.html", values={"lost": replace(lost, home=relative(HOME, path))})


def _pots(palette: Palette) -> tuple[Paint | Mix, ...]:
    return (*palette.paints, *palette.mixes)
