"""Rules on names of paints: every one has to be a pot of the palette, and on the shelf of some shop."""

from __future__ import annotations

from collections.abc import Iterator

from guidegen.base.diagnostic import Diagnostic, Related
from guidegen.checking.case import GuideCase, numbered, said
from guidegen.computing.scheme import Blend, BlendPart, find_pot, ingredients
from guidegen.model.guide import Step
from guidegen.model.names import Name
from guidegen.model.paint import Ambiguous, Paint, Palette


def names_of(step: Step) -> Iterator[Name]:
    """Every name of a paint in a step: what it paints with, then the author's substitutes."""
    if step.paint is not None:
        for part in step.paint.parts:
            yield part.name
    for other in step.instead:
        for part in other.parts:
            yield part.name


def known_paints(case: GuideCase) -> Iterator[Diagnostic]:
    """unknown-paint and ambiguous-paint: each name has to lead to one pot."""
    for number, step in enumerate(case.guide.steps, 1):
        for name in names_of(step):
            found = case.palette.find(name.text)
            if found is None:
                yield unknown_paint(
                    name,
                    case.palette,
                    f"Step {number} paints with {said(name)}, which is not in the palette.",
                )
            elif isinstance(found, Ambiguous):
                yield _ambiguous(number, name, found)


def unknown_paint(name: Name, palette: Palette, message: str) -> Diagnostic:
    """A name that no pot has, with the nearest that one has."""
    near = palette.nearest(name.text)
    if near is None:
        return Diagnostic(
            code="unknown-paint", message=message, span=name.span, help=f"Add {name.text} to the palette."
        )
    return Diagnostic(
        code="unknown-paint",
        message=message,
        span=name.span,
        help=f"Write {near.name}, or add {name.text} to the palette.",
        related=(Related(span=near.span, message=f"has “{near.name}”."),),
    )


def _ambiguous(number: int, name: Name, found: Ambiguous) -> Diagnostic:
    labels = [pot.full_name for pot in found.found]
    return Diagnostic(
        code="ambiguous-paint",
        message=f"Step {number} paints with {said(name)}, which could be {' or '.join(labels)}.",
        span=name.span,
        help=f"Write the one you mean in full, for instance {labels[0]}.",
        related=tuple(Related(span=pot.span, message=f"has “{pot.full_name}”.") for pot in found.found),
    )


def paint_is_said(case: GuideCase) -> Iterator[Diagnostic]:
    """no-paint: only where the key is left out; what could not be read has been said already."""
    for number, step in enumerate(case.guide.steps, 1):
        if step.paint is None and "paint" not in step.places:
            yield Diagnostic(
                code="no-paint",
                message=f"Step {number}, “{step.title}”, does not say what it paints with.",
                span=step.span,
                help="Add paint: and a name, or paint: none where no paint is used.",
            )


def discontinued(case: GuideCase) -> Iterator[Diagnostic]:
    """discontinued-paint: unless the author has named a substitute."""
    for _, painted in case.painted():
        step = painted.step
        if step.instead or step.paint is None:
            continue
        for part in step.paint.parts:
            pot = find_pot(case.palette, part.name)
            if pot is None:
                continue
            for ingredient in ingredients(Blend((BlendPart(pot, 1.0),)), case.palette):
                if ingredient.paint.discontinued:
                    yield _discontinued(case, step, part.name, ingredient.paint)


def _discontinued(case: GuideCase, step: Step, name: Name, paint: Paint) -> Diagnostic:
    living = case.workshop.matcher.closest_living(paint)[:1]
    used = (
        paint.full_name
        if isinstance(find_pot(case.palette, name), Paint)
        else f"{said(name)}, made with {paint.full_name}"
    )
    return Diagnostic(
        code="discontinued-paint",
        message=f"Step {numbered(case, step)} uses {used}, which is no longer sold.",
        span=name.span,
        help=f"Name {living[0].paint.full_name} as instead: it is the closest still sold."
        if living
        else "Name another as instead, for readers who don't own it.",
        related=(Related(span=paint.span, message="says that it is discontinued."),),
    )
