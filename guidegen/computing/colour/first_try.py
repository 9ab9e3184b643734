"""After the first try: what to add to a mixture so that it comes nearer to what is wanted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from guidegen.computing.colour.corrections import Correction, corrected, spread
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.colour.recipes import AS_GOOD
from guidegen.computing.colour.spaces import DECIMALS, delta_e_2000, lab_of
from guidegen.computing.colour.stand_in import GOOD
from guidegen.model.paint import Paint

# How often the smallest part tried is added again, of each pot: common practice, no source.
TIMES = (0, 1, 2, 3, 4, 5, 6, 8, 10)

# A first try of more pots than this has too many combinations to try.
MOST_TRIED = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Addition:
    """Pots and the parts to add of each, in the parts that were tried, and what it is then predicted to differ by."""

    parts: tuple[tuple[Paint, float], ...]
    de00: float


def addition(
    mixer: Mixer, tried: Sequence[tuple[Paint, float]], seen: Correction, wanted: str
) -> Addition | None:
    """What to add of the pots tried, None where adding makes it no better or brings it nowhere near.

    `tried` names each pot once; `seen` is what it taught. Of additions within 1.0 of the best in CIEDE2000, the fewest
    pots come first, then the fewest parts, then the lower difference, then the names. Twice the parts tried, twice the
    parts added.
    """
    pots = [paint for paint, _ in tried]
    amounts = np.array([amount for _, amount in tried])
    unit = float(amounts.min())
    lab = lab_of([wanted])[0]
    times = np.array(list(product(TIMES, repeat=len(pots))), dtype=float)
    parts = amounts + times * unit
    shares = parts / parts.sum(axis=1, keepdims=True)
    predicted = corrected(mixer.lab_of_parts(pots, shares), spread(shares), seen)
    away = delta_e_2000(lab, predicted).round(DECIMALS)
    now, best = float(away[0]), float(away[1:].min())
    if best > GOOD or best >= now:
        return None
    names = [paint.full_name for paint in pots]

    def order(row: int) -> tuple[int, float, float, tuple[str, ...]]:
        added = [name for name, count in zip(names, times[row], strict=True) if count]
        return len(added), float(times[row].sum()), float(away[row]), tuple(added)

    limit = min(round(best + AS_GOOD, DECIMALS), GOOD)
    good = [row for row in range(1, len(times)) if away[row] <= limit and away[row] < now]
    row = min(good, key=order)
    added = zip(pots, (times[row] * unit).tolist(), strict=True)
    return Addition(parts=tuple((paint, amount) for paint, amount in added if amount), de00=float(away[row]))
