"""The pages that a site has, and what each is made from: a page that would come out the same need not be rendered again.

Of each guide `guide_pages`, of the paints and of all guides together `archive_pages`, of each shared list `shared_pages`;
those of plans are in `plan_pages.py`, the files about the whole site that no page shows in `site_files.py`.
"""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from guidegen.base.paths import slug
from guidegen.computing.guide.computed_guide import ComputedGuide, compute_guide
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.model.guide import Guide, Shared
from guidegen.rendering.archive.colours_page import colours_view
from guidegen.rendering.archive.home_page import home_view, newest_first
from guidegen.rendering.archive.my_pots_page import my_pots_view
from guidegen.rendering.archive.not_found_page import not_found_view
from guidegen.rendering.archive.numbers_page import numbers_view
from guidegen.rendering.archive.paint_pages import PotUses, paints_view, pot_page
from guidegen.rendering.archive.palette_script import palette_script
from guidegen.rendering.archive.person_page import person_view
from guidegen.rendering.archive.search_index import with_entry
from guidegen.rendering.archive.shared_page import Inserting, shared_view
from guidegen.rendering.archive.shelf_page import guides_script, shelf_pages
from guidegen.rendering.archive.teaching_pages import cautions_view, techniques_view
from guidegen.rendering.archive.trying_page import guide_trying_file, trying_files, trying_view
from guidegen.rendering.exports.guide_files import exports_of, offered, palette_exports
from guidegen.rendering.guide.bench_page import bench_view, variant_of
from guidegen.rendering.guide.figures import FILE, FiguresView, figures_view
from guidegen.rendering.guide.guide_page import guide_view
from guidegen.rendering.guide.guide_view import ChoiceView, GuideView
from guidegen.rendering.guide.json_ld import guide_json_ld
from guidegen.rendering.guide.paints_script import paints_script, paints_script_file, sets_of
from guidegen.rendering.guide.summary import Summary, social_of, summary_of
from guidegen.rendering.guide.variants import choice_views, variants
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.frame import frame_of
from guidegen.rendering.page.page import Export, Page
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.social_pictures import SocialPicture
from guidegen.rendering.page.urls import (
    CAUTIONS,
    COLOURS,
    GUIDES_SCRIPT,
    HOME,
    MY_POTS,
    NOT_FOUND,
    NUMBERS,
    PAINTS,
    PALETTE_SCRIPT,
    SUMMARY,
    TECHNIQUES,
    TRYING,
    bench_file,
    guide_file,
    old_pot_pages,
    person_file,
    relative,
)
from guidegen.rendering.site.summary_file import guide_summary_file
from guidegen.rendering.theme.templates import Templates


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
            summary = with_entry(_in_short(computed, context, drawn=FILE in files), computed, context)
            made += [Export(path=guide_file(guide.slug, name), data=data) for name, data in files.items()]
            summary_file = guide_summary_file(summary, guide, context)
            made.append(Export(path=guide_file(guide.slug, SUMMARY), data=summary_file))
            trying = guide_trying_file(computed, context)
            made += [trying] if trying is not None else []
        made += _variant(
            computed, path, choice_views(guide, every, path, context.links), offered(files), summary, context
        )
    old = (slug(name.text) for name in guide.was)
    if summary is None:
        raise LookupError(guide.slug)
    social = social_of(summary, context)
    for address in old:
        if address not in context.guides:
            made += _moved(guide, address, every, context, social)
            made += [Export(path=guide_file(address, name), data=data) for name, data in files.items()]
    return summary, tuple(made)


def _variant(
    computed: ComputedGuide,
    path: str,
    choices: tuple[ChoiceView, ...],
    exports: Mapping[str, str],
    summary: Summary,
    context: SiteContext,
) -> Iterator[Page | Export]:
    """A guide's page for one choice of variants, its script and its bench."""
    guide, social = computed.guide, social_of(summary, context)
    view = guide_view(computed, context, path, choices=choices, exports=exports)
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
        kept_with=path if guide.handbook else bench_file(path),
    )
    figures = figures_view(computed, context)
    yield Page(path=path, template="guide.html", values={"frame": frame, "guide": view, "figures": figures})
    if view.own is not None:
        yield Export(path=paints_script_file(path), data=paints_script(computed, context))
    if not guide.handbook:
        yield _bench(computed, view, figures, path, context, social)


def _in_short(computed: ComputedGuide, context: SiteContext, *, drawn: bool) -> Summary:
    summary = summary_of(computed, context.chips, author=context.site.author, drawn=drawn)
    if not computed.needs:
        return summary
    sets = sets_of(computed.scheme, (replace(need, ml=None) for need in computed.needs), context)
    return replace(summary, sets=script_json(sets.data))


def _bench(
    computed: ComputedGuide,
    guide: GuideView,
    figures: FiguresView,
    page: str,
    context: SiteContext,
    social: SocialPicture | None,
) -> Page:
    path = bench_file(page)
    title = context.language.t("bench.title", guide=", ".join(filter(None, (guide.title, variant_of(guide)))))
    about = context.language.t("about.bench", title=guide.title)
    frame = frame_of(
        context,
        path,
        "bench",
        title=title,
        description=about,
        script=context.assets.bench,
        style=context.assets.bench_style,
        canonical=page,
        social=social,
        kept_with=page,
    )
    view = bench_view(computed, guide, figures, page, context)
    return Page(path=path, template="bench.html", values={"frame": frame, "bench": view})


def _moved(
    guide: Guide, old: str, every: Iterable[str], context: SiteContext, social: SocialPicture | None
) -> Iterator[Page]:
    """What leads from an old address to each page of a guide, its benches among them."""
    for page in every:
        for now in (page,) if guide.handbook else (page, bench_file(page)):
            before = guide_file(old, posixpath.basename(now))
            yield moved_page(before, now, guide.title, context, social)


def moved_page(
    path: str,
    now: str,
    title: str,
    context: SiteContext,
    social: SocialPicture | None = None,
    *,
    paint: bool = False,
) -> Page:
    """The page at an old address of a guide or a paint, which leads to where that is now."""
    script = context.assets.moved
    frame = frame_of(context, path, "moved", title=title, canonical=now, social=social, script=script)
    values = {"frame": frame, "title": title, "link": relative(now, path), "paint": paint}
    return Page(path=path, template="moved.html", values=values)


def archive_pages(
    summaries: Sequence[Summary], context: SiteContext, templates: Templates
) -> Iterator[Page | Export]:
    """The pages about the paints and about all guides together."""
    palette = context.palette_tools.palette
    palette, t = context.palette_tools.palette, context.language.t
    ordered = newest_first(summaries)
    home = home_view(ordered, context)
    frame = frame_of(
        context,
        HOME,
        "home",
        description=context.site.summary,
        script=context.assets.search if home.finder else "",
        kept_with=HOME,
    )
    yield Page(path=HOME, template="home.html", values={"frame": frame, "home": home})
    yield _page(context, COLOURS, "colours", colours_view(ordered), t("colours.title"))
    yield _page(context, NUMBERS, "numbers", numbers_view(ordered, context), t("numbers.title"))
    trying = trying_view(ordered, context)
    yield _page(context, TRYING, "trying", trying, t("try.title"), context.assets.trying)
    yield from trying_files(ordered, context)
    yield from _paint_pages(ordered, context)
    yield Export(path=GUIDES_SCRIPT, data=guides_script(ordered))
    for part in shelf_pages(ordered, context):
        title = t("shelf.page", n=part.number) if part.number > 1 else t("shelf.title")
        yield _page(context, part.path, "shelf", part, title, context.assets.search if part.finder else "")
    yield _page(context, TECHNIQUES, "techniques", techniques_view(ordered, context), t("techniques.title"))
    yield _page(context, CAUTIONS, "cautions", cautions_view(context), t("care.title"))
    for path, paint in old_pot_pages(palette, context.pots).items():
        yield moved_page(path, context.pots[paint.full_name], paint.full_name, context, paint=True)
    yield from _gone_pages(context)
    for person in context.site.people:
        view = person_view(person, ordered, context)
        yield _page(context, person_file(person.key), "person", view, person.name)
    lost = not_found_view(context.site, context.language, templates)
    yield Page(path=NOT_FOUND, template="404.html", values={"lost": lost})


def _page(context: SiteContext, path: str, kind: str, view: object, title: str, script: str = "") -> Page:
    """A page by the template and the description of its kind."""
    frame = frame_of(context, path, kind, title=title, script=script)
    return Page(path=path, template=f"{kind}.html", values={"frame": frame, kind: view})


def _gone_pages(context: SiteContext) -> Iterator[Page]:
    """What stands at the addresses of guides that were taken away."""
    title = context.language.t("gone.title")
    for address, one in context.site.gone.items():
        path = guide_file(address)
        frame = frame_of(context, path, "gone", title=title, description=one.words)
        values = {"frame": frame, "title": title, "words": one.words, "home": relative(HOME, path)}
        yield Page(path=path, template="gone.html", values=values)


def _paint_pages(ordered: Sequence[Summary], context: SiteContext) -> Iterator[Page | Export]:
    """The pages and files about all pots, and a page for each."""
    palette, t = context.palette_tools.palette, context.language.t
    uses = PotUses.of(ordered, palette)
    yield _page(context, PAINTS, "paints", paints_view(uses, context), t("paints.all"))
    for file, data in palette_exports(palette, context.site.title).items():
        yield Export(path=file, data=data)
    yield Export(path=PALETTE_SCRIPT, data=palette_script(context))
    frame = frame_of(context, MY_POTS, "my-pots", title=t("mine.title"), script=context.assets.my_pots)
    yield Page(path=MY_POTS, template="my-pots.html", values={"frame": frame, "mine": my_pots_view(context)})
    for pot in palette.pots:
        path = context.pots[pot.full_name]
        view = pot_page(pot, uses, context)
        frame = frame_of(context, path, "pot", title=view.title)
        yield Page(path=path, template="paint.html", values={"frame": frame, "paint": view})


def shared_pages(
    lists: Sequence[Shared],
    guides: Iterable[Inserting],
    summaries: Iterable[Summary],
    context: SiteContext,
    kept: Iterable[Shared] = (),
) -> Iterator[Page]:
    """A page for every shared list that has one. `guides` are those with a page, told of in `summaries`.

    `kept` are lists whose pages stay as an earlier build made them.
    """
    every = sorted((*lists, *kept), key=lambda one: one.name)
    shown, short = tuple(guides), tuple(summaries)
    for one in lists:
        path = context.shared[one.name]
        view = shared_view(one, every, shown, short, context)
        frame = frame_of(context, path, "shared", title=view.title)
        yield Page(path=path, template="shared.html", values={"frame": frame, "shared": view})


def gone_page(path: str, context: SiteContext, templates: Templates) -> Page:
    """The page for an address whose page the author took away while others still lead to it."""
    lost = not_found_view(context.site, context.language, templates)
    known = replace(lost, home=relative(HOME, path), unsure=False)
    return Page(path=path, template="404.html", values={"lost": known})
