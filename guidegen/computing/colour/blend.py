"""What is on the brush: one pot, or several mixed in parts, and the paints that it breaks down to."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.model.names import Name, Part
from guidegen.model.paint import DEEPEST_MIX, Ambiguous, Mix, Paint, Palette


@dataclass(frozen=True, slots=True)
class Ingredient:
    """A palette paint and its part of a blend; the parts of a blend's ingredients sum to 1."""

    paint: Paint
    share: float


@dataclass(frozen=True, slots=True)
class BlendPart:
    """A pot and its parts as written; a touch counts 0.1."""

    pot: Paint | Mix
    amount: float
    touch: bool = False

    def __hash__(self) -> int:
        """By the pot's name alone, since all that is known of a pot takes long to go through."""
        return hash((self.pot.name, self.amount, self.touch))


@dataclass(frozen=True, slots=True)
class Blend:
    """What is on the brush: one pot, or several mixed in parts."""

    parts: tuple[BlendPart, ...]

    @property
    def pot(self) -> Paint | Mix | None:
        """The one pot it is, None for an inline mixture."""
        return self.parts[0].pot if len(self.parts) == 1 else None


def find_pot(palette: Palette, name: Name) -> Paint | Mix | None:
    """The pot a name means, None where it is unknown or ambiguous: checking says which."""
    found = palette.find(name.text)
    return None if isinstance(found, Ambiguous) else found


def blend_of(parts: Iterable[Part], palette: Palette) -> Blend | None:
    """The blend of some parts, without those that the palette lacks; None if none is left."""
    found = [(part, find_pot(palette, part.name)) for part in parts]
    kept = tuple(BlendPart(pot, part.amount, part.touch) for part, pot in found if pot is not None)
    return Blend(kept) if kept else None


def is_by_eye(blend: Blend, palette: Palette) -> bool:
    """Whether the colour of a paint that goes into it is known by eye only, so that an estimate is further off."""
    return any(one.paint.colour_from == "eye" for one in ingredients(blend, palette))


# What each mix is made of in the end, by its id: paints by theirs, with their shares.
Broken = dict[int, dict[int, Ingredient]]


def ingredients(
    blend: Blend, palette: Palette, *, touch: float | None = None, known: Broken | None = None
) -> tuple[Ingredient, ...]:
    """The palette paints of a blend, mixes broken down, in the order first met; shares sum to 1.

    A mix inside a mix is replaced by its own paints scaled to sum 1, so it weighs its parts and no more. `touch` is
    what a touch counts here, its own amount where that is left out. What is found out about mixes is added to `known`,
    for the next call with this palette and touch: mixes of mixes would else be broken down once for each blend.
    """
    only = blend.parts[0].pot
    if len(blend.parts) == 1 and isinstance(only, Paint):  # nearly every blend, and the same there
        return (Ingredient(only, 1.0),)
    known = {} if known is None else known
    open_mixes: set[int] = set()

    def poured(parts: tuple[BlendPart, ...]) -> dict[int, Ingredient]:
        amounts = [touch if part.touch and touch is not None else part.amount for part in parts]
        total = math.fsum(amounts)
        shares: dict[int, Ingredient] = {}
        for part, amount in zip(parts, amounts, strict=True):
            for key, one in of_pot(part.pot).items():
                before = shares[key].share if key in shares else 0.0
                shares[key] = Ingredient(one.paint, before + one.share * amount / total)
        return shares

    def of_pot(pot: Paint | Mix) -> dict[int, Ingredient]:
        if isinstance(pot, Paint):
            return {id(pot): Ingredient(pot, 1.0)}
        if id(pot) not in known:
            if id(pot) in open_mixes or len(open_mixes) >= DEEPEST_MIX:
                return {}
            open_mixes.add(id(pot))
            inner = blend_of(pot.parts, palette)
            known[id(pot)] = poured(inner.parts) if inner else {}
            open_mixes.remove(id(pot))
        return known[id(pot)]

    shares = poured(blend.parts)
    total = math.fsum(one.share for one in shares.values())
    return tuple(Ingredient(one.paint, one.share / total) for one in shares.values()) if total else ()
