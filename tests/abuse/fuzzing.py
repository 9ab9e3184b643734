"""Builds and checks thousands of hostile content folders, and counts what came of them.

    python tests/abuse/fuzzing.py --inputs 20000 --minutes 60 --seed 1 --at-once 2

Inputs come from grammars and from real files that are spoiled: YAML, guides, charts, photos, names of files, plans. Each
is run by a watched process (`ordeal.py`); what may come of it is a site or diagnostics. Prints a table of kinds, and for
each failure the kind and number, which with the seed make the same input again: `--only KIND --from NUMBER --inputs 1`.
Ends with 1 where there is a failure. Needs Linux.
"""

from __future__ import annotations

import argparse
import random
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from functools import cache, partial
from pathlib import Path
from typing import NamedTuple

TESTS = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(TESTS))

from abuse.grammars import KEYS, SIGNS, VALUES, as_bytes, changed, keyed, markdown_of, svg_of  # noqa: E402
from abuse.ordeal import Ordeal, Outcome  # noqa: E402
from abuse.spoiled import odd_entry, sound, spoiled  # noqa: E402
from support.content_folders import files_of, put  # noqa: E402

# The content that one hostile file is put into.
AROUND = """» site.yaml
title: The delta bench
url: https://delta.example/bench
tokens: {paper: "#f4f1ea"}
» palette.yaml
ranges:
  Reedbank: {size: 17 ml, price: 2.80, thinner: water}
paints:
  - {name: Oilskin Ochre, range: Reedbank, colour: "#b8862f", owned: 1, hazards: [H319]}
  - {name: Ropewalk, range: Reedbank, colour: "#7a6b55", let_down: {colour: "#b9b0a4", parts: 1:9}}
  - {name: Silt Wash, kind: wash, colour: "#2a2018"}
  - {name: Brass Lamp, kind: metallic, colour: "#a98a4a"}
  - {name: Clear Medium, kind: medium}
mixes:
  - {name: Mud, parts: {Oilskin Ochre: 2, Ropewalk: a touch}}
  - {name: Thin mud, parts: {Mud: 1, Clear Medium: 2}}
» shared/jetty-base.yaml
steps:
  - {step: Planks, technique: base coat, area: base, paint: Ropewalk, each: 2 min, dry: 15 min}
» guides/ferry-watch/guide.md
---
title: The ferry watch
date: 2026-03-14
figures: 5
tags: [ferry, batch]
cover: {file: coat.jpg, alt: The watch}
choose: {headgear: [hood, straw hat]}
steps:
  - {step: Undercoat, technique: prime, area: all, paint: Ropewalk, each: 3 min, dry: 60 min, rest: yes}
  - {step: Coat, area: coat, paint: {Oilskin Ochre: 2, Mud: 1}, each: 4 min, dry: 10 min, coats: 2, photo: {file: coat.jpg, alt: x}}
  - {step: Hat, area: hat, paint: Thin mud, each: 1 min, only: {headgear: straw hat}}
  - {step: Folds, technique: wash, area: coat, paint: Silt Wash, each: 1 min, dry: 40 min, instead: [{paint: Mud, note: warmer}]}
  - stop: Fit to field
  - insert: jetty-base
  - {step: Puddles, paint: none, materials: [gloss gel], each: 1 min}
---
Opening words, [about the coat](#coat).

## Folds
Let it run. ![The folds](coat.jpg "by lamplight")
» guides/ferry-watch/figure.svg
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 20"><g data-area="coat"><path d="M0 0 L9 9 Z"/></g>
<rect data-area="hat" width="9" height="9"/><circle data-area="base" cx="4" cy="4" r="3" data-part="recesses"/></svg>
» plans/regatta.yaml
title: The regatta
start: 2026-06-01
deadline: 2026-06-20
sittings: {mon-fri: "20:00-22:00", sat: ["10:00-12:00", "14:00-16:00"], 2026-06-03: none}
spraying: {sat: "10:00-12:00"}
skip: [2026-06-10]
units:
  - {guide: ferry-watch, figures: 10, batch: 5, to: Fit to field, choose: {headgear: hood}}
"""
GUIDE, CHART, PLAN = "guides/ferry-watch/guide.md", "guides/ferry-watch/figure.svg", "plans/regatta.yaml"
PHOTO = "guides/ferry-watch/coat.jpg"
YAML_FILES = ("site.yaml", "palette.yaml", "shared/jetty-base.yaml")


@cache
def around() -> dict[str, bytes]:
    """The content as it is without anything hostile in it."""
    return files_of(AROUND) | {PHOTO: sound("JPEG")}


@cache
def real_texts(kind: str) -> tuple[str, ...]:
    """Texts of the demo and of the tests' cases, of one of the endings md, svg, or one of the folders of YAML."""
    found: dict[str, bytes] = dict(around())
    for file in sorted((TESTS / "cases").rglob("*.txt")):
        found |= {f"{file}/{path}": data for path, data in files_of(file.read_text("utf-8")).items()}
    content = TESTS.parent / "content"
    found |= {str(file): file.read_bytes() for file in sorted(content.rglob("*.*")) if file.is_file()}
    found |= {str(file): file.read_bytes() for file in sorted((TESTS.parent / "templates").rglob("*.svg"))}

    def fits(path: str) -> bool:
        if kind in {"md", "svg"}:
            return path.endswith(f".{kind}") and "README" not in path
        return path.endswith(".yaml") and kind in path

    return tuple(data.decode() for path, data in found.items() if fits(path))


Files = dict[str, bytes]


def yaml_input(chance: random.Random) -> Files:
    """Site, palette or shared list."""
    file = chance.choice(YAML_FILES)
    own = around()[file].decode()
    roll = chance.random()
    if roll < 0.25:
        text = keyed(chance, KEYS)
    else:
        word = {"site.yaml": "site", "palette.yaml": "palette"}.get(file, "shared")
        text = changed(own if roll < 0.7 else chance.choice(real_texts(word)), chance)
    return {file: as_bytes(text, chance)}


def guide_input(chance: random.Random) -> Files:
    """What stands before a guide's text."""
    own = around()[GUIDE].decode()
    roll = chance.random()
    if roll < 0.15:
        return {GUIDE: as_bytes(f"---\n{keyed(chance, KEYS)}---\n", chance)}
    return {GUIDE: as_bytes(changed(own if roll < 0.7 else chance.choice(real_texts("md")), chance), chance)}


def markdown_input(chance: random.Random) -> Files:
    """A guide's text."""
    own = around()[GUIDE].decode()
    if chance.random() < 0.3:
        return {GUIDE: as_bytes(changed(own, chance, SIGNS), chance)}
    head = own[: own.index("Opening words")]
    return {GUIDE: as_bytes(head + markdown_of(chance), chance)}


def chart_input(chance: random.Random) -> Files:
    """A chart."""
    roll = chance.random()
    text = (
        svg_of(chance)
        if roll < 0.5
        else changed(chance.choice(real_texts("svg")), chance, (*VALUES, '"', "<g>"))
    )
    return {CHART: as_bytes(text, chance)}


def photo_input(chance: random.Random) -> Files:
    """A photo, of whatever ending."""
    ending, data = spoiled(chance)
    guide = around()[GUIDE].replace(b"coat.jpg", f"photo.{ending}".encode())
    return {GUIDE: guide, f"guides/ferry-watch/photo.{ending}": data}


def plan_input(chance: random.Random) -> Files:
    """A plan."""
    own = around()[PLAN].decode()
    roll = chance.random()
    if roll < 0.25:
        return {PLAN: as_bytes(keyed(chance, KEYS), chance)}
    return {
        PLAN: as_bytes(changed(own if roll < 0.8 else chance.choice(real_texts("plans")), chance), chance)
    }


KINDS: dict[str, Callable[[random.Random], Files]] = {
    "yaml": yaml_input,
    "guide": guide_input,
    "markdown": markdown_input,
    "chart": chart_input,
    "plan": plan_input,
    "names": lambda _chance: {},
    "photo": photo_input,
}
TOLD_EVERY = 500
# What thousands of builds leave in one process would be counted for the input that happens to come then.
LASTS = 1_000
# Photos are decoded by the pixel, so fewer of them are tried.
SHARES = {"yaml": 5, "guide": 5, "markdown": 4, "chart": 3, "plan": 4, "names": 2, "photo": 2}


def laid_out(kind: str, number: int, seed: int, content: Path) -> list[str]:
    """Put one input into an empty content folder, and say with which command to try it."""
    chance = random.Random(f"{seed} {kind} {number}")
    files = around() | KINDS[kind](chance)
    put(content, files)
    if kind == "names":
        texts = [around()[path] for path in (GUIDE, PLAN, CHART, PHOTO, "site.yaml")]
        for _ in range(chance.randrange(1, 6)):
            odd_entry(content, chance, texts)
    place = ["--content", str(content)]
    roll = chance.random()
    if roll < 0.7:
        faulty = ["--leave-out-faulty"] if chance.random() < 0.5 else []
        return [
            "build",
            "--remove-many",
            "--remove-many",
            *place,
            "--out",
            str(content.parent / "site"),
            "--cache",
            str(content.parent / "cache"),
            *faulty,
        ]
    if roll < 0.95:
        return ["check", *place, "--format", chance.choice(("text", "line", "json", "sarif"))]
    return ["check", *place, "--fix"]


def tried(kind: str, number: int, seed: int, ordeal: Ordeal) -> Outcome:
    """Run one input."""
    return ordeal.put(laid_out(kind, number, seed, ordeal.cleared()))


def in_turn(inputs: int, only: str | None, first: int) -> Iterator[tuple[str, int]]:
    """So many inputs, the kinds by turns in their shares."""
    turns = [only] if only else [kind for kind, share in SHARES.items() for _ in range(share)]
    numbers = Counter(dict.fromkeys(KINDS, first))
    for n in range(inputs):
        kind = turns[n % len(turns)]
        yield kind, numbers[kind]
        numbers[kind] += 1


class Share(NamedTuple):
    """What came of the inputs of one watched process."""

    counts: Counter[tuple[str, str]]
    slowest: float
    largest: float


def _share(seed: int, until: float, inputs: list[tuple[str, int]], folder: Path) -> Share:
    """Try inputs one after another until that time of the monotonic clock; failures are printed as they come."""
    counts: Counter[tuple[str, str]] = Counter()
    slowest, largest = 0.0, 0.0
    ordeal = Ordeal(folder)
    for kind, number in inputs:
        if time.monotonic() > until:
            break
        outcome = tried(kind, number, seed, ordeal)
        counts[kind, "tried"] += 1
        counts[kind, "failures" if outcome.failures else "diagnostics" if outcome.exit else "site"] += 1
        slowest, largest = max(slowest, outcome.seconds), max(largest, outcome.peak_mb)
        for failure in outcome.failures:
            print(f"--only {kind} --from {number}: {failure}", flush=True)
        so_far = sum(counts[each, "tried"] for each in KINDS)
        if so_far % LASTS == 0:
            ordeal.close()
        if so_far % TOLD_EVERY == 0:
            print(f"{folder.name}: {so_far:,} of {len(inputs):,}", file=sys.stderr, flush=True)
    ordeal.close()
    return Share(counts, slowest, largest)


def main() -> int:
    """Run the command line."""
    told = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    told.add_argument("--inputs", type=int, default=2000, help="how many at most")
    told.add_argument("--minutes", type=float, default=10, help="how long at most")
    told.add_argument("--seed", type=int, default=1)
    told.add_argument("--only", choices=KINDS)
    told.add_argument("--from", dest="first", type=int, default=0, metavar="NUMBER")
    told.add_argument("--at-once", type=int, default=1, metavar="N", help="in so many watched processes")
    told.add_argument(
        "--keep", type=Path, metavar="DIR", help="work there, and leave the last inputs as they lie"
    )
    asked = told.parse_args()
    until = time.monotonic() + asked.minutes * 60
    inputs = list(in_turn(asked.inputs, asked.only, asked.first))
    shares = [inputs[start :: asked.at_once] for start in range(asked.at_once)]
    with tempfile.TemporaryDirectory(prefix="guidegen-") as scratch:
        folders = [(asked.keep or Path(scratch)) / str(number) for number in range(asked.at_once)]
        with ThreadPoolExecutor(asked.at_once) as threads:
            found = list(threads.map(partial(_share, asked.seed, until), shares, folders))
    counts = sum((share.counts for share in found), Counter())
    slowest, largest = max(share.slowest for share in found), max(share.largest for share in found)
    columns = ("tried", "site", "diagnostics", "failures")
    print("| kind | " + " | ".join(columns) + " |\n|---|" + "---:|" * len(columns))
    for kind in KINDS:
        print(f"| {kind} | " + " | ".join(f"{counts[kind, column]:,}" for column in columns) + " |")
    total = [sum(counts[kind, column] for kind in KINDS) for column in columns]
    print("| all | " + " | ".join(f"{one:,}" for one in total) + " |")
    print(
        f"The slowest took {slowest:.1f} s of work, the largest {largest:.0f} MB more than the idle program."
    )
    return 1 if total[-1] else 0


if __name__ == "__main__":
    sys.exit(main())
