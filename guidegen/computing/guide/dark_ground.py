"""Colours that cover badly, laid straight over a dark undercoat."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.computing.colour.blend import Blend
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.colour.spaces import lab_of, lightness
from guidegen.computing.guide.colour_families import Family, family_of
from guidegen.computing.guide.scheme import Scheme, SchemeStep
from guidegen.computing.guide.undercoat import is_undercoat
from guidegen.model.technique import Role

# Their pigments let most light through, so that a dark undercoat shows: common practice, no source.
COVERS_BADLY = frozenset({Family.YELLOWS, Family.REDS, Family.ORANGES, Family.WHITES})

# An undercoat of less L* than this is a dark one, and so many coats hide it after all: common practice, no source.
DARK_GROUND = 40.0
COATS_THAT_HIDE = 3

# A thin veil of light paint over a dark undercoat is sprayed on purpose.
_ON_PURPOSE = "airbrush"


@dataclass(frozen=True, slots=True, kw_only=True)
class DarkGround:
    """A step that lays a family of colours over a dark undercoat, the areas where it does, and the undercoat's L*."""

    step: SchemeStep
    areas: tuple[str, ...]
    family: Family
    under: float


def dark_grounds(scheme: Scheme, mixer: Mixer) -> Iterator[DarkGround]:
    """Each step of a scheme that does, in order."""
    under: dict[str, float] = {}
    for step in scheme.steps:
        if step.technique.role is not Role.COVER:
            continue
        found: dict[Family, list[str]] = {}
        grounds = dict(under)
        for area, laid in step.laid.items():
            under.pop(area, None)
            colour = mixer.predict(laid).colour
            if colour is None:
                continue
            if is_undercoat(step, laid, mixer):
                if lightness(colour) < DARK_GROUND:
                    under[area] = lightness(colour)
            elif area in grounds and _shows_it(step, laid, mixer):
                found.setdefault(family_of(*lab_of([colour])[0].tolist()), []).append(area)
        for family, areas in found.items():
            if family in COVERS_BADLY:
                yield DarkGround(step=step, areas=tuple(areas), family=family, under=grounds[areas[0]])


def _shows_it(step: SchemeStep, laid: Blend, mixer: Mixer) -> bool:
    thin = step.technique.name != _ON_PURPOSE and step.step.coats < COATS_THAT_HIDE
    return thin and not mixer.has_metal(laid)
