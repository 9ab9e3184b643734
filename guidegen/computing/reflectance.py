"""A reflectance curve for a colour: the smoothest there is, and the colour of a curve.

Burns, "Numerical methods for smoothest reflectance reconstruction", Color Research and Application 45 (2020),
arXiv 1710.05732, and his note of 2019 on the least hyperbolic tangent slope squared. Curves have 36 bands, 380 to
730 nm; a colour is linear sRGB.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import ArrayLike

from guidegen.computing.cie_tables import ROWS
from guidegen.computing.colour import Floats, linear_of

BANDS = len(ROWS)

# Linear sRGB to XYZ as IEC 61966-2-1 prints it. The curves are made with the printed matrix, as Burns did;
# differences between colours use the exact one of `colour`.
_PRINTED = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])

# A curve stays between nought and one, so a colour has to keep clear of both.
_LEAST = 1e-4

# A damped step keeps tanh from running into its flat ends; without it a saturated colour may run away.
_LONGEST_STEP = 2.0
_SMALLEST_STEP = 1e-11
_MOST_STEPS = 60

# Curves are kept, because a palette's colours come up again and again; a curve is 288 bytes.
_MOST_KEPT = 8192


def _to_linear() -> Floats:
    """T, shape (3, 36): a curve lit by D65 to linear sRGB, scaled so that a curve of ones is (1, 1, 1)."""
    table = np.array(ROWS)
    weights = (table[:, 1:4] * table[:, 4:5]).T
    weights *= (_PRINTED.sum(axis=1) / weights.sum(axis=1))[:, None]
    linear: Floats = np.linalg.solve(_PRINTED, weights)
    linear /= linear.sum(axis=1, keepdims=True)
    return linear


TO_LINEAR: Floats = _to_linear()


def _slopes() -> Floats:
    """Second derivative of Σ(z[i+1] − z[i])², shape (36, 36)."""
    differences = np.diff(np.eye(BANDS), axis=0)
    return 2.0 * differences.T @ differences


_SLOPES: Floats = _slopes()


def linear_of_curves(curves: ArrayLike) -> Floats:
    """Linear sRGB of reflectance curves, shape (..., 36) to (..., 3); may lie outside 0..1."""
    return np.asarray(curves, dtype=float) @ TO_LINEAR.T


def smoothest_curves(rgb: ArrayLike) -> Floats:
    """The curves (n, 36) for linear sRGB colours (n, 3), clipped to [1e-4, 1 − 1e-4].

    Minimises Σ(z[i+1] − z[i])² with ρ = (tanh z + 1)/2 and T·ρ = rgb, by Newton's method on the Lagrangian, steps
    no longer than 2 in any z.
    """
    wanted = np.clip(np.asarray(rgb, dtype=float).reshape(-1, 3), _LEAST, 1.0 - _LEAST)
    count = len(wanted)
    grey = wanted @ _PRINTED[1]
    # Start from the grey of the same luminance, which is already the answer for a grey.
    z = np.repeat(np.arctanh(2.0 * grey - 1.0)[:, None], BANDS, axis=1)
    pull = np.zeros((count, 3))
    diagonal = np.arange(BANDS)
    open_ = np.arange(count)
    for _ in range(_MOST_STEPS):
        if not len(open_):
            break
        tanh = np.tanh(z[open_])
        first = 0.5 * (1.0 - tanh**2)
        second = -2.0 * tanh * first
        along = pull[open_] @ TO_LINEAR
        jacobian = TO_LINEAR * first[:, None, :]
        system = np.zeros((len(open_), BANDS + 3, BANDS + 3))
        system[:, :BANDS, :BANDS] = _SLOPES
        system[:, diagonal, diagonal] += along * second
        system[:, BANDS:, :BANDS] = jacobian
        system[:, :BANDS, BANDS:] = jacobian.transpose(0, 2, 1)
        residual = np.concatenate(
            [z[open_] @ _SLOPES + along * first, linear_of_curves(0.5 * (tanh + 1.0)) - wanted[open_]], axis=1
        )
        step = -np.linalg.solve(system, residual[:, :, None])[:, :, 0]
        longest = np.abs(step[:, :BANDS]).max(axis=1)
        damping = np.minimum(1.0, _LONGEST_STEP / np.maximum(longest, _SMALLEST_STEP))[:, None]
        z[open_] += damping * step[:, :BANDS]
        pull[open_] += damping * step[:, BANDS:]
        open_ = open_[longest > _SMALLEST_STEP]
    curves: Floats = 0.5 * (np.tanh(z) + 1.0)
    return curves


_kept: dict[str, Floats] = {}


def curves_of(colours: Iterable[str]) -> Floats:
    """The curves (n, 36) of `#rrggbb` colours; those met before are not worked out again."""
    asked = tuple(colours)
    known = {colour: _kept[colour] for colour in asked if colour in _kept}
    new = [colour for colour in dict.fromkeys(asked) if colour not in known]
    if new:
        if len(_kept) + len(new) > _MOST_KEPT:
            _kept.clear()
        fresh = dict(zip(new, smoothest_curves(linear_of(new)), strict=True))
        _kept.update(fresh)
        known |= fresh
    return np.array([known[colour] for colour in asked]).reshape(-1, BANDS)
