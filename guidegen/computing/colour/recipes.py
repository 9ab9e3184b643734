"""What to mix for a colour: every recipe that a brush can mix out of some pots, and the ones that come nearest."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations, permutations
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from guidegen.computing.colour.corrections import Correction, corrected, spread
from guidegen.computing.colour.difference_bound import GREATEST_SL, Polar, least_squared
from guidegen.computing.colour.mixing import Mixer, linear_of_mixture
from guidegen.computing.colour.spaces import (
    DECIMALS,
    Floats,
    delta_e_2000,
    hex_of_lab,
    lab_of,
    lab_of_linear,
    near_light,
)
from guidegen.model.paint import Paint

# Parts that a brush can measure; "10:1" is a paint and a touch of another. Common practice, no source.
OF_TWO = ((1, 1), (3, 2), (2, 1), (3, 1), (5, 1), (10, 1))
OF_THREE = ((1, 1, 1), (2, 1, 1), (2, 2, 1), (3, 1, 1), (3, 2, 1))
MOST_POTS = 3

# Recipes so much worse than the best, in CIEDE2000, are as good if they are simpler: common practice, no source.
AS_GOOD = 1.0

# Up to this many pots every recipe of three is tried, and what they come to is kept for the next colour. Of more, all
# sets of three are first looked at roughly, and only so many of the best in full.
MOST_IN_THREES, BEST_SETS = 64, 2000

# Of more pots than this, mixtures are made of so many near ones and so many that differ most among them all.
MOST_IN_PAIRS, NEAREST, APART = 300, 200, 100

# Of more pots than this, the rough look is at threes of the first so many pots that do best in pairs, and goes on from
# the best sets so often; the more pots, the fewer sets are needed.
MOST_IN_ROUGH = 100
FIRST_POTS, SEEDED, FEWEST_SEEDS, ROUNDS = 20, 16_000, 40, 3

# The rough look goes by the middle one of so many bands.
BANDS_AS_ONE = 3

# Sets of pots worked out at once: what they need stays in the processor's cache.
_BLOCK = 64

# Recipes nearest by plain distance; the best of them bounds what the others must come to.
_FIRST_LOOK = 256


def _ratios(parts: Iterable[tuple[int, ...]]) -> NDArray[np.int64]:
    """Parts in every order, each once."""
    return np.array(list(dict.fromkeys(order for each in parts for order in permutations(each))))


_RATIOS = {2: _ratios(OF_TWO), 3: _ratios(OF_THREE)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """Pots in whole parts, most first, then by full name, and the colour they are predicted to make.

    `de00` is the CIEDE2000 difference of the unrounded prediction from what was asked for, to four decimals.
    """

    parts: tuple[tuple[Paint, int], ...]
    colour: str
    de00: float


class Found(NamedTuple):
    """Recipes, the first to be tried first, and the least difference of all that there are; None if there are none."""

    recipes: tuple[Recipe, ...]
    least: float | None


# Corrections by the places of the pots that they are about, in rising order.
_Known = dict[tuple[int, ...], Correction]


class _Mixtures:
    """Every recipe of so many of some pots, and the CIELAB colour that it is predicted to make."""

    def __init__(self, mixer: Mixer, pots: Sequence[Paint], sets: NDArray[np.intp]) -> None:
        """Work out all recipes of sets of pots, places in `pots` in rising order, shape (n, 2) or (n, 3)."""
        self.ratios = _RATIOS[sets.shape[1]]
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

    def corrected(self, known: _Known) -> Floats:
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


class _RoughMixtures:
    """Every recipe of sets of three pots, as linear sRGB by a third of the bands: about 0.3 off by CIEDE2000."""

    def __init__(self, mixer: Mixer, pots: Sequence[Paint], sets: NDArray[np.intp]) -> None:
        """Work out all recipes of sets of three pots, places in `pots`, shape (n, 3)."""
        self.sets = sets
        constants = [mixer.constants(pot) for pot in pots]
        bands = slice(BANDS_AS_ONE // 2, None, BANDS_AS_ONE)
        absorbs = np.array([each.absorbs[bands] for each in constants], dtype=np.float32)
        scatters = np.array([each.scatters[bands] for each in constants], dtype=np.float32)
        ratios = _RATIOS[3].astype(np.float32)
        self._light = np.empty((3, len(ratios), len(sets)), dtype=np.float32)
        for begin in range(0, len(sets), _BLOCK * BANDS_AS_ONE):
            some = slice(begin, begin + _BLOCK * BANDS_AS_ONE)
            light = linear_of_mixture(ratios @ absorbs[sets[some]], ratios @ scatters[sets[some]])
            self._light[:, :, some] = np.clip(light, 0.0, 1.0).transpose(2, 1, 0)

    def away(self, lab: Floats, at: Floats) -> NDArray[np.float32]:
        """About how far the nearest recipe of each set is from a CIELAB colour, squared; true for those near `at`."""
        light, turn = near_light(at)
        local = _local(lab)
        turn = turn @ local
        middles = light @ turn - (at - lab) @ local
        squared = np.zeros(self._light.shape[1:], dtype=np.float32)
        for along, middle in zip(turn.T.astype(np.float32), middles.tolist(), strict=True):
            delta = along[0] * self._light[0]
            delta += along[1] * self._light[1]
            delta += along[2] * self._light[2] - np.float32(middle)
            squared += delta * delta
        nearest: NDArray[np.float32] = squared.min(axis=0)
        return nearest


class _Near(NamedTuple):
    """Recipes that may be near: rows of a table, with their colours and their differences."""

    table: _Mixtures
    rows: NDArray[np.intp]
    lab: Floats
    away: Floats


def _best_pairs(pairs: _Mixtures, lab: Floats, known: _Known, most: int) -> NDArray[np.intp]:
    """The pairs of pots that come nearest, the best first, shape (most, 2)."""
    deltas = (pairs.corrected(known) - lab) @ _local(lab)
    away = (deltas**2).sum(axis=1).reshape(-1, len(pairs.ratios)).min(axis=1)
    best: NDArray[np.intp] = pairs.sets[np.argsort(away, kind="stable")[:most]]
    return best


def _best_threes(tables: Sequence[_RoughMixtures], lab: Floats, at: Floats, most: int) -> NDArray[np.intp]:
    """The sets of three pots that come nearest, shape (most, 3), in no order; no set is in two tables."""
    away = np.concatenate([table.away(lab, at) for table in tables])
    sets: NDArray[np.intp] = np.vstack([table.sets for table in tables])
    return sets if len(sets) <= most else sets[np.argpartition(away, most)[:most]]


def _local(lab: Floats) -> Floats:
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


def _all_sets(among: Iterable[int], count: int) -> NDArray[np.intp]:
    return np.array(list(combinations(among, count)), dtype=np.intp).reshape(-1, count)


class RecipeBook:
    """All recipes of some pots, whose colours are worked out when first asked for.

    The pots have colours and can be mixed with one another. Every recipe is tried up to 64 pots, every recipe of two up
    to 300; the best of more pots is within 0.05 of the best there is.
    """

    def __init__(self, mixer: Mixer, pots: Iterable[Paint]) -> None:
        self._mixer = mixer
        self._pots = tuple(pots)

    @cached_property
    def _pairs(self) -> _Mixtures:
        return _Mixtures(self._mixer, self._pots, _all_sets(range(len(self._pots)), 2))

    @cached_property
    def _threes(self) -> _Mixtures:
        return _Mixtures(self._mixer, self._pots, _all_sets(range(len(self._pots)), 3))

    @cached_property
    def _rough_threes(self) -> _RoughMixtures:
        return self._rough(_all_sets(range(len(self._pots)), 3))

    def towards(
        self, lab: Floats, *, most: int, pots: int = MOST_POTS, corrections: Sequence[Correction] = ()
    ) -> Found:
        """At most `most` recipes of at most `pots` pots for a CIELAB colour.

        Of what lies within 1.0 of the best, the fewest pots come first, then the smallest sum of parts, then the lower
        difference, then the names. `corrections` are added to the predictions of their pots; a later one counts for more.
        """
        if len(self._pots) > MOST_IN_PAIRS:
            book = RecipeBook(self._mixer, self._worth_trying(lab))
            return book.towards(lab, most=most, pots=pots, corrections=corrections)
        known = self._by_place(corrections)
        near: list[_Near] = []
        if pots >= 2 and len(self._pots) >= 2:
            near.append(_near(self._pairs, lab, known))
        if pots >= 3 and len(self._pots) >= 3:
            at = near[0].lab[near[0].away.argmin()]
            near.append(_near(self._three_for(lab, at, known), lab, known))
        least = min((float(each.away.min()) for each in near), default=None)
        if least is None:
            return Found((), None)
        limit = round(least + AS_GOOD, DECIMALS)
        first = [recipe for each in near for recipe in self._first(_within(each, limit), most)]
        return Found(tuple(sorted(first, key=_order)[:most]), least)

    def _worth_trying(self, lab: Floats) -> list[Paint]:
        """The nearest of very many pots, and those that lie furthest from one another, one after the other."""
        colours = lab_of([pot.colour or "" for pot in self._pots])
        order = np.argsort(delta_e_2000(lab, colours), kind="stable")
        kept = order[:NEAREST].tolist()
        apart = ((colours - colours[kept[0]]) ** 2).sum(axis=1)
        for place in kept[1:]:
            apart = np.minimum(apart, ((colours - colours[place]) ** 2).sum(axis=1))
        for _ in range(APART):
            kept.append(int(apart.argmax()))
            apart = np.minimum(apart, ((colours - colours[kept[-1]]) ** 2).sum(axis=1))
        return [self._pots[place] for place in sorted(set(kept))]

    def _by_place(self, corrections: Sequence[Correction]) -> _Known:
        places = {pot.full_name: place for place, pot in enumerate(self._pots)}
        return {
            tuple(sorted(places[name] for name in one.shares)): one
            for one in corrections
            if all(name in places for name in one.shares)
        }

    def _three_for(self, lab: Floats, at: Floats, known: _Known) -> _Mixtures:
        """Threes for one colour: all of them, or of many pots those that look best, and those that something is known of.

        `at` is the nearest colour that two pots make: threes that do better are near it.
        """
        if len(self._pots) <= MOST_IN_THREES:
            return self._threes
        rough = [self._rough_threes] if len(self._pots) <= MOST_IN_ROUGH else self._searched(lab, at, known)
        measured = [places for places in known if len(places) == 3]
        best = np.vstack(
            [_best_threes(rough, lab, at, BEST_SETS), np.array(measured, dtype=np.intp).reshape(-1, 3)]
        )
        return _Mixtures(self._mixer, self._pots, self._decoded(self._codes(best)))

    def _searched(self, lab: Floats, at: Floats, known: _Known) -> list[_RoughMixtures]:
        """A rough look at threes that share two pots with the best found so far."""
        seeds = max(FEWEST_SEEDS, SEEDED // len(self._pots))
        pairs = _best_pairs(self._pairs, lab, known, seeds)
        first = np.array(sorted(list(dict.fromkeys(pairs.ravel().tolist()))[:FIRST_POTS]))
        seen = np.empty(0, dtype=np.intp)
        more = np.vstack([_all_sets(first, 3), self._with_another(pairs)])
        tables: list[_RoughMixtures] = []
        for _ in range(1 + ROUNDS):
            fresh = np.setdiff1d(self._codes(more), seen, assume_unique=True)
            if not len(fresh):
                break
            seen = np.concatenate([seen, fresh])
            tables.append(self._rough(self._decoded(fresh)))
            best = _best_threes(tables, lab, at, seeds)
            more = np.vstack([self._with_another(best[:, kept]) for kept in ([0, 1], [0, 2], [1, 2])])
        return tables

    def _rough(self, sets: NDArray[np.intp]) -> _RoughMixtures:
        return _RoughMixtures(self._mixer, self._pots, sets)

    def _codes(self, threes: NDArray[np.intp]) -> NDArray[np.intp]:
        """Threes as numbers, each once, in the order of their pots."""
        count = len(self._pots)
        # Sorted, since `np.unique` takes three times as long to hash them.
        codes: NDArray[np.intp] = np.sort((threes[:, 0] * count + threes[:, 1]) * count + threes[:, 2])
        return codes[np.diff(codes, prepend=-1) > 0]

    def _decoded(self, codes: NDArray[np.intp]) -> NDArray[np.intp]:
        count = len(self._pots)
        return np.column_stack([codes // count**2, codes // count % count, codes % count])

    def _with_another(self, pairs: NDArray[np.intp]) -> NDArray[np.intp]:
        """Each pair with every other pot, shape (n, 3)."""
        count = len(self._pots)
        threes = np.column_stack([np.repeat(pairs, count, axis=0), np.tile(np.arange(count), len(pairs))])
        threes.sort(axis=1)
        return threes[(threes[:, 0] < threes[:, 1]) & (threes[:, 1] < threes[:, 2])]

    def _first(self, near: _Near, most: int) -> list[Recipe]:
        """The first of recipes that are as good, all of as many pots."""
        parts = near.table.parts(near.rows)
        sums = parts.sum(axis=1)
        order = np.lexsort((near.away, sums))
        if len(order) > most:  # names tell those apart that are equal to the last one
            last = order[most - 1]
            order = order[
                (sums[order] < sums[last])
                | ((sums[order] == sums[last]) & (near.away[order] <= near.away[last]))
            ]
        pots = near.table.pots(near.rows)
        recipes = [
            Recipe(
                parts=self._named(pots[row].tolist(), parts[row].tolist()),
                colour=hex_of_lab(near.lab[row]),
                de00=float(near.away[row]),
            )
            for row in order.tolist()
        ]
        return sorted(recipes, key=_order)[:most]

    def _named(self, places: list[int], parts: list[int]) -> tuple[tuple[Paint, int], ...]:
        named = [(self._pots[place], count) for place, count in zip(places, parts, strict=True)]
        return tuple(sorted(named, key=lambda part: (-part[1], part[0].full_name)))


def _order(recipe: Recipe) -> tuple[int, int, float, tuple[str, ...]]:
    names = tuple(pot.full_name for pot, _ in recipe.parts)
    return len(names), sum(count for _, count in recipe.parts), recipe.de00, names


def _near(table: _Mixtures, lab: Floats, known: _Known) -> _Near:
    """All recipes that lie within `AS_GOOD` of the best one, and some others."""
    colours = table.corrected(known)
    distance = ((colours - lab) ** 2).sum(axis=1)
    first = np.argpartition(distance, min(_FIRST_LOOK, len(distance)) - 1)[:_FIRST_LOOK]
    reach = float(delta_e_2000(lab, colours[first]).min()) + AS_GOOD + 1e-3
    rows = np.flatnonzero(np.abs(colours[:, 0] - lab[0]) <= reach * GREATEST_SL)
    rows = rows[least_squared(Polar.of(lab), Polar.of(colours[rows])) <= reach**2]
    found = colours[rows]
    return _Near(table, rows, found, delta_e_2000(lab, found).round(DECIMALS))


def _within(near: _Near, limit: float) -> _Near:
    kept = near.away <= limit
    return _Near(near.table, near.rows[kept], near.lab[kept], near.away[kept])
