"""A guide's page: what `templates/guide.html` shows, from everything that was worked out of the guide."""

from __future__ import annotations

import math
from collections.abc import Mapping

from markupsafe import Markup

from guidegen.base.paths import slug
from guidegen.computing.batch import GuideTimes, Times, passes_of, timeline
from guidegen.computing.materials import PaintNeed, Supply, comes_in_drops
from guidegen.computing.worked import BlendUse, Worked
from guidegen.model.guide import Guide
from guidegen.model.paint import Mix, Paint
from guidegen.rendering.amounts import amount_text, shelf_text
from guidegen.rendering.area_view import Link
from guidegen.rendering.chips import Chip
from guidegen.rendering.clock_data import clock_data
from guidegen.rendering.desk import Desk
from guidegen.rendering.frame import is_long
from guidegen.rendering.guide_view import (
    ChoiceView,
    Fact,
    GuideView,
    MixRow,
    PaintRow,
    ReferenceView,
    StretchView,
    SupplyRow,
    TimesRow,
)
from guidegen.rendering.language import Language, direction_of
from guidegen.rendering.passages import Passages
from guidegen.rendering.pictures import picture_view
from guidegen.rendering.pots import blend_view, match_view, mixed_views, pot_view
from guidegen.rendering.scheme_views import daub_rows, matrix
from guidegen.rendering.step_views import (
    Bench,
    caution_views,
    flow,
    length,
    places_of,
    substitutes,
)
from guidegen.rendering.strings import language_of
from guidegen.rendering.summary import step_anchors, strip_of
from guidegen.rendering.urls import bench_file, guide_file, relative, stop_places
from guidegen.rendering.wet_line import wet_line


def guide_view(
    worked: Worked,
    desk: Desk,
    page: str,
    *,
    choices: tuple[ChoiceView, ...] = (),
    exports: Mapping[str, str] | None = None,
) -> GuideView:
    """Everything on the page of one guide for one choice of variants."""
    guide, scheme, language = worked.guide, worked.scheme, desk.language
    links = {
        row.n: Link(text=row.step.title, href=f"#{place}")
        for row, place in zip(scheme.steps, step_anchors(worked), strict=True)
    }
    steps = {place: links[n].href for n, place in places_of(worked).items()}
    passages = Passages(desk=desk, page=page, steps=steps)
    colours = _colours(worked, desk)
    passes = passes_of(scheme)
    line = wet_line(timeline(passes, worked.figures), colours)
    whole = _times_row(
        language.t("times.whole"), "#ending", "whole", worked.times.whole, worked.times.no_wait, language
    )
    photos = (guide.cover, *(photo for row in scheme.steps for photo in row.step.photos),
              *(reference.photo for reference in guide.reference))  # fmt: skip
    cost = math.fsum(need.cost for need in worked.needs if need.cost)
    return GuideView(
        title=guide.title,
        long_word=is_long(guide.title),
        own_language=_own_language(_written_in(guide, desk), language),
        own_direction=_own_direction(_written_in(guide, desk), language),
        photographed=any(photo and photo.path in desk.pictures for photo in photos),
        summary=guide.summary,
        facts=_facts(guide, desk),
        tags=guide.tags,
        scale_assumed=not guide.scale.given,
        draft=guide.draft,
        video=guide.video.text if guide.video else "",
        choices=choices,
        cover=picture_view(guide.cover, desk.pictures, page, alt=guide.title),
        strip=strip_of(worked, desk.chips),
        figures=worked.figures,
        count=len(scheme.steps),
        whole=whole,
        stops=tuple(
            _times_row(stop.name, f"#{anchor}", f"stop{at}", stop.times, stop.no_wait, language)
            for at, (stop, anchor) in enumerate(
                zip(worked.times.stops, stop_places(stop.name for stop in scheme.stops), strict=True)
            )
        ),
        stretches=_stretches(worked.times, links, language),
        paints=tuple(_paint_row(need, worked, desk, page, links) for need in worked.needs),
        cost=language.t("shelf.cost", cost=language.money(cost, desk.site.currency)) if cost else "",
        mixes=tuple(_mix_row(use, desk, page, links) for use in worked.blends),
        matrix=matrix(worked, desk, links),
        daubs=daub_rows(worked, desk, links),
        materials=tuple(_supply_row(supply, links) for supply in worked.materials),
        tools=tuple(_supply_row(supply, links) for supply in worked.tools),
        cautions=caution_views((caution for caution in worked.cautions if not caution.steps), language),
        before=passages.html(guide.body.before),
        flow=flow(Bench(worked=worked, desk=desk, page=page, links=links, line=line, passages=passages)),
        ending=line.ending,
        brush_down=language.clock(worked.times.whole.brush_down),
        dry=language.clock(worked.times.whole.total),
        after=passages.html(guide.body.after),
        references=_references(guide, desk, page),
        made=tuple(
            (language.on(made.date), language.t("made.figures", n=made.figures), made.note)
            for made in guide.made
        ),
        see=tuple(
            Link(text=desk.guides[address], href=relative(guide_file(address), page))
            for address in (slug(name.text) for name in guide.see)
            if address in desk.guides
        ),
        credit=guide.credit,
        licence=guide.licence,
        exports=tuple(
            Link(text=key, href=relative(guide_file(guide.slug, name), page))
            for key, name in (exports or {}).items()
        ),
        bench=relative(bench_file(page), page),
        clock=clock_data(worked, colours, language),
    )


def _written_in(guide: Guide, desk: Desk) -> str:
    """The guide's language, or the site's where the interface has no words in it and so says another; else ''."""
    site = desk.site.language
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


def _colours(worked: Worked, desk: Desk) -> dict[int, tuple[str | None, ...]]:
    return {row.n: tuple(desk.chips.of(blend).fill for blend in row.brushed) for row in worked.scheme.steps}


def _facts(guide: Guide, desk: Desk) -> tuple[Fact, ...]:
    language = desk.language
    facts = [Fact(label="head.scale", text=guide.scale.text)]
    if guide.base:
        facts.append(Fact(label="head.base", text=language.t("head.mm", n=guide.base)))
    if guide.surface:
        facts.append(Fact(label="head.surface", text=language.t("head.cm2", n=guide.surface)))
    facts.append(Fact(label="head.steps", text=language.number(len(guide.steps))))
    author = guide.author or desk.site.author
    if author:
        facts.append(Fact(label="head.author", text=author))
    if guide.date:
        facts.append(Fact(label="head.date", text=language.on(guide.date)))
    return tuple(facts)


def _times_row(
    name: str, href: str, key: str, times: Times, no_wait: int | None, language: Language
) -> TimesRow:
    return TimesRow(
        name=name,
        href=href,
        key=key,
        hands_on=length(times.hands_on, language),
        waiting=length(times.waiting, language),
        brush_down=length(times.brush_down, language),
        total=length(times.total, language),
        no_wait=None if no_wait is None else language.number(no_wait),
    )


def _stretches(times: GuideTimes, links: Mapping[int, Link], language: Language) -> tuple[StretchView, ...]:
    if len(times.stretches) < 2:
        return ()
    return tuple(
        StretchView(
            first=links[stretch.first],
            last=links[stretch.last],
            no_wait=None if stretch.no_wait is None else language.number(stretch.no_wait),
        )
        for stretch in times.stretches
    )


def _paint_row(need: PaintNeed, worked: Worked, desk: Desk, page: str, links: Mapping[int, Link]) -> PaintRow:
    paint = need.paint
    own = [
        item
        for row in worked.scheme.steps
        if any(_is_just(blend.pot, paint) for blend in row.brushed)
        for item in row.step.instead
    ]
    return PaintRow(
        pot=pot_view(paint, desk, page),
        amount=amount_text(need, desk.language),
        shelf=shelf_text(need, desk.language),
        discontinued=paint.discontinued,
        first=need.steps[0],
        last=need.steps[-1],
        steps=tuple(Link(text=str(n), href=links[n].href) for n in need.steps),
        used=" ".join(f"M{n - 0.5} 0v1" for n in need.steps),
        substitutes=tuple(dict.fromkeys(substitutes(own, desk, page))),
        closest=tuple(match_view(match, desk, page) for match in worked.closest.get(paint.full_name, ())),
        closest_owned=tuple(
            match_view(match, desk, page) for match in worked.closest_owned.get(paint.full_name, ())
        ),
        ml="" if need.ml is None else f"{need.ml:.9g}",
        size="" if paint.size is None else f"{paint.size:g}",
        owned=need.owned,
        drop="" if need.drops is None or not comes_in_drops(paint) else f"{paint.drop:g}",
    )


def _is_just(pot: Paint | Mix | None, paint: Paint) -> bool:
    return isinstance(pot, Paint) and pot.full_name == paint.full_name


def _mix_row(use: BlendUse, desk: Desk, page: str, links: Mapping[int, Link]) -> MixRow:
    from guidegen.computing.scheme import blend_of

    view = blend_view(use.blend, desk, page)
    inner = blend_of(use.mix.parts, desk.workshop.palette) if use.mix else use.blend
    return MixRow(
        name=use.mix.name if use.mix else "",
        href=view.pots[0].href if use.mix else "",
        blend=view,
        parts=mixed_views(inner, desk, page),
        estimate=use.prediction.estimate,
        steps=tuple(Link(text=str(n), href=links[n].href) for n in use.steps),
    )


def _supply_row(supply: Supply, links: Mapping[int, Link]) -> SupplyRow:
    return SupplyRow(
        name=supply.name,
        purpose=supply.purpose,
        amount=supply.amount,
        steps=tuple(Link(text=str(n), href=links[n].href) for n in supply.steps),
    )


def _references(guide: Guide, desk: Desk, page: str) -> tuple[ReferenceView, ...]:
    return tuple(
        ReferenceView(
            picture=picture_view(reference.photo, desk.pictures, page),
            source=reference.source,
            swatches=tuple(
                (swatch.name, Chip(look="flat", fill=swatch.colour)) for swatch in reference.swatches
            ),
        )
        for reference in guide.reference
    )
