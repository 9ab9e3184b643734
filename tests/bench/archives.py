"""Makes archives of any size for the benchmark: guides that link each other, photos that all differ, paints.

    python tests/bench/archives.py FOLDER --guides 30 --photos 2 --paints 200

The same numbers make the same archive. Town, ranges and names are invented.
"""

from __future__ import annotations

import argparse
import io
import os
import random
from pathlib import Path

AREAS = ("coat", "hood", "scarf", "boots", "hands", "pack", "trousers", "face", "pole", "lantern")
THINGS = ("Rope", "Sluice", "Kelp", "Fog", "Lamp", "Weir", "Heron", "Jetty", "Silt", "Oar", "Lock", "Reed")
SHADES = ("Grey", "Ochre", "Brown", "Green", "Red", "Blue", "Black", "White", "Buff", "Rust")
# How large the photos are: a phone's would be 4000 × 3000, which the whole table has no time for.
SIDE = (1600, 1200)
# Ends a JPEG file; what is put before it as a comment makes each photo a file of its own.
_COMMENT = b"\xff\xfe"


def make_archive(
    folder: Path, *, guides: int, photos: int, paints: int, side: tuple[int, int] = SIDE, settled: bool = True
) -> Path:
    """Write an archive and return its folder. `settled` sets its files' times back, as if written an hour ago."""
    draw = random.Random(7)
    pots = pot_names(paints)
    write_file(folder / "site.yaml", "title: The delta's archive\nauthor: the ferry club\n")
    write_file(folder / "palette.yaml", palette_text(pots, draw))
    write_file(folder / "shared" / "jetty-base.yaml", shared_text(pots))
    pictures = _pictures(side) if photos else []
    for number in range(guides):
        home = folder / "guides" / f"watch-{number:04}"
        write_file(home / "guide.md", guide_text(number, guides, photos, pots, draw))
        for photo in range(photos):
            (home / f"photo-{photo}.jpg").write_bytes(
                _varied(pictures[photo % len(pictures)], f"{number}-{photo}")
            )
    if settled:
        for file in folder.rglob("*"):
            when = file.stat().st_mtime - 3600
            os.utime(file, (when, when))
    return folder


def guide_text(number: int, guides: int, photos: int, pots: list[str], draw: random.Random) -> str:
    """A guide of a dozen steps with a wash, a stop, an inserted list and links to two others."""
    others = sorted({(number + 1) % guides, (number * 7 + 3) % guides} - {number})
    lines = [
        "---",
        f"title: Watch {number} of the Upper Weir",
        f"date: 20{10 + number % 15}-{1 + number % 12:02}-{1 + number % 28:02}",
        f"tags: [watch, {SHADES[number % 10].lower()}]",
        f"figures: {5 + number % 6}",
        "figure: watchman",
        "see: [" + ", ".join(f"watch-{other:04}" for other in others) + "]",
        "steps:",
        "  - {step: Undercoat, technique: prime, area: all, paint: "
        + pots[0]
        + ", each: 3 min, dry: 60 min}",
    ]
    for n, area in enumerate(AREAS):
        lines += [
            f"  - step: The {area}",
            "    technique: base coat",
            f"    area: {area}",
            f"    paint: {draw.choice(pots)}"
            if n % 3
            else f"    paint: {{{draw.choice(pots[2:])}: 2, {pots[1]}: 1}}",
            "    thin: 2:1 water",
            f"    each: {1 + n % 4} min",
            "    dry: 10 min",
            f"    share: {3 + n % 5}%",
        ]
        lines += [f"    photo: {{file: photo-{n}.jpg, alt: the {area} painted}}"] if n < photos else []
    lines += [
        "  - stop: Fit for the jetty",
        "  - insert: jetty-base",
        "  - {step: Folds, technique: wash, area: all, paint: " + pots[2] + ", each: 1 min, dry: 40 min}",
        "---",
        f"The {number}th of the watch stands where the fog is thickest, and is paid by the lantern.",
        "",
        *(f"See [another watch](../watch-{other:04}/guide.md).\n" for other in others),
        "## Folds",
        "",
        f"Let it run for {number % 9 + 1} minutes, then *leave it alone*. Nothing is improved by a second look.",
        "",
    ]
    return "\n".join(lines)


def pot_names(paints: int) -> list[str]:
    """So many names of paints, all different."""
    return [f"{THINGS[n % 12]} {SHADES[n // 12 % 10]} {n}" for n in range(paints)]


def palette_text(pots: list[str], draw: random.Random) -> str:
    """A palette file with these paints in any colours; every second one stands on the shelf."""
    lines = ["ranges:", "  Reedbank: {size: 18 ml, price: 2.90}", "paints:"]
    for n, pot in enumerate(pots):
        kind = "wash" if n == 2 else "paint"
        colour = "050403" if kind == "wash" else f"{draw.randrange(1 << 24):06x}"
        lines.append(
            f'  - {{name: {pot}, range: Reedbank, code: R{n}, kind: {kind}, colour: "#{colour}", owned: {n % 2}}}'
        )
    return "\n".join(lines) + "\n"


def shared_text(pots: list[str]) -> str:
    """A shared list of two steps."""
    return (
        "steps:\n"
        f"  - {{step: Planks, technique: base coat, area: base, paint: {pots[3]}, each: 2 min, dry: 15 min}}\n"
        f"  - {{step: Worn edges, technique: dry brush, area: base, paint: {pots[4]}, each: 1 min, dry: 1 min}}\n"
    )


def _pictures(side: tuple[int, int]) -> list[bytes]:
    """A few pictures with grain in them, as a camera's has, since flat ones are encoded too quickly."""
    import numpy as np
    from PIL import Image

    draw = np.random.default_rng(3)
    width, height = side
    found = []
    for base in ((120, 110, 90), (70, 90, 110), (150, 120, 80), (90, 100, 80)):
        small = draw.normal(0, 40, (height // 40, width // 40, 3)) + base
        large = np.asarray(Image.fromarray(small.clip(0, 255).astype(np.uint8)).resize(side), np.int16)
        grain = large + draw.normal(0, 4, large.shape)
        out = io.BytesIO()
        Image.fromarray(grain.clip(0, 255).astype(np.uint8)).save(out, "JPEG", quality=90)
        found.append(out.getvalue())
    return found


def _varied(picture: bytes, text: str) -> bytes:
    """The same picture in a file of its own: another remark (ITU-T T.81, B.2.4.5) after its start."""
    remark = text.encode()
    return picture[:2] + _COMMENT + (len(remark) + 2).to_bytes(2, "big") + remark + picture[2:]


def write_file(file: Path, text: str) -> None:
    """Write a text file, and the folders it stands in."""
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("folder", type=Path)
    for name, usual in (("guides", 30), ("photos", 2), ("paints", 200)):
        asked.add_argument(f"--{name}", type=int, default=usual)
    given = asked.parse_args()
    make_archive(given.folder, guides=given.guides, photos=given.photos, paints=given.paints)


if __name__ == "__main__":
    main()
