"""Dark blobs of a picture: connected pixels by runs of rows, with their area, centre and spread."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]


class Blobs(NamedTuple):
    """Areas (n,) in pixels, centres (n, 2) as x and y, and second moments about them: xx, xy, yy (n, 3)."""

    area: Floats
    centre: Floats
    spread: Floats


def dark_blobs(dark: NDArray[np.bool_]) -> Blobs:
    """The blobs of a picture (height, width) that is True where it is dark; pixels that share an edge belong together."""
    height, width = dark.shape
    padded = np.zeros((height, width + 2), dtype=np.int8)
    padded[:, 1:-1] = dark
    steps = np.diff(padded, axis=1)
    row, start = np.nonzero(steps == 1)
    end = np.nonzero(steps == -1)[1]
    if not len(row):
        return Blobs(np.empty(0), np.empty((0, 2)), np.empty((0, 3)))
    label = _labels(row, start, end, width + 2)
    return _measured(label, row.astype(float), start.astype(float), end.astype(float))


def _labels(row: Ints, start: Ints, end: Ints, stride: int) -> Ints:
    """A number for each run, the same for all of a blob, counted from 0."""
    starts, ends = row * stride + start, row * stride + end
    # Runs of the next row that begin before this one ends, and end after it begins.
    first = np.searchsorted(ends, starts + stride, side="right")
    last = np.searchsorted(starts, ends + stride, side="left")
    count = np.maximum(last - first, 0)
    above = np.repeat(np.arange(len(row)), count)
    below = np.arange(int(count.sum())) - np.repeat(np.cumsum(count) - count, count) + np.repeat(first, count)
    label = np.arange(len(row))
    while True:
        one, other = label[above], label[below]
        apart = one != other
        if not apart.any():
            break
        above, below, one, other = above[apart], below[apart], one[apart], other[apart]
        np.minimum.at(label, np.maximum(one, other), np.minimum(one, other))
        while True:
            nearer = label[label]
            if (nearer == label).all():
                break
            label = nearer
    return np.asarray(np.unique(label, return_inverse=True)[1].reshape(-1), dtype=np.intp)


def _measured(label: Ints, row: Floats, start: Floats, end: Floats) -> Blobs:
    long = end - start
    middle = (start + end - 1.0) / 2.0

    def added(values: Floats) -> Floats:
        return np.bincount(label, values).astype(np.float64)

    area = added(long)
    x, y = added(long * middle) / area, added(long * row) / area
    # Σ(x − m)² of a run of n whole numbers around its middle m is n(n² − 1)/12.
    xx = added(long * (long**2 - 1.0) / 12.0 + long * middle**2) / area - x**2
    yy = added(long * row**2) / area - y**2
    xy = added(long * middle * row) / area - x * y
    # A pixel is a square, not a point: its own spread is 1/12.
    return Blobs(area, np.stack([x, y], axis=1), np.stack([xx + 1 / 12, xy, yy + 1 / 12], axis=1))
