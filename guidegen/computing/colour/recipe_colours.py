"""The colours of every recipe of sets of pots, exactly and roughly."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import permutations

import numpy as np
from numpy.typing import NDArray

from guidegen.computing.colour.corrections import Correction, corrected, spread
from guidegen.computing.colour.mixing import Mixer, linear_of_mixture
from guidegen.computing.colour.spaces import Floats, lab_of_linear, near_light
from guidegen.model.paint import Paint

# Parts that a brush can measure; "10:1" is a paint and a touch of another. Common practice, no source.
OF_TWO = ((1, 1), (3, 2), (2, 1), (3, 1), (5, 1), (10, 1))
OF_THREE = ((1, 1, 1), (2, 1, 1), (2, 2, 1), (3, 1, 1), (3, 2, 1))
# The rough look goes by the middle one of so many bands.
BANDS_AS_ONE = 3

# Sets of pots worked out at once: what they need stays in the processor's cache.
_BLOCK = 64


def _ratios(parts: Iterable[tuple[int, ...]]) -> NDArray[np.int64]:
    """Parts in every order, each once."""
    return np.array(list(dict.fromkeys(order for each in parts for order in permutations(each))))


RATIOS = {2: _ratios(OF_TWO), 3: _ratios(OF_THREE)}


# Corrections by the places of the pots that they are about, in rising order.
ByPlace = dict[tuple[int, ...], Correction]


class Mixtures:
    """Every recipe of so many of some pots, and the CIELAB colour that it is predicted to make."""

    def __init__(self, mixer: Mixer, pots: Sequence[Paint], sets: NDArray[np.intp]) -> None:
        """Work out all recipes of sets of pots, places in `pots` in rising order, shape (n, 2) or (n, 3)."""
        self.ratios = RATIOS[sets.shape[1]]
        self.sets = sets
        constants = [mixer.constants(pot) for pot in pots]
        absorbs = np.array([each.absorbs for each in constants])
        scatters = np.array([each.scatters for each in constants])
        ratios = self.ratios.astype(float)
        lab = np.empty((len(self.sets), len(ratios), 3))
        for begin in range(0, len(self.sets), _BLOCK):
            block = self.sets[begin : begin + _BLOCK]
            light = linear_of_mixture(ratios @ absorbs[block], ratios @ scatters[block])
            lab[begin : begin + _BLOCK] = lab_of_linear(np.clip(light, 0.0, 1.0))
        self.lab = lab.reshape(-1, 3)

    def pots(self, rows: NDArray[np.intp]) -> NDArray[np.intp]:
        """Which pots recipes are made of, shape (n, count)."""
        chosen: NDArray[np.intp] = self.sets[rows // len(self.ratios)]
        return chosen

    def parts(self, rows: NDArray[np.intp]) -> NDArray[np.int64]:
        """And their parts."""
        chosen: NDArray[np.int64] = self.ratios[rows % len(self.ratios)]
        return chosen

    def corrected(self, known: ByPlace) -> Floats:
        """The colours, those of pots that something is known about corrected by it."""
        fixed = [(rows, one) for places, one in known.items() if len(rows := self.rows_of(places))]
        colours = self.lab.copy() if fixed else self.lab
        for rows, one in fixed:
            shares = self.parts(rows) / self.parts(rows).sum(axis=1, keepdims=True)
            colours[rows] = corrected(colours[rows], spread(shares), one)
        return colours

    def rows_of(self, pots: tuple[int, ...]) -> NDArray[np.intp]:
        """The recipes of exactly these pots, given in rising order."""
        if len(pots) != self.sets.shape[1]:
            return np.empty(0, dtype=np.intp)
        places = np.flatnonzero((self.sets == pots).all(axis=1))
        count = len(self.ratios)
        return (places[:, None] * count + np.arange(count)).reshape(-1)


class RoughMixtures:
    """Every recipe of sets of so many pots, as linear sRGB by a third of the bands: about 0.3 off by CIEDE2000."""

    def __init__(self, mixer: Mixer, pots: Sequence[Paint], sets: NDArray[np.intp]) -> None:
        """Work out all recipes of sets of pots, places in `pots`, shape (n, 2) or (n, 3)."""
        self.sets = sets
        constants = [mixer.constants(pot) for pot in pots]
        bands = slice(BANDS_AS_ONE // 2, None, BANDS_AS_ONE)
        absorbs = np.array([each.absorbs[bands] for each in constants], dtype=np.float32)
        scatters = np.array([each.scatters[bands] for each in constants], dtype=np.float32)
        ratios = RATIOS[sets.shape[1]].astype(np.float32)
        self._light = np.empty((len(ratios), 3, len(sets)), dtype=np.float32)
        for begin in range(0, len(sets), _BLOCK * BANDS_AS_ONE):
            some = slice(begin, begin + _BLOCK * BANDS_AS_ONE)
            light = linear_of_mixture(ratios @ absorbs[sets[some]], ratios @ scatters[sets[some]])
            self._light[:, :, some] = np.clip(light, 0.0, 1.0).transpose(1, 2, 0)

    def away(self, lab: Floats, at: Floats) -> NDArray[np.float32]:
        """About how far the nearest recipe of each set is from a CIELAB colour, squared; true for those near `at`."""
        light, turn = near_light(at)
        local = local_turn(lab)
        turn = turn @ local
        middle = (light @ turn - (at - lab) @ local).astype(np.float32)
        turn = turn.T.astype(np.float32)
        nearest = np.full(len(self.sets), np.inf, dtype=np.float32)
        for one in self._light:
            delta = turn @ one - middle[:, None]
            delta *= delta
            np.minimum(nearest, delta.sum(axis=0), out=nearest)
        return nearest


def local_turn(lab: Floats) -> Floats:
    """Differences from a CIELAB colour times this (3, 3) are about as long as CIEDE2000 says: S_L, S_C, S_H as they are
    there, T = 1, no rotation. To look for a place to begin.
    """
    chroma = float(np.hypot(lab[1], lab[2]))
    along = np.array([lab[1], lab[2]]) / chroma if chroma else np.array([1.0, 0.0])
    sl = 1.0 + 0.015 * (lab[0] - 50.0) ** 2 / np.sqrt(20.0 + (lab[0] - 50.0) ** 2)
    sc, sh = 1.0 + 0.045 * chroma, 1.0 + 0.015 * chroma
    return np.array(
        [[1.0 / sl, 0.0, 0.0], [0.0, along[0] / sc, -along[1] / sh], [0.0, along[1] / sc, along[0] / sh]]
    )


def squared_from(colours: Floats, lab: Floats, turn: Floats | None = None) -> Floats:
    """Plain distances squared of colours (n, 3) from a CIELAB colour, all turned first where a (3, 3) says how."""
    # Three long rows: numpy takes four times as long over many short ones.
    deltas = colours.T - lab[:, None] if turn is None else turn.T @ colours.T - (lab @ turn)[:, None]
    deltas *= deltas
    squared: Floats = deltas.sum(axis=0)
    return squared
