"""Measures builds against the floor and prints a table; never a pass or fail.

    python tests/bench/run.py --guides 30 300 1000 --photos 2

Photos are 1600 × 1200, since two cores would need an hour for the table with a phone's; give --side 4000 3000 for those.
Each build is a command of its own, but for the preview's, which is measured in a process that keeps its memory.
"""

from __future__ import annotations

import argparse
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from archives import make_archive

HERE = Path(__file__).parent
TOP = HERE.parents[1]

# Runs a command and prints how long it took and how much memory it had at most (Linux counts it in kilobytes).
_MEASURE = """
import resource, subprocess, sys, time
start = time.perf_counter()
subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
print(time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1000)
"""
# A preview's first build, and the median of five edits after it.
_PREVIEW = """
import gc, pathlib, statistics, sys, time
from guidegen.build import Order, build, remembered
content, out, cache = map(pathlib.Path, sys.argv[1:])
order = Order(content=content, out=out, cache=cache)
memory = remembered(order)
guide = content / "guides" / "watch-0003" / "guide.md"
text = guide.read_text()
seconds = []
for number in range(7):
    guide.write_text(text + f"Seen {number} times.\\n")
    start = time.perf_counter()
    assert build(order, memory).counts.written
    seconds.append(time.perf_counter() - start)
    gc.collect()
    gc.freeze()
print(statistics.median(seconds[2:]))
"""


def measured(*command: str) -> tuple[float, float]:
    """Seconds and megabytes of a command."""
    run = [sys.executable, "-c", _MEASURE, *command]
    seconds, megabytes = subprocess.run(
        run, capture_output=True, text=True, check=True, cwd=TOP
    ).stdout.split()
    return float(seconds), float(megabytes)


def row(guides: int, photos: int, paints: int, side: tuple[int, int]) -> list[str]:
    """One size of archive, from nothing to the preview."""
    with tempfile.TemporaryDirectory() as folder:
        at = Path(folder)
        content = make_archive(at / "content", guides=guides, photos=photos, paints=paints, side=side)
        floor, _ = measured(sys.executable, str(HERE / "floor.py"), str(content), str(at / "floor"))
        build = [sys.executable, "-m", "guidegen", "build", "--content", str(content)]
        build += ["--out", str(at / "site"), "--cache", str(at / "cache")]
        cold, memory = measured(*build)
        nothing = min(measured(*build)[0] for _ in range(3))
        guide = content / "guides" / "watch-0005" / "guide.md"
        guide.write_text(guide.read_text() + "Once more.\n")
        edited, _ = measured(*build)
        palette = content / "palette.yaml"
        time.sleep(0.01)
        palette.write_text(
            re.sub(
                'colour: "#[0-9a-f]{6}", owned: 1',
                'colour: "#123456", owned: 1',
                palette.read_text(),
                count=1,
            )
        )
        painted, _ = measured(*build)
        places = [str(content), str(at / "site"), str(at / "cache")]
        preview = subprocess.run(
            [sys.executable, "-c", _PREVIEW, *places], capture_output=True, text=True, check=True, cwd=TOP
        )
    return [
        f"{guides:,}",
        f"{guides * photos:,}",
        f"{floor:.1f} s",
        f"{cold:.1f} s",
        f"{cold / floor:.2f}",
        f"{nothing:.2f} s",
        f"{edited:.2f} s",
        f"{painted:.1f} s",
        f"{float(preview.stdout):.2f} s",
        f"{memory:.0f} MB",
    ]


HEADS = (
    "guides",
    "photos",
    "floor",
    "cold",
    "ratio",
    "nothing changed",
    "one guide",
    "one paint",
    "preview",
    "memory",
)


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--guides", type=int, nargs="+", default=[30, 300, 1000])
    asked.add_argument("--photos", type=int, default=2, help="for each guide")
    asked.add_argument("--paints", type=int, default=300)
    asked.add_argument("--side", type=int, nargs=2, default=(1600, 1200))
    given = asked.parse_args()
    print("| " + " | ".join(HEADS) + " |\n" + "|---:" * len(HEADS) + "|", flush=True)
    for guides in given.guides:
        print(
            "| " + " | ".join(row(guides, given.photos, given.paints, tuple(given.side))) + " |", flush=True
        )


if __name__ == "__main__":
    main()
