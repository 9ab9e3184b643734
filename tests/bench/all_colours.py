"""Whether every colour of sRGB has a reflectance curve: `python tests/bench/all_colours.py [--sample N]`.

All 16.7 million are worked out, on all cores; it prints how far the worst is from its linear light, and how many are
farther than 1e-6 or raised.
"""

from __future__ import annotations

import argparse
import os
import sys
import time
from concurrent.futures import ProcessPoolExecutor
from typing import NamedTuple

# One thread of linear algebra in each process: the processes share the cores already.
os.environ.setdefault("OMP_NUM_THREADS", "1")
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

import numpy as np

from guidegen.computing.colour.reflectance import linear_of_curves, smoothest_curves
from guidegen.computing.colour.spaces import decoded

COLOURS, CHUNK, ALLOWED = 1 << 24, 1 << 14, 1e-6


class Found(NamedTuple):
    """Of some colours: the farthest off, which that is, how many are too far off, how many could not be worked out."""

    worst: float
    colour: int
    failures: int


def looked_at(numbers: np.ndarray) -> Found:
    """Work out the curves of colours given as 0xrrggbb."""
    levels = (numbers[:, None] >> np.array([16, 8, 0])) & 0xFF
    light = decoded(levels / 255.0)
    away = np.abs(linear_of_curves(smoothest_curves(light)) - np.clip(light, 1e-4, 1.0 - 1e-4)).max(axis=1)
    away = np.where(np.isfinite(away), away, np.inf)
    at = int(away.argmax())
    return Found(float(away[at]), int(numbers[at]), int((away > ALLOWED).sum()))


def main() -> int:
    """Print what was found; 1 where a colour failed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sample", type=int, metavar="N", help="only N colours, drawn evenly")
    parser.add_argument("--cores", type=int, default=os.cpu_count(), help="processes (all cores)")
    asked = parser.parse_args()
    count = min(asked.sample or COLOURS, COLOURS)
    numbers = np.linspace(0, COLOURS - 1, count).astype(np.int64)
    chunks = [numbers[begin : begin + CHUNK] for begin in range(0, count, CHUNK)]
    start, worst, failures = time.perf_counter(), Found(0.0, 0, 0), 0
    with ProcessPoolExecutor(asked.cores) as pool:
        for number, found in enumerate(pool.map(looked_at, chunks), 1):
            worst = max(worst, found)
            failures += found.failures
            if sys.stderr.isatty() or number % 64 == 0 or number == len(chunks):
                spent = time.perf_counter() - start
                print(
                    f"{number} of {len(chunks)} chunks, {spent:.0f} s, {failures} failures", file=sys.stderr
                )
    print(f"{count:,} colours in {time.perf_counter() - start:.0f} s")
    print(f"worst residual {worst.worst:.2g} at #{worst.colour:06x}")
    print(f"failures (over {ALLOWED:g}): {failures}")
    return 1 if failures else 0


if __name__ == "__main__":
    raise SystemExit(main())
