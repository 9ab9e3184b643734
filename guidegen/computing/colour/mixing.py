"""What colour a mixture will be: Kubelka–Munk over reflectance curves recovered from the chips.

A guess from chips alone. On measured oil paints (see `MIX_ERROR`) it is about a third as far off as averaging the
chips, which makes grey of every mixture; a measured let-down with white brings it nearer still.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from guidegen.computing.colour.blend import (
    Blend,
    BlendPart,
    Broken,
    Ingredient,
    blend_of,
    find_pot,
    ingredients,
)
from guidegen.computing.colour.kubelka_munk import absorption_ratio, lifted, thick_reflectance, unlifted
from guidegen.computing.colour.reflectance import curves_of, linear_of_curves
from guidegen.computing.colour.spaces import Floats, hex_of_linear, lab_of_linear
from guidegen.model.paint import COLOURLESS, DEEPEST_MIX, Kind, LetDown, Mix, Paint, Palette

# Between what a painter may mean by a touch the colour runs from the one to the other.
TOUCH_LOW, TOUCH_HIGH = 0.05, 0.25


class MixError(NamedTuple):
    """How far predictions were from measured mixtures, in CIEDE2000."""

    median: float
    worst_of_twenty: float


# 92 measured mixtures of oil paints predicted from the hex of their parents alone: Geldof et al., Heritage Science 6
# (2018), doi 10.1186/s40494-018-0181-6. A test works the figures out again from tests/reference/oil-mix-cases.csv.
MIX_ERROR = MixError(median=4.6, worst_of_twenty=19.7)

ESTIMATE_WORDS = (
    "an estimate: often 5 off (ΔE00), sometimes 15 or more, worse with a strong white; on 92 measured oil mixtures "
    f"half were within {MIX_ERROR.median:g} and one in twenty was more than {MIX_ERROR.worst_of_twenty:g} off"
)

# A let-down that says a paint scatters a hundred times more or less than white says more about the measuring.
_LEAST_SCATTER, _MOST_SCATTER = 0.01, 100.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Prediction:
    """The colour of what is on the brush, `#rrggbb`, or None and the reason.

    `estimate` tells a worked-out colour from the palette's own; `clipped` that sRGB cannot show it. `touch_low` and
    `touch_high` are given where a part is a touch: the colour with 0.05 and with 0.25 parts of it.
    """

    colour: str | None
    estimate: bool = False
    clipped: bool = False
    reason: str = ""
    touch_low: str | None = None
    touch_high: str | None = None


class Constants(NamedTuple):
    """K and S of one part of a paint, band by band, in units of white's S."""

    absorbs: Floats
    scatters: Floats


def _ratio(colour: str) -> Floats:
    return absorption_ratio(lifted(curves_of([colour])[0]))


def scatter_from_let_down(paint: Floats, let_down: Floats, white: Floats, share: float) -> Floats:
    """S of a paint in units of white's, from three K/S: its own, its let-down's, the white's; `share` its part, 0..1.

    Two-constant theory, K/S of the let-down = (c·K + (1−c)·Kw)/(c·S + (1−c)), solved for S with K = q·S: Duncan,
    "The colour of pigment mixtures", Proceedings of the Physical Society 52 (1940) 390. Kept to 0.01..100.
    """
    gap = share * (paint - let_down)
    solvable = gap > 0.0
    scatter = (1.0 - share) * (let_down - white) / np.where(solvable, gap, 1.0)
    return np.where(solvable, np.clip(scatter, _LEAST_SCATTER, _MOST_SCATTER), _MOST_SCATTER)


def linear_of_mixture(absorbs: NDArray[np.floating[Any]], scatters: NDArray[np.floating[Any]]) -> Floats:
    """Linear sRGB (..., 3) of mixtures with that K and S (..., bands), 36 or evenly fewer; may lie outside 0..1.

    The lift is undone of the three values, not of every band: it is linear, and a curve of ones is white.
    """
    return unlifted(linear_of_curves(thick_reflectance(absorbs / scatters)))


class Mixer:
    """Predicts the colours of mixtures of one palette's pots, remembering each paint and each blend."""

    def __init__(self, palette: Palette) -> None:
        self._palette = palette
        self._constants: dict[tuple[str, LetDown | None, float], Constants] = {}
        self._predictions: dict[Blend, Prediction] = {}
        self._ingredients: dict[Blend, tuple[Ingredient, ...]] = {}
        self._kinds: dict[int, Kind] = {}
        self._broken: dict[float | None, Broken] = {None: {}, TOUCH_LOW: {}, TOUCH_HIGH: {}}

    @property
    def palette(self) -> Palette:
        """The palette it mixes from."""
        return self._palette

    def ingredients(self, blend: Blend) -> tuple[Ingredient, ...]:
        """The palette paints of a blend, mixes broken down."""
        known = self._ingredients.get(blend)
        if known is None:
            known = self._ingredients[blend] = self._broken_down(blend)
        return known

    def _broken_down(self, blend: Blend, touch: float | None = None) -> tuple[Ingredient, ...]:
        return ingredients(blend, self._palette, touch=touch, known=self._broken[touch])

    def of_pot(self, pot: Paint | Mix) -> Prediction:
        """The colour of one pot: the palette's where it has one, else predicted from what is in it."""
        if isinstance(pot, Paint):
            if pot.kind in COLOURLESS:
                return Prediction(colour=None, reason=_NO_COLOUR_OF_THEIR_OWN)
            if pot.colour is None:
                return Prediction(colour=None, reason=f"“{pot.full_name}” has no colour in the palette")
            return Prediction(colour=pot.colour)
        if pot.colour is not None:
            return Prediction(colour=pot.colour)
        return self.predict(Blend((BlendPart(pot, 1.0),)))

    def predict(self, blend: Blend) -> Prediction:
        """The colour of a blend; a measured house mix by itself keeps its measured colour."""
        known = self._predictions.get(blend)
        if known is None:
            pot = _only_pot(blend)
            plain = pot is not None and (isinstance(pot, Paint) or pot.colour is not None)
            known = self.of_pot(pot) if pot is not None and plain else self._mixed(blend)
            self._predictions[blend] = known
        return known

    def kind(self, blend: Blend) -> Kind:
        """What a blend behaves as: a wash if any part is one, else a glaze if any is, else paint."""
        pot = _only_pot(blend)
        return self._kind_of(pot) if pot is not None else self._kind_among(blend)

    def film_strength(self, blend: Blend) -> float:
        """The strength of a blend as a film: Σ parts·strength of what has colour ÷ Σ all parts, or as given."""
        pot = _only_pot(blend)
        if isinstance(pot, Mix) and pot.strength is not None:
            return pot.strength
        return math.fsum(item.share * item.paint.strength for item in _coloured(self.ingredients(blend)))

    def has_metal(self, blend: Blend) -> bool:
        """Whether it glints: a metal paint is in it, or a house mix is said to be one."""
        pot = _only_pot(blend)
        if pot is not None and pot.kind is Kind.METALLIC:
            return True
        return any(item.paint.kind is Kind.METALLIC for item in self.ingredients(blend))

    def has_colour(self, blend: Blend) -> bool:
        """Whether anything in it has a colour, known or not: a varnish, a medium or a thinner by itself has none."""
        pot = _only_pot(blend)
        measured = isinstance(pot, Mix) and pot.colour is not None
        return measured or bool(_coloured(self.ingredients(blend)))

    def _kind_of(self, pot: Paint | Mix, depth: int = 0) -> Kind:
        if isinstance(pot, Paint):
            return pot.kind
        if pot.kind is not None:
            return pot.kind
        # Each mix is looked into once: mixes of mixes of mixes would else be by every way that leads to them.
        if id(pot) not in self._kinds:
            self._kinds[id(pot)] = Kind.PAINT  # what a circle comes to
            inner = blend_of(pot.parts, self._palette) if depth < DEEPEST_MIX else None
            if inner is not None:
                self._kinds[id(pot)] = self._kind_among(inner, depth + 1)
        return self._kinds[id(pot)]

    def _kind_among(self, blend: Blend, depth: int = 0) -> Kind:
        kinds = {self._kind_of(part.pot, depth) for part in blend.parts}
        return next((kind for kind in (Kind.WASH, Kind.GLAZE) if kind in kinds), Kind.PAINT)

    def _mixed(self, blend: Blend) -> Prediction:
        every = self.ingredients(blend)
        items = _coloured(every)
        if not items:
            return Prediction(colour=None, reason=_NO_COLOUR_OF_THEIR_OWN)
        metal = next((item.paint for item in items if item.paint.kind is Kind.METALLIC), None)
        if len(every) == 1:
            return self.of_pot(items[0].paint)
        if metal is not None:
            return Prediction(colour=None, reason=_metal_reason(metal))
        bare = next((item.paint for item in items if item.paint.colour is None), None)
        if bare is not None:
            return self.of_pot(bare)
        colour, clipped = self._colour(items)
        low = _coloured(self._broken_down(blend, TOUCH_LOW))
        high = _coloured(self._broken_down(blend, TOUCH_HIGH))
        touched = low != high
        return Prediction(
            colour=colour,
            estimate=True,
            clipped=clipped,
            touch_low=self._colour(low)[0] if touched else None,
            touch_high=self._colour(high)[0] if touched else None,
        )

    def _colour(self, items: tuple[Ingredient, ...]) -> tuple[str, bool]:
        if len(items) == 1 and items[0].paint.colour is not None:
            return items[0].paint.colour, False
        return hex_of_linear(
            self._light([item.paint for item in items], np.array([item.share for item in items]))
        )

    def lab_of_parts(self, paints: Sequence[Paint], parts: Floats) -> Floats:
        """CIELAB (..., 3), not rounded, of coloured paints in parts (..., n), within what sRGB can show."""
        return lab_of_linear(np.clip(self._light(paints, parts), 0.0, 1.0))

    def _light(self, paints: Sequence[Paint], parts: Floats) -> Floats:
        constants = [self.constants(paint) for paint in paints]
        absorbs = parts @ np.array([each.absorbs for each in constants])
        scatters = parts @ np.array([each.scatters for each in constants])
        return linear_of_mixture(absorbs, scatters)

    def constants(self, paint: Paint) -> Constants:
        """K and S of one part of a paint that has a colour; those of the parts of a mixture add up.

        Where a let-down says how a paint scatters, its strength is in that already and is not counted again.
        """
        colour = paint.colour or ""
        strength = paint.strength if paint.let_down is None else 1.0
        key = (colour, paint.let_down, strength)
        if key not in self._constants:
            ratio = _ratio(colour)
            scatters = np.full_like(ratio, strength)
            if paint.let_down is not None:
                scatters = self._scatter(ratio, paint.let_down)
            self._constants[key] = Constants(ratio * scatters, scatters)
        return self._constants[key]

    def _scatter(self, ratio: Floats, let_down: LetDown) -> Floats:
        share = let_down.paint_parts / (let_down.paint_parts + let_down.white_parts)
        named = find_pot(self._palette, let_down.white) if let_down.white is not None else None
        if isinstance(named, Paint) and named.kind not in COLOURLESS and named.colour is None:
            return np.ones_like(ratio)  # with a white that nobody knows, nothing was measured
        measured = isinstance(named, Paint) and named.kind not in COLOURLESS and named.colour
        white = _ratio(measured) if measured else np.zeros_like(ratio)
        return scatter_from_let_down(ratio, _ratio(let_down.colour), white, share)


_NO_COLOUR_OF_THEIR_OWN = "mediums, thinners and varnishes have no colour of their own"


def _only_pot(blend: Blend) -> Paint | Mix | None:
    first = blend.parts[0].pot
    return first if all(part.pot is first for part in blend.parts) else None


def _metal_reason(metal: Paint) -> str:
    return f"“{metal.full_name}” is a metal paint, and what its flakes do in a mix cannot be worked out from a chip"


def _coloured(items: Iterable[Ingredient]) -> tuple[Ingredient, ...]:
    return tuple(item for item in items if item.paint.kind not in COLOURLESS)
