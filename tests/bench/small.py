"""How long the small things take: `python tests/bench/small.py`. Measured by hand, never a pass or a fail.

`guidegen --help` is to take under 0.15 s, `check` of the demo under 0.5 s, on an idle machine. The best of several runs
stands for it, by the clock and by the processor's time, which says more on a busy one.
"""

from __future__ import annotations

import argparse
import os
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

TOP = Path(__file__).parent.parent.parent


def best_of(runs: int, arguments: list[str], environment: dict[str, str]) -> tuple[float, float]:
    """Seconds by the clock and of the processors, each the least of all runs."""
    least = (float("inf"), float("inf"))
    for _ in range(runs):
        before, begun = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
        subprocess.run(
            [sys.executable, "-m", "guidegen", *arguments],
            cwd=TOP,
            env=environment,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            check=False,
        )
        clock, after = time.perf_counter() - begun, resource.getrusage(resource.RUSAGE_CHILDREN)
        busy = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
        least = min(least[0], clock), min(least[1], busy)
    return least


def main() -> None:
    """Measure, and print a line each."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=5)
    runs = parser.parse_args().runs
    with tempfile.TemporaryDirectory() as folder:
        without = os.environ | {"XDG_CACHE_HOME": f"{folder}/none"}
        kept = os.environ | {"XDG_CACHE_HOME": f"{folder}/cache"}
        best_of(1, ["build", "--out", f"{folder}/site"], kept)
        for name, arguments, environment in (
            ("--help", ["--help"], without),
            ("check, every photo opened", ["check"], without),
            ("check after a build", ["check"], kept),
        ):
            clock, busy = best_of(runs, arguments, environment)
            print(f"{name:28} {clock:.2f} s by the clock, {busy:.2f} s of the processors")


if __name__ == "__main__":
    main()
