"""Photos of every make come out as 8-bit RGB of the right colours and size."""

from __future__ import annotations

import os
import sys
from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from support.photos import (
    BLUE,
    GREEN,
    KINDS,
    OCHRE,
    RED,
    SPAN,
    corner_colours,
    corners,
    flat,
    load,
    loaded,
    png,
    png_chunk,
    saved,
    skimage_photo,
)

from guidegen.imaging.limits import MAX_BYTES
from guidegen.imaging.load import load_full, read_bytes
from guidegen.imaging.trouble import EMPTY, NO_FILE, Trouble


@pytest.mark.parametrize("kind", KINDS)
def test_colours_of_every_kind(kind: str):
    photo = loaded(saved(corners(), kind))
    assert photo.image.size == (photo.width, photo.height) == (64, 48)
    assert not photo.animated
    for found, expected in zip(corner_colours(photo.image), (RED, GREEN, BLUE, OCHRE), strict=True):
        assert np.abs(found - expected).max() <= 6


@pytest.mark.parametrize("name", ["chelsea.png", "coffee.png", "hubble_deep_field.jpg", "rocket.jpg"])
def test_real_photographs(name: str):
    path = skimage_photo(name)
    with Image.open(path) as opened:
        size = opened.size
    photo = loaded(path.read_bytes())
    assert photo.image.size == (photo.width, photo.height) == size


# 16 bits

RAMP = np.linspace(0, 65535, 256).astype(np.uint16)[None].repeat(4, axis=0)  # 0, 257, 514 … 65535


@pytest.mark.parametrize("kind", ["PNG", "TIFF"])
def test_grey_of_16_bits_is_scaled(kind: str):
    photo = loaded(saved(RAMP, kind))
    assert np.array_equal(np.asarray(photo.image)[0, :, 0], np.arange(256))


def test_grey_of_16_bits_with_the_high_byte_first():
    data = saved(Image.fromarray(RAMP.astype(">u2")), "TIFF")
    assert data.startswith(b"MM")
    assert np.array_equal(np.asarray(loaded(data).image)[0, :, 0], np.arange(256))


def test_grey_of_16_bits_rounds():
    photo = loaded(saved(np.array([[0, 128, 129, 385, 386, 65406, 65407]], np.uint16), "PNG"))
    assert np.asarray(photo.image)[0, :, 0].tolist() == [0, 0, 1, 1, 2, 254, 255]


@pytest.mark.parametrize("colour", [2, 6], ids=["RGB", "RGBA"])
def test_colour_of_16_bits_png(colour: int):
    channels = 3 if colour == 2 else 4
    rows = RAMP[..., None].repeat(channels, axis=2)
    if colour == 6:
        rows[..., 3] = 65535
    body = b"".join(b"\0" + row.astype(">u2").tobytes() for row in rows)
    photo = loaded(png(256, 4, depth=16, colour=colour, body=body))
    assert np.abs(np.asarray(photo.image)[0, :, 1].astype(int) - np.arange(256)).max() <= 1


def test_colour_of_16_bits_tiff():
    import tifffile

    out = BytesIO()
    tifffile.imwrite(out, RAMP[..., None].repeat(3, axis=2), photometric="rgb", compression="zlib")
    photo = loaded(out.getvalue())
    assert np.abs(np.asarray(photo.image)[0, :, 1].astype(int) - np.arange(256)).max() <= 1


@pytest.mark.parametrize("values", [np.float32, np.int32])
def test_numbers_that_are_no_photo(values: type):
    found = load(saved(Image.fromarray(np.ones((8, 8), values)), "TIFF"))
    assert isinstance(found, Trouble)
    assert "keeps its colours in a way that photos seldom do" in found.what


# See-through


@pytest.mark.parametrize("kind", ["PNG", "WEBP", "TIFF", "AVIF"])
def test_see_through_shows_white(kind: str):
    rgba = np.dstack([corners(), np.full((48, 64), 255, np.uint8)])
    rgba[:, 32:, 3] = 0
    rgba[24:, :32, 3] = 128
    photo = loaded(saved(rgba, kind))
    red, top, blue, bottom = corner_colours(photo.image)
    assert np.abs(red - RED).max() <= 6
    assert np.abs(top - 255).max() <= 2
    assert np.abs(bottom - 255).max() <= 2
    assert np.abs(blue - (255 - (255 - np.array(BLUE)) * 128 / 255)).max() <= 6


def test_what_is_hidden_does_not_bleed_in_when_made_smaller():
    # A red figure on a ground that is see-through and black underneath: its edge must mix with white alone.
    rgba = np.zeros((600, 800, 4), np.uint8)
    rgba[:, 401:] = (*RED, 255)
    small = np.asarray(loaded(saved(rgba, "PNG"), 200).image)
    assert small[:, :99].min() == 255
    assert small[:, 99:102, 0].min() >= RED[0] - 1


def test_palette_with_see_through_entries():
    picture = Image.fromarray(
        (np.arange(16, dtype=np.uint8).reshape(4, 4) % 4).repeat(12, 0).repeat(16, 1), "L"
    )
    palette = picture.convert("P")
    palette.putpalette([*RED, *GREEN, *BLUE, *OCHRE])
    data = saved(palette, "PNG", transparency=bytes([255, 0, 128, 255]))
    pixels = np.asarray(loaded(data).image).astype(int)
    assert np.abs(pixels[2, 8] - RED).max() <= 1
    assert np.abs(pixels[2, 24] - 255).max() == 0
    assert np.abs(pixels[2, 40] - (255 - (255 - np.array(BLUE)) * 128 / 255)).max() <= 1
    assert np.abs(pixels[2, 56] - OCHRE).max() <= 1


def test_one_colour_may_be_see_through():
    pixels = np.asarray(loaded(saved(corners(), "PNG", transparency=GREEN)).image)
    assert pixels[2, 60].tolist() == [255, 255, 255]
    assert pixels[2, 2].tolist() == list(RED)


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P"])
def test_modes_with_few_colours(mode: str):
    grey = Image.fromarray(np.tile(np.array([0, 255], np.uint8).repeat(8), (16, 1)))
    pixels = np.asarray(loaded(saved(grey.convert(mode), "PNG")).image)
    assert pixels[0, 2].tolist() == [0, 0, 0]
    assert pixels[0, 12].tolist() == [255, 255, 255]


def test_tiff_in_luma_and_chroma():
    data = saved(Image.fromarray(corners()).convert("YCbCr"), "TIFF")
    assert np.abs(corner_colours(loaded(data).image)[3] - OCHRE).max() <= 6


# Several pictures in one file


def frames() -> list[Image.Image]:
    return [flat(GREEN), flat(BLUE)]


@pytest.mark.parametrize("kind", ["PNG", "WEBP", "AVIF"])
def test_of_a_moving_picture_the_first_is_shown(kind: str):
    photo = loaded(saved(flat(RED), kind, save_all=True, append_images=frames(), duration=100))
    assert photo.animated
    assert np.abs(np.asarray(photo.image)[20, 20].astype(int) - RED).max() <= 6


@pytest.mark.parametrize("kind", ["MPO", "TIFF", "HEIF"])
def test_a_second_picture_is_nothing_that_moves(kind: str):
    photo = loaded(saved(flat(RED), kind, save_all=True, append_images=frames(), **KINDS.get(kind, {})))
    assert not photo.animated
    assert np.abs(np.asarray(photo.image)[20, 20].astype(int) - RED).max() <= 6


def test_a_phone_jpeg_with_a_second_picture_is_made_smaller_as_well():
    data = saved(corners(1200, 800), "MPO", save_all=True, append_images=frames(), quality=95)
    photo = loaded(data, 480)
    assert photo.image.size == (480, 320)
    assert (photo.width, photo.height) == (1200, 800)


def test_a_moving_png_that_lies_about_its_frames_is_still_a_photo():
    body = b"".join(b"\0" + row.tobytes() for row in corners())
    photo = loaded(png(64, 48, body=body, more=png_chunk(b"acTL", b"\xff" * 8)))
    assert np.array_equal(np.asarray(photo.image), corners())


# Smaller


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("size", [(1200, 901), (1999, 777), (401, 1203)])
def test_smaller_keeps_the_shape(kind: str, size: tuple[int, int]):
    photo = loaded(saved(corners(*size), kind), 400)
    assert (photo.width, photo.height) == size
    assert photo.image.size == (400, round(size[1] * 400 / size[0]))
    for found, expected in zip(corner_colours(photo.image), (RED, GREEN, BLUE, OCHRE), strict=True):
        assert np.abs(found - expected).max() <= 6


def test_a_jpeg_decoded_at_a_fraction_looks_the_same():
    # Coffee, CC0, from scikit-image: enlarged, so that a fraction of it has all its detail.
    with Image.open(skimage_photo("coffee.png")) as opened:
        large = opened.convert("RGB").resize((2400, 1600), Image.Resampling.LANCZOS)
    quick = np.asarray(loaded(saved(large, "JPEG", quality=95), 600).image).astype(float)
    thorough = np.asarray(large.resize((600, 400), Image.Resampling.LANCZOS)).astype(float)
    error = ((quick - thorough) ** 2).mean()
    assert 10 * np.log10(255**2 / error) > 40  # decibels; WebP then loses far more


def test_nothing_is_enlarged():
    assert loaded(saved(corners(), "JPEG"), 480).image.size == (64, 48)


# Files


def test_the_whole_photo_as_numbers(tmp_path: Path):
    path = tmp_path / "pot.png"
    path.write_bytes(saved(corners(), "PNG"))
    pixels, diagnostics = load_full(path, "pot.png", SPAN)
    assert diagnostics == ()
    assert pixels is not None
    assert pixels.dtype == np.uint8
    assert np.array_equal(pixels, corners())


def test_the_whole_photo_moving(tmp_path: Path):
    path = tmp_path / "pot.webp"
    path.write_bytes(saved(flat(RED), "WEBP", save_all=True, append_images=frames()))
    pixels, (warning,) = load_full(path, "pot.webp", SPAN)
    assert pixels is not None
    assert warning.code == "animated-photo"


def test_the_whole_photo_broken(tmp_path: Path):
    path = tmp_path / "pot.png"
    path.write_bytes(b"\x89PNG\r\n\x1a\nnothing")
    pixels, (error,) = load_full(path, "pot.png", SPAN)
    assert pixels is None
    assert error.code == "bad-photo"
    assert error.span == SPAN
    assert error.message == "“pot.png” is broken or cut short, so it cannot be opened."
    assert error.help


def test_the_ending_of_the_name_is_not_looked_at(tmp_path: Path):
    path = tmp_path / "pot.jpg"
    path.write_bytes(saved(corners(), "TIFF"))
    pixels, _ = load_full(path, "pot.jpg", SPAN)
    assert np.array_equal(pixels, corners())


def test_a_missing_file_is_said_so(tmp_path: Path):
    found = read_bytes(tmp_path / "none.jpg")
    assert isinstance(found, Trouble)
    assert found.what == "cannot be read from the disk (No such file or directory)"


def test_a_folder_is_no_photo(tmp_path: Path):
    assert read_bytes(tmp_path) == NO_FILE


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no such pipes in folders")
def test_a_pipe_does_not_hold_the_build_up(tmp_path: Path):
    os.mkfifo(tmp_path / "pot.jpg")
    assert read_bytes(tmp_path / "pot.jpg") == NO_FILE


def test_an_empty_file(tmp_path: Path):
    (tmp_path / "pot.jpg").touch()
    assert read_bytes(tmp_path / "pot.jpg") == b""
    assert load(b"") == EMPTY


def test_a_file_far_too_large_is_not_read(tmp_path: Path):
    path = tmp_path / "pot.tif"
    path.touch()
    os.truncate(path, MAX_BYTES + 1)  # a hole on the disk that takes no room
    found = read_bytes(path)
    assert isinstance(found, Trouble)
    assert found.what == "takes up 257 MB; a photo may have up to 256 MB"
