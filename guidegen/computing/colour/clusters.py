"""The few colours that a picture is made of: k-means in CIELAB over its cells, the same on every machine.

Lloyd, "Least squares quantization in PCM", IEEE Transactions on Information Theory 28 (1982) 129; seeds one after the
other as far from all before as can be, after Gonzalez, Theoretical Computer Science 38 (1985) 293. Nothing is drawn by
lot. `templates/scripts/clusters.js` gives the same; a test compares the two.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from guidegen.computing.colour.spaces import Floats, decoded, hex_of_lab, lab_of_linear

# Cells a side that a picture is averaged to, the most colours, and the rounds of Lloyd's method: enough for a palette.
CELLS, MOST_COLOURS, ROUNDS = 96, 8, 30

_DECIMALS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class MainColour:
    """A colour `#rrggbb` of a picture and the share of its cells that are nearest to it, 0..1."""

    colour: str
    share: float


def main_colours(picture: NDArray[np.uint8], count: int) -> tuple[MainColour, ...]:
    """At most `count` colours of an upright sRGB picture (height, width, 3), what covers most first."""
    cells = lab_of_linear(_cells(picture))
    centres = _seeds(cells, min(count, MOST_COLOURS))
    before = None
    for _ in range(ROUNDS):
        # The first of those that are as near.
        nearest = np.argmin(np.stack([_squared(cells, centre) for centre in centres]), axis=0)
        if before is not None and (nearest == before).all():
            break
        before = nearest
        counts = np.bincount(nearest, minlength=len(centres))
        for axis in range(3):
            sums = np.bincount(nearest, weights=cells[:, axis], minlength=len(centres))
            centres[:, axis] = np.where(counts > 0, sums / np.maximum(counts, 1), centres[:, axis])
    found = sorted(enumerate(counts.tolist()), key=lambda one: -one[1])
    return tuple(
        MainColour(colour=hex_of_lab(centres[place]), share=round(size / len(cells), _DECIMALS))
        for place, size in found
        if size
    )


def _cells(picture: NDArray[np.uint8]) -> Floats:
    """The mean linear light (n, 3) of each cell, row by row."""
    height, width = picture.shape[:2]
    down, across = _edges(height), _edges(width)
    # Row of cells by row of cells, since a whole photo in linear light takes eight times its own room.
    bands = [picture[top:end] for top, end in zip(down, [*down[1:], height], strict=True)]
    sums = np.array([np.add.reduceat(_LEVELS[band].sum(axis=0), across, axis=0) for band in bands])
    sizes = np.diff([*down, height])[:, None] * np.diff([*across, width])[None, :]
    means: Floats = (sums / sizes[:, :, None]).reshape(-1, 3)
    return means


def _edges(pixels: int) -> list[int]:
    """Where the cells of a side begin."""
    cells = min(CELLS, pixels)
    return [cell * pixels // cells for cell in range(cells)]


_LEVELS: Floats = decoded(np.arange(256) / 255.0)


def _seeds(cells: Floats, count: int) -> Floats:
    """What lies farthest from the mean, then from all seeds so far; fewer where there are no more colours."""
    mean = np.array([np.bincount(np.zeros(len(cells), dtype=int), weights=axis)[0] for axis in cells.T])
    far = _squared(cells, mean / len(cells))
    chosen = [int(far.argmax())]
    away = _squared(cells, cells[chosen[0]])
    while len(chosen) < count and away.max() > 0.0:
        chosen.append(int(away.argmax()))
        away = np.minimum(away, _squared(cells, cells[chosen[-1]]))
    return cells[chosen].copy()


def _squared(cells: Floats, centre: Floats) -> Floats:
    off = cells - centre
    # One after the other, as the browser adds.
    squared: Floats = off[:, 0] * off[:, 0] + off[:, 1] * off[:, 1] + off[:, 2] * off[:, 2]
    return squared
