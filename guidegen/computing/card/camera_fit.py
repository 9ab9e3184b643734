"""From what a camera delivers of painted boxes to their colours, by those of them whose colours are known.

Two things are fitted to these anchors: how a camera bends its curve for contrast, one number, and in linear light a
3 × 3 matrix, or from nine anchors on root polynomials of degree 2 (Finlayson, Mackiewicz, Hurlbert, "Color correction
using root-polynomial regression", IEEE Transactions on Image Processing 24 (2015) 1460), which keep a colour when the
light grows. A ridge holds both near the identity, so that few anchors move colours little.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from guidegen.computing.colour.spaces import Floats, decoded, delta_e_2000, lab_of_linear

# What bare paper reflects beside a perfect white: common practice, no source.
PAPER = 0.88

# The bends tried: 0 is the plain curve of sRGB, 1 would be smoothstep alone.
TONES: tuple[float, ...] = tuple(round(0.05 * n, 2) for n in range(15))

# From so many anchors on root polynomials are fitted: their six terms a channel want more than the three of a matrix.
ROOTS_FROM = 9

# How much cameras usually bend, from memory: taken where anchors are too few to tell, and leant towards, the less the more
# there are.
_USUAL, _LEANING = 0.25, 10.0

# With fewer anchors the bend cannot be told from their colours, and none of them can be told to be wrong.
_TONE_FROM, _JUDGED_FROM = 3, 5

# How strongly a term is held to where it begins, and a channel's share of the error by its own light: 0.5 to 1 and 0.01
# to 0.05 were alike on the measured paints of tests/bench/card.py, larger ridges worse.
_RIDGE, _DARK, _RELATIVE = 0.02, 0.03, 0.7

# An anchor more than so many times as far off as the others' spread disagrees, but never one under the least.
_TIMES, _LEAST_OFF = 3.0, 6.0


@dataclass(frozen=True, slots=True, kw_only=True)
class CameraFit:
    """What was fitted. `off` are the anchors' CIEDE2000 differences (n,) from what the others say of them.

    `tone` counts in TONES, `matrix` is (3, 3) or (6, 3); `disagree` are the anchors that were left out, by their place.
    """

    tone: int
    matrix: Floats
    off: Floats
    disagree: tuple[int, ...] = ()

    @property
    def left_out_median(self) -> float | None:
        """The median of `off` over the anchors that agree; None where there are too few to leave one out."""
        kept = np.delete(self.off, list(self.disagree))
        return float(np.median(kept)) if len(kept) > 1 else None

    def colours(self, seen: Floats) -> Floats:
        """Linear sRGB (n, 3) of what was seen beside the bare paper, (tones, n, 3) or (n, 3) at this tone; unclipped."""
        at_tone = seen[self.tone] if seen.ndim == 3 else seen
        return _terms(at_tone, roots=len(self.matrix) > 3) @ self.matrix


def straightened(tone: float) -> Floats:
    """Linear light (256,) of a camera's levels once its bend is undone: a blend of straight and smoothstep."""
    straight = np.linspace(0.0, 1.0, 2049)
    bent = (1.0 - tone) * straight + tone * straight**2 * (3.0 - 2.0 * straight)
    return decoded(np.interp(np.arange(256) / 255.0, bent, straight))


def paper_only() -> CameraFit:
    """Without anchors: what the bare paper alone takes out of the light."""
    return CameraFit(tone=TONES.index(_USUAL), matrix=PAPER * np.eye(3), off=np.empty(0))


def fit_camera(seen: Floats, truth: Floats) -> CameraFit:
    """Fit to anchors: what was seen of them beside the bare paper for each of TONES (tones, n, 3), their linear sRGB (n, 3).

    An anchor that disagrees with the others is left out, the worst first, as long as most of them are left.
    """
    kept = np.arange(len(truth))
    gone: list[int] = []
    while len(kept) >= _JUDGED_FROM and len(gone) < len(truth) // 3:
        worst = _disagreeing(seen[:, kept], truth[kept])
        if worst is None:
            break
        gone.append(int(kept[worst]))
        kept = np.delete(kept, worst)
    if not len(kept):
        return paper_only()
    tone, off, matrix = _fitted(seen[:, kept], truth[kept])
    every = np.zeros(len(truth))
    every[kept] = off
    if gone:
        found = _terms(seen[tone, gone], roots=len(matrix) > 3) @ matrix
        every[gone] = _apart(found, truth[gone])
    return CameraFit(tone=tone, matrix=matrix, off=every, disagree=tuple(sorted(gone)))


def _disagreeing(seen: Floats, truth: Floats) -> int | None:
    """The place of the anchor that disagrees most, measured by the spread of the others without it; None if all agree."""
    off = _fitted(seen, truth)[1]
    ratios: list[tuple[float, int]] = []
    # A lie drags the others along, so the furthest need not be the one that lies.
    for one in np.argsort(-off)[:6].tolist():
        tone, others, matrix = _fitted(np.delete(seen, one, axis=1), np.delete(truth, one, axis=0))
        found = _terms(seen[tone, one : one + 1], roots=len(matrix) > 3) @ matrix
        itself = float(_apart(found, truth[one : one + 1])[0])
        ratios.append((itself / max(_spread(others), _LEAST_OFF / _TIMES), one))
    ratio, one = max(ratios)
    return one if ratio > _TIMES else None


def _spread(off: Floats) -> float:
    """How far off anchors usually are: 1.4826 times the median, as for normal scatter, or what four in five stay under.

    On the measured paints of tests/bench/card.py, with one of twelve anchors given another's colour at least 10 off, 96 of
    100 such lies were found, with one of six 83; a true anchor was left out on one card in eight.
    """
    return max(1.4826 * float(np.median(off)), 0.9 * float(np.percentile(off, 80)))


def _fitted(seen: Floats, truth: Floats) -> tuple[int, Floats, Floats]:
    """The best tone, how far off each anchor is when it is left out (n,), and the matrix by all of them."""
    roots = len(truth) >= ROOTS_FROM
    terms = _terms(seen, roots=roots)
    weight = 1.0 / (truth.mean(axis=1) + _DARK) ** _RELATIVE
    rows, wanted = terms * weight[:, None], truth * weight[:, None]
    start = np.zeros((terms.shape[2], 3))
    start[:3] = PAPER * np.eye(3)
    # Fewer anchors than a matrix has numbers to a channel could turn it anywhere.
    ridge = _RIDGE * max(1.0, 4.0 / len(truth)) ** 4
    normal = rows.swapaxes(1, 2) @ rows + ridge * np.eye(terms.shape[2])
    right = rows.swapaxes(1, 2) @ wanted + ridge * start
    # Each anchor left out in turn is its own row taken back from the sums.
    normal_without = normal[:, None] - rows[..., :, None] * rows[..., None, :]
    right_without = right[:, None] - rows[..., :, None] * wanted[None, :, None, :]
    without = np.linalg.solve(normal_without, right_without)
    off = _apart((terms[:, :, None, :] @ without)[:, :, 0], truth)
    tone = TONES.index(_USUAL)
    if len(truth) >= _TONE_FROM:
        # A few that are far off, as a lie is, do not choose the tone.
        unlikely = _LEANING * (np.array(TONES) - _USUAL) ** 2 * 4.0 / len(truth)
        tone = int(np.argmin(np.minimum(off, 15.0).mean(axis=1) + unlikely))
    return tone, off[tone], np.linalg.solve(normal[tone], right[tone])


def _terms(seen: Floats, *, roots: bool) -> Floats:
    """Red, green and blue (..., 3), with `roots` also the square roots of their products (..., 6)."""
    light = np.maximum(seen, 0.0)
    if not roots:
        return light
    r, g, b = light[..., 0], light[..., 1], light[..., 2]
    return np.stack([r, g, b, np.sqrt(r * g), np.sqrt(g * b), np.sqrt(r * b)], axis=-1)


def _apart(one: Floats, other: Floats) -> Floats:
    """CIEDE2000 of linear sRGB colours, of what sRGB can show of them."""
    return delta_e_2000(lab_of_linear(np.clip(one, 0.0, 1.0)), lab_of_linear(np.clip(other, 0.0, 1.0)))
