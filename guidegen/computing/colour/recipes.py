"""What to mix for a colour: every recipe that a brush can mix out of some pots, and the ones that come nearest."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from guidegen.computing.colour.corrections import Correction
from guidegen.computing.colour.difference_bound import GREATEST_SL, Polar, least_squared
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.colour.recipe_colours import (
    ByPlace,
    Mixtures,
    RoughMixtures,
    local_turn,
    squared_from,
)
from guidegen.computing.colour.spaces import DECIMALS, Floats, delta_e_2000, hex_of_lab, lab_of
from guidegen.model.paint import Paint

MOST_POTS = 3

# Recipes so much worse than the best, in CIEDE2000, are as good if they are simpler: common practice, no source.
AS_GOOD = 1.0

# Up to this many pots every recipe of three is tried, and what they come to is kept for the next colour. Of more, all
# sets of three are first looked at roughly, and only so many of the best in full.
MOST_IN_THREES, BEST_SETS = 64, 2000

# Up to so many pots every recipe of two is tried; of more, all are looked at roughly, and so many of the best in full.
MOST_IN_PAIRS, BEST_PAIRS = 300, 10_000

# Of more pots than this, mixtures are made of so many near ones and so many that differ most among them all.
MOST_AT_ALL, NEAREST, APART = 1000, 700, 300

# Of more pots than this, the rough look is at threes of the first so many pots that do best in pairs, and goes on from
# the best sets so often; the more pots, the fewer sets are needed.
MOST_IN_ROUGH = 100
FIRST_POTS, SEEDED, FEWEST_SEEDS, ROUNDS = 20, 16_000, 40, 3

# Recipes nearest by plain distance; the best of them bounds what the others must come to.
_FIRST_LOOK = 256


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


class _Near(NamedTuple):
    """Recipes that may be near: rows of a table, with their colours and their differences."""

    table: Mixtures
    rows: NDArray[np.intp]
    lab: Floats
    away: Floats


def _best_pairs(pairs: Mixtures, lab: Floats, known: ByPlace, most: int) -> NDArray[np.intp]:
    """The pairs of pots that come nearest, the best first, shape (most, 2)."""
    away = (
        squared_from(pairs.corrected(known), lab, local_turn(lab)).reshape(-1, len(pairs.ratios)).min(axis=1)
    )
    best: NDArray[np.intp] = pairs.sets[np.argsort(away, kind="stable")[:most]]
    return best


def _best_sets(tables: Sequence[RoughMixtures], lab: Floats, at: Floats, most: int) -> NDArray[np.intp]:
    """The sets of pots that come nearest, shape (most, count), in no order; no set is in two tables."""
    away = np.concatenate([table.away(lab, at) for table in tables])
    sets: NDArray[np.intp] = np.vstack([table.sets for table in tables])
    return sets if len(sets) <= most else sets[np.argpartition(away, most)[:most]]


def _measured(known: ByPlace, count: int) -> NDArray[np.intp]:
    """The sets of so many pots that something is known of, shape (n, count)."""
    return np.array([places for places in known if len(places) == count], dtype=np.intp).reshape(-1, count)


def _all_sets(among: Iterable[int], count: int) -> NDArray[np.intp]:
    return np.array(list(combinations(among, count)), dtype=np.intp).reshape(-1, count)


class RecipeBook:
    """All recipes of some pots, whose colours are worked out when first asked for.

    The pots have colours and can be mixed with one another. Every recipe is tried up to 64 pots, every recipe of two up
    to 300; what is found of more pots is within 0.05 of the best there is.
    """

    def __init__(self, mixer: Mixer, pots: Iterable[Paint]) -> None:
        self._mixer = mixer
        self._pots = tuple(pots)

    @cached_property
    def _pairs(self) -> Mixtures:
        return Mixtures(self._mixer, self._pots, _all_sets(range(len(self._pots)), 2))

    @cached_property
    def _rough_pairs(self) -> RoughMixtures:
        return self._rough(_all_sets(range(len(self._pots)), 2))

    @cached_property
    def _threes(self) -> Mixtures:
        return Mixtures(self._mixer, self._pots, _all_sets(range(len(self._pots)), 3))

    @cached_property
    def _rough_threes(self) -> RoughMixtures:
        return self._rough(_all_sets(range(len(self._pots)), 3))

    def towards(
        self, lab: Floats, *, most: int, pots: int = MOST_POTS, corrections: Sequence[Correction] = ()
    ) -> Found:
        """At most `most` recipes of at most `pots` pots for a CIELAB colour.

        Of what lies within 1.0 of the best, the fewest pots come first, then the smallest sum of parts, then the lower
        difference, then the names. `corrections` are added to the predictions of their pots; a later one counts for more.
        """
        return self._worked_out(lab, most=most, pots=pots, corrections=corrections)

    def first(self, lab: Floats, *, corrections: Sequence[Correction] = ()) -> Found:
        """The first recipe alone. `least` is that of pairs where it is known from them that no other recipe comes first."""
        return self._worked_out(lab, most=1, pots=MOST_POTS, corrections=corrections, settled_by_pairs=True)

    def _worked_out(
        self,
        lab: Floats,
        *,
        most: int,
        pots: int,
        corrections: Sequence[Correction],
        settled_by_pairs: bool = False,
    ) -> Found:
        if len(self._pots) > MOST_AT_ALL:
            book = RecipeBook(self._mixer, self._worth_trying(lab))
            return book._worked_out(
                lab, most=most, pots=pots, corrections=corrections, settled_by_pairs=settled_by_pairs
            )
        known = self._by_place(corrections)
        near: list[_Near] = []
        pairs = self._two_for(lab, known) if pots >= 2 and len(self._pots) >= 2 else None
        if pairs is not None:
            near.append(_near(pairs, lab, known))
        if (
            pairs is not None
            and pots >= 3
            and len(self._pots) >= 3
            and not (settled_by_pairs and _one_pair_is_first(near[0]))
        ):
            at = near[0].lab[near[0].away.argmin()]
            near.append(_near(self._three_for(lab, at, pairs, known), lab, known))
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
        apart = squared_from(colours, colours[kept[0]])
        for place in kept[1:]:
            apart = np.minimum(apart, squared_from(colours, colours[place]))
        for _ in range(APART):
            kept.append(int(apart.argmax()))
            apart = np.minimum(apart, squared_from(colours, colours[kept[-1]]))
        return [self._pots[place] for place in sorted(set(kept))]

    def _by_place(self, corrections: Sequence[Correction]) -> ByPlace:
        places = {pot.full_name: place for place, pot in enumerate(self._pots)}
        return {
            tuple(sorted(places[name] for name in one.shares)): one
            for one in corrections
            if all(name in places for name in one.shares)
        }

    def _two_for(self, lab: Floats, known: ByPlace) -> Mixtures:
        """Pairs for one colour: all of them, or of many pots those that look best, and those that something is known of."""
        if len(self._pots) <= MOST_IN_PAIRS:
            return self._pairs
        # How far they are is true near the best alone, so that one is looked for first.
        some = Mixtures(self._mixer, self._pots, _best_sets([self._rough_pairs], lab, lab, FEWEST_SEEDS))
        at = some.lab[delta_e_2000(lab, some.lab).argmin()]
        sets = np.vstack([_best_sets([self._rough_pairs], lab, at, BEST_PAIRS), _measured(known, 2)])
        return Mixtures(self._mixer, self._pots, np.unique(sets, axis=0))

    def _three_for(self, lab: Floats, at: Floats, pairs: Mixtures, known: ByPlace) -> Mixtures:
        """Threes for one colour: all of them, or of many pots those that look best, and those that something is known of.

        `at` is the nearest colour that two pots make: threes that do better are near it.
        """
        if len(self._pots) <= MOST_IN_THREES:
            return self._threes
        rough = (
            [self._rough_threes]
            if len(self._pots) <= MOST_IN_ROUGH
            else self._searched(lab, at, pairs, known)
        )
        best = np.vstack([_best_sets(rough, lab, at, BEST_SETS), _measured(known, 3)])
        return Mixtures(self._mixer, self._pots, self._decoded(self._codes(best)))

    def _searched(self, lab: Floats, at: Floats, two: Mixtures, known: ByPlace) -> list[RoughMixtures]:
        """A rough look at threes that share two pots with the best found so far."""
        seeds = max(FEWEST_SEEDS, SEEDED // len(self._pots))
        pairs = _best_pairs(two, lab, known, seeds)
        first = np.array(sorted(list(dict.fromkeys(pairs.ravel().tolist()))[:FIRST_POTS]))
        seen = np.empty(0, dtype=np.intp)
        more = np.vstack([_all_sets(first, 3), self._with_another(pairs)])
        tables: list[RoughMixtures] = []
        for _ in range(1 + ROUNDS):
            fresh = np.setdiff1d(self._codes(more), seen, assume_unique=True)
            if not len(fresh):
                break
            seen = np.concatenate([seen, fresh])
            tables.append(self._rough(self._decoded(fresh)))
            best = _best_sets(tables, lab, at, seeds)
            more = np.vstack([self._with_another(best[:, kept]) for kept in ([0, 1], [0, 2], [1, 2])])
        return tables

    def _rough(self, sets: NDArray[np.intp]) -> RoughMixtures:
        return RoughMixtures(self._mixer, self._pots, sets)

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


def _near(table: Mixtures, lab: Floats, known: ByPlace) -> _Near:
    """All recipes that lie within `AS_GOOD` of the best one, and some others."""
    colours = table.corrected(known)
    distance = squared_from(colours, lab)
    first = np.argpartition(distance, min(_FIRST_LOOK, len(distance)) - 1)[:_FIRST_LOOK]
    reach = float(delta_e_2000(lab, colours[first]).min()) + AS_GOOD + 1e-3
    rows = np.flatnonzero(np.abs(colours[:, 0] - lab[0]) <= reach * GREATEST_SL)
    rows = rows[least_squared(Polar.of(lab), Polar.of(colours[rows])) <= reach**2]
    found = colours[rows]
    return _Near(table, rows, found, delta_e_2000(lab, found).round(DECIMALS))


def _one_pair_is_first(near: _Near) -> bool:
    """Whether the first of all pairs is the first recipe, however little the best of three pots may be off.

    A pair within `AS_GOOD` always counts as good, and only one of fewer parts that is further off could come before it.
    """
    sums = near.table.parts(near.rows).sum(axis=1)
    sure = near.away <= AS_GOOD
    perhaps = ~sure & (near.away <= round(float(near.away.min()) + AS_GOOD, DECIMALS))
    return bool(sure.any()) and (not perhaps.any() or bool(sums[sure].min() <= sums[perhaps].min()))


def _within(near: _Near, limit: float) -> _Near:
    kept = near.away <= limit
    return _Near(near.table, near.rows[kept], near.lab[kept], near.away[kept])
