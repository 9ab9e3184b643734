"""The picture for shared links."""

from __future__ import annotations

from io import BytesIO
from itertools import pairwise

import numpy as np
import pytest
from PIL import Image
from support.photos import OCHRE, RED, corner_colours, corners, flat, saved

from guidegen.imaging.social import HEIGHT, WIDTH, compose, social_key, social_path

COLOURS = ["#b8862f", "#4c5660", "#eeeae0", "#202124", "#2f6c70", "#a8342f", "#9fc0c6"]
PAPER = (244, 241, 234)


def pixels(data: bytes) -> np.ndarray:
    with Image.open(BytesIO(data)) as opened:
        assert opened.format == "JPEG"
        assert opened.size == (WIDTH, HEIGHT) == (1200, 630)
        return np.asarray(opened).astype(int)


def chips_in(panel: np.ndarray, colours: list[str]) -> list[tuple[float, float]]:
    """The middle of each chip: where the panel is within a few units of its colour."""
    found = []
    for colour in colours:
        rows, columns = np.nonzero(np.abs(panel - list(bytes.fromhex(colour[1:]))).max(axis=2) <= 4)
        assert len(rows) > 800, colour
        found.append((float(columns.mean()), float(rows.mean())))
    return found


@pytest.mark.parametrize("ending", ["WEBP", "JPEG"])
def test_a_photo_of_four_by_three_is_shown_whole(ending: str):
    page = pixels(compose(saved(corners(1600, 1200), ending), COLOURS))
    for found, expected in zip(corner_colours(page[:, :840]), corner_colours(corners()), strict=True):
        assert np.abs(found - expected).max() <= 8
    assert np.abs(page[400, 830] - OCHRE).max() <= 8
    assert np.abs(page[400, 850] - PAPER).max() <= 8


def test_every_chip_is_there_in_reading_order():
    page = pixels(compose(saved(corners(1600, 1200), "JPEG"), COLOURS))
    places = chips_in(page[:, 844:], COLOURS)
    rows = [round(y / 20) for _, y in places]
    assert rows == sorted(rows)
    for (x, y), (after, below) in pairwise(places):
        assert after > x or below > y + 40


def test_an_upright_photo_leaves_more_room():
    page = pixels(compose(saved(flat(RED, (900, 1200)), "JPEG"), COLOURS))
    assert np.abs(page[300, 460] - RED).max() <= 8
    assert np.abs(page[300, 480] - PAPER).max() <= 8


def test_without_a_cover_the_chips_stand_in_the_middle():
    page = pixels(compose(None, COLOURS[:2]))
    (left, top), (right, bottom) = chips_in(page, COLOURS[:2])
    assert abs((left + right) / 2 - WIDTH / 2) < 3
    assert abs((top + bottom) / 2 - HEIGHT / 2) < 3


def test_without_colours_the_photo_fills_it():
    page = pixels(compose(saved(flat(RED, (300, 200)), "JPEG"), []))
    assert np.abs(page - RED).max() <= 10


def test_with_neither_there_is_paper():
    assert np.abs(pixels(compose(None, [])) - PAPER).max() <= 2


def test_more_chips_than_fit_are_left_out():
    many = [f"#{n:02x}8040" for n in range(250)]
    page = pixels(compose(saved(flat(RED, (2000, 800)), "JPEG"), many))
    assert np.abs(page[:20, 850:] - PAPER).max() <= 8
    assert np.abs(page[-20:, 850:] - PAPER).max() <= 8


def test_the_same_gives_the_same_bytes():
    cover = saved(corners(480, 360), "WEBP")
    assert compose(cover, COLOURS) == compose(cover, list(COLOURS))


def test_the_key_tells_what_is_on_it():
    keys = {
        social_key("abc", COLOURS),
        social_key("abd", COLOURS),
        social_key(None, COLOURS),
        social_key("abc", COLOURS[::-1]),
        social_key("abc", []),
    }
    assert len(keys) == 5
    assert social_key("abc", COLOURS) == social_key("abc", tuple(COLOURS))
    assert social_path("12ab") == "assets/social/12ab.jpg"
