"""A see-through film over what lies under it: raised edges, flats and recesses."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from guidegen.computing.colour.kubelka_munk import absorption_ratio, layer_reflectance, lifted, unlifted
from guidegen.computing.colour.reflectance import curves_of, linear_of_curves
from guidegen.computing.colour.spaces import hex_of_linear


@dataclass(frozen=True, slots=True, kw_only=True)
class ReliefColours:
    """The colours of an area, `#rrggbb` or None where nothing is known: where it stands up, lies flat and sinks in."""

    edges: str | None
    flats: str | None
    recesses: str | None

    @classmethod
    def of_one(cls, colour: str | None) -> ReliefColours:
        """The same colour all over."""
        return cls(edges=colour, flats=colour, recesses=colour)


# S·X of a film of strength 1 on the flats: assumed, no source. A dark wash then takes a mid tone of L* 59 to about 55
# on edges, 46 on flats and 32 in recesses; a strength of 50 hides.
FLAT_THICKNESS = 0.02

# How thick a film stands on edges, on flats and in recesses, beside its thickness on flats at strength 1. From memory, no
# source: a wash runs off edges and gathers in recesses, more so over gloss, and a glaze stays where it is put.
_WASH = (0.3, 1.0, 2.5)
OVER_GLOSS = (0.1, 0.5, 3.0)
FACTORS: dict[str, tuple[float, float, float]] = {
    "wash": _WASH,
    "oil wash": _WASH,
    "pin wash": (0.0, 0.05, 2.5),
    "glaze": (0.9, 1.0, 1.1),
    "stain": (0.4, 1.0, 3.0),
}


@lru_cache(maxsize=4_096)  # areas share grounds and films, and so do variants and guides
def film_over(
    under: ReliefColours,
    colour: str | None,
    *,
    strength: float,
    technique: str,
    paint_share: float = 1.0,
    over_gloss: bool = False,
    coats: int = 1,
) -> ReliefColours:
    """What `under` looks like with a film of `colour` (its chip, a layer that hides) over it.

    `technique` is a row's name; one without factors of its own counts as a wash. `paint_share` is the paint part of
    what is on the brush. Coats add up: two are one twice as thick, as the theory has it. Under an unknown film, and
    over an unknown ground, the colour stays unknown.
    """
    factors = FACTORS.get(technique, _WASH)
    if over_gloss and factors is _WASH:
        factors = OVER_GLOSS
    thickness = FLAT_THICKNESS * strength * paint_share * coats
    if colour is not None:
        # One call for all of them: curves worked out together cost little more than one.
        curves_of(each for each in (colour, under.edges, under.flats, under.recesses) if each is not None)
    edges, flats, recesses = (thickness * factor for factor in factors)
    return ReliefColours(
        edges=_covered(under.edges, colour, edges),
        flats=_covered(under.flats, colour, flats),
        recesses=_covered(under.recesses, colour, recesses),
    )


@lru_cache(maxsize=4_096)  # a film on edges, flats and recesses often lies on the same
def _covered(ground: str | None, colour: str | None, thickness: float) -> str | None:
    if ground is None or thickness <= 0.0:
        return ground
    if colour is None:
        return None
    film, below = curves_of((colour, ground))
    layer = layer_reflectance(absorption_ratio(lifted(film)), lifted(below), thickness)
    return hex_of_linear(linear_of_curves(unlifted(layer)))[0]
