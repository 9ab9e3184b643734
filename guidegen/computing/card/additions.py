"""How a new figure's colour differs from the old one's in the same photo, and what brings it back."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from guidegen.computing.colour.closest import OPAQUE, role_of
from guidegen.computing.colour.kubelka_munk import absorption_ratio, lifted, thick_reflectance, unlifted
from guidegen.computing.colour.reflectance import curves_of, linear_of_curves
from guidegen.computing.colour.spaces import delta_e_2000, lab_of, lab_of_linear
from guidegen.model.paint import Paint, Palette

# Below these, in units of CIELAB, a difference is not worth a word: common practice, no source.
_LIGHTNESS, _REDNESS = 1.0, 1.5

# The parts of the new paint that are tried, to one part of the paint that is added.
_TO = (20.0, 10.0, 5.0, 3.0, 2.0, 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Addition:
    """`parts` of a paint, by name, to `to` parts of the new one, and how far the colours then are apart in CIEDE2000."""

    paint: str
    parts: float
    to: float
    left: float


def difference(colour: str, wanted: str) -> tuple[float, tuple[str, ...]]:
    """CIEDE2000 of two colours, and how the first differs: darker or lighter, redder or greener, yellower or bluer."""
    one, other = lab_of([colour, wanted])
    lighter, redder, yellower = (one - other).tolist()
    words = (
        (lighter, _LIGHTNESS, "lighter", "darker"),
        (redder, _REDNESS, "redder", "greener"),
        (yellower, _REDNESS, "yellower", "bluer"),
    )
    told = tuple(more if by > 0 else less for by, limit, more, less in words if abs(by) >= limit)
    return float(delta_e_2000(one, other)), told


def addition(palette: Palette, colour: str, wanted: str) -> Addition | None:
    """The paint a little of which brings `colour` closest to the one wanted, both `#rrggbb`; of owned paints if any are."""
    usable = [paint for paint in palette.paints if paint.colour and role_of(paint.kind) == OPAQUE]
    paints = [paint for paint in usable if paint.owned] or usable
    if not paints:
        return None
    shares = 1.0 / (1.0 + np.array(_TO))
    ratios = absorption_ratio(lifted(curves_of([colour, *(_colour(paint) for paint in paints)])))
    strength = np.array([paint.strength for paint in paints])[:, None] * shares
    weight = strength / (strength + (1.0 - shares))
    mixed = ratios[0] + weight[..., None] * (ratios[1:, None] - ratios[0])
    labs = lab_of_linear(np.clip(linear_of_curves(unlifted(thick_reflectance(mixed))), 0.0, 1.0))
    goal = lab_of([wanted])[0]
    away = delta_e_2000(labs, goal)
    row, column = divmod(int(away.argmin()), len(_TO))
    left = float(away[row, column])
    if left > 0.8 * float(delta_e_2000(lab_of([colour])[0], goal)):
        return None
    return Addition(paint=palette.label(paints[row]), parts=1.0, to=_TO[column], left=left)


def _colour(paint: Paint) -> str:
    return paint.colour or "#000000"
