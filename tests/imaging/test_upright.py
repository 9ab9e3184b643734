"""Every kind of photo comes out upright, whichever way the camera was held."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image
from support.photos import KINDS, corner_colours, corners, loaded, saved

from guidegen.imaging.load import Opened, open_photo

# Exif (CIPA DC-008, tag 0x0112): the side of the visual picture on which the stored first row lies, and the
# side on which the stored first column lies.
SIDES = {
    1: ("top", "left"),
    2: ("top", "right"),
    3: ("bottom", "right"),
    4: ("bottom", "left"),
    5: ("left", "top"),
    6: ("right", "top"),
    7: ("right", "bottom"),
    8: ("left", "bottom"),
}


def stored(upright: np.ndarray, orientation: int) -> np.ndarray:
    """The rows and columns that a camera writes for the upright picture."""
    row, column = SIDES[orientation]
    picture = upright if row in ("top", "bottom") else upright.transpose(1, 0, 2)
    if row in ("bottom", "right"):
        picture = picture[::-1]
    if column in ("bottom", "right"):
        picture = picture[:, ::-1]
    return np.ascontiguousarray(picture)


def turned(kind: str, orientation: int, upright: np.ndarray) -> bytes:
    exif = Image.Exif()
    exif[0x0112] = orientation
    return saved(stored(upright, orientation), kind, exif=exif.tobytes())


@pytest.mark.parametrize("orientation", SIDES)
@pytest.mark.parametrize("kind", KINDS)
def test_upright(kind: str, orientation: int):
    photo = loaded(turned(kind, orientation, corners(96, 64)))
    assert (photo.width, photo.height) == photo.image.size == (96, 64)
    for found, expected in zip(corner_colours(photo.image), corner_colours(corners()), strict=True):
        assert np.abs(found - expected).max() <= 6


@pytest.mark.parametrize("orientation", SIDES)
@pytest.mark.parametrize("kind", ["JPEG", "PNG", "TIFF"])
def test_upright_when_made_smaller(kind: str, orientation: int):
    photo = loaded(turned(kind, orientation, corners(1200, 800)), 300)
    assert (photo.width, photo.height) == (1200, 800)
    assert photo.image.size == (300, 200)
    for found, expected in zip(corner_colours(photo.image), corner_colours(corners()), strict=True):
        assert np.abs(found - expected).max() <= 3


def test_the_width_asked_for_is_the_upright_one():
    # Stored 1200 × 800 and shown 800 × 1200: decoded at half size it would be too narrow, 400, for 480.
    data = turned("JPEG", 6, corners(800, 1200))
    opened = open_photo(data, 480)
    assert isinstance(opened, Opened)
    assert opened.pixels == 1200 * 800
    assert loaded(data, 480).image.size == (480, 720)
    # Lying down, the same photo may be decoded at half size.
    lying = open_photo(turned("JPEG", 1, corners(1200, 800)), 480)
    assert isinstance(lying, Opened)
    assert lying.pixels == 600 * 400


def test_orientation_in_xmp_counts_where_there_is_no_exif():
    xmp = b'<x:xmpmeta xmlns:x="adobe:ns:meta/" tiff:Orientation="3"/>'
    photo = loaded(saved(corners(), "JPEG", xmp=xmp))
    assert np.abs(corner_colours(photo.image)[0] - corner_colours(corners())[3]).max() <= 6


@pytest.mark.parametrize("orientation", [0, 9, 65535])
def test_an_orientation_that_is_none_turns_nothing(orientation: object):
    exif = Image.Exif()
    exif[0x0112] = orientation
    photo = loaded(saved(corners(), "JPEG", exif=exif))
    assert np.abs(corner_colours(photo.image)[0] - corner_colours(corners())[0]).max() <= 6


def test_broken_exif_does_not_spoil_a_photo():
    photo = loaded(saved(corners(), "JPEG", exif=b"Exif\0\0II*\0\xff\xff\xff\x7fnothing"))
    assert photo.image.size == (64, 48)
