"""Measures builds against the floor and prints tables in Markdown; never a pass or fail. Wants an idle machine.

    python tests/bench/run.py                    everything below, one after another
    python tests/bench/run.py builds             archives of 30, 300 and 1,000 guides, from nothing to the preview
    python tests/bench/run.py builds --rows 30:4:1600 1000:2:480
    python tests/bench/run.py memory             100 guides with more and more photos
    python tests/bench/run.py small              --help, check of the demo, 200 searches among 3,000 paints

A row of `builds` is GUIDES:PHOTOS:WIDTH, with so many photos for each guide, so many pixels wide, in a ratio of four to
three. The floor (floor.py) makes the same photos in the same run. Each build is a command of its own, but for those of
the preview, which is started as anybody starts it: there the time runs from the moment a guide is written until open
pages are told to fetch it again, an edit of its words first, then one of a step, which its card and its paints show as
well. `one guide` is an edit of words. `memory` is the most that the cold build had.
"""

from __future__ import annotations

import argparse
import os
import re
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

from archives import make_archive

from guidegen.writing.cache import NAME

HERE = Path(__file__).parent
TOP = HERE.parents[1]
ROWS = ("30:4:1600", "300:8:1600", "1000:2:480")
PAINTS = 300
WHAT = ("small", "memory", "builds")

# Runs a command and prints how long it took and how much memory it had at most (Linux counts it in kilobytes).
_MEASURE = """
import resource, subprocess, sys, time
start = time.perf_counter()
done = subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
print(time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1000, done.returncode)
"""
# A preview, and after its first build seven edits of a guide's words and seven of a step, well apart; the medians.
_PREVIEW = """
import pathlib, queue, statistics, sys, threading, time
from guidegen.building.build import Order
from guidegen.preview.session import Preview
content, out, cache = map(pathlib.Path, sys.argv[1:])
told = queue.Queue()
preview = Preview(Order(content=content, out=out, cache=cache, drafts=True), 8700, told.put)
threading.Thread(target=preview.run, daemon=True).start()
assert told.get(timeout=600).failure is None
guide = content / "guides" / "watch-0003" / "guide.md"
text = guide.read_text()
for edit in (
    lambda n: text + f"Seen {n} times.\\n",
    lambda n: text.replace("each: 2 min", f"each: {n + 20} min", 1),
):
    seconds = []
    for number in range(7):
        time.sleep(4)
        while not told.empty():
            told.get()
        start = time.perf_counter()
        guide.write_text(edit(number))
        built = told.get(timeout=60).built
        seconds.append(time.perf_counter() - start)
        assert built.counts.written, built.diagnostics
    print(statistics.median(seconds))
"""

BUILDS = (
    "guides",
    "photos",
    "wide",
    "floor",
    "cold",
    "ratio",
    "nothing changed",
    "one guide",
    "a paint of some",
    "a paint of all",
    "preview, words",
    "preview, a step",
    "memory",
)


def python(*arguments: str, more: Mapping[str, str] | None = None) -> str:
    """What a Python program of ours prints, with `more` in its environment."""
    run = [sys.executable, *arguments]
    around = os.environ | (more or {})
    return subprocess.run(run, stdout=subprocess.PIPE, text=True, check=True, cwd=TOP, env=around).stdout


def measured(
    *arguments: str, ends_with: tuple[int, ...] = (0,), more: Mapping[str, str] | None = None
) -> tuple[float, float]:
    """Seconds and megabytes of a Python program."""
    seconds, megabytes, code = python("-c", _MEASURE, sys.executable, *arguments, more=more).split()
    if int(code) not in ends_with:
        raise SystemExit(f"{' '.join(arguments)} ended with {code}")
    return float(seconds), float(megabytes)


def build_of(at: Path) -> list[str]:
    """The build of an archive, as anybody starts it."""
    places = {"--content": at / "content", "--out": at / "site", "--cache": at / "cache"}
    return ["-m", "guidegen", "build", *(str(word) for place in places.items() for word in place)]


def build_row(text: str) -> list[str]:
    """One size of archive, from nothing to the preview."""
    guides, photos, width = map(int, text.split(":"))
    with tempfile.TemporaryDirectory() as folder:
        at = Path(folder)
        side = (width, width * 3 // 4)
        content = make_archive(at / "content", guides=guides, photos=photos, paints=PAINTS, side=side)
        floor, _ = measured(str(HERE / "floor.py"), str(content), str(at / "floor"))
        build = build_of(at)
        cold, memory = measured(*build)
        nothing = least(lambda: measured(*build)[0])
        guide = content / "guides" / "watch-0005" / "guide.md"
        edited = least(lambda: after(guide, lambda text: text + "Once more.\n", build))
        palette = content / "palette.yaml"
        colour = re.compile('colour: "#[0-9a-f]{6}", owned: 1')
        # In this order: a second paint of the same colour would be offered beside the first, to all who use that.
        some_use, all_use = (
            after(palette, lambda text, n=n: painted_over(colour, text, n), build) for n in (PAINTS // 4, 0)
        )
        words, step = python("-c", _PREVIEW, str(content), str(at / "preview"), str(at / "cache")).split()
    return [
        f"{guides:,}",
        f"{guides * photos:,}",
        f"{width:,}",
        f"{floor:.1f} s",
        f"{cold:.1f} s",
        f"{cold / floor:.2f}",
        f"{nothing:.2f} s",
        f"{edited:.2f} s",
        f"{some_use:.1f} s",
        f"{all_use:.1f} s",
        f"{float(words):.2f} s",
        f"{float(step):.2f} s",
        f"{memory:.0f} MB",
    ]


def painted_over(colour: re.Pattern[str], text: str, number: int) -> str:
    """The palette with another colour for one of its paints; every guide is undercoated with the first."""
    found = list(colour.finditer(text))[number]
    return f'{text[: found.start()]}colour: "#123456", owned: 1{text[found.end() :]}'


def after(file: Path, edit: Callable[[str], str], build: list[str]) -> float:
    """Seconds of a build after a file was edited."""
    # Not within the tick of the file system's clock in which the last build looked at it.
    time.sleep(0.05)
    file.write_text(edit(file.read_text(encoding="utf-8")), encoding="utf-8")
    return measured(*build)[0]


def least(work: Callable[[], float]) -> float:
    """The least of three, for what is over in a moment."""
    return min(work() for _ in range(3))


def builds(rows: Iterable[str]) -> None:
    """The table of builds."""
    head(BUILDS)
    for text in rows:
        row(build_row(text))


def memory() -> None:
    """The most memory that cold builds of 100 guides had, by how many photos they show, 480 pixels wide."""
    head(("guides", "photos", "memory", "memory, all photos in the cache"))
    for photos in (1, 4, 16):
        with tempfile.TemporaryDirectory() as folder:
            at = Path(folder)
            make_archive(at / "content", guides=100, photos=photos, paints=PAINTS, side=(480, 360))
            _, cold = measured(*build_of(at))
            for kept in at.glob("cache/remembered-*/*"):
                kept.unlink()
            _, warm = measured(*build_of(at))
        row(["100", f"{100 * photos:,}", f"{cold:.0f} MB", f"{warm:.0f} MB"])


def check_of_demo() -> list[str]:
    """The check of the demo archive."""
    return ["-m", "guidegen", "check", "--content", str(TOP / "content")]


def small() -> None:
    """What has a target of its own, and takes a moment."""
    head(("what", "seconds"))
    for what, arguments in (("`--help`", ["-m", "guidegen", "--help"]), ("Python by itself", ["-c", ""])):
        row([what, f"{statistics.median(measured(*arguments)[0] for _ in range(9)):.3f}"])
    demo = check_of_demo()
    with tempfile.TemporaryDirectory() as folder:
        caches = {"XDG_CACHE_HOME": folder}
        without = least(lambda: measured(*demo, ends_with=(0, 1), more=caches)[0])
        (Path(folder) / NAME).mkdir()
        measured(*demo, ends_with=(0, 1), more=caches)
        with_one = least(lambda: measured(*demo, ends_with=(0, 1), more=caches)[0])
    row(["`check` of the demo, no cache at hand", f"{without:.2f}"])
    row(["the same, with one that knows its photos", f"{with_one:.2f}"])
    print("\n" + python(str(HERE / "closest_paints.py")), end="")


def head(names: Iterable[str]) -> None:
    """The first two lines of a table."""
    names = list(names)
    print("| " + " | ".join(names) + " |\n" + "|---:" * len(names) + "|", flush=True)


def row(cells: Iterable[str]) -> None:
    """One line of a table."""
    print("| " + " | ".join(cells) + " |", flush=True)


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument(
        "what", nargs="*", choices=[*WHAT, []], metavar="builds | memory | small", help="else all"
    )
    asked.add_argument("--rows", nargs="+", default=ROWS, metavar="GUIDES:PHOTOS:WIDTH")
    given = asked.parse_args()
    # As anybody's does, Python keeps its compiled modules; they are there before anything is measured.
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    measured(*check_of_demo(), ends_with=(0, 1))
    for what in given.what or WHAT:
        print(f"\n{what}\n", flush=True)
        {"small": small, "memory": memory, "builds": lambda: builds(given.rows)}[what]()


if __name__ == "__main__":
    main()
