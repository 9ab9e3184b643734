"""How heavy a guide is that was sent: under 1.3 times the bytes of what it shows.

What it shows are the files that the site's own pages of the guide and its bench bring to a reader: the page, its style, its script,
the drawing at its head if it has one, and each photo that it shows once, as WebP 960 pixels wide, or as wide as the photo
is where that is less. They are taken from a site that the same content is built into.
"""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import numpy as np
import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner
from PIL import Image
from support.paths import ROOT
from support.photos import saved, skimage_photo
from support.sent_guides import photos_in, sent

from guidegen.commands.build import command

TOP = ROOT
MOST = 1.3
WIDTH = 960


def shown(site: Path, page: Path) -> dict[Path, int]:
    """The files that a page brings to its reader, with their sizes."""
    found = {page: page.stat().st_size}
    soup = BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser")
    addresses = [str(tag["href"]) for tag in soup.find_all("link", rel="stylesheet")]
    addresses += [str(tag["src"]) for tag in soup.select("script[src]:not([data-worker])")]
    addresses += [str(tag["src"]) for tag in soup.select(".head-picture img[src$='.svg']")]
    for source in soup.select("source[type='image/webp']"):
        offered = {
            int(width): address for address, width in re.findall(r"(\S+) (\d+)w", str(source["srcset"]))
        }
        widest = max(offered)
        addresses.append(offered[WIDTH if WIDTH in offered else widest])
    for address in addresses:
        file = (page.parent / address).resolve()
        assert file.is_relative_to(site.resolve())
        found[file] = file.stat().st_size
    return found


def photo_diary(folder: Path) -> str:
    """One step with fifteen photos, among them mere noise, the worst that there is for any encoder."""
    folder.mkdir()
    noise = np.random.default_rng(9)
    for n in range(14):
        with Image.open(skimage_photo("coffee.png" if n % 2 else "astronaut.png")) as photo:
            part = photo.convert("RGB").resize((1000, 700), box=(n * 5, n * 3, 400 + n * 5, 280 + n * 3))
        (folder / f"{n}.jpg").write_bytes(saved(part, "JPEG"))
    noisy = noise.integers(0, 256, (500, 700, 3), np.uint8)
    (folder / "14.jpg").write_bytes(saved(noisy, "JPEG", quality=80))
    listed = ", ".join(f'{{file: {n}.jpg, alt: "Evening {n}"}}' for n in range(15))
    return (
        "---\ntitle: A winter in photos\nsteps:\n"
        f"  - {{step: Coats, technique: base coat, paint: Oilskin Ochre, each: 3 min, photo: [{listed}]}}\n---\n"
    )


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three guides of the demo, and the hardest case."""
    at = tmp_path_factory.mktemp("heavy") / "content"
    shutil.copytree(TOP / "content" / "palette", at / "palette")
    shutil.copytree(TOP / "content" / "shared", at / "shared")
    for name in ("ferry-watch", "heron-riders", "draw-a-figure"):
        shutil.copytree(TOP / "content" / "guides" / name, at / "guides" / name)
        guide = at / "guides" / name / "guide.md"
        # The guides around them are not there.
        text = re.sub(r"^see:.*\n", "", guide.read_text(encoding="utf-8"), flags=re.MULTILINE)
        guide.write_text(re.sub(r"\]\(\.\./[^)]*\)", "]", text), encoding="utf-8")
    diary = at / "guides" / "winter"
    text = photo_diary(diary)
    (diary / "guide.md").write_text(text, encoding="utf-8")
    return at


@pytest.fixture(scope="module")
def site(content: Path) -> Path:
    places = [
        "--content",
        str(content),
        "--out",
        str(content.parent / "site"),
        "--cache",
        str(content.parent / "cache"),
    ]
    result = CliRunner().invoke(command, places)
    assert result.exit_code == 0, result.output
    return content.parent / "site"


@pytest.mark.parametrize(
    ("name", "page", "chosen", "photos"),
    [
        ("ferry-watch", "index.html", (), 6),
        ("heron-riders", "with-straw-hat.html", ("--choose", "headgear=straw hat"), 3),
        ("draw-a-figure", "index.html", (), 0),
        ("winter", "index.html", (), 15),
    ],
)
def test_it_weighs_less_than_a_third_more_than_what_it_shows(
    content: Path, site: Path, tmp_path: Path, name: str, page: str, chosen: tuple[str, ...], photos: int
) -> None:
    out = tmp_path / "one.html"
    result = sent(content, content.parent / "cache", name, *chosen, "--out", str(out))
    assert result.exit_code == 0, result.output
    there = site / "guides" / name
    files = shown(site, there / page)
    bench = there / page.replace("index", "bench").replace("with", "bench-with")
    if bench.is_file():
        files |= shown(site, bench)
    assert sum(file.suffix == ".webp" for file in files) == photos
    assert len(photos_in(out.read_text(encoding="utf-8"))) == photos
    assert {file.suffix for file in files} >= {".html", ".css", ".js"}
    assert out.stat().st_size < MOST * sum(files.values()), (out.stat().st_size, files)
