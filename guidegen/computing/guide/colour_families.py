"""The colours that cover most of a finished figure, and the families of colour that people sort them by."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from guidegen.computing.colour.spaces import lab_of
from guidegen.computing.guide.area_states import AreaState
from guidegen.computing.guide.scheme import Scheme

# Parts are given in thousandths of what is painted.
WHOLE_FIGURE = 1000
# A family counts among a guide's main ones from this part on.
MAIN = 250


class Family(StrEnum):
    """A family of colours, in the order in which they are shown."""

    REDS = "reds"
    PINKS = "pinks"
    ORANGES = "oranges"
    BROWNS = "browns"
    OCHRES = "ochres"
    YELLOWS = "yellows"
    GREENS = "greens"
    BLUE_GREENS = "blue-greens"
    BLUES = "blues"
    PURPLES = "purples"
    BLACKS = "blacks"
    GREYS = "greys"
    WHITES = "whites"
    METALS = "metals"


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """A colour of the finished figure as `#rrggbb`, whether it glints, and its part in thousandths."""

    colour: str
    metal: bool
    part: int


@dataclass(frozen=True, slots=True, kw_only=True)
class MainFamily:
    """A family that covers much of a figure: its part in thousandths, its largest colour, and that one's L*."""

    family: Family
    colour: str
    part: int
    lightness: int


def covers(scheme: Scheme, states: Mapping[str, Sequence[AreaState]]) -> tuple[Cover, ...]:
    """The colours of the areas' flats once all is painted, what covers most first; areas without one are left out."""
    weights = area_parts(scheme)
    found: dict[tuple[str, bool], float] = {}
    for area, those in states.items():
        flats = those[-1].relief.flats if those else None
        if flats is not None:
            key = flats, those[-1].metal
            found[key] = found.get(key, 0.0) + weights[area]
    total = math.fsum(found.values())
    ordered = sorted(found.items(), key=lambda one: -round(one[1], 9))  # as much is as much
    return tuple(
        Cover(colour=colour, metal=metal, part=round(WHOLE_FIGURE * weight / total))
        for (colour, metal), weight in ordered
    )


def area_parts(scheme: Scheme) -> dict[str, float]:
    """How much of the figure each area is: as the author's shares tell, and alike where they do not."""
    given: dict[str, float] = {}
    for step in scheme.steps:
        if step.step.share and not step.whole:
            for area in step.areas:
                given[area] = max(given.get(area, 0.0), step.step.share / len(step.areas))
    silent = [area for area in scheme.areas if area not in given]
    rest = 1.0 - math.fsum(given.values())
    # Shares of steps may overlap; then the areas that nobody told of are taken for usual ones.
    usual = rest / len(silent) if silent and rest > 0 else 1.0 / len(scheme.areas)
    return {area: given.get(area, usual) for area in scheme.areas}


def families_of(parts: Sequence[Cover]) -> tuple[MainFamily, ...]:
    """A guide's main families, the largest first: each that covers a quarter at least, else the largest alone."""
    if not parts:
        return ()
    found: dict[Family, list[tuple[Cover, float]]] = {}
    for cover, (light, a, b) in zip(parts, lab_of([cover.colour for cover in parts]).tolist(), strict=True):
        family = Family.METALS if cover.metal else family_of(light, a, b)
        found.setdefault(family, []).append((cover, light))
    every = [
        MainFamily(
            family=family,
            colour=those[0][0].colour,
            part=sum(cover.part for cover, _ in those),
            lightness=round(those[0][1]),
        )
        for family, those in found.items()
    ]
    every.sort(key=lambda one: -one.part)
    return tuple(one for one in every if one.part >= MAIN) or tuple(every[:1])


# Where one hue gives way to the next, in degrees of CIELAB's hue angle: common practice, no source. Tests hold them
# against the colours that CSS gives these names to.
_HUES = (
    (45.0, Family.REDS),
    (80.0, Family.ORANGES),
    (112.0, Family.YELLOWS),
    (180.0, Family.GREENS),
    (232.0, Family.BLUE_GREENS),
    (309.0, Family.BLUES),
    (345.0, Family.PURPLES),
    (math.inf, Family.REDS),  # an angle just under 0 may be rounded to 360
)


def family_of(light: float, a: float, b: float) -> Family:
    """The family of a colour in CIELAB, by its lightness, chroma and hue angle."""
    chroma, hue = math.hypot(a, b), math.degrees(math.atan2(b, a)) % 360.0
    if (
        chroma < 9.0
        or (light < 16.0 and chroma < 15.0)
        or (light < 10.0 and chroma < 30.0)
        or (light > 85.0 and chroma < 16.0)
    ):
        return Family.BLACKS if light < 28.0 else Family.GREYS if light < 86.0 else Family.WHITES
    if (hue >= 325.0 or hue < 40.0) and light >= (50.0 if hue >= 325.0 else 65.0):
        return Family.PINKS if hue >= 345.0 or hue < 40.0 or light >= 70.0 else Family.PURPLES
    if _is_earth(light, chroma, hue):
        return Family.OCHRES if hue >= 68.0 and light >= 45.0 else Family.BROWNS
    if hue >= 95.0 and light < 60.0:
        hue = max(hue, 112.0)  # dark yellow is olive
    return next(family for end, family in _HUES if hue < end)


def _is_earth(light: float, chroma: float, hue: float) -> bool:
    """A dark or dull orange or yellow: bark, leather, ochre, buff. Next to red it takes less chroma."""
    if 40.0 <= hue < 95.0:
        return chroma < 37.0 or (light < 60.0 and chroma < 53.0) or (light < 50.0 and chroma < 65.0)
    return 20.0 <= hue < 40.0 and chroma < 28.0
