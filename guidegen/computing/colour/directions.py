"""How one colour differs from another, in a painter's words. The limits are common practice, no source."""

from __future__ import annotations

import math

from guidegen.computing.colour.spaces import lab_of

# Differences below these, in units of CIELAB, are not worth a word.
LIGHTNESS, WARMTH, CHROMA = 1.0, 2.0, 2.0

# Orange is warmest and the blue across from it coldest.
WARMEST = math.radians(60.0)

# A colour of less chroma than this has no hue worth turning.
GREY = 5.0


def directions(colour: str, wanted: str) -> tuple[str, ...]:
    """How `colour` differs from the one wanted, both `#rrggbb`: lighter or darker, warmer or cooler, brighter or duller.

    Warmth is how far the hue turns towards orange at the chroma that both have in the mean; what chroma adds is told
    by the last word.
    """
    (l1, a1, b1), (l2, a2, b2) = lab_of([wanted, colour]).tolist()
    c1, c2 = math.hypot(a1, b1), math.hypot(a2, b2)
    greyish = min(c1, c2) < GREY
    if greyish:
        warmth = (a2 - a1) * math.cos(WARMEST) + (b2 - b1) * math.sin(WARMEST)
    else:
        turned = math.cos(math.atan2(b2, a2) - WARMEST) - math.cos(math.atan2(b1, a1) - WARMEST)
        warmth = 0.5 * (c1 + c2) * turned
    told: tuple[tuple[float, float, str, str], ...] = (
        (l2 - l1, LIGHTNESS, "lighter", "darker"),
        (warmth, WARMTH, "warmer", "cooler"),
        (c2 - c1, CHROMA, "brighter", "duller"),
    )
    if greyish and abs(warmth) >= WARMTH:
        told = told[:2]  # between a grey and a tinge of colour that says it all
    return tuple(more if by > 0 else less for by, limit, more, less in told if abs(by) >= limit)
