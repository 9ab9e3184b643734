"""The pictures that a guide's figure chart gives it: one after each step, and the finished one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from markupsafe import Markup

from guidegen.base.paths import slug
from guidegen.computing.scheme import SchemeStep
from guidegen.computing.worked import Worked
from guidegen.model.chart import Chart
from guidegen.model.guide import Guide
from guidegen.rendering.chart import Drawing, drawing_of, picture, shapes, standalone, states_after
from guidegen.rendering.desk import Desk
from guidegen.rendering.language import Language

# The finished figure as a file beside the guide, for its card and for others to take along.
FILE = "figure.svg"


@dataclass(frozen=True, slots=True, kw_only=True)
class FiguresView:
    """`shapes` stands once in the page, before any picture; `steps` by step number; `finished` is all of them done,
    and `file` the link to it as a file of its own.
    """

    shapes: Markup = field(default_factory=Markup)
    steps: Mapping[int, Markup] = field(default_factory=dict)
    finished: Markup = field(default_factory=Markup)
    title: str = ""
    file: str = ""


def figures_view(worked: Worked, desk: Desk) -> FiguresView:
    """The pictures of a guide, none for a guide without a chart."""
    drawing = _drawing(worked, desk)
    if drawing is None:
        return FiguresView()
    t = desk.language.t
    steps = {
        row.n: picture(
            drawing,
            states_after(worked.states, row.n),
            key=f"fig-{row.n}",
            title=t("figure.after", n=row.n, step=row.step.title),
            description=_what_changed(row, desk),
        )
        for row in worked.scheme.steps
        if row.laid
    }
    last = len(worked.scheme.steps)
    title = t("figure.finished", guide=worked.guide.title)
    finished = picture(
        drawing,
        states_after(worked.states, last),
        key="fig-end",
        title=title,
        description=_what_it_shows(worked.guide, drawing.chart, desk.language),
    )
    return FiguresView(shapes=shapes(drawing), steps=steps, finished=finished, title=title, file=FILE)


def finished_file(worked: Worked, desk: Desk) -> bytes | None:
    """The finished figure as an SVG file, None for a guide without a chart."""
    drawing = _drawing(worked, desk)
    if drawing is None:
        return None
    title = desk.language.t("figure.finished", guide=worked.guide.title)
    return standalone(drawing, states_after(worked.states, len(worked.scheme.steps)), title)


def _what_it_shows(guide: Guide, chart: Chart, language: Language) -> str:
    """A starter chart's title in the site's language, that of a drawing of the author's as it is."""
    key = "" if guide.chart or guide.figure is None else f"chart.{slug(guide.figure.text)}"
    return language.t(key) if key in language.phrases else chart.title


def _drawing(worked: Worked, desk: Desk) -> Drawing | None:
    chart = desk.charts.get(worked.guide.slug)
    return drawing_of(chart, worked.scheme.choice) if chart is not None and chart.areas else None


def _what_changed(row: SchemeStep, desk: Desk) -> str:
    names = ", ".join(dict.fromkeys(part.pot.name for blend in row.brushed for part in blend.parts))
    where = desk.language.t("on.whole") if row.whole else ", ".join(row.areas)
    return f"{names}: {where}" if names else where
