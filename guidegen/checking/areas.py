"""Rules on areas: the steps, the chart and what stays bare have to speak of the same ones."""

from __future__ import annotations

from collections.abc import Iterator

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Span
from guidegen.base.suggest import folded, nearest
from guidegen.checking.case import GuideCase, called, guide_note, quoted_name, span_of
from guidegen.computing.guide.scheme import WHOLE, SchemeStep
from guidegen.model.guide import PaintUse
from guidegen.model.names import Name
from guidegen.model.paint import Kind
from guidegen.model.technique import UNDERCOATS, Role


def chart_has_areas(case: GuideCase) -> Iterator[Diagnostic]:
    """chart-without-areas: no shape of the figure chart names an area."""
    if case.chart_areas is not None and not case.chart_areas:
        yield Diagnostic(
            code="chart-without-areas",
            message="No shape of the figure chart says which area it is, so no step can colour it.",
            span=Span.of_file(case.guide.chart or case.guide.file),
            help='Give each shape its area, as in data-area="coat".',
        )


def areas_of_chart(case: GuideCase) -> Iterator[Diagnostic]:
    """unknown-area: a step, or leave, names an area for which the chart has no shape."""
    if not case.chart_areas:
        return
    known = {folded(area): area for area in case.chart_areas}
    named: list[tuple[str, Name, tuple[str, ...]]] = [
        (called(case, step), area, guide_note(case, step))
        for step in case.guide.steps
        for area in (*step.areas, *step.stray)
    ]
    named += [("leave", area, ()) for area in case.guide.leave]
    diagnosed: set[str] = set()
    for who, area, notes in named:
        key = folded(area.text)
        if key in known or key in diagnosed:
            continue
        diagnosed.add(key)
        near = nearest(area.text, case.chart_areas)
        yield Diagnostic(
            code="unknown-area",
            message=f"{who} names the area {quoted_name(area)}, for which the figure chart has no shape.",
            span=area.span,
            help=f"Write {near}." if near else f"The chart has {', '.join(sorted(case.chart_areas))}.",
            notes=notes,
        )


def areas_are_painted(case: GuideCase) -> Iterator[Diagnostic]:
    """unpainted-area: only undercoat ever gets there, and leave does not say that this is meant."""
    if not case.guide.steps:
        return
    areas = dict.fromkeys(area for scheme in case.schemes for area in scheme.areas if area != WHOLE)
    meant = {
        area: _meant(area, case.chart_areas) for area in (*areas, *(area.text for area in case.guide.leave))
    }
    named = {folded(area): area for area in case.chart_areas or ()}
    for area in areas:
        named.setdefault(meant[area], area)
    painted = set(case.misnamed)
    for _, step in case.painted():
        if _paints(step) or _is_unclear(step):
            if step.whole:
                return
            painted |= {meant[area] for area in step.areas}
            painted |= case.areas_meant(map(folded, step.areas))
    left = {meant[area.text] for area in case.guide.leave}
    for key, area in named.items():
        if key not in painted and key not in left:
            yield Diagnostic(
                code="unpainted-area",
                message=f"Only undercoat gets onto the area “{area}”."
                if area in areas
                else f"No step paints the area “{area}”.",
                span=_where(case, key),
                help=f"Add a step for it, or add leave: [{area}] to the guide if it stays as undercoat.",
            )


def areas_are_spelt(case: GuideCase) -> Iterator[Diagnostic]:
    """area-near-another: an area that surely is meant for another of the guide, or for several in one."""
    for one in case.misnamed.values():
        yield Diagnostic(code="area-near-another", message=one.message, span=one.area.span, help=one.help)


def areas_are_covered(case: GuideCase) -> Iterator[Diagnostic]:
    """area-never-covered: it gets what goes over a coat, and never one."""
    left = {folded(area.text) for area in case.guide.leave}
    covered: set[str] = set()
    over: dict[str, SchemeStep] = {}
    for _, step in case.painted():
        keys = {folded(area) for area in step.areas}
        keys |= case.areas_meant(keys)
        if _is_unclear(step) or step.technique.name == "stain" or (_covers(step) and step.brushed):
            if step.whole:
                return
            covered |= keys
        elif step.brushed and not step.whole and step.technique.role in {Role.FILM, Role.EDGES}:
            for key in keys:
                over.setdefault(key, step)
    for key, step in over.items():
        if (
            key in covered
            or key in case.misnamed
            or key in left
            or (case.chart_areas and key not in map(folded, case.chart_areas))
        ):
            continue
        area = next(area for area in step.step.areas if folded(area.text) == key)
        yield Diagnostic(
            code="area-never-covered",
            message=f"{called(case, step.step)} goes over {quoted_name(area)}, which never gets a coat.",
            span=area.span,
            help=f"Add a base coat for {area.text}, or correct the name. If it is meant, say so: "
            "meant: [area-never-covered].",
            notes=guide_note(case, step.step),
        )


def _covers(step: SchemeStep) -> bool:
    """Whether it is a coat of paint, and not of primer."""
    return step.technique.role is Role.COVER and step.kinds != {Kind.PRIMER}


def _meant(area: str, chart_areas: frozenset[str] | None) -> str:
    """An area's name as it is compared: that of the chart's area where it is a slip of the pen for one.

    So one slip is not told as an area that nobody paints as well.
    """
    known = {folded(other) for other in chart_areas or ()}
    if not known or folded(area) in known:
        return folded(area)
    return folded(nearest(area, chart_areas or ()) or area)


def _paints(step: SchemeStep) -> bool:
    """Whether it lays paint, film or highlight, and not only an undercoat."""
    if step.technique.role not in {Role.COVER, Role.FILM, Role.EDGES} or not step.brushed:
        return False
    return step.technique.name not in UNDERCOATS and step.kinds != {Kind.PRIMER}


def _is_unclear(step: SchemeStep) -> bool:
    """Whether a step is meant to paint, but what with could not be found out, which has been told."""
    choice = step.step.paint
    if choice is None:
        return True
    return choice.use in {PaintUse.SIDE_BY_SIDE, PaintUse.MIXED} and not step.brushed


def _where(case: GuideCase, key: str) -> Span:
    """Where a step first names an area, by its folded name; else where the guide names its figure."""
    for step in case.guide.steps:
        for area in step.areas:
            if folded(area.text) == key:
                return area.span
    return span_of(case.guide, "figure")
