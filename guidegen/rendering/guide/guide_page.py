"""A guide's page: what `templates/guide.html` shows, from the computed guide."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from markupsafe import Markup

from guidegen.base.paths import slug
from guidegen.computing.colour.blend import Blend, BlendPart, blend_of, is_by_eye
from guidegen.computing.guide.batch import GuideTimes, Times, pass_bars, passes_of
from guidegen.computing.guide.computed_guide import BlendUse, ComputedGuide
from guidegen.computing.guide.materials import PaintNeed, Supply, comes_in_drops
from guidegen.computing.guide.scheme import Scheme
from guidegen.model.guide import Guide, Instead, PaintedBatch
from guidegen.model.paint import Paint
from guidegen.rendering.guide.changed_since import changed_since
from guidegen.rendering.guide.clock_data import clock_data
from guidegen.rendering.guide.evening_chart import draw_evening
from guidegen.rendering.guide.guide_view import (
    CautionView,
    ChoiceView,
    Fact,
    GuideView,
    KeyView,
    MixRow,
    PaintRow,
    ReferenceView,
    StretchView,
    SubstituteView,
    SupplyRow,
    TimesRow,
)
from guidegen.rendering.guide.paints_script import paints_script_file
from guidegen.rendering.guide.scheme_views import daub_rows, matrix
from guidegen.rendering.guide.step_views import (
    StepContext,
    caution_views,
    flow,
    length,
    substitutes,
    times_said,
)
from guidegen.rendering.guide.summary import strip_of
from guidegen.rendering.page.amounts import amount_text, shelf_text
from guidegen.rendering.page.frame import is_long
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.own_pots import own_pots_of
from guidegen.rendering.page.paint_views import blend_view, match_view, mixed_views, pot_view
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import bench_file, guide_file, stop_places
from guidegen.rendering.theme.chips import CLEAR, Chip
from guidegen.words.language import Language, PhraseKey, direction_of, language_of


def guide_view(
    computed: ComputedGuide,
    context: SiteContext,
    page: str,
    *,
    choices: tuple[ChoiceView, ...] = (),
    exports: Mapping[str, str] | None = None,
) -> GuideView:
    """Everything on the page of one guide for one choice of variants."""
    guide, scheme, language = computed.guide, computed.scheme, context.language
    colours = _colours(computed, context)
    scope = StepContext.of(computed, context, page, figures=computed.figures, colours=colours)
    links, passages = scope.links, scope.passages
    photos = (guide.cover, *(photo for row in scheme.steps for photo in row.step.photos),
              *(reference.photo for reference in guide.reference))  # fmt: skip
    return GuideView(
        title=guide.title,
        long_word=is_long(guide.title),
        own_language=_own_language(_written_in(guide, context), language),
        own_direction=_own_direction(_written_in(guide, context), language),
        handbook=guide.handbook,
        photographed=any(photo and photo.path in context.pictures for photo in photos),
        summary=guide.summary,
        facts=_facts(computed, context, page),
        tags=guide.tags,
        scale_assumed=not guide.scale.given,
        draft=guide.draft,
        video=guide.video.text if guide.video else "",
        choices=choices,
        cover=context.picture(guide.cover, page, alt=guide.title),
        strip=strip_of(computed, context.chips),
        figures=computed.figures,
        count=len(scheme.steps),
        whole=_times_of_all(computed.times, language),
        stops=_times_of_stops(computed, language),
        measured=times_said(guide, language),
        evening=Markup() if guide.handbook else _evening(computed, colours, language),
        key=_key(computed, context),
        ends_at_stop=any(stop.after == len(scheme.steps) for stop in scheme.stops),
        stretches=_stretches(computed.times, links),
        paints=_paint_rows(computed, context, page, links),
        cost=_cost(computed, context),
        mixes=tuple(_mix_row(use, context, page, links) for use in computed.blends),
        matrix=matrix(computed, context, links),
        daubs=daub_rows(computed, context, links),
        materials=tuple(_supply_row(supply, links) for supply in computed.materials),
        tools=tuple(_supply_row(supply, links) for supply in computed.tools),
        cautions=_cautions(computed, language),
        before=passages.html(guide.body.before),
        flow=flow(scope),
        ending=scope.line.ending,
        last_stroke=language.clock(computed.times.whole.last_stroke),
        dry=language.clock(computed.times.whole.total),
        after=passages.html(guide.body.after),
        references=_references(guide, context, page),
        made=_batches(guide, context),
        see=_see(guide, context, page),
        credit=guide.credit,
        licence=guide.licence if "licence" in guide.places else context.site.licence,
        exports=_exports(guide, exports or {}, context, page),
        bench="" if guide.handbook else context.links.to(bench_file(page), page),
        clock=clock_data(computed, colours, context),
        own=own_pots_of(context, page, context.assets.own, paints_script_file(page))
        if computed.needs and not guide.handbook
        else None,
    )


def _cautions(computed: ComputedGuide, language: Language) -> tuple[CautionView, ...]:
    """Those of the whole guide; the one that holds for all work needs no saying where nothing is worked at."""
    if computed.guide.handbook and len(computed.cautions) == 1:
        return ()
    return caution_views((caution for caution in computed.cautions if not caution.steps), language)


def _written_in(guide: Guide, context: SiteContext) -> str:
    """The guide's language, or the site's where the interface has no words in it and so says another; else ''."""
    site = context.site.language
    return guide.language or ("" if language_of(site).code == site.split("-")[0].lower() else site)


def _own_language(code: str, language: Language) -> Markup:
    """The attributes of a text in the author's language, none where that is the site's."""
    if not code or code.lower() == language.code:
        return Markup()
    return Markup(' lang="{}" dir="{}"').format(code, direction_of(code))


def _own_direction(code: str, language: Language) -> Markup:
    if not code or direction_of(code) == language.direction:
        return Markup()
    return Markup(' dir="{}"').format(direction_of(code))


def _colours(computed: ComputedGuide, context: SiteContext) -> dict[int, tuple[str | None, ...]]:
    return {
        row.n: tuple(context.chips.of(blend).fill for blend in row.brushed) for row in computed.scheme.steps
    }


def _batches(guide: Guide, context: SiteContext) -> tuple[tuple[str, str, str, tuple[str, ...]], ...]:
    language, palette = context.language, context.palette_tools.palette
    return tuple(
        (
            language.on(made.date),
            _figures_of_batch(made, language),
            made.note,
            changed_since(made, palette, language),
        )
        for made in guide.made
    )


def _figures_of_batch(made: PaintedBatch, language: Language) -> str:
    """How many figures a batch had, and whose they are where that is said."""
    figures = language.t("made.figures", n=made.figures)
    return f"{figures} {language.t('made.by', name=made.by)}" if made.by else figures


def _facts(computed: ComputedGuide, context: SiteContext, page: str) -> tuple[Fact, ...]:
    guide, language = computed.guide, context.language
    facts = [] if guide.handbook else [Fact(label=PhraseKey("head.scale"), text=guide.scale.text)]
    # A boat or a house, whose surface is told, stands on no base of the site's usual width.
    if guide.base and not guide.handbook and (guide.surface is None or "base" in guide.places):
        facts.append(Fact(label=PhraseKey("head.base"), text=language.t("head.mm", n=guide.base)))
    if guide.surface and not guide.handbook:
        facts.append(Fact(label=PhraseKey("head.surface"), text=language.t("head.cm2", n=guide.surface)))
    facts.append(Fact(label=PhraseKey("head.steps"), text=language.number(len(computed.scheme.steps))))
    authors = guide.authors or tuple(filter(None, (context.site.author,)))
    if authors:
        pages = [(name, context.person_page(name)) for name in authors]
        links = tuple(
            Link(text=name, href=context.links.to(target, page) if target else "") for name, target in pages
        )
        facts.append(Fact(label=PhraseKey("head.author"), text=", ".join(authors), links=links))
    if guide.date:
        facts.append(Fact(label=PhraseKey("head.date"), text=language.on(guide.date)))
    if guide.updated:
        facts.append(Fact(label=PhraseKey("head.updated"), text=language.on(guide.updated)))
    return tuple(facts)


def _see(guide: Guide, context: SiteContext, page: str) -> tuple[Link, ...]:
    """The guides that it leads to, but for those that are not shown."""
    named = ((slug(name.text), name) for name in guide.see)
    return tuple(
        Link(text=context.guides.get(address, name.text), href=context.links.to(guide_file(address), page))
        for address, name in named
        if address in context.guides or address in context.site.gone
    )


def _exports(guide: Guide, files: Mapping[str, str], context: SiteContext, page: str) -> tuple[Link, ...]:
    return tuple(
        Link(text=key, href=context.links.to(guide_file(guide.slug, name), page))
        for key, name in files.items()
    )


def _evening(
    computed: ComputedGuide, colours: Mapping[int, Sequence[str | None]], language: Language
) -> Markup:
    passes = passes_of(computed.scheme)
    bars = pass_bars(passes, computed.figures)
    # What is never painted has no line: it never dries.
    areas = 1 + max((area for one in passes for area in one.areas), default=0)
    return draw_evening(passes, bars, colours, areas, language)


def _times_of_all(times: GuideTimes, language: Language) -> TimesRow:
    return _times_row(language.t("times.whole"), "#ending", "whole", times.whole, times.no_wait, language)


def _times_of_stops(computed: ComputedGuide, language: Language) -> tuple[TimesRow, ...]:
    places = stop_places(stop.name for stop in computed.scheme.stops)
    return tuple(
        _times_row(stop.name, f"#{place}", f"stop{at}", stop.times, stop.no_wait, language)
        for at, (stop, place) in enumerate(zip(computed.times.stops, places, strict=True))
    )


def _times_row(
    name: str, href: str, key: str, times: Times, no_wait: int | None, language: Language
) -> TimesRow:
    return TimesRow(
        name=name,
        href=href,
        key=key,
        hands_on=length(times.hands_on, language),
        waiting=length(times.waiting, language),
        last_stroke=length(times.last_stroke, language),
        total=length(times.total, language),
        no_wait=no_wait,
    )


def _stretches(times: GuideTimes, links: Mapping[int, Link]) -> tuple[StretchView, ...]:
    if len(times.stretches) < 2:
        return ()
    return tuple(
        StretchView(
            first=links[stretch.first],
            last=links[stretch.last],
            no_wait=stretch.no_wait,
        )
        for stretch in times.stretches
    )


def _instead(scheme: Scheme) -> dict[str, list[Instead]]:
    """What the steps that use a paint unmixed name in its place, by the paint's full name."""
    found: dict[str, list[Instead]] = {}
    for row in scheme.steps:
        if row.step.instead:
            alone = (blend.pot for blend in row.brushed)
            for name in {pot.full_name for pot in alone if isinstance(pot, Paint)}:
                found.setdefault(name, []).extend(row.step.instead)
    return found


def _cost(computed: ComputedGuide, context: SiteContext) -> str:
    language = context.language
    cost = math.fsum(need.cost for need in computed.needs if need.cost)
    return language.t("shelf.cost", cost=language.money(cost, context.site.currency)) if cost else ""


def _paint_rows(
    computed: ComputedGuide, context: SiteContext, page: str, links: Mapping[int, Link]
) -> tuple[PaintRow, ...]:
    instead = _instead(computed.scheme)
    return tuple(
        _paint_row(need, instead.get(need.paint.full_name, ()), computed, context, page, links)
        for need in computed.needs
    )


def _paint_row(
    need: PaintNeed,
    own: Sequence[Instead],
    computed: ComputedGuide,
    context: SiteContext,
    page: str,
    links: Mapping[int, Link],
) -> PaintRow:
    paint = need.paint
    return PaintRow(
        pot=pot_view(paint, context, page),
        amount=amount_text(need, context.language),
        shelf=shelf_text(need, context.language) if need.buy else "",
        discontinued=paint.discontinued,
        first=need.steps[0],
        last=need.steps[-1],
        steps=_step_links(need.steps, links),
        used=" ".join(f"M{n - 0.5} 0v1" for n in need.steps),
        substitutes=_substitutes(paint, own, computed, context, page),
        ml="" if need.ml is None else f"{need.ml:.9g}",
        size="" if paint.size is None else f"{paint.size:g}",
        owned=need.owned,
        drop="" if need.drops is None or not comes_in_drops(paint) else f"{paint.drop:g}",
    )


def _substitutes(
    paint: Paint, own: Sequence[Instead], computed: ComputedGuide, context: SiteContext, page: str
) -> tuple[SubstituteView, ...]:
    """One list: the author's own, then what is closest, each paint once."""
    rows = list(dict.fromkeys(substitutes(own, context, page)))
    named = {(row.blend.pots[0].name, row.blend.pots[0].maker) for row in rows if not row.blend.mixed}
    matches = (*computed.closest.get(paint.full_name, ()), *computed.closest_owned.get(paint.full_name, ()))
    for match in dict.fromkeys(matches):
        view = match_view(match, context, page)
        if (view.pot.name, view.pot.maker) not in named:
            blend = blend_view(Blend((BlendPart(match.paint, 1.0),)), context, page)
            near = f"{context.language.t(view.words)}, {view.de00}"
            rows.append(SubstituteView(blend=blend, near=near, owned=view.owned))
    return tuple(rows)


def _key(computed: ComputedGuide, context: SiteContext) -> tuple[KeyView, ...]:
    """The looks of the chips that the page shows first, each by the first paint that has it; flat ones explain themselves."""
    found: dict[str, KeyView] = {}
    chips = [context.chips.of_pot(need.paint) for need in computed.needs]
    chips += [context.chips.of(use.blend) for use in computed.blends]
    for chip in chips:
        look = "clear" if chip.look in CLEAR else chip.look
        if look != "flat":
            found.setdefault(
                look, KeyView(chip=replace(chip, estimate=False), words=PhraseKey(f"key.{look}"))
            )
        if chip.estimate:
            found.setdefault("estimate", KeyView(chip=chip, words=PhraseKey("key.estimate")))
    return tuple(found.values())


def _step_links(numbers: Iterable[int], links: Mapping[int, Link]) -> tuple[Link, ...]:
    return tuple(Link(text=str(n), href=links[n].href) for n in numbers)


def _mix_row(use: BlendUse, context: SiteContext, page: str, links: Mapping[int, Link]) -> MixRow:
    view = blend_view(use.blend, context, page)
    inner = blend_of(use.mix.parts, context.palette_tools.palette) if use.mix else use.blend
    return MixRow(
        name=use.mix.name if use.mix else "",
        href=view.pots[0].href if use.mix else "",
        blend=view,
        parts=mixed_views(inner, context, page),
        estimate=use.prediction.estimate,
        by_eye=use.prediction.estimate and is_by_eye(use.blend, context.palette_tools.palette),
        steps=_step_links(use.steps, links),
    )


def _supply_row(supply: Supply, links: Mapping[int, Link]) -> SupplyRow:
    return SupplyRow(
        name=supply.name,
        purpose=supply.purpose,
        amount=supply.amount,
        steps=_step_links(supply.steps, links),
    )


def _references(guide: Guide, context: SiteContext, page: str) -> tuple[ReferenceView, ...]:
    return tuple(
        ReferenceView(
            picture=context.picture(reference.photo, page),
            source=reference.source,
            swatches=tuple(
                (swatch.name, Chip(look="flat", fill=swatch.colour)) for swatch in reference.swatches
            ),
        )
        for reference in guide.reference
    )
