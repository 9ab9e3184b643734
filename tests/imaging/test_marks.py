"""Marks of printed cards: what they say comes back, from photos askew, uneven, blurred and noisy, and never from others."""

from __future__ import annotations

from collections import Counter

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from support.card_photos import blurred, drawn, jpeg, lit, noisy, seen_from

from guidegen.imaging.blobs import dark_blobs
from guidegen.imaging.mark_code import BITS, MOST_PAGES, PAPERS, Code, bits_of, code_of
from guidegen.imaging.marks import find_marks
from guidegen.model.card import Box, BoxKind, Card

CARD = Card(
    id="3fa9c2",
    paper="a4",
    boxes=tuple(Box(n=n, paint=f"Jar {n}", kind=BoxKind.FULL) for n in range(1, 26)),
)
ALL = {Code("3fa9c2", 0, corner, "a4"): 1 for corner in range(4)}

codes = st.builds(
    Code,
    st.integers(0, (1 << 24) - 1).map(lambda number: f"{number:06x}"),
    st.integers(0, MOST_PAGES - 1),
    st.integers(0, 3),
    st.sampled_from(PAPERS),
)


@given(codes)
def test_a_code_comes_back(code):
    assert code_of(bits_of(code)) == code


@given(codes, st.integers(0, BITS - 1))
def test_one_wrong_dot_is_noticed(code, at):
    bits = list(bits_of(code))
    bits[at] = not bits[at]
    assert code_of(tuple(bits)) != code


def test_blobs_are_measured():
    dark = np.zeros((40, 60), dtype=bool)
    dark[5:9, 10:20] = True
    dark[20:30, 30:40] = True
    dark[22:28, 32:38] = False
    blobs = dark_blobs(dark)
    assert blobs.area.tolist() == [40, 64]
    assert blobs.centre.tolist() == [[14.5, 6.5], [34.5, 24.5]]
    assert blobs.spread[0].tolist() == pytest.approx([100 / 12, 0, 16 / 12])


def test_what_touches_is_one_blob():
    # A U, a snake, and two that meet only below.
    dark = np.zeros((9, 9), dtype=bool)
    dark[0, :] = dark[8, :] = dark[:, 0] = dark[:, 8] = True
    dark[2:7, 4] = True
    assert sorted(dark_blobs(dark).area.tolist()) == [5, 32]


@pytest.fixture(scope="module")
def page():
    return drawn(CARD)


ASKEW = ((260, 250), (1290, 180), (1350, 1790), (140, 1700))


@pytest.mark.parametrize("turn", [0, 90, 143, 260])
def test_marks_are_found_however_the_page_lies(page, turn):
    photo = jpeg(noisy(blurred(lit(seen_from(page, ASKEW, (1500, 2000)), 0.6), 1.2), 6), 70)
    found = find_marks(np.asarray(photo.rotate(turn, expand=True)))
    assert Counter(mark.code for mark in found.marks) == ALL
    assert all(len(mark.on_paper) > 12 for mark in found.marks)


def test_a_page_in_a_mirror_says_nothing(page):
    photo = seen_from(page, ASKEW, (1500, 2000)).transpose(Image.Transpose.FLIP_LEFT_RIGHT)
    found = find_marks(np.asarray(photo))
    assert found.marks == ()
    assert found.unread == 4


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
    assert find_marks(picture).marks == ()
