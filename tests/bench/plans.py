"""How long a large plan takes: 30 units of 30 figures, 25 steps each, in batches of 30, 5 and 1.

    python tests/bench/plans.py

The target is 2 s for whole units. Prints seconds of computing, sittings and the finish; never a pass or fail.
"""

from __future__ import annotations

import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from support.plans import computed, evening, guide_of, plan_of, step, unit


def main() -> None:
    draw = random.Random(3)
    guides = [
        guide_of(
            f"unit-{number}",
            *(
                step(f"Step {n}", draw.randrange(10), draw.randrange(1, 6), draw.randrange(60))
                for n in range(1, 26)
            ),
        )
        for number in range(1, 31)
    ]
    week = dict.fromkeys(range(7), evening(20, 22))
    for batch in (None, 5, 1):
        plan = plan_of(*(unit(guide, 30, batch) for guide in guides), week=week)
        start = time.perf_counter()
        found = computed(plan, *guides)
        seconds = time.perf_counter() - start
        print(
            f"batches of {batch or 30}: {seconds:.2f} s, {len(found.sittings)} sittings, dry {found.finish}"
        )


if __name__ == "__main__":
    main()
