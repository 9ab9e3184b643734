"""How true a card makes colours: `python tests/bench/card.py [arithmetic | codes | photos] [--draws N]`.

`arithmetic`: measured paints under lamps, through two measured cameras, by the fit alone. `codes`: how many codes are
read in photos of 12 megapixels, pages lying as they come, and how well they place the boxes. `photos`: rendered cards askew, unevenly lit, blurred, noisy, as JPEG, with shine, a thumb over a corner and another card beside, through the
command. Spectra and their sources: tests/support/cameras.py.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from time import process_time

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1]))

from PIL import Image, ImageDraw
from support.cameras import LAMPS, scenes
from support.card_bench import beside_paper, differences, table
from support.card_photos import blurred, drawn, jpeg, lit, noisy, off_mm, painted, posed, seen_from
from support.card_town import CardTown, chart_town, read

from guidegen.computing.card.corner_codes import find_codes
from guidegen.computing.card.pages import pages_in
from guidegen.computing.colour.spaces import delta_e_2000, lab_of, lab_of_linear
from guidegen.model.card import Box, BoxKind, Card

COUNTS = (0, 1, 2, 4, 6, 9, 12, 16, 20)
ANCHORS = frozenset({1, 3, 5, 9, 11, 13, 15, 16, 19, 21, 24})
ASKEW = ((330.0, 260.0), (1230.0, 120.0), (1430.0, 1700.0), (90.0, 1840.0))


def arithmetic(draws: int) -> None:
    print(
        f"Median over 44 scenes and {draws} draws of anchors, of the median and the 95th percentile of ΔE00.\n"
    )
    print("| anchors | median | 95th percentile |\n|---:|---:|---:|")
    for count, (median, most) in table(scenes(), COUNTS, draws).items():
        print(f"| {count or 'white paper only'} | {median:.1f} | {most:.1f} |", flush=True)


def codes(pages: int = 30) -> Iterator[str]:
    random = np.random.default_rng(30)
    boxes = tuple(Box(n=n, paint=f"Jar {n}", kind=BoxKind.FULL) for n in range(1, 26))
    colours = {box.n: tuple(random.integers(20, 230, 3).tolist()) for box in boxes}
    read, placed, off, seconds = 0, 0, [], []
    for number in range(pages):
        card = Card(id=f"{random.integers(1 << 24):06x}", paper=("a4", "letter")[number % 2], boxes=boxes)
        corners = posed(random, card.paper, (3000, 4000))
        photo = lit(
            seen_from(painted(drawn(card), card, colours), corners, (3000, 4000)),
            random.uniform(0.3, 0.7),
            random.uniform(0, 2 * np.pi),
        )
        blur, noise = random.uniform(0.8, 3.0), random.uniform(2, 10)
        photo = jpeg(noisy(blurred(photo, blur), noise, seed=number), int(random.integers(60, 95)))
        begun = process_time()
        places, _ = pages_in(found := find_codes(np.asarray(photo)).codes)
        seconds.append(process_time() - begun)
        read += len({seen.code for seen in found if seen.code.card == card.id})
        placed += len(places)
        off += [off_mm(place, card, corners) for place in places]
    yield f"{read} of {4 * pages} codes read, {placed} of {pages} pages placed."
    yield f"The worst box of a page is {np.median(off):.2f} mm off in the median, {max(off):.2f} at the most."
    yield f"{np.median(seconds):.1f} s a photo."


def _shine(photo: Image.Image) -> Image.Image:
    photo = photo.copy()
    pen = ImageDraw.Draw(photo)
    for x, y in ((420, 480), (900, 900), (700, 1300)):
        pen.ellipse((x, y, x + 90, y + 60), fill="#fbfbfa")
    return photo


def _thumb(photo: Image.Image) -> Image.Image:
    photo = photo.copy()
    ImageDraw.Draw(photo).ellipse((1100, 1560, 1500, 2050), fill="#b98a6e")
    return photo


def _beside(photo: Image.Image) -> Image.Image:
    """Another print of the same card beside it, half out of the picture."""
    wide = Image.new("RGB", (2000, 2000), "#6b5a48")
    wide.paste(photo, (0, 0))
    wide.paste(photo, (1480, 60))
    return wide


def _all(photo: Image.Image) -> Image.Image:
    return jpeg(noisy(blurred(lit(photo, 0.4), 1.2), 5), 80)


CONDITIONS: dict[str, Callable[[Image.Image], Image.Image]] = {
    "as it is": lambda photo: photo,
    "light falls off by half": lambda photo: lit(photo, 0.5),
    "blur, 2 pixels": lambda photo: blurred(photo, 2.0),
    "noise, 8 levels": lambda photo: noisy(photo, 8.0),
    "JPEG, quality 60": lambda photo: jpeg(photo, 60),
    "shine on some boxes": _shine,
    "a thumb over a corner": _thumb,
    "half of another card beside": _beside,
    "light, blur, noise and JPEG": _all,
}


def _off(town: CardTown, photo: Image.Image, folder: Path) -> tuple[np.ndarray, int]:
    """ΔE00 of the boxes that are no anchors, and how many of them were left out."""
    path = folder / "card.png"
    photo.save(path, compress_level=1)
    data = read(town, path)[0]
    boxes = [box for box in data["boxes"] if "anchor" not in box["flags"]]
    seen = [box for box in boxes if box["colour"]]
    truth = lab_of_linear(town.truth[[box["n"] - 1 for box in seen]])
    return delta_e_2000(lab_of([box["colour"] for box in seen]), truth), len(boxes) - len(seen)


def _plainly(camera: int, lamp: str) -> np.ndarray:
    scene = next(s for s in scenes() if (s.camera, s.lamp, s.paints) == (camera, lamp, "chart"))
    return differences(scene, beside_paper(scene, np.random.default_rng(1)), [n - 1 for n in sorted(ANCHORS)])


def _row(name: str, found: list[tuple[np.ndarray, int]], plainly: list[np.ndarray]) -> str:
    median = np.median([np.median(off) for off, _ in found])
    most = np.median([np.percentile(off, 95) for off, _ in found])
    plain = np.median([np.median(off) for off in plainly])
    plain_most = np.median([np.percentile(off, 95) for off in plainly])
    out = sum(count for _, count in found)
    return f"| {name} | {median:.1f} | {most:.1f} | {plain:.1f} | {plain_most:.1f} | {out} |"


def photos() -> Iterator[str]:
    yield "| photo | median | 95th percentile | by arithmetic | 95th percentile | boxes left out |\n|---|---:|---:|---:|---:|---:|"
    with tempfile.TemporaryDirectory() as folder:
        town = chart_town(Path(folder), ANCHORS)
        some = [(camera, lamp) for camera in (0, 1) for lamp in ("A", "D50", "LED-B3")]
        plainly = [_plainly(*one) for one in some]
        for name, change in CONDITIONS.items():
            yield _row(name, [_off(town, change(town.photo(*one)), Path(folder)) for one in some], plainly)
        askew = [_off(town, _all(town.photo(*one, corners=ASKEW)), Path(folder)) for one in some]
        yield _row("the same, further askew", askew, plainly)
        every = [(camera, lamp) for camera in (0, 1) for lamp in LAMPS]
        yield _row(
            "light, blur, noise and JPEG, both cameras under all lamps",
            [_off(town, _all(town.photo(*one)), Path(folder)) for one in every],
            [_plainly(*one) for one in every],
        )


def main() -> None:
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("what", nargs="?", choices=("arithmetic", "codes", "photos"))
    options.add_argument("--draws", type=int, default=10)
    chosen = options.parse_args()
    if chosen.what in (None, "arithmetic"):
        arithmetic(chosen.draws)
    for name, lines in (("codes", codes), ("photos", photos)):
        if chosen.what in (None, name):
            for line in lines():
                print(line, flush=True)


if __name__ == "__main__":
    main()
