"""Advice on colours that are guessed and yet reckoned with: a printed card would measure them."""

from __future__ import annotations

from collections.abc import Iterator

from guidegen.base.diagnostic import Diagnostic, Related
from guidegen.base.listed import list_of_words
from guidegen.base.source import Span
from guidegen.computing.colour.blend import blend_of, find_pot
from guidegen.model.guide import PaintChoice, PaintUse, Step
from guidegen.model.paint import COLOURLESS, Kind, Mix, Paint, Palette
from guidegen.model.site import Archive

_MOST_NAMED = 6
# Kinds that no mixture's colour is worked out of.
_NOT_PREDICTED = COLOURLESS | {Kind.METALLIC}


def card_would_help(archive: Archive) -> Iterator[Diagnostic]:
    """card-would-help: steps mix paints whose colours are by eye, or of which nobody says; told once for a palette."""
    guessed: dict[str, tuple[Paint, Span]] = {}
    for guide in archive.guides:
        for step in guide.entries:
            if isinstance(step, Step) and step.paint is not None:
                for paint, span in _mixed(step.paint, archive.palette):
                    if paint.colour_from in ("", "eye") and paint.colour is not None:
                        guessed.setdefault(paint.full_name, (paint, span))
    if not guessed:
        return
    names = list(guessed)
    first, span = guessed[names[0]]
    more = [f"{len(names) - _MOST_NAMED} more"] if len(names) > _MOST_NAMED else []
    eye = all(paint.colour_from == "eye" for paint, _ in guessed.values())
    yield Diagnostic(
        code="card-would-help",
        message=f"Guides mix {list_of_words([*names[:_MOST_NAMED], *more])}, whose {'colour is' if len(names) == 1 else 'colours are'} "
        + ("by eye." if eye else "by eye or from nobody knows where."),
        span=first.places.get("colour", first.span),
        help="Print a card with guidegen card, paint and photograph it; or say colour_from: maker where the maker gives it.",
        related=(Related(span=span, message="is mixed here."),),
    )


def _mixed(choice: PaintChoice, palette: Palette) -> Iterator[tuple[Paint, Span]]:
    """The paints that go into a mixture whose colour has to be worked out, and where it is asked for."""
    pots = [(find_pot(palette, part.name), part.name.span) for part in choice.parts]
    if choice.use is PaintUse.MIXED:
        for pot, span in pots:
            if isinstance(pot, Paint) and pot.kind not in _NOT_PREDICTED:
                yield pot, span
    for pot, span in pots:
        blend = blend_of(pot.parts, palette) if isinstance(pot, Mix) and pot.colour is None else None
        for part in blend.parts if blend is not None else ():
            if isinstance(part.pot, Paint) and part.pot.kind not in _NOT_PREDICTED:
                yield part.pot, span
