"""Measures how a command's work grows with its input, and prints a table in Markdown; never a pass or fail.

    python tests/bench/growth.py                    everything below, one after another
    python tests/bench/growth.py --only paints      one of them; --only may be given several times
    python tests/bench/growth.py --only steps --sizes 50 100 200

Each command is a process of its own, and what counts is its processor time less that of the same command over the
smallest input there is (`start`). The exponent is fitted by least squares through the logarithms of the larger
sizes: 1 where twice the input takes twice the time. `largest` is the largest page or file that came out.
"""

from __future__ import annotations

import argparse
import math
import os
import random
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from archives import AREAS, make_archive, palette_text, pot_names, write_file

# The exponent is that of so many of the largest sizes: among small ones the start weighs too much.
FITTED = 3


@dataclass(frozen=True, kw_only=True)
class Growth:
    """Something that grows: `make` fills a folder with so many, `command` is run in it, `out` is what it writes."""

    sizes: tuple[int, ...]
    make: Callable[[Path, int], None]
    command: tuple[str, ...] = ("build", "--cache", "cache")
    out: str = "site"


def guides(folder: Path, count: int) -> None:
    """Guides of a dozen steps each, without photos."""
    make_archive(folder / "content", guides=count, photos=0, paints=60, settled=False)


def steps(folder: Path, count: int) -> None:
    """One guide of so many steps over ten areas."""
    pots = pot_names(60)
    lines = [
        f"  - {{step: Coat {n}, technique: base coat, area: {AREAS[n % 10]}, paint: {pots[n % 60]}, "
        "each: 1 min, dry: 5 min}"
        for n in range(count)
    ]
    _one_guide(folder, lines, paints=60)


def paints(folder: Path, count: int) -> None:
    """So many paints, and a guide that takes one of them."""
    _one_guide(folder, [], paints=count)


def mixes(folder: Path, count: int) -> None:
    """So many house mixes of two paints out of sixty."""
    pots = pot_names(60)
    lines = ["mixes:"]
    for n in range(count):
        first, second = pots[n % 60], pots[(n // 60 + n + 1) % 60]
        lines.append(f"  - {{name: Mix {n}, parts: {{{first}: {1 + n % 7}, {second}: {8 + n % 3}}}}}")
    _one_guide(folder, [], paints=60)
    with (folder / "content" / "palette.yaml").open("a", encoding="utf-8") as palette:
        palette.write("\n".join(lines) + "\n")


def shapes(folder: Path, count: int) -> None:
    """A chart whose shapes go through twenty areas in turn, as many as may be under a guide of two steps."""
    areas = [f"area {n}" for n in range(20)]
    step = f"  - {{step: Coat, technique: base coat, area: [{', '.join(areas)}], paint: {pot_names(2)[1]}, each: 1 min}}"
    _one_guide(folder, [step], paints=60, more="figure: figure.svg\n")
    drawn = "".join(
        f'<rect data-area="{areas[n % 20]}" x="{n % 60}" y="{n // 60}" width="1" height="1"/>'
        for n in range(count)
    )
    write_file(
        folder / "content" / "guides" / "one" / "figure.svg",
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 70">{drawn}</svg>\n',
    )


def rows(folder: Path, count: int) -> None:
    """A paint list in which every second paint has no colour."""
    lines = [f"Pot {n},{'' if n % 2 else f'#{n * 977 % (1 << 24):06x}'}" for n in range(count)]
    write_file(folder / "list.csv", "name,colour\n" + "\n".join(lines) + "\n")


def units(folder: Path, count: int) -> None:
    """A plan of so many units of a hundred figures, painted one by one, two short steps each."""
    pots = pot_names(60)
    lines = [
        f"  - {{step: Coat {n}, technique: base coat, area: {AREAS[n]}, paint: {pots[n]}, each: 1 min}}"
        for n in range(2)
    ]
    _one_guide(folder, lines, paints=60)
    listed = "\n".join("  - {guide: one, figures: 100, batch: 1}" for _ in range(count))
    write_file(
        folder / "content" / "plans" / "all.yaml",
        "title: All of them\nstart: 2026-01-01\ndeadline: 2026-12-31\n"
        f'sittings: {{mon-sun: "08:00-22:00"}}\nunits:\n{listed}\n',
    )


GROWTHS = {
    "guides": Growth(sizes=(25, 50, 100, 200), make=guides),
    "steps": Growth(sizes=(50, 100, 200, 400), make=steps),
    "paints": Growth(sizes=(500, 1_000, 2_000, 4_000), make=paints),
    "mixes": Growth(sizes=(250, 500, 1_000, 2_000), make=mixes),
    "shapes": Growth(sizes=(500, 1_000, 2_000, 4_000), make=shapes),
    "rows": Growth(
        sizes=(2_000, 4_000, 8_000, 16_000),
        make=rows,
        command=("start", "club", "--palette-from", "list.csv", "--no-ask"),
        out="club",
    ),
    "units": Growth(sizes=(2, 4, 8, 16), make=units),
}


def _one_guide(folder: Path, lines: Iterable[str], *, paints: int, more: str = "") -> None:
    """A content folder with one guide: an undercoat, then the steps given."""
    content, pots = folder / "content", pot_names(max(paints, 3))
    write_file(content / "site.yaml", "title: The delta's archive\n")
    write_file(content / "palette.yaml", palette_text(pots, random.Random(7)))
    first = f"  - {{step: Undercoat, technique: prime, area: all, paint: {pots[0]}, each: 1 min, dry: 1 h}}"
    write_file(
        content / "guides" / "one" / "guide.md",
        f"---\ntitle: One\nfigures: 1\n{more}steps:\n" + "\n".join([first, *lines]) + "\n---\nOne of many.\n",
    )


def measured(growth: Growth, size: int, rounds: int) -> tuple[float, int]:
    """Seconds of processor that the command takes, the least of a few runs, and the bytes of the largest output."""
    seconds, largest = [], 0
    for _ in range(rounds):
        with tempfile.TemporaryDirectory() as place:
            folder = Path(place)
            growth.make(folder, size)
            seconds.append(_processor_time([sys.executable, "-m", "guidegen", *growth.command], folder))
            largest = max(file.stat().st_size for file in (folder / growth.out).rglob("*") if file.is_file())
    return min(seconds), largest


def _processor_time(command: Sequence[str], folder: Path) -> float:
    with subprocess.Popen(command, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE) as process:
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        told = process.stderr.read().decode() if process.stderr else ""
    if process.returncode:
        sys.exit(f"{' '.join(command)} ended with {process.returncode}: {told}")
    return used.ru_utime + used.ru_stime


def exponent(sizes: Sequence[int], seconds: Sequence[float]) -> float:
    """The slope of the line of least squares through the logarithms."""
    across = [math.log(size) for size in sizes]
    up = [math.log(max(second, 0.001)) for second in seconds]
    middle, height = sum(across) / len(across), sum(up) / len(up)
    rise = sum((x - middle) * (y - height) for x, y in zip(across, up, strict=True))
    return rise / sum((x - middle) ** 2 for x in across)


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--only", action="append", choices=GROWTHS, help="measure this alone")
    asked.add_argument("--sizes", type=int, nargs="+", help="how many there are, from few to many")
    asked.add_argument("--rounds", type=int, default=2, help="how often each is run; the least time counts")
    given = asked.parse_args()
    print("| what | start | how many: seconds | exponent | largest |")
    print("|---|---:|---|---:|---:|")
    for name in given.only or GROWTHS:
        growth = GROWTHS[name]
        sizes = given.sizes or growth.sizes
        start, _ = measured(growth, 1, given.rounds)
        found = [measured(growth, size, given.rounds) for size in sizes]
        seconds = [second - start for second, _ in found]
        told = ", ".join(f"{size:,}: {second:.2f}" for size, second in zip(sizes, seconds, strict=True))
        fitted = exponent(sizes[-FITTED:], seconds[-FITTED:]) if len(sizes) > 1 else math.nan
        print(f"| {name} | {start:.2f} s | {told} | {fitted:.2f} | {found[-1][1]:,} |", flush=True)


if __name__ == "__main__":
    main()
