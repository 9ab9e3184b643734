"""How much there is to paint on a figure: its surface from its scale, its base, and a technique's part of both."""

from __future__ import annotations

import math
from dataclasses import dataclass

from guidegen.model.guide import Guide
from guidegen.model.technique import Technique

# The grown-up that a figure is taken to stand for: 70 kg, 175 cm, assumed.
WEIGHT = 70.0
HEIGHT = 175.0

# Clothes and kit double the body's own surface: assumed, no source.
CLOTHES_AND_KIT = 2.0

SQUARE_CM_IN_SQUARE_M = 10_000.0


def body_surface(weight: float, height: float) -> float:
    """The surface of a body in m², from kg and cm: 1.848 m² for 70 kg and 175 cm.

    D. Du Bois and E. F. Du Bois, Archives of Internal Medicine 17 (1916) 863-871.
    """
    return float(0.007184 * weight**0.425 * height**0.725)


def figure_surface(ratio: float) -> float:
    """The surface of a dressed figure in 1:`ratio`, in cm²."""
    return CLOTHES_AND_KIT * body_surface(WEIGHT, HEIGHT) * SQUARE_CM_IN_SQUARE_M / ratio**2


def disc(across: float) -> float:
    """The upper face of a round base in cm², from mm across: 4.9 cm² for 25 mm."""
    return math.pi * (across / 20) ** 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """What one figure of a guide has to paint, in cm².

    `base` is None where no base is given. `measured` is set where the author gave the surface, which then stands
    for figure and base together.
    """

    figure: float
    base: float | None = None
    measured: bool = False

    def under(self, technique: Technique, share: float | None = None) -> float | None:
        """What one coat by a technique covers, in cm²; `share` (0 to 1) is the author's own part of the surface.

        All of a surface takes the base in, unless it was measured. A technique for bases covers the base alone: None
        where there is no base to go by.
        """
        part = technique.share if share is None else share
        if part is None:
            return self.base
        area = self.figure * part
        return area + self.base if part >= 1 and self.base and not self.measured else area


def surface_of(guide: Guide) -> Surface:
    """The surface of one figure by the guide's scale and base, or what its author measured."""
    base = disc(guide.base) if guide.base else None
    if guide.surface is not None:
        return Surface(figure=guide.surface, base=base, measured=True)
    return Surface(figure=figure_surface(guide.scale.ratio), base=base)
