"""Rules on names of paints: every one has to be a pot of the palette, and on the shelf of some shop."""

from __future__ import annotations

from collections.abc import Iterator

from guidegen.base.diagnostic import Diagnostic, Related
from guidegen.base.suggest import MOST_SLIPS, folded
from guidegen.checking.case import GuideCase, called, called_in_full, quoted_name
from guidegen.computing.colour.blend import Blend, BlendPart, find_pot, ingredients
from guidegen.model.guide import PaintUse, Step
from guidegen.model.names import Name
from guidegen.model.paint import Paint
from guidegen.reading.content.palette_names import astray

# What painters write in English and German where no paint is used, or that of the step before.
_WORDS_FOR = {
    **dict.fromkeys(
        map(folded, ("nothing", "no paint", "no colour", "nichts", "keine", "keine Farbe")), PaintUse.NONE
    ),
    **dict.fromkeys(
        map(folded, ("same", "the same", "same again", "same as above", "as above", "same as before", "ditto",
                     "wie oben", "wie vorher", "wie zuvor", "dieselbe", "die gleiche")),
        PaintUse.AS_BEFORE,
    ),
}  # fmt: skip


def names_of(step: Step) -> Iterator[tuple[str, Name]]:
    """Every name of a paint in a step, and what the step does with it: its own paints, then the substitutes."""
    if step.paint is not None:
        for part in step.paint.parts:
            yield "paints with", part.name
    for other in step.instead:
        for part in other.parts:
            yield "names as a substitute", part.name


def known_paints(case: GuideCase) -> Iterator[Diagnostic]:
    """unknown-paint and ambiguous-paint: each name has to lead to one pot."""
    palette = case.palette
    slips = 0
    for step in case.guide.steps:
        who = called(case, step)
        named = list(names_of(step))
        beside = [name for _, name in named]
        for does, name in named:
            found = palette.find(name.text)
            slips += found is None
            guess = slips <= MOST_SLIPS
            begin = f"{who} {does}"
            if found is None and palette.whole and (use := _use_meant(step, name)):
                yield Diagnostic(
                    code="unknown-paint",
                    message=f"{begin} “{name.text}”, which is not in the palette.",
                    span=name.span,
                    help=f"Write {use}.",
                )
                continue
            yield from astray(name, found, palette, begin, whole=palette.whole, guess=guess, beside=beside)


def _use_meant(step: Step, name: Name) -> PaintUse | None:
    """Whether a name that is all a step paints with says that it takes no paint, or the one before."""
    alone = step.paint is not None and [part.name for part in step.paint.parts] == [name]
    return _WORDS_FOR.get(folded(name.text)) if alone else None


def paint_is_said(case: GuideCase) -> Iterator[Diagnostic]:
    """no-paint: only where the key is left out; what could not be read has been said already."""
    for step in case.guide.steps:
        if step.paint is None and "paint" not in step.places.keys() | step.unread:
            yield Diagnostic(
                code="no-paint",
                message=f"{called_in_full(case, step)} does not say what it paints with.",
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
    still_sold = case.palette_tools.matcher.closest_still_sold(paint)[:1]
    used = (
        paint.full_name
        if isinstance(find_pot(case.palette, name), Paint)
        else f"{quoted_name(name)}, made with {paint.full_name}"
    )
    return Diagnostic(
        code="discontinued-paint",
        message=f"{called(case, step)} uses {used}, which is no longer sold.",
        span=name.span,
        help=f"Name {still_sold[0].paint.full_name} as instead: it is the closest still sold."
        if still_sold
        else "Name another as instead, for readers who don't own it.",
        related=(Related(span=paint.span, message="says that it is discontinued."),),
    )
