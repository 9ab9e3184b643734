"""Advice on the order of steps, area by area: which layer goes over which is common practice, no source."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.suggest import folded
from guidegen.checking.case import GuideCase, called_in_full, guide_note
from guidegen.computing.guide.contrast import SHADING
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.model.paint import Kind, Paint
from guidegen.model.technique import Role


@dataclass(slots=True)
class _Area:
    """The steps that count for what may follow on an area: its last coat, highlight, metal and varnish."""

    coat: SchemeStep | None = None
    highlight: SchemeStep | None = None
    highlight_on_a_coat: bool = False
    metal: SchemeStep | None = None
    varnish: SchemeStep | None = None


def in_order(case: GuideCase) -> Iterator[Diagnostic]:
    """steps-out-of-order: each step told once, with the first of its areas for which that is so."""
    diagnosed: set[int] = set()
    for scheme in case.schemes:
        areas = {area: _Area() for area in scheme.areas}
        for step in scheme.steps:
            for area in step.areas:
                for late, sentence, help_line in _wrong(step, area, areas[area]):
                    if id(late.step) not in diagnosed:
                        diagnosed.add(id(late.step))
                        yield Diagnostic(
                            code="steps-out-of-order",
                            message=f"{called_in_full(case, late.step)} {sentence}.",
                            span=late.step.span,
                            help=f"{help_line} If it is meant, say so: meant: [steps-out-of-order].",
                            notes=guide_note(case, late.step),
                        )
                _lay(step, areas[area])


def _wrong(step: SchemeStep, area: str, before: _Area) -> Iterator[tuple[SchemeStep, str, str]]:
    """A step that stands in the wrong place, what is wrong with it, and what to do."""
    name = step.technique.name
    if _is_undercoat(step) and before.coat is not None:
        yield (
            step,
            f"is an undercoat over “{area}”, which has its coat by then (“{before.coat.step.title}”)",
            f"Move it above “{before.coat.step.title}”, or name the areas that it is for.",
        )
    elif folded(step.step.technique) == "basecoat" and step.brushed and before.highlight is not None:
        first, title = before.highlight, step.step.title
        if before.highlight_on_a_coat:
            yield (
                step,
                f"is a base coat over “{area}” and hides its highlight (“{first.step.title}”)",
                f"Move it above “{first.step.title}”, or call it a layer if it leaves the edges.",
            )
        else:
            yield (
                first,
                f"highlights “{area}” before its base coat (“{title}”), which will hide it",
                f"Move it below “{title}”.",
            )
    elif _is_varnish(step, "matt") and before.metal is not None:
        yield (
            step,
            f"puts a matt varnish over the metal of “{area}” (“{before.metal.step.title}”) and dulls it",
            f"Move “{before.metal.step.title}” below it, or name the areas that it is for.",
        )
    elif name in SHADING and before.varnish is not None:
        yield (
            before.varnish,
            f"varnishes “{area}” before its wash (“{step.step.title}”), which takes hold less well then",
            f"Move it below “{step.step.title}”, or use a gloss varnish if the wash is to run on it.",
        )


def _lay(step: SchemeStep, area: _Area) -> None:
    """Note what a step leaves on an area."""
    if not step.brushed or _is_undercoat(step):
        return
    if _is_varnish(step):
        area.varnish = None if _is_varnish(step, "gloss") else step
    elif step.technique.role is Role.COVER:
        area.coat, area.highlight, area.varnish = step, None, None
        area.metal = step if Kind.METALLIC in step.kinds else None
    elif step.technique.role is Role.EDGES:
        area.highlight, area.highlight_on_a_coat = step, area.coat is not None
        area.metal = step if Kind.METALLIC in step.kinds else area.metal


def _is_undercoat(step: SchemeStep) -> bool:
    return step.kinds == {Kind.PRIMER}


def _is_varnish(step: SchemeStep, finish: str = "") -> bool:
    """Whether all that is brushed on is varnish, of that finish if one is given."""
    return bool(step.pots) and all(
        isinstance(pot, Paint) and pot.kind is Kind.VARNISH and finish in {"", pot.finish}
        for pot in step.pots
    )
