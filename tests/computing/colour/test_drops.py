"""Whole drops: checked against trying every count."""

from __future__ import annotations

import itertools
from collections.abc import Iterator

import pytest

from guidegen.computing.colour.drops import MOST_DROPS, TOLERANCE, drops_for

DROP = 0.05


def shared_out(total: int, among: int) -> Iterator[tuple[int, ...]]:
    """Every way to give `total` drops to so many paints, at least one each."""
    for cuts in itertools.combinations(range(1, total), among - 1):
        yield tuple(b - a for a, b in itertools.pairwise((0, *cuts, total)))


def ratio_error(counts: tuple[int, ...], parts: list[float], sizes: list[float]) -> float:
    """The largest error of any two paints' ratio of volumes."""
    volumes = [count * size for count, size in zip(counts, sizes, strict=True)]
    return max(
        volumes[i] / volumes[j] / (parts[i] / parts[j]) - 1
        for i, j in itertools.product(range(len(parts)), repeat=2)
    )


def by_trying(parts: list[float], sizes: list[float], ml: float) -> tuple[int, float]:
    """The smallest total that makes the amount and keeps the ratios, and the least error at it."""
    for total in range(len(parts), 200):
        errors = [
            ratio_error(counts, parts, sizes)
            for counts in shared_out(total, len(parts))
            if sum(n * size for n, size in zip(counts, sizes, strict=True)) >= ml - 1e-9
        ]
        kept = [error for error in errors if error <= TOLERANCE + 1e-9]
        if kept:
            return total, min(kept)
    raise AssertionError("no count found")


@pytest.mark.parametrize(
    ("parts", "sizes", "ml"),
    [
        ([2, 1], [DROP, DROP], 2.0),
        ([2, 1], [DROP, DROP], 0.1),
        ([3, 1, 2], [DROP] * 3, 1.0),
        ([4, 2, 1], [DROP] * 3, 0.5),
        ([5, 3], [0.03, 0.05], 1.0),
        ([1, 1, 1.5], [0.04, 0.05, 0.03], 0.6),
        ([2, 1, 0.1], [DROP] * 3, 0.5),
        ([7, 3], [DROP, 0.04], 1.3),
    ],
)
def test_the_fewest_drops_there_are(parts: list[float], sizes: list[float], ml: float) -> None:
    found = drops_for(parts, sizes, ml)
    total, error = by_trying(parts, sizes, ml)
    assert found.keeps_ratio
    assert sum(found.counts) == total
    assert found.error == pytest.approx(error, abs=1e-9)
    assert ratio_error(found.counts, parts, sizes) == pytest.approx(found.error, abs=1e-9)
    assert found.ml == pytest.approx(sum(n * s for n, s in zip(found.counts, sizes, strict=True)))
    assert found.ml >= ml - 1e-9


def test_two_to_one() -> None:
    assert drops_for([2, 1], [DROP, DROP], 2.0).counts == (27, 13)
    assert drops_for([2, 1], [DROP, DROP], 1.5).counts == (20, 10)


def test_one_paint_alone() -> None:
    assert drops_for([3], [DROP], 2.0).counts == (40,)


def test_a_trace_of_one_paint_makes_more_of_the_rest() -> None:
    found = drops_for([2, 1, 0.1], [DROP] * 3, 0.5)
    assert found.counts == (20, 10, 1)
    assert found.ml == pytest.approx(1.55)


def test_a_ratio_that_no_sane_count_keeps_is_owned_up_to() -> None:
    found = drops_for([1000, 1], [DROP, DROP], 1.0)
    assert not found.keeps_ratio
    assert found.counts == (20, 1)
    assert found.error > TOLERANCE


def test_a_large_amount_may_take_more_than_the_bound() -> None:
    found = drops_for([2, 1], [DROP, DROP], 60.0)
    assert found.keeps_ratio
    assert sum(found.counts) == 1200 > MOST_DROPS
