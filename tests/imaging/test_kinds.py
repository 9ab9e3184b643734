"""What a file is, told by its content."""

from __future__ import annotations

import numpy as np
import pytest
from support.photos import KINDS, corners, load, loaded, saved

from guidegen.imaging.kinds import Kind, Other, kind_of
from guidegen.imaging.trouble import Trouble


@pytest.mark.parametrize("kind", KINDS)
def test_every_usable_kind_is_known(kind: str):
    assert kind_of(saved(corners(), kind)) is Kind(kind)


def test_a_bigtiff_is_a_tiff():
    assert kind_of(saved(corners(), "TIFF", big_tiff=True)) is Kind.TIFF
    assert loaded(saved(corners(), "TIFF", big_tiff=True)).width == 64


@pytest.mark.parametrize(
    ("brands", "expected"),
    [
        ([b"avif", b"mif1", b"miaf"], Kind.AVIF),
        ([b"mif1", b"avif"], Kind.AVIF),
        ([b"heic", b"mif1"], Kind.HEIC),
        ([b"mif1", b"heic"], Kind.HEIC),
        ([b"mif1"], Kind.HEIC),
        ([b"msf1", b"hevc"], Kind.HEIC),
        ([b"isom", b"mp42"], Other(called="a film")),
        ([b"qt  "], Other(called="a film")),
        ([b"crx ", b"isom"], Other(called="a camera's raw file")),
    ],
)
def test_brands_decide(brands: list[bytes], expected: Kind | Other):
    box = b"ftyp" + brands[0] + b"\0\0\0\0" + b"".join(brands[1:])
    assert kind_of((len(box) + 4).to_bytes(4, "big") + box) == expected


@pytest.mark.parametrize(
    ("data", "called"),
    [
        (saved(np.zeros((4, 4), np.uint8), "GIF"), "a GIF picture"),
        (saved(corners(), "BMP"), "a BMP picture"),
        (b'<?xml version="1.0"?>\n<svg xmlns="http://www.w3.org/2000/svg"/>', "an SVG drawing"),
        (b"%PDF-1.7\n", "a PDF document"),
        (b"\xff\x0a\xfa\x1f", "a JPEG XL picture"),
        (saved(corners(), "JPEG2000"), "a JPEG 2000 picture"),
        (b"II*\x00\x10\x00\x00\x00CR\x02\x00", "a camera's raw file"),
        (b"PK\x03\x04rest", "a ZIP archive"),
    ],
)
def test_other_kinds_are_called_by_name(data: bytes, called: str):
    found = load(data)
    assert isinstance(found, Trouble)
    assert found.what == f"is {called}; a photo can be JPEG, PNG, WebP, HEIC, AVIF or TIFF"
    assert found.help == "Save the photo as JPEG, and name that file here."


@pytest.mark.parametrize("data", [b"A pair of even coats", b"\0" * 100, b"\xff\xd8", b"ftyp", b"\x89PNG"])
def test_what_nobody_knows_is_said_so(data: bytes):
    found = load(data)
    assert isinstance(found, Trouble)
    assert found.what.startswith("is no picture that guidegen knows")
