"""Pictures made to trouble whoever looks for marks in them: they take their time and lead nowhere."""

from __future__ import annotations

import numpy as np
import pytest
from PIL import Image, ImageDraw
from support.card_photos import drawn, painted, seen_from

from guidegen.computing.card.boxes import seen_boxes
from guidegen.computing.card.pages import pages_in
from guidegen.imaging.mark_code import DOT, RING_INSIDE, RING_OUTSIDE
from guidegen.imaging.marks import MOST_MARKS, find_marks
from guidegen.model.card import Box, BoxKind, Card

CARD = Card(
    id="77aa01",
    paper="a4",
    boxes=tuple(Box(n=n, paint=f"Jar {n}", kind=BoxKind.FULL) for n in range(1, 26)),
)


def rings(count: int, step: int) -> np.ndarray:
    """So many rings with a dot and nothing around them, in rows of a hundred."""
    image = Image.new("L", (100 * step, -(-count // 100) * step), 255)
    pen = ImageDraw.Draw(image)
    scale = step / 24.0
    for n in range(count):
        x, y = (n % 100 + 0.5) * step, (n // 100 + 0.5) * step
        for radius, fill in ((RING_OUTSIDE, 0), (RING_INSIDE, 255), (DOT, 0)):
            reach = radius * scale
            pen.ellipse((x - reach, y - reach, x + reach, y + reach), fill=fill)
    return np.asarray(image.convert("RGB"))


@pytest.mark.slow
def test_ten_thousand_rings_are_no_card():
    found = find_marks(rings(10_000, 48))
    assert found.marks == ()
    assert 0 < found.unread <= MOST_MARKS


@pytest.fixture(scope="module")
def page() -> Image.Image:
    return painted(drawn(CARD), CARD, {n: (90.0, 30.0 + 8 * n, 60.0) for n in range(1, 26)})


def test_a_page_within_a_page_is_one_of_both(page):
    inside = page.resize((page.width // 3, page.height // 3))
    whole = page.copy()
    whole.paste(inside, (page.width // 3, page.height // 3))
    found = find_marks(np.asarray(whole.resize((1500, 2121))))
    places, _ = pages_in(found.marks)
    assert [place.card for place in places] == ["77aa01"]
    for place in places:
        assert len(seen_boxes(np.asarray(whole.resize((1500, 2121))), CARD, place)) == 25


def test_a_mark_over_a_mark_says_nothing_wrong(page):
    other = drawn(Card(id="0b0b0b", paper="a4", boxes=CARD.boxes))
    mixed = page.copy()
    corner = (0, 0, page.width // 2, page.height // 6)
    mixed.paste(other.crop(corner), (40, 25))
    photo = np.asarray(seen_from(mixed, ((100, 100), (1400, 120), (1390, 1900), (90, 1880)), (1500, 2000)))
    places, parts = pages_in(find_marks(photo).marks)
    assert [(place.card, place.corners) for place in places] == [("77aa01", 3)]
    assert [(part.card, part.corners) for part in parts] == [("0b0b0b", 1)]


@pytest.mark.parametrize("seed", range(3))
def test_torn_pages_never_crash(page, seed):
    """Strips of a page shuffled, stretched and turned."""
    random = np.random.default_rng(seed)
    small = np.asarray(page.resize((700, 990)))
    strips = np.array_split(small, 9)
    random.shuffle(strips)
    torn = np.concatenate([np.roll(strip, random.integers(-90, 90), axis=1) for strip in strips])
    torn = np.ascontiguousarray(np.concatenate([torn, small[::-1], small[:, ::-1]], axis=1))
    places, _ = pages_in(find_marks(torn).marks)
    for place in places:
        seen_boxes(torn, CARD, place)
