"""Advice on light and dark, against what lies there by then, washes and all, not against the pot."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, floor

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Span
from guidegen.base.suggest import folded
from guidegen.checking.case import GuideCase, called, guide_note, span_of
from guidegen.computing.guide.area_states import area_states
from guidegen.computing.guide.colour_families import Family
from guidegen.computing.guide.contrast import (
    LEAST_HIGHLIGHT,
    Contrast,
    highlight_contrast,
    looked_at,
    shade_contrast,
)
from guidegen.computing.guide.dark_ground import dark_grounds
from guidegen.computing.guide.scheme import Scheme, SchemeStep


def light_and_dark(case: GuideCase) -> Iterator[Diagnostic]:
    """highlight-too-close, highlight-darker and shade-lighter: each step told once, by its worst area."""
    diagnosed: set[int] = set()
    mixer = case.palette_tools.mixer
    for scheme in case.schemes:
        states = {
            area: those
            for area, those in area_states(scheme, mixer, looked_at(scheme)).items()
            if folded(area) not in case.misnamed
        }
        highlights = [c for area, those in states.items() for c in highlight_contrast(area, those)]
        shades = [c for area, those in states.items() for c in shade_contrast(area, those, mixer)]
        for step, worst in _worst(scheme, highlights, diagnosed, lightest=False):
            if worst.gain < LEAST_HIGHLIGHT:
                diagnosed.add(id(step.step))
                yield _highlight(case, step, worst)
        for step, worst in _worst(scheme, shades, diagnosed, lightest=True):
            if worst.gain > 0:
                diagnosed.add(id(step.step))
                yield _shade(case, step, worst)


def dark_ground(case: GuideCase) -> Iterator[Diagnostic]:
    """dark-ground: what covers badly, straight over a dark undercoat."""
    diagnosed: set[int] = set()
    for scheme in case.schemes:
        for found in dark_grounds(scheme, case.palette_tools.mixer):
            step = found.step.step
            if id(step) in diagnosed:
                continue
            diagnosed.add(id(step))
            areas = ", ".join(f"“{area}”" for area in found.areas)
            yield Diagnostic(
                code="dark-ground",
                message=f"{called(case, step)} lays {_NAMES[found.family]} straight over a dark undercoat ({areas}), "
                "which will show through.",
                span=_paint(found.step),
                help="Take a light undercoat, or ochre or pink first, and two coats more.",
                notes=(f"The undercoat has L* {found.under:.1f}.", *guide_note(case, step)),
            )


_NAMES = {Family.YELLOWS: "yellow", Family.REDS: "red", Family.ORANGES: "orange", Family.WHITES: "white"}


def _worst(
    scheme: Scheme, contrasts: list[Contrast], diagnosed: set[int], *, lightest: bool
) -> Iterator[tuple[SchemeStep, Contrast]]:
    for step in scheme.steps:
        of_step = [contrast for contrast in contrasts if contrast.n == step.n]
        if of_step and id(step.step) not in diagnosed:
            of_step.sort(key=lambda contrast: contrast.gain, reverse=lightest)
            yield step, of_step[0]


def _highlight(case: GuideCase, step: SchemeStep, contrast: Contrast) -> Diagnostic:
    if contrast.gain < 0:
        return Diagnostic(
            code="highlight-darker",
            message=f"{called(case, step.step)} highlights “{contrast.area}” with a paint {_at_least(-contrast.gain):g} L* darker than what is there by then.",
            span=_paint(step),
            help="Use a lighter paint, or mix a light one into it.",
            notes=(_lightnesses(contrast), *guide_note(case, step.step)),
        )
    return Diagnostic(
        code="highlight-too-close",
        message=f"{called(case, step.step)} highlights “{contrast.area}” only {floor(contrast.gain * 10) / 10:g} L* lighter than what is there by then.",
        span=_paint(step),
        help=f"Use a lighter paint: {LEAST_HIGHLIGHT:g} L* is the least that shows.",
        notes=(_lightnesses(contrast), *guide_note(case, step.step)),
    )


def _shade(case: GuideCase, step: SchemeStep, contrast: Contrast) -> Diagnostic:
    return Diagnostic(
        code="shade-lighter",
        message=f"{called(case, step.step)} washes “{contrast.area}” with a wash {_at_least(contrast.gain):g} L* "
        "lighter than what is there by then.",
        span=_paint(step),
        help="Use a darker wash, or call it a glaze if it is meant to tint.",
        notes=(_lightnesses(contrast), *guide_note(case, step.step)),
    )


def _at_least(difference: float) -> float:
    """A difference to one decimal, and never nought where there is one."""
    return ceil(difference * 10) / 10


def _lightnesses(contrast: Contrast) -> str:
    return f"L* {contrast.under:.1f} lies there; what goes on has L* {contrast.laid:.1f}."


def _paint(step: SchemeStep) -> Span:
    return span_of(step.step, "paint")
