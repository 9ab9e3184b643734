"""The steps of a guide as its page shows them, with the stops between and the timeline beside."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from guidegen.base.suggest import folded
from guidegen.base.units import iso_duration, print_clock
from guidegen.computing.colour.blend import blend_of
from guidegen.computing.guide.batch import Times, pass_bars, passes_of
from guidegen.computing.guide.cautions import Caution
from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.computing.guide.measured_times import measurement
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.model.guide import Guide, Instead, PaintUse, Step
from guidegen.model.technique import AIRBORNE, Role, is_known
from guidegen.rendering.guide.guide_view import (
    CautionView,
    Fact,
    FilmView,
    Length,
    StepView,
    StopView,
    SubstituteView,
    WaitView,
)
from guidegen.rendering.guide.scheme_views import area_label, relief_of, technique_label
from guidegen.rendering.guide.summary import step_anchors
from guidegen.rendering.guide.timeline import Timeline, TimelineStep, draw_timeline
from guidegen.rendering.page.caution_words import caution_source, caution_subject, caution_words
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.paint_views import blend_view
from guidegen.rendering.page.passages import Passages
from guidegen.rendering.page.pictures import PictureView
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import stop_places, technique_place
from guidegen.rendering.theme.chips import ReliefView
from guidegen.words.language import Language, PhraseKey


@dataclass(frozen=True, slots=True, kw_only=True)
class StepContext:
    """What the steps of one page share."""

    computed: ComputedGuide
    context: SiteContext
    page: str
    links: Mapping[int, Link]
    line: Timeline
    passages: Passages

    @classmethod
    def of(
        cls,
        computed: ComputedGuide,
        context: SiteContext,
        page: str,
        *,
        figures: int,
        colours: Mapping[int, Sequence[str | None]],
    ) -> StepContext:
        """For a batch of so many figures. `colours` are those on the brush by step number."""
        links = {
            row.n: Link(text=row.step.title, href=f"#{place}")
            for row, place in zip(computed.scheme.steps, step_anchors(computed), strict=True)
        }
        steps = {place: links[n].href for n, place in places_of(computed).items()}
        return cls(
            computed=computed,
            context=context,
            page=page,
            links=links,
            line=draw_timeline(pass_bars(passes_of(computed.scheme), figures), colours),
            passages=Passages(context=context, page=page, steps=steps),
        )


def length(milliseconds: int, language: Language) -> Length:
    """A duration for readers."""
    return Length(text=language.duration(milliseconds), iso=iso_duration(milliseconds))


def times_said(guide: Guide, language: Language) -> str:
    """Whether a guide's times were measured, and on what."""
    found = measurement(guide)
    if found is None:
        return language.t("times.estimated")
    return language.t(
        "times.measured",
        evenings=language.t("times.evenings", n=found.evenings),
        figures=language.t("figures.n", n=found.figures),
    )


def places_of(computed: ComputedGuide) -> dict[int, int]:
    """The place of each step among the steps of all variants, from 0, by its number in this one."""
    every = enumerate(computed.guide.steps)
    return {row.n: next(at for at, step in every if step is row.step) for row in computed.scheme.steps}


def flow(scope: StepContext) -> tuple[StepView | StopView, ...]:
    """Steps and stops in order."""
    computed = scope.computed
    places = places_of(computed)
    anchors = stop_places(stop.name for stop in computed.scheme.stops)
    stops = list(enumerate(zip(computed.scheme.stops, computed.times.stops, anchors, strict=True)))
    shown: list[StepView | StopView] = []

    def halt(after: int) -> None:
        while stops and stops[0][1][0].after <= after:
            at, (stop, times, anchor) = stops.pop(0)
            run = scope.line.after.get(stop.after, Markup())
            shown.append(_stop(f"stop{at}", anchor, stop.name, times.times, scope, run))

    halt(0)
    for row in computed.scheme.steps:
        shown.append(_step(row, places[row.n], scope))
        halt(row.n)
    return tuple(shown)


def _stop(key: str, anchor: str, name: str, times: Times, scope: StepContext, run: Markup) -> StopView:
    language = scope.context.language
    return StopView(
        name=name,
        anchor=anchor,
        key=key,
        clock=language.clock(times.last_stroke),
        hands_on=length(times.hands_on, language),
        total=length(times.total, language),
        run=run,
    )


def _step(row: SchemeStep, place: int, scope: StepContext) -> StepView:
    step, context, language = row.step, scope.context, scope.context.language
    on_clock = scope.line.steps[row.n]
    label = technique_label(row, language)
    known = is_known(step.technique) and bool(step.technique)
    return StepView(
        n=row.n,
        anchor=scope.links[row.n].href.removeprefix("#"),
        title=step.title,
        technique=Link(
            text=label,
            href=context.links.to(technique_place(row.technique.name), scope.page) if known else "",
        ),
        areas="" if row.whole else _listed([area_label(area, language) for area in row.areas]),
        labels=_labels(step, context, scope.page),
        says=_says(step),
        blends=tuple(blend_view(blend, context, scope.page) for blend in row.brushed),
        facts=_facts(row, scope.computed.guide, language),
        starts=language.clock(on_clock.start),
        clock=_clock(on_clock, language),
        wait=_wait(on_clock, scope),
        row=on_clock.row,
        care_run=on_clock.before,
        notes=_notes(step),
        cautions=caution_views(
            (caution for caution in scope.computed.cautions if caution.steps[:1] == (row.n,)), language
        ),
        films=_films(row, scope) if row.technique.role is Role.FILM else (),
        photos=_photos(step, scope),
        html=scope.passages.html(scope.computed.guide.body.under.get(place)),
        substitutes=substitutes(step.instead, context, scope.page),
        spray=row.technique.name in AIRBORNE,
    )


def _notes(step: Step) -> tuple[Fact, ...]:
    notes = (
        ("note.spots", step.spots),
        ("note.mind", step.mind),
        ("note.look-for", step.look_for),
        ("note.if-wrong", step.if_wrong),
        ("note.stray", _listed([area.text for area in step.stray])),
    )
    return tuple(Fact(label=PhraseKey(key), text=text) for key, text in notes if text)


def _photos(step: Step, scope: StepContext) -> tuple[PictureView, ...]:
    views = (scope.context.picture(photo, scope.page, alt=step.title) for photo in step.photos)
    return tuple(view for view in views if view is not None)


def shared_title(name: str) -> str:
    """A shared list's file name as words: it has no other title."""
    words = name.replace("-", " ")
    return words[:1].upper() + words[1:]


def _labels(step: Step, context: SiteContext, page: str) -> tuple[Link, ...]:
    language = context.language
    labels = [language.t("label.only", option=option.text) for option in step.only.values()]
    if step.optional:
        labels.append(language.t("label.optional"))
    links = [Link(text=text, href="") for text in labels]
    if step.shared:
        href = context.links.to(context.shared[step.shared], page) if step.shared in context.shared else ""
        links.append(Link(text=shared_title(step.shared), href=href))
    return tuple(links)


def _says(step: Step) -> PhraseKey | None:
    if step.paint is None or step.paint.use is PaintUse.NONE:
        return PhraseKey("paint.none")
    if step.paint.use is PaintUse.AS_BEFORE:
        return PhraseKey("paint.as-before")
    if step.paint.use is PaintUse.SIDE_BY_SIDE and len(step.paint.parts) > 1:
        return PhraseKey("paint.beside")
    return None


def _facts(row: SchemeStep, guide: Guide, language: Language) -> tuple[Fact, ...]:
    """What there is to know of a step in few words; a handbook's takes no time."""
    step = row.step
    film = guide.video.text if guide.video else ""
    thin = step.thin.text if step.thin else ""
    items = (item.name for item in (*step.materials, *step.tools))
    facts = (
        ("fact.thin", thin),
        ("fact.brush", step.brush),
        ("fact.hands-on", "" if guide.handbook else _hands_on(step, language)),
        ("fact.dry", "" if guide.handbook else _drying(step, language)),
        ("fact.with", _listed(list(items))),
    )
    # A short row leaves times of painting for later, but for the number of coats, and what else may be done meanwhile.
    later = {"fact.hands-on"} if step.coats == 1 else set()
    short = {"fact.dry": language.duration(step.dry.air)} if step.holds_area and not step.rest else {}
    shown = [
        Fact(label=PhraseKey(label), text=text, short=short.get(label, ""), aside=label in later)
        for label, text in facts
        if text
    ]
    if step.at is not None:
        at = PhraseKey("fact.at")
        shown.append(Fact(label=at, text=print_clock(step.at), href=_moment(film, step.at), aside=True))
    return tuple(shown)


def _hands_on(step: Step, language: Language) -> str:
    t = language.t
    each = language.duration(step.each) if step.each else ""
    once = language.duration(step.once) if step.once else ""
    if each and once:
        hands = t("fact.once-each", once=once, each=each)
    elif each:
        hands = t("fact.each-only", each=each)
    else:
        hands = t("fact.once-only", once=once) if once else ""
    if hands and step.coats > 1:
        hands = t("fact.coats", n=step.coats, hands=hands)
    return hands


def _drying(step: Step, language: Language) -> str:
    t, dry = language.t, ""
    if step.dry.air:
        dry = language.duration(step.dry.air)
        if step.dry.warm is not None:
            dry = t("fact.dry-warm", air=dry, warm=language.duration(step.dry.warm))
        if step.holds_area:
            dry = t("fact.holds-area", dry=dry)
    if step.rest:
        dry = t("fact.rest-after", dry=dry) if dry else t("fact.rest")
    return dry


# What a film's file is called at its end; any other address is a page that shows one.
FILM_FILES = (".mp4", ".m4v", ".webm", ".ogv", ".ogg", ".mov", ".mkv")


def _moment(film: str, at: int) -> str:
    """Where a film's file is so far on, ms: a temporal fragment in seconds (W3C Media Fragments URI 1.0, 4.2.1)."""
    path = film.partition("#")[0]
    if not path.partition("?")[0].casefold().endswith(FILM_FILES):
        return ""
    return f"{path}#t={at / 1000:g}"


def _clock(row: TimelineStep, language: Language) -> str:
    start, end, dry = (language.clock(at) for at in (row.start, row.end, row.dry))
    key = "clock.dry" if row.dry > row.end else "clock.span"
    return language.t(key, start=start, end=end, dry=dry)


def _wait(row: TimelineStep, scope: StepContext) -> WaitView | None:
    if row.wait is None or row.pause is None:
        return None
    return WaitView(
        length=length(row.wait.length, scope.context.language),
        dries=scope.links[row.wait.dries].text,
        pause=row.pause,
    )


def _films(row: SchemeStep, scope: StepContext) -> tuple[FilmView, ...]:
    """Before and after for each different ground that lies under the film, areas of one ground together."""
    grounds: dict[tuple[ReliefView, ReliefView], list[str]] = {}
    for area in row.areas:
        states = scope.computed.states.get(area, ())
        at = next((at for at, state in enumerate(states) if state.n == row.n), 0)
        before = relief_of(states[at - 1]) if at else None
        after = relief_of(states[at]) if states else None
        if before is not None and after is not None and before != after:
            grounds.setdefault((before, after), []).append(area_label(area, scope.context.language))
    return tuple(
        FilmView(areas=_listed(areas), before=before, after=after)
        for (before, after), areas in grounds.items()
    )


def substitutes(instead: Sequence[Instead], context: SiteContext, page: str) -> tuple[SubstituteView, ...]:
    """The author's own substitutes, without those that the palette lacks."""
    views = []
    for item in instead:
        blend = blend_of(item.parts, context.palette_tools.palette)
        if blend is not None:
            view = blend_view(blend, context, page)
            views.append(SubstituteView(blend=view, note=item.note, by_author=True))
    return tuple(views)


def caution_views(cautions: Iterable[Caution], language: Language) -> tuple[CautionView, ...]:
    """Cautions as pages show them: what the labels of the same pots say stands together."""
    views: dict[object, CautionView] = {}
    for caution in cautions:
        key = caution if caution.label is None else caution.paints
        said = views[key].statements if key in views else ()
        views[key] = CautionView(
            subject=caution_subject(caution, language),
            statements=(*said, (caution.code or "", caution_words(caution, language))),
            source=caution_source(caution, language),
            paints=caution.paints,
        )
    return tuple(views.values())


def _listed(names: Sequence[str]) -> str:
    kept: dict[str, str] = {}
    for name in names:
        kept.setdefault(folded(name), name)
    return ", ".join(kept.values())
