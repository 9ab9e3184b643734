"""A small archive that is edited in every way an author may, for tests of builds after builds."""

from __future__ import annotations

import io
import os
import random
import shutil
from collections.abc import Callable
from pathlib import Path

from support.content_folders import bytes_of

from guidegen.base.diagnostic import Diagnostic
from guidegen.building.build import Built, Order, build
from guidegen.building.memory import Memory

SIDE = (500, 380)
NAMES = ("ferry-watch", "lamp-boys", "eel-seller", "toll-house", "heron-riders", "lock-keeper")
# All others link to this one, so without it no site could be built any more.
LINKED = "ferry-watch"
POTS = ("Oilskin Ochre", "Ropewalk", "Silt Wash", "Pilot Blue", "Fog White")


def begun(content: Path, *, guides: int = 4) -> Path:
    """Write the archive as it is before any edit."""
    _write(content / "site.yaml", "title: The delta bench\n")
    _write(content / "palette.yaml", palette("8a6a2f"))
    _write(content / "shared" / "jetty-base.yaml", shared_list("2 min"))
    for number in range(guides):
        write_guide(content, NAMES[number], number)
    _write(content / "as-is" / "robots.txt", "User-agent: *\n")
    return content


def palette(ochre: str) -> str:
    """Five paints, the first of that colour, and one that no guide uses."""
    colours = (ochre, "7a6b55", "2a2018", "2b3f5c", "d8dcd6")
    kinds = ("paint", "paint", "wash", "paint", "paint")
    paints = "".join(
        f'  - {{name: {name}, kind: {kind}, colour: "#{colour}", owned: 1}}\n'
        for name, kind, colour in zip(POTS, kinds, colours, strict=True)
    )
    return f'paints:\n{paints}  - {{name: Never Opened, colour: "#551122"}}\n'


def shared_list(each: str) -> str:
    """Steps for a base."""
    return f"steps:\n  - {{step: Planks, technique: base coat, area: base, paint: Ropewalk, each: {each}, dry: 15 min}}\n"


def write_guide(
    content: Path,
    name: str,
    number: int,
    *,
    title: str = "",
    see: str = LINKED,
    more: str = "",
    draft: str = "no",
) -> None:
    """A guide with a photo, a figure, an inserted list, and a link to another."""
    folder = content / "guides" / name
    text = f"""---
title: {title or name.replace("-", " ").capitalize()}
draft: {draft}
date: 2026-03-{10 + number}
figures: {5 + number}
figure: watchman
{f"see: [{see}]" if see != name else "tags: [ferry]"}
steps:
  - {{step: Undercoat, technique: prime, area: all, paint: Ropewalk, each: 3 min, dry: 60 min}}
  - step: Coat
    area: coat
    technique: base coat
    paint: {POTS[(number % 2) * 3]}
    each: {number + 2} min
    dry: 10 min
    photo: {{file: coat.jpg, alt: the coat}}
  - {{step: Folds, technique: wash, area: coat, paint: Silt Wash, each: 1 min, dry: 40 min}}
  - insert: jetty-base
{more}---
The {name} stands in the fog.
"""
    _write(folder / "guide.md", text)
    if not (folder / "coat.jpg").exists():
        (folder / "coat.jpg").write_bytes(photo(number))


def photo(shade: int, length: int = 9000) -> bytes:
    """A photo of one colour, of that many bytes whatever its colour: a JPEG may be followed by anything."""
    from PIL import Image

    out = io.BytesIO()
    Image.new("RGB", SIDE, (40 + shade * 23 % 200, 90, 110)).save(out, "JPEG")
    return out.getvalue().ljust(length, b"\0")


def edits() -> dict[str, Callable[[Path, random.Random], None]]:
    """Everything that may happen to a content folder, by name."""
    return {
        "a guide is edited": lambda c, d: write_guide(
            c, _one(c, d), d.randrange(9), title=f"Watch {d.randrange(99)}"
        ),
        "a guide has a mistake of no weight": lambda c, d: write_guide(
            c, _one(c, d), 1, more="  - {step: Edge, technique: highlight, area: coat, paint: Fog White}\n"
        ),
        "only places change": _moved_down,
        "a paint's colour changes": lambda c, d: _write(
            c / "palette.yaml", palette(f"8a6a{d.randrange(16, 99)}")
        ),
        "a photo of the same size": _swapped,
        "a guide is renamed": _renamed,
        "a guide goes": _gone,
        "a guide comes": lambda c, d: write_guide(c, d.choice(NAMES), d.randrange(9)),
        "a shared list changes": lambda c, d: _write(
            c / "shared" / "jetty-base.yaml", shared_list(f"{d.randrange(2, 9)} min")
        ),
        "a template of the author's own": lambda c, d: _write(
            c / "templates" / "moved.html",
            f"<!doctype html><title>{{{{ title }}}} {d.randrange(99)}</title></html>\n",
        ),
        "the site's title": lambda c, d: _write(
            c / "site.yaml", f"title: The delta bench {d.randrange(99)}\n"
        ),
        "the site's address": lambda c, d: _write(
            c / "site.yaml",
            f"title: The delta bench\nurl: https://delta.example/{d.choice(['', 'club/bench'])}\n",
        ),
        "a draft": lambda c, d: write_guide(c, _one(c, d), 2, draft=d.choice(["yes", "no"])),
        "an old address": lambda c, d: _replaced(
            c, d, "figures:", f"was: [{d.choice(('old-quay', 'old-mole'))}-{d.randrange(3)}]\nfigures:"
        ),
        "a photo is shown no more": lambda c, d: _replaced(
            c, d, "    photo: {file: coat.jpg, alt: the coat}\n", ""
        ),
        "a drawing of its own": lambda c, d: _write(
            c / "guides" / _one(c, d) / "figure.svg",
            '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">'
            f'<rect data-area="coat" width="{d.randrange(1, 9)}" height="9"/></svg>\n',
        ),
        "a file as it is": lambda c, d: _write(c / "as-is" / "robots.txt", f"# {d.randrange(9)}\n"),
        "nothing": lambda _c, _d: None,
    }


def built(content: Path, out: Path, cache: Path, memory: Memory | None = None) -> Built:
    """Build, photos in small."""
    return build(Order(content=content, out=out, cache=cache), memory)


def _one(content: Path, draw: random.Random, *, but: str = "") -> str:
    return draw.choice(sorted({folder.name for folder in (content / "guides").iterdir()} - {but}))


def _moved_down(content: Path, draw: random.Random) -> None:
    file = content / "guides" / _one(content, draw) / "guide.md"
    _write(file, file.read_text("utf-8").replace("steps:", "# as it was\nsteps:", 1))


def _replaced(content: Path, draw: random.Random, old: str, new: str) -> None:
    file = content / "guides" / _one(content, draw) / "guide.md"
    _write(file, file.read_text("utf-8").replace(old, new, 1))


def _swapped(content: Path, draw: random.Random) -> None:
    """In place, so that even the number of the file stays."""
    with (content / "guides" / _one(content, draw) / "coat.jpg").open("r+b") as file:
        file.write(photo(draw.randrange(9)))


def _renamed(content: Path, draw: random.Random) -> None:
    free = [name for name in NAMES if not (content / "guides" / name).exists()]
    if free:
        (content / "guides" / _one(content, draw, but=LINKED)).rename(content / "guides" / draw.choice(free))


def _gone(content: Path, draw: random.Random) -> None:
    if len(list((content / "guides").iterdir())) > 2:
        shutil.rmtree(content / "guides" / _one(content, draw, but=LINKED))


def _write(file: Path, text: str) -> None:
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")


def settle(content: Path) -> None:
    """Set every file's time back, as if nobody had been here for an hour."""
    for file in content.rglob("*"):
        when = file.stat().st_mtime - 3600
        os.utime(file, (when, when))


def edit_unseen(file: Path, data: bytes) -> None:
    """Put other bytes of the same number into a file in its place, and its time back to what it was.

    Waits for the disk's clock to go on, since two changes within one tick of it cannot be told apart by any time.
    """
    before = file.stat()
    assert len(data) == before.st_size
    while True:
        with file.open("r+b") as opened:
            opened.write(data)
        os.utime(file, ns=(before.st_atime_ns, before.st_mtime_ns))
        after = file.stat()
        assert (after.st_mtime_ns, after.st_ino) == (before.st_mtime_ns, before.st_ino)
        if after.st_ctime_ns != before.st_ctime_ns:
            return


def from_nothing(content: Path, place: Path) -> tuple[dict[str, bytes] | None, tuple[Diagnostic, ...]]:
    """The site of a build that knows nothing, and what it told."""
    outcome = built(content, place / "site", place / "cache")
    return bytes_of(place / "site") if outcome.counts else None, outcome.diagnostics


def in_order_of(seed: int) -> list[str]:
    """Each edit once, in an order of the seed's."""
    return random.Random(seed).sample(sorted(edits()), len(edits()))
