"""Photos as phones take them, sideways and with the place in them: on the site they are upright and tell nothing."""

from __future__ import annotations

import io
from pathlib import Path

import numpy as np
import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner
from PIL import Image
from support.content_folders import lay_out
from support.photos import BLUE, GREEN, OCHRE, RED, corner_colours, corners, saved

from guidegen.commands.build import command

TEXT = """
» palette.yaml
paints:
  - {name: Oilskin Ochre, colour: b8862f}
» guides/ferry-watch/guide.md
---
title: Ferry watch
steps:
  - step: Coats
    area: coat
    paint: Oilskin Ochre
    each: 1 min
    photo: [{file: coats.jpg, alt: Coats from the side}, {file: backs.heic, alt: Coats from behind}]
---
"""
MAKER, WHERE, MARK = b"Lockgate Cameras", b"Delta town, third jetty", b"Exif\0\0"
# Exif 2.32, 4.6.4: orientation 6 is a picture whose top is the right side as it was taken.
ORIENTATION, MAKE, DESCRIPTION, GPS = 0x0112, 0x010F, 0x010E, 0x8825


def told_by_the_phone() -> bytes:
    exif = Image.Exif()
    exif[ORIENTATION], exif[MAKE], exif[DESCRIPTION] = 6, MAKER.decode(), WHERE.decode()
    exif.get_ifd(GPS).update({1: "N", 2: (53.0, 21.0, 36.0), 3: "E", 4: (7.0, 12.0, 9.0)})
    return exif.tobytes()


@pytest.fixture(scope="module")
def originals() -> dict[str, bytes]:
    """2,000 × 1,500 pixels as the phone lies; the patches are placed so that they come right when it is upright."""
    upright = corners(1500, 2000)
    lying = np.rot90(upright)
    exif = told_by_the_phone()
    return {
        "coats.jpg": saved(lying, "JPEG", exif=exif),
        "backs.heic": saved(np.ascontiguousarray(lying), "HEIF", exif=exif),
    }


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory, originals: dict[str, bytes]) -> Path:
    at = tmp_path_factory.mktemp("phone")
    lay_out(at / "content", TEXT)
    for name, data in originals.items():
        (at / "content" / "guides" / "ferry-watch" / name).write_bytes(data)
    places = ["--content", str(at / "content"), "--out", str(at / "site"), "--cache", str(at / "cache")]
    result = CliRunner().invoke(command, places)
    assert result.exit_code == 0, result.output
    return at / "site"


def test_the_originals_tell_where_they_were_taken(originals: dict[str, bytes]):
    for data in originals.values():
        assert MAKER in data
        assert WHERE in data
        with Image.open(io.BytesIO(data)) as image:
            assert image.getexif().get_ifd(GPS)[2] == (53.0, 21.0, 36.0)


def test_no_byte_of_it_reaches_the_site(site: Path):
    files = [path for path in site.rglob("*") if path.is_file()]
    assert sum(path.suffix in {".jpg", ".webp"} for path in files) == 2 * 3 * 2
    for path in files:
        data = path.read_bytes()
        for trace in (MAKER, WHERE):
            assert trace not in data, path
        if path.suffix in {".jpg", ".webp"}:
            assert MARK not in data, path
            assert b"EXIF" not in data, path
            with Image.open(io.BytesIO(data)) as image:
                assert not image.getexif(), path


def test_upright_in_every_width_and_form(site: Path):
    soup = BeautifulSoup((site / "guides/ferry-watch/index.html").read_text(encoding="utf-8"), "html.parser")
    pictures = soup.select("figure picture")
    assert len(pictures) == 2
    for picture in pictures:
        image = picture.img
        assert (image["width"], image["height"]) == ("1500", "2000")  # never larger than it was taken
        for listed in (picture.source["srcset"], image["srcset"]):
            widths = []
            for candidate in listed.split(", "):
                address, width = candidate.split()
                widths.append(int(width.removesuffix("w")))
                with Image.open(site / "guides" / "ferry-watch" / address) as made:
                    assert made.width == widths[-1]
                    assert made.height == round(made.width * 4 / 3)
                    found = corner_colours(made.convert("RGB"))
                for seen, meant in zip(found, (RED, GREEN, BLUE, OCHRE), strict=True):
                    assert np.abs(seen - meant).max() < 16, address
            assert widths == [480, 960, 1500]
