"""Photos made to cost far more than they weigh: each is refused with a sentence, or developed within its bounds."""

from __future__ import annotations

import io
import struct

import pytest
from PIL import Image
from support.photos import flat, load, png, saved

from guidegen.imaging import trouble
from guidegen.imaging.develop import _encoded
from guidegen.imaging.limits import MAX_AT_A_TIME, MAX_PIXELS_WEBP, MAX_SCANNED, MAX_SCANS
from guidegen.imaging.load import Loaded, Opened, open_photo
from guidegen.imaging.trouble import Trouble


@pytest.mark.parametrize("size", [(1, 65_535), (65_535, 1), (3, 50_000)])
@pytest.mark.parametrize("kind", ["PNG", "TIFF", "JPEG"])
def test_strips(size: tuple[int, int], kind: str):
    """A strip of one pixel is no photo for a page: nothing as long as that can be made of it."""
    if kind == "JPEG" and max(size) > 65_500:
        size = tuple(min(side, 65_500) for side in size)
    data = saved(Image.new("RGB", size), kind)
    found = _encoded("key", data, lambda _question: None, None)
    if size[0] < size[1]:
        assert found == trouble.too_long(*size)
    else:
        # Shrunk to the widths of a page a flat strip is one pixel high.
        assert not isinstance(found, Trouble)


def test_a_webp_may_have_fewer_pixels_than_others():
    side = int(MAX_PIXELS_WEBP**0.5) + 1
    out = io.BytesIO()
    Image.new("L", (side, side)).convert("RGB").save(out, "WEBP", method=0)
    assert load(out.getvalue()) == trouble.too_many_pixels(MAX_PIXELS_WEBP, (side, side))


def test_many_passes_over_a_large_photo_are_too_many():
    """Fewer scans than a small photo may have, each over a hundred million pixels."""
    data = saved(flat("grey", (64, 48)), "JPEG", progressive=True)
    scan = data[data.rindex(b"\xff\xda") : -2]
    many = data[:-2] + scan * 30 + b"\xff\xd9"
    assert isinstance(load(many), Loaded)
    at = many.rindex(b"\xff\xc2")  # the frame header of a progressive photo, ITU-T T.81 §B.2.2
    large = many[: at + 5] + struct.pack(">HH", 10_000, 11_000) + many[at + 9 :]
    assert MAX_SCANS > 40  # so it is not by their number that they are refused
    assert MAX_SCANNED < 30 * 110_000_000
    assert load(large) == trouble.TOO_MANY_SCANS


@pytest.mark.parametrize("kind", ["WEBP", "PNG", "AVIF"])
def test_only_the_first_of_many_pictures_is_decoded(kind: str):
    frames = [Image.new("RGB", (64, 48), (shade % 256, 0, 0)) for shade in range(300)]
    data = saved(frames[0], kind, save_all=True, append_images=frames[1:], duration=20)
    found = load(data)
    assert isinstance(found, Loaded)
    assert found.animated
    assert found.width == 64


def test_a_picture_that_says_it_has_millions_of_frames():
    """The frame count of a moving PNG (acTL) is a number in the header, and nothing may be made ready for it."""
    body = b"".join(b"\0" + bytes(64 * 3) for _ in range(48))
    chunk = struct.pack(">I", 8) + b"acTL" + struct.pack(">II", 0x7FFFFFFF, 0)
    import zlib

    chunk += struct.pack(">I", zlib.crc32(chunk[4:]))
    found = load(png(64, 48, body=body, more=chunk))
    assert isinstance(found, Loaded | Trouble)


@pytest.mark.parametrize(("kind", "most"), [("JPEG", 0.5), ("PNG", 1), ("WEBP", 2)])
def test_what_is_decoded_together_is_weighed_by_its_thirst(kind: str, most: float):
    opened = open_photo(saved(flat("grey", (400, 300)), kind))
    assert isinstance(opened, Opened)
    assert 0 < opened.weight <= most * 400 * 300
    assert opened.weight < MAX_AT_A_TIME
