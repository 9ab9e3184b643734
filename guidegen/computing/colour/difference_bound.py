"""A bound from below on CIEDE2000, so that most colours are passed over without working the difference out.

The numbers in brackets are the equations of the paper that `spaces.delta_e_2000` names.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from guidegen.computing.colour.spaces import Floats

# The lightness term alone: the rest under the root (22) is never less than nought, because |R_T| ≤ 2. S_L (18) is at
# most this, at L* 0 and 100.
GREATEST_SL = 1.0 + 0.015 * 2500.0 / 2520.0**0.5
# For one pair, S_L ≤ 1 + 0.015 · |mean L* − 50|, since 20 + x² ≥ x².
SL_SLOPE = 0.015
# Chroma and hue: S_H ≤ S_C, as T ≤ 1.93; ΔC'² + ΔH'² = Δa'² + Δb² ≥ Δa² + Δb²; (5) makes no C' more than 6.5 larger
# than C, so S_C ≤ 1 + 0.045 · (mean C + 6.5). So their squares come to at least (Δa² + Δb²) / S_C². The rotation (21)
# leaves at least 1 − sin 60° of that; all of it where ΔC' and ΔH' have opposite signs, because −2 < R_T ≤ 0; and nearly
# all where no hue from one to the other is within 275° ± 60°, since |R_T| ≤ 2 sin(60° · exp(−(60/25)²)) < 0.0067 there.
SC_LEAST, SC_SLOPE = 1.0 + 0.045 * 6.5, 0.045
_UNROTATED, ROTATED = 0.9966, 0.1339
# The hues that are not within 275° ± 60°, in one piece. (5) stretches a* by 1 to 1.5, which takes none of them in there.
_AWAY_FROM_BLUE = (-25.0, 215.0)
_STRETCH_SQUARED = 1.5**2


class Polar(NamedTuple):
    """CIELAB colours (..., 3) with what the bound asks of them: chroma, and hue in degrees from −45 on."""

    lab: Floats
    chroma: Floats
    hue: Floats
    away_from_blue: NDArray[np.bool_]

    @classmethod
    def of(cls, lab: Floats) -> Polar:
        """Work them out. Hue begins at −45° so that the sector away from blue is in one piece."""
        turn = np.degrees(np.arctan2(lab[..., 2], lab[..., 1]))
        hue = (turn + 45.0) % 360.0 - 45.0
        away = (_AWAY_FROM_BLUE[0] < hue) & (hue < _AWAY_FROM_BLUE[1])
        return cls(lab, np.hypot(lab[..., 1], lab[..., 2]), hue, away)

    def within(self, window: slice) -> Polar:
        """The same of some of the colours."""
        return Polar(self.lab[window], self.chroma[window], self.hue[window], self.away_from_blue[window])


def least_squared(one: Polar, others: Polar) -> Floats:
    """What the square of the difference of one colour from each of the others is at least, shape (n,)."""
    lab = one.lab
    a, b, delta = others.lab[:, 1], others.lab[:, 2], others.lab - lab
    sl = 1.0 + SL_SLOPE * np.abs(lab[0] + 0.5 * delta[:, 0] - 50.0)
    sc = SC_LEAST + SC_SLOPE * 0.5 * (others.chroma + one.chroma)
    aside = (delta[:, 1] ** 2 + delta[:, 2] ** 2) / sc**2
    # The sign of ΔH' is that of `turn`; that of ΔC' is known where it is the same at both ends of the stretch.
    turn = lab[1] * b - lab[2] * a
    da, db = a * a - lab[1] ** 2, b * b - lab[2] ** 2
    unrotated = np.maximum(turn * (da + db), turn * (_STRETCH_SQUARED * da + db)) < -1e-6
    if one.away_from_blue:
        unrotated |= others.away_from_blue & (np.abs(others.hue - one.hue) < 180.0)
    least: Floats = (delta[:, 0] / sl) ** 2 + np.where(unrotated, _UNROTATED, ROTATED) * aside
    return least
