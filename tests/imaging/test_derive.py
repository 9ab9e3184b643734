"""Sizes, names and encoded files of a photo."""

from __future__ import annotations

from io import BytesIO

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from PIL import Image
from support.photos import OCHRE, corners, flat, skimage_photo

from guidegen.imaging.derive import derive
from guidegen.imaging.limits import MAX_SIDE
from guidegen.imaging.picture import (
    FORMATS,
    WIDTHS,
    Picture,
    facts_of,
    key_of,
    picture_from,
    picture_of,
    sizes_for,
)


@pytest.mark.parametrize(
    ("size", "expected"),
    [
        ((4000, 3000), ((480, 360), (960, 720), (1600, 1200))),
        ((3000, 4000), ((480, 640), (960, 1280), (1600, 2133))),
        ((1600, 900), ((480, 270), (960, 540), (1600, 900))),
        ((1000, 500), ((480, 240), (960, 480), (1000, 500))),
        ((961, 500), ((480, 250), (960, 499), (961, 500))),
        ((960, 640), ((480, 320), (960, 640))),
        ((480, 360), ((480, 360),)),
        ((300, 200), ((300, 200),)),
        ((1, 1), ((1, 1),)),
        ((60_000, 1), ((480, 1), (960, 1), (1600, 1))),
    ],
)
def test_sizes(size: tuple[int, int], expected: tuple[tuple[int, int], ...]):
    assert sizes_for(*size) == expected


@given(st.integers(1, 60_000), st.integers(1, 60_000))
@example(1600, MAX_SIDE)
@example(1, MAX_SIDE + 1)
def test_nothing_is_enlarged_and_every_width_offered_is_there(width: int, height: int):
    sizes = sizes_for(width, height)
    if sizes is None:
        assert height * min(1, 1600 / width) > MAX_SIDE
        return
    widths = [w for w, _ in sizes]
    assert widths == sorted(set(widths))
    assert set(widths) == {w for w in WIDTHS if w <= width} | {min(width, 1600)}
    for w, h in sizes:
        assert 1 <= h <= min(height, MAX_SIDE)
        assert abs(h - height * w / width) <= 0.5 or h == 1


PICTURE = Picture(
    key="0123456789abcdef0123", width=1000, height=500, sizes=((480, 240), (1000, 500)), colour="#b8862f"
)


def test_files_of_a_picture():
    assert PICTURE.files == (
        ("assets/photos/0123456789abcdef0123-480.webp", "0123456789abcdef0123-480.webp"),
        ("assets/photos/0123456789abcdef0123-480.jpg", "0123456789abcdef0123-480.jpg"),
        ("assets/photos/0123456789abcdef0123-1000.webp", "0123456789abcdef0123-1000.webp"),
        ("assets/photos/0123456789abcdef0123-1000.jpg", "0123456789abcdef0123-1000.jpg"),
    )


def test_a_record_reads_back():
    assert picture_from(PICTURE.record()) == PICTURE
    assert picture_of(facts_of(PICTURE)) == PICTURE


@pytest.mark.parametrize("facts", [b"", b"{}", b"[1]", b'{"key": "a"}', b"\xff\xfe", facts_of(PICTURE)[:40]])
def test_a_spoilt_record_is_none(facts: bytes):
    assert picture_of(facts) is None


def test_keys_differ_by_content():
    assert key_of("a" * 64) == key_of("a" * 64) != key_of("b" * 64)
    assert len(key_of("a" * 64)) == 20


@pytest.fixture(scope="module")
def coffee() -> Image.Image:
    """A real photograph (CC0, from scikit-image), enlarged to be wide enough."""
    with Image.open(skimage_photo("coffee.png")) as opened:
        return opened.convert("RGB").resize((1600, 1067), Image.Resampling.LANCZOS)


SIZES = ((480, 320), (960, 640), (1600, 1067))


def test_every_size_in_both_formats(coffee: Image.Image):
    files = derive(coffee, SIZES).files
    assert set(files) == {(width, ending) for width, _ in SIZES for ending in FORMATS}
    for (width, ending), data in files.items():
        with Image.open(BytesIO(data)) as opened:
            assert opened.format == {"webp": "WEBP", "jpg": "JPEG"}[ending]
            assert opened.mode == "RGB"
            assert opened.size == (width, dict(SIZES)[width])


def test_derivatives_look_like_the_photo(coffee: Image.Image):
    for (width, _), data in derive(coffee, SIZES).files.items():
        with Image.open(BytesIO(data)) as opened:
            found = np.asarray(opened.convert("RGB")).astype(float)
        best = np.asarray(coffee.resize((width, dict(SIZES)[width]), Image.Resampling.LANCZOS)).astype(float)
        # Peak signal to noise in decibels; above 30 lossy photos are commonly held to be good (no source).
        assert 10 * np.log10(255**2 / ((found - best) ** 2).mean()) > 31


def test_webp_is_the_smaller_one(coffee: Image.Image):
    files = derive(coffee, SIZES).files
    for width, _ in SIZES:
        assert len(files[width, "webp"]) < 0.8 * len(files[width, "jpg"])


def test_the_same_photo_gives_the_same_bytes(coffee: Image.Image):
    assert derive(coffee, SIZES) == derive(coffee.copy(), SIZES)


def test_the_average_colour():
    assert derive(flat(OCHRE), ((64, 48),)).colour == "#b8862f"
    mean = corners().reshape(-1, 3).mean(axis=0)
    found = bytes.fromhex(derive(Image.fromarray(corners()), ((64, 48),)).colour[1:])
    assert np.abs(np.array(list(found)) - mean).max() <= 1
