"""A reflectance curve for a colour: the smoothest there is, and the colour of a curve.

Burns, "Numerical methods for smoothest reflectance reconstruction", Color Research and Application 45 (2020),
arXiv 1710.05732, and his note of 2019 on the least hyperbolic tangent slope squared. Curves have 36 bands, 380 to
730 nm; a colour is linear sRGB.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from guidegen.computing.colour.cie_tables import ROWS
from guidegen.computing.colour.spaces import Floats, as_floats, linear_of

BANDS = len(ROWS)

# Linear sRGB to XYZ as IEC 61966-2-1 prints it. The curves are made with the printed matrix, as Burns did;
# differences between colours use the exact one, `spaces.TO_XYZ`.
PRINTED = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])

# A curve stays between nought and one, so a colour has to keep clear of both.
_LEAST = 1e-4

# A damped step keeps tanh from running into its flat ends; without it a saturated colour may run away.
_LONGEST_STEP = 2.0
_SETTLED_STEP = 1e-9
_MOST_STEPS = 16

# How far the colour, and the slope of the Lagrangian, may be from what they should be; in practice both are under 1e-13.
_RESIDUAL = 1e-9

# The longest and the shortest part of the way from the grey to a colour that is taken at once.
_FIRST_STRIDE, _LAST_STRIDE = 0.25, 2.0**-12

# Colours worked out at once: what they need stays in the processor's cache.
_BLOCK = 1024

# Up to this many colours one dense solve each is quicker than a pass over the bands.
_FEW = 8

# Added to the second derivatives: for a grey they are singular. It slows Newton's last steps by about this factor and
# does not move what they come to.
_SHIFT = 1e-6

# Curves are kept, because a palette's colours come up again and again; a curve is 288 bytes.
_MOST_KEPT = 8192


def _to_linear() -> Floats:
    """T, shape (3, 36): a curve lit by D65 to linear sRGB, scaled so that a curve of ones is (1, 1, 1)."""
    table = np.array(ROWS)
    weights = (table[:, 1:4] * table[:, 4:5]).T
    weights *= (PRINTED.sum(axis=1) / weights.sum(axis=1))[:, None]
    linear: Floats = np.linalg.solve(PRINTED, weights)
    linear /= linear.sum(axis=1, keepdims=True)
    return linear


TO_LINEAR: Floats = _to_linear()


def _slopes() -> Floats:
    """Second derivative of Σ(z[i+1] − z[i])², shape (36, 36)."""
    differences = np.diff(np.eye(BANDS), axis=0)
    return 2.0 * differences.T @ differences


_SLOPES: Floats = _slopes()


def linear_of_curves(curves: ArrayLike) -> Floats:
    """Linear sRGB of reflectance curves, shape (..., 36) to (..., 3); may lie outside 0..1.

    Of 12 bands or another even share of the 36, each stands for those around it. Single precision stays single.
    """
    values = as_floats(curves)
    bands = values.shape[-1]
    weights = TO_LINEAR if bands == BANDS else TO_LINEAR.reshape(3, bands, -1).sum(axis=2)
    return values @ weights.T.astype(values.dtype, copy=False)


def smoothest_curves(rgb: ArrayLike) -> Floats:
    """The curves (n, 36) for linear sRGB colours (n, 3), clipped to [1e-4, 1 − 1e-4].

    Minimises Σ(z[i+1] − z[i])² with ρ = (tanh z + 1)/2 and T·ρ = rgb, by Newton's method on the Lagrangian, steps
    no longer than 2 in any z. Where that does not settle on a minimum, which happens with some near-blacks, the
    colour is led there from its grey.
    """
    wanted = np.clip(np.asarray(rgb, dtype=float).reshape(-1, 3), _LEAST, 1.0 - _LEAST).T
    z = np.empty((BANDS, wanted.shape[1]))
    for begin in range(0, wanted.shape[1], _BLOCK):
        block = wanted[:, begin : begin + _BLOCK]
        found, settled = _newton(_greys(block), block)
        if not settled.all():
            found.z[:, ~settled] = _led_from_grey(block[:, ~settled])
        z[:, begin : begin + _BLOCK] = found.z
    curves: Floats = np.ascontiguousarray(0.5 * (np.tanh(z.T) + 1.0))
    return curves


class _Point(NamedTuple):
    """Where Newton's method is: z (36, n) of n colours and the Lagrange multipliers `pull` (3, n)."""

    z: Floats
    pull: Floats

    def of(self, which: NDArray[np.intp] | NDArray[np.bool_]) -> _Point:
        """The same of some of the colours."""
        return _Point(self.z[:, which], self.pull[:, which])

    def put(self, which: NDArray[np.intp], other: _Point) -> None:
        """Overwrite some of the colours."""
        self.z[:, which], self.pull[:, which] = other


def _greys(wanted: Floats) -> _Point:
    """The curves of the greys of the same luminance as colours (3, n), which are flat."""
    flat = np.arctanh(2.0 * (PRINTED[1] @ wanted) - 1.0)
    return _Point(np.repeat(flat[None], BANDS, axis=0), np.zeros_like(wanted))


def _led_from_grey(wanted: Floats) -> Floats:
    """Curves as z (36, n) of colours (3, n): Newton's method along the line from the grey, in the logarithm of linear light.

    Each colour goes a quarter of the way at a time, and half as far where Newton does not settle. One that came to a
    stop would get the curve of the last colour on the way; of the 16.7 million of sRGB none does
    (tests/bench/all_colours.py).
    """
    grey = np.log(PRINTED[1] @ wanted)
    way = np.log(wanted) - grey
    at = _greys(wanted)
    reached, stride = np.zeros(len(grey)), np.full(len(grey), _FIRST_STRIDE)
    left = np.arange(len(grey))
    while len(left):
        goal = np.minimum(reached[left] + stride[left], 1.0)
        found, settled = _newton(at.of(left), np.exp(grey[left] + goal * way[:, left]))
        at.put(left[settled], found.of(settled))
        reached[left[settled]] = goal[settled]
        stride[left[~settled]] /= 2.0
        left = left[(reached[left] < 1.0) & (stride[left] >= _LAST_STRIDE)]
    return at.z


def _newton(start: _Point, wanted: Floats) -> tuple[_Point, NDArray[np.bool_]]:
    """Newton's method for colours (3, n), and which of them came to a minimum with that colour."""
    found = _Point(start.z.copy(), start.pull.copy())
    at, open_ = found, np.arange(wanted.shape[1])
    # What runs away overflows, and is told from the rest afterwards.
    with np.errstate(all="ignore"):
        for _ in range(_MOST_STEPS):
            z, pull = _Equations(at, wanted[:, open_]).step()
            longest = np.abs(z).max(axis=0)
            damping = np.minimum(1.0, _LONGEST_STEP / np.maximum(longest, _SETTLED_STEP))
            at = _Point(at.z + damping * z, at.pull + damping * pull)
            more = longest > _SETTLED_STEP  # False for what is no number any more
            if not more.all():
                found.put(open_[~more], at.of(~more))
                at, open_ = at.of(more), open_[more]
            if not len(open_):
                break
        settled = _Equations(found, wanted).at_a_minimum()
    settled[open_] = False
    return found, settled


class _Equations:
    """The Lagrangian's first and second derivatives at a point, and what they say about the way to its minimum.

    The second ones in z, H, are tridiagonal, with −2 beside the diagonal; so a step costs a pass over the bands for
    all colours at once. H is eliminated from both ends towards the middle, which halves the count of numpy calls:
    arrays of shape (18, 2, …) hold band k from the violet end and band k from the red end.
    """

    def __init__(self, at: _Point, wanted: Floats) -> None:
        tanh = np.tanh(at.z)
        first = 0.5 * (1.0 - tanh**2)
        along = TO_LINEAR.T @ at.pull
        # By differences, not by a product with `_SLOPES`: that is large enough for threads, which wait more than they work.
        self.slope = along * first
        doubled = 2.0 * np.diff(at.z, axis=0)
        self.slope[:-1] -= doubled
        self.slope[1:] += doubled
        self.short = TO_LINEAR @ (0.5 * (tanh + 1.0)) - wanted
        self.jacobian = TO_LINEAR[:, :, None] * first
        self.diagonal = np.diag(_SLOPES)[:, None] + _SHIFT - 2.0 * tanh * first * along

    def step(self) -> _Point:
        """Newton's step, undamped."""
        return self._dense_step() if self.short.shape[1] <= _FEW else self._band_step()

    def at_a_minimum(self) -> NDArray[np.bool_]:
        """Whether the colour is the wanted one, the slope is nought, and every way along the constraint leads up.

        The last is so when the whole system has as many negative eigenvalues as constraints (Nocedal and Wright,
        "Numerical Optimization", second edition, theorem 16.3); elimination shows their signs.
        """
        pivots, _, middle, _ = self._eliminated()
        negative = (pivots < 0.0).sum(axis=(0, 1)) + (middle > 0.0).sum(axis=0)
        close = np.maximum(np.abs(self.short).max(axis=0), np.abs(self.slope).max(axis=0)) <= _RESIDUAL
        minimum: NDArray[np.bool_] = close & (negative == 3)
        return minimum

    def _dense_step(self) -> _Point:
        count = self.short.shape[1]
        system = np.zeros((count, BANDS + 3, BANDS + 3))
        system[:, :BANDS, :BANDS] = _SLOPES
        system[:, np.arange(BANDS), np.arange(BANDS)] = self.diagonal.T
        system[:, BANDS:, :BANDS] = self.jacobian.transpose(2, 0, 1)
        system[:, :BANDS, BANDS:] = self.jacobian.transpose(2, 1, 0)
        try:
            step = -np.linalg.solve(system, np.concatenate([self.slope, self.short]).T[:, :, None])[:, :, 0].T
        except np.linalg.LinAlgError:  # one of them, and the others need theirs
            return self._band_step()
        return _Point(step[:BANDS], step[BANDS:])

    def _band_step(self) -> _Point:
        _, halves, middle, (right, y, lower) = self._eliminated()
        # The 3 × 3 system that is left for the multipliers, L·D·Lᵀ.
        third = y[2] / middle[2]
        second = y[1] / middle[1] - lower[2] * third
        pull = np.stack([y[0] / middle[0] - lower[0] * second - lower[1] * third, second, third])
        ways = -0.5 * (right[:, :, 0] + (right[:, :, 1:] * pull).sum(axis=2))
        ways[-1, 1] *= halves[-1, 1]
        ways[-1, 0] = (ways[-1, 0] + ways[-1, 1]) * halves[-1, 0]
        for k in range(len(ways) - 2, -1, -1):
            ways[k] = (ways[k] + ways[k + 1]) * halves[k]
        return _Point(_unfolded(ways), pull)

    def _eliminated(self) -> tuple[Floats, Floats, Floats, tuple[Floats, Floats, Floats]]:
        """The pivots of H (18, 2, n), 2/pivots, and those of J·H⁻¹·Jᵀ (3, n); the right-hand sides of both and L."""
        pivots = _folded(self.diagonal)
        right = _folded(np.stack([self.slope, *self.jacobian], axis=1))
        halves = np.empty_like(pivots)
        for k in range(len(pivots) - 1):
            halves[k] = 2.0 / pivots[k]
            pivots[k + 1] -= 2.0 * halves[k]
            right[k + 1] += halves[k, :, None] * right[k]
        halves[-1, 0] = 2.0 / pivots[-1, 0]
        pivots[-1, 1] -= 2.0 * halves[-1, 0]
        right[-1, 1] += halves[-1, 0] * right[-1, 0]
        halves[-1, 1] = 2.0 / pivots[-1, 1]
        products = np.einsum("kein,kejn->ijn", right[:, :, 1:], right * (0.5 * halves)[:, :, None])
        y, s = self.short - products[:, 0], products[:, 1:]
        lower = np.stack([s[0, 1] / s[0, 0], s[0, 2] / s[0, 0], np.empty_like(s[0, 0])])
        middle = np.stack([s[0, 0], s[1, 1] - lower[0] * s[0, 1], np.empty_like(s[0, 0])])
        rest = s[1, 2] - lower[0] * s[0, 2]
        lower[2] = rest / middle[1]
        middle[2] = s[2, 2] - lower[1] * s[0, 2] - lower[2] * rest
        y[1] -= lower[0] * y[0]
        y[2] -= lower[1] * y[0] + lower[2] * y[1]
        return pivots, halves, middle, (right, y, lower)


def _folded(bands: Floats) -> Floats:
    """(36, …) to (18, 2, …): from both ends to the middle."""
    half = BANDS // 2
    return np.stack([bands[:half], bands[: half - 1 : -1]], axis=1)


def _unfolded(ends: Floats) -> Floats:
    """The inverse of `_folded`."""
    return np.concatenate([ends[:, 0], ends[::-1, 1]])


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
