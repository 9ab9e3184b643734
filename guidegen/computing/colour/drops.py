"""Parts into whole drops: the fewest that make the wanted amount and keep the parts."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

# How far any two paints' ratio may be from the one asked for.
TOLERANCE = 0.05

# Past this nobody counts: more than a pot's worth of drops. A larger amount is asked for outright and may have more.
MOST_DROPS = 400

# Float dust in "27 drops of 0.05 ml make 1.35 ml" must not ask for a 28th.
_DUST = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Drops:
    """Drops of each paint in the order asked for, the ml they make, and the largest error of a ratio, 0.03 for 3%.

    `keeps_ratio` is False where no count up to the bound keeps every ratio within 5%.
    """

    counts: tuple[int, ...]
    ml: float
    error: float
    keeps_ratio: bool


def drops_for(parts: Sequence[float], sizes: Sequence[float], ml: float) -> Drops:
    """The smallest number of whole drops that makes at least `ml` with every ratio within 5% of `parts`.

    `parts` are by volume and positive, `sizes` the ml of one drop of each. Where two counts are as small, the one
    nearest to the parts. A paint of which very little is wanted forces more of the others, up to `MOST_DROPS` or half as
    much again as the amount takes; past that the nearest whole drops are given, at least one of each.
    """
    wanted = [part / size for part, size in zip(parts, sizes, strict=True)]
    volume = math.fsum(parts)
    bound = max(MOST_DROPS, math.ceil(1.5 * math.fsum(wanted) * ml / volume))
    best: tuple[int, float, tuple[int, ...]] | None = None
    for scale in _scales(wanted, ml / volume, bound):
        counts = _counts(wanted, sizes, scale, ml)
        if counts is None:
            continue
        candidate = (sum(counts), _error(counts, wanted), counts)
        if candidate[0] <= bound and (best is None or candidate < best):
            best = candidate
        if best is not None and scale * math.fsum(wanted) > best[0]:
            break
    if best is None:
        counts = tuple(max(1, round(each * ml / volume)) for each in wanted)
        return _drops(counts, sizes, wanted, keeps=False)
    return _drops(best[2], sizes, wanted, keeps=True)


def _scales(wanted: Sequence[float], ideal: float, bound: int) -> list[float]:
    """Every scale at which one paint comes to a whole number of drops, from 5% under the amount to the bound.

    In an answer the paint that is shortest for its parts comes out exactly at one of these.
    """
    low, high = ideal / (1.0 + TOLERANCE) - _DUST, bound / math.fsum(wanted)
    return sorted(
        {
            count / each
            for each in wanted
            for count in range(max(1, math.ceil(low * each - _DUST)), math.floor(high * each + _DUST) + 1)
        }
    )


def _counts(
    wanted: Sequence[float], sizes: Sequence[float], scale: float, ml: float
) -> tuple[int, ...] | None:
    """The fewest drops with every paint between `scale` and 5% above it, and the amount reached; None if none."""
    counts = [math.ceil(scale * each - _DUST) for each in wanted]
    most = [math.floor((1.0 + TOLERANCE) * scale * each + _DUST) for each in wanted]
    if any(count > top for count, top in zip(counts, most, strict=True)):
        return None
    short = ml - math.fsum(count * size for count, size in zip(counts, sizes, strict=True))
    while short > _DUST:
        free = [i for i, (count, top) in enumerate(zip(counts, most, strict=True)) if count < top]
        if not free:
            return None
        # The largest drop first, then the paint that is shortest for its parts.
        pick = max(free, key=lambda i: (sizes[i], -(counts[i] + 1) / wanted[i]))
        counts[pick] += 1
        short -= sizes[pick]
    return tuple(counts)


def _error(counts: Sequence[int], wanted: Sequence[float]) -> float:
    scales = [count / each for count, each in zip(counts, wanted, strict=True)]
    return max(scales) / min(scales) - 1.0


def _drops(counts: tuple[int, ...], sizes: Sequence[float], wanted: Sequence[float], *, keeps: bool) -> Drops:
    ml = math.fsum(count * size for count, size in zip(counts, sizes, strict=True))
    return Drops(counts=counts, ml=ml, error=_error(counts, wanted), keeps_ratio=keeps)
