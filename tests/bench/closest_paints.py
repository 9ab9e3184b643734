"""How long 200 searches among 3,000 paints take, beside the bare numpy arithmetic: `python tests/bench/closest_paints.py`."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1]))

from support.paints import palette_of, pot

from guidegen.computing.colour.closest import Matcher
from guidegen.computing.colour.spaces import delta_e_2000, lab_of

PAINTS, QUERIES, ROUNDS = 3_000, 200, 5


def best(work: Callable[[], object]) -> float:
    """The shortest of a few runs, in seconds."""
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times)


def main() -> None:
    random = np.random.default_rng(3000)
    colours = [f"#{number:06x}" for number in random.integers(0, 1 << 24, PAINTS).tolist()]
    palette = palette_of(*(pot(f"Jar {n}", colour, owned=n % 3) for n, colour in enumerate(colours)))
    asked = palette.paints[:QUERIES]
    lab = lab_of(colours)
    floor = best(lambda: delta_e_2000(lab[:QUERIES, None], lab[None]))
    ours = best(lambda: [Matcher(palette).closest(asked[0])])
    every = best(lambda: list(map(Matcher(palette).closest, asked)))
    print(f"bare numpy, {QUERIES} × {PAINTS} differences: {floor:.3f} s")
    print(f"setting up and one search: {ours:.3f} s")
    print(
        f"setting up and {QUERIES} searches, sorted, by name: {every:.3f} s ({every / floor:.2f} × the floor)"
    )


if __name__ == "__main__":
    main()
