"""Codes of printed cards: what they say comes back, from photos askew, uneven, blurred and noisy, and never from others."""

from __future__ import annotations

import re
from collections import Counter

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from support.card_photos import blurred, coded, drawn, jpeg, lit, noisy, seen_from

from guidegen.computing.card.corner_codes import CornerCode, code_of, code_svg, find_codes, text_of
from guidegen.computing.card.pages import pages_in
from guidegen.model.card import MOST_PAGES, PAPERS, Box, BoxKind, Card

pytestmark = pytest.mark.slow

CARD = Card(
    id="3fa9c2",
    paper="a4",
    boxes=tuple(Box(n=n, paint=f"Jar {n}", kind=BoxKind.FULL) for n in range(1, 26)),
)
ALL = {CornerCode("3fa9c2", 0, corner, "a4"): 1 for corner in range(4)}

codes = st.builds(
    CornerCode,
    st.integers(0, (1 << 24) - 1).map(lambda number: f"{number:06x}"),
    st.integers(0, MOST_PAGES - 1),
    st.integers(0, 3),
    st.sampled_from(sorted(PAPERS)),
)


@given(codes)
def test_a_code_comes_back(code):
    assert code_of(text_of(code)) == code


@pytest.mark.parametrize(
    "text",
    [
        "",
        "3FA9C2-1-1-A3",
        "3FA9C2-0-1-A4",
        "3FA9C2-1-5-A4",
        "3FA9C2-1-1-A4\n",
        "3FA9C2-100-1-A4",
        "../../-1-1-A4",
        "x" * 2000,
    ],
)
def test_other_texts_are_no_cards(text):
    assert code_of(text) is None


@pytest.mark.parametrize("code", [CornerCode("0a0b0c", 0, 0, "a4"), CornerCode("ffffff", 98, 3, "letter")])
def test_what_is_printed_is_read(code):
    """The page's own drawing, filled by hand module by module, read by another library."""
    svg = code_svg(code)
    assert 'viewBox="0 0 33 33"' in svg
    modules = np.full((33, 33), 255, np.uint8)
    x, y = 0, 0
    for command, numbers in re.findall(r"([Mmh])([-\d. ]+)", svg[svg.index(' d="') :]):
        values = [float(value) for value in re.findall(r"-?[\d.]+", numbers)]
        if command == "h":
            modules[y, x : x + int(values[0])] = 0
            x += int(values[0])
        else:
            x, y = (
                (int(values[0]), int(values[1]))
                if command == "M"
                else (x + int(values[0]), y + int(values[1]))
            )
    picture = modules.repeat(6, axis=0).repeat(6, axis=1)
    (seen,) = find_codes(np.stack([picture] * 3, axis=-1)).codes
    assert seen.code == code
    assert seen.in_photo == pytest.approx(
        np.array([(24, 24), (174, 24), (174, 174), (24, 174)]) - 0.5, abs=0.6
    )


@pytest.fixture(scope="module")
def page():
    return drawn(CARD)


ASKEW = ((260, 250), (1290, 180), (1350, 1790), (140, 1700))


@pytest.mark.parametrize("turn", [143, 0, 90, 260])
def test_codes_are_found_however_the_page_lies(page, turn):
    photo = jpeg(noisy(blurred(lit(seen_from(page, ASKEW, (1500, 2000)), 0.6), 1.2), 6), 70)
    found = find_codes(np.asarray(photo.rotate(turn, expand=True)))
    assert Counter(seen.code for seen in found.codes) == ALL


def test_noisy_codes_in_a_large_photo_are_found():
    """Sharpening alone drowns them: blur of half a module, noise of 12 levels, a photo that is not made larger for reading."""
    module = 6
    corner_of_photo = Image.new("RGB", (900, 900), "white")
    for corner, at in enumerate(((50, 50), (500, 50), (500, 500), (50, 500))):
        code = coded(text_of(CornerCode("3fa9c2", 0, corner, "a4")), 20.0)
        corner_of_photo.paste(code.resize((33 * module, 33 * module), Image.Resampling.BOX), at)
    dim = corner_of_photo.point(lambda level: level * 3 // 5)
    photo = Image.new("RGB", (2829, 2828), "#999999")
    photo.paste(noisy(blurred(dim, 0.5 * module), 12))
    assert Counter(seen.code for seen in find_codes(np.asarray(photo)).codes) == ALL


def test_a_page_in_a_mirror_is_no_page(page):
    photo = seen_from(page, ASKEW, (1500, 2000)).transpose(Image.Transpose.FLIP_LEFT_RIGHT)
    places, (part,) = pages_in(find_codes(np.asarray(photo)).codes)
    assert places == ()
    assert part.crooked


@pytest.mark.parametrize(
    "picture",
    [
        np.zeros((1, 1, 3), np.uint8),
        np.full((300, 2, 3), 255, np.uint8),
        np.random.default_rng(3).integers(0, 256, (700, 900, 3)).astype(np.uint8),
        np.indices((400, 400)).sum(axis=0)[..., None].repeat(3, axis=2).astype(np.uint8) % 2 * 255,
    ],
    ids=["one-pixel", "a-line", "noise", "chequers"],
)
def test_no_picture_is_taken_for_a_card(picture):
    assert find_codes(picture) == ((), 0, False)
