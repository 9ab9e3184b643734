"""Pictures made to trouble whoever looks for codes in them: they take their time and lead nowhere."""

from __future__ import annotations

import numpy as np
import pytest
import zxingcpp
from PIL import Image
from support.card_photos import coded, drawn, painted, seen_from

from guidegen.computing.card.boxes import seen_boxes
from guidegen.computing.card.corner_codes import MOST_CODES, find_codes, finder_patterns
from guidegen.computing.card.pages import pages_in
from guidegen.model.card import Box, BoxKind, Card

pytestmark = pytest.mark.slow

CARD = Card(
    id="77aa01",
    paper="a4",
    boxes=tuple(Box(n=n, paint=f"Jar {n}", kind=BoxKind.FULL) for n in range(1, 26)),
)


@pytest.mark.parametrize("text", ["77AA01-1-1-A4", "nonsense"])
def test_dozens_of_codes_are_no_page_and_ten_thousand_are_bounded(text):
    one = np.asarray(coded(text, 20.0).resize((132, 132), Image.Resampling.NEAREST))
    found = find_codes(np.tile(one, (8, 8, 1)))
    assert 1 < len(found.codes) + found.others <= 64
    assert pages_in(found.codes)[0] == ()
    found = find_codes(np.tile(one[::2, ::2], (100, 100, 1)))
    assert len(found.codes) + found.others < 2 * MOST_CODES
    assert pages_in(found.codes)[0] == ()


PATTERN = np.full((9, 9), 255, np.uint8)
PATTERN[1:8, 1:8], PATTERN[2:7, 2:7], PATTERN[3:6, 3:6] = 0, 255, 0


def test_nothing_but_finder_patterns_is_not_looked_through(monkeypatch):
    """The library's time grows with the square of their number."""
    looked = []
    monkeypatch.setattr(zxingcpp, "read_barcodes", lambda *_, **__: looked.append(1) or [])
    assert find_codes(np.tile(PATTERN[..., None], (160, 160, 3))) == ((), 0, True)
    assert looked == []
    assert not find_codes(np.tile(PATTERN[..., None], (20, 20, 3))).too_many
    assert looked


@pytest.mark.parametrize(("across", "size"), [(2, 4), (20, 3), (60, 1)])
def test_finder_patterns_are_counted(across, size):
    picture = np.tile(PATTERN, (across, across)).repeat(size, axis=0).repeat(size, axis=1)
    assert finder_patterns(Image.fromarray(picture)) == across * across


def test_noise_is_looked_through_all_the_same():
    grain = np.random.default_rng(2).normal(128.0, 9.0, (2449, 3266))
    assert finder_patterns(Image.fromarray(grain.astype(np.uint8))) < 8_000


@pytest.fixture(scope="module")
def page() -> Image.Image:
    return painted(drawn(CARD), CARD, {n: (90.0, 30.0 + 8 * n, 60.0) for n in range(1, 26)})


def test_a_page_within_a_page_is_one_of_both(page):
    inside = page.resize((page.width // 3, page.height // 3))
    whole = page.copy()
    whole.paste(inside, (page.width // 3, page.height // 3))
    found = find_codes(np.asarray(whole.resize((1500, 2121))))
    places, _ = pages_in(found.codes)
    assert [place.card for place in places] == ["77aa01"]
    for place in places:
        assert len(seen_boxes(np.asarray(whole.resize((1500, 2121))), CARD, place)) == 25


def test_a_code_over_a_code_says_nothing_wrong(page):
    other = drawn(Card(id="0b0b0b", paper="a4", boxes=CARD.boxes))
    mixed = page.copy()
    corner = (0, 0, page.width // 2, page.height // 6)
    mixed.paste(other.crop(corner), (40, 25))
    photo = np.asarray(seen_from(mixed, ((100, 100), (1400, 120), (1390, 1900), (90, 1880)), (1500, 2000)))
    places, parts = pages_in(find_codes(photo).codes)
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
    places, _ = pages_in(find_codes(torn).codes)
    for place in places:
        seen_boxes(torn, CARD, place)
