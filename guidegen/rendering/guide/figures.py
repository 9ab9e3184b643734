"""The pictures that a guide's figure chart gives it: one after each step, and the finished one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from markupsafe import Markup

from guidegen.base.paths import slug
from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.model.chart import Chart
from guidegen.model.guide import Guide
from guidegen.model.technique import Role
from guidegen.rendering.guide.chart_pictures import (
    Drawing,
    again,
    body_of,
    drawing_of,
    outlines,
    picture,
    shapes,
    small,
    standalone,
    states_after,
)
from guidegen.rendering.page.site_context import SiteContext
from guidegen.words.language import Language

# The finished figure as a file beside the guide, for its card and for others to take along.
FILE = "figure.svg"


@dataclass(frozen=True, slots=True, kw_only=True)
class FiguresView:
    """`shapes` stands once in the page, before any picture; `steps` by step number, each step's areas outlined, without
    those that show nothing new; `small` the same for the contact sheet, `befores` what lay there before a film.
    `finished` is all of them done, and `file` the link to it as a file of its own.
    """

    shapes: Markup = field(default_factory=Markup)
    steps: Mapping[int, Markup] = field(default_factory=dict)
    small: Mapping[int, Markup] = field(default_factory=dict)
    befores: Mapping[int, Markup] = field(default_factory=dict)
    finished: Markup = field(default_factory=Markup)
    title: str = ""
    file: str = ""


def figures_view(computed: ComputedGuide, context: SiteContext) -> FiguresView:
    """The pictures of a guide, none for a guide without a chart."""
    drawing = _drawing(computed, context)
    if drawing is None:
        return FiguresView()
    steps: dict[int, Markup] = {}
    thumbs: dict[int, Markup] = {}
    befores: dict[int, Markup] = {}
    plain = body_of(drawing, {})
    for row in computed.scheme.steps:
        states, before = states_after(computed.states, row.n), plain
        plain = body_of(drawing, states)
        areas = () if row.whole else row.areas
        outlined = plain + outlines(drawing, areas)
        thumbs[row.n] = small(drawing, outlined)
        # What is done to everything and changes no colour shows what the picture before it shows.
        if not row.laid or (row.whole and plain == before):
            continue
        steps[row.n] = _after(row, drawing, outlined, context)
        film = row.technique.role is Role.FILM
        if film or not row.step.photos:
            thumbs[row.n] = small(drawing, again(_key(row)))
        if film:
            befores[row.n] = small(drawing, before)
    title = context.language.t("figure.finished", guide=computed.guide.title)
    return FiguresView(
        shapes=shapes(drawing),
        steps=steps,
        small=thumbs,
        befores=befores,
        finished=_finished(computed, drawing, title, context.language),
        title=title,
        file=FILE,
    )


def _finished(computed: ComputedGuide, drawing: Drawing, title: str, language: Language) -> Markup:
    body = body_of(drawing, states_after(computed.states, len(computed.scheme.steps)), marked=True)
    description = _what_it_shows(computed.guide, drawing.chart, language)
    return picture(drawing, body, key="fig-end", title=title, description=description)


def bench_figures(
    computed: ComputedGuide, context: SiteContext, figures: FiguresView, inside: str = ""
) -> dict[int, Markup]:
    """A picture for every step, `figures` being those of the guide's page; none without a chart.

    `inside` begins what they are found by where they stand on the guide's page too.
    """
    drawing = _drawing(computed, context)
    if drawing is None:
        return {}
    steps = computed.scheme.steps
    return {
        row.n: (not inside and figures.steps.get(row.n))
        or _after(row, drawing, _outlined(row, drawing, computed), context, inside)
        for row in steps
    }


def _outlined(row: SchemeStep, drawing: Drawing, computed: ComputedGuide) -> str:
    """The drawing after a step, with what the step has changed outlined, but for what it does to everything."""
    areas = () if row.whole else row.areas
    return body_of(drawing, states_after(computed.states, row.n)) + outlines(drawing, areas)


def _key(row: SchemeStep) -> str:
    return f"fig-{row.n}"


def _after(row: SchemeStep, drawing: Drawing, inner: str, context: SiteContext, inside: str = "") -> Markup:
    return picture(
        drawing,
        inner,
        key=inside + _key(row),
        title=context.language.t("figure.after", n=row.n, step=row.step.title),
        description=_what_changed(row, context),
    )


def finished_file(computed: ComputedGuide, context: SiteContext) -> bytes | None:
    """The finished figure as an SVG file, None for a guide without a chart."""
    drawing = _drawing(computed, context)
    if drawing is None:
        return None
    title = context.language.t("figure.finished", guide=computed.guide.title)
    return standalone(drawing, states_after(computed.states, len(computed.scheme.steps)), title)


def _what_it_shows(guide: Guide, chart: Chart, language: Language) -> str:
    """A starter chart's title in the site's language, that of a drawing of the author's as it is."""
    key = "" if guide.chart or guide.figure is None else f"chart.{slug(guide.figure.text)}"
    return language.t(key) if key in language.phrases else chart.title


def _drawing(computed: ComputedGuide, context: SiteContext) -> Drawing | None:
    chart = context.charts.get(computed.guide.slug)
    return drawing_of(chart, computed.scheme.choice) if chart is not None and chart.areas else None


def _what_changed(row: SchemeStep, context: SiteContext) -> str:
    names = ", ".join(dict.fromkeys(part.pot.name for blend in row.brushed for part in blend.parts))
    where = context.language.t("on.whole") if row.whole else ", ".join(row.areas)
    return f"{names}: {where}" if names else where
