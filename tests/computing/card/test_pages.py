"""Pages placed in photos by their codes, and what their boxes show there."""

from __future__ import annotations

import numpy as np
import pytest
from support.card_photos import (
    blurred,
    drawn,
    jpeg,
    lit,
    marked,
    noisy,
    off_mm,
    painted,
    recoloured,
    seen_from,
)

from guidegen.computing.card.boxes import seen_boxes
from guidegen.computing.card.corner_codes import find_codes
from guidegen.computing.card.pages import pages_in
from guidegen.computing.card.reading import read_card
from guidegen.computing.colour.spaces import decoded, delta_e_2000, lab_of_linear
from guidegen.model.card import Box, BoxKind, Card, corner_of_box
from guidegen.model.paint import Palette

pytestmark = pytest.mark.slow

CARD = Card(
    id="0c41d8",
    paper="letter",
    boxes=tuple(Box(n=n, paint=f"Jar {n}", kind=BoxKind.FULL) for n in range(1, 26)),
)
AT = ((260.0, 250.0), (1290.0, 180.0), (1350.0, 1690.0), (140.0, 1600.0))
COLOURS = {n: tuple(np.random.default_rng(n).integers(15, 235, 3).tolist()) for n in range(1, 26) if n != 13}
TRUTH = decoded(np.array([COLOURS.get(n, (255, 255, 255)) for n in range(1, 26)]) / 255.0)


@pytest.fixture(scope="module")
def photo():
    page = painted(drawn(CARD), CARD, COLOURS)
    dim = recoloured(seen_from(page, AT, (1500, 2000)), lambda values: 0.85 * values)
    return jpeg(noisy(blurred(lit(dim, 0.4), 1.0), 4), 80)


@pytest.fixture(scope="module")
def codes(photo):
    return find_codes(np.asarray(photo)).codes


def test_a_page_is_placed_to_a_tenth_of_a_millimetre(codes):
    (place,), parts = pages_in(codes)
    assert (place.card, place.page, place.paper, place.corners, parts) == ("0c41d8", 0, "letter", 4, ())
    assert off_mm(place, CARD, AT) < 0.1


@pytest.mark.parametrize("gone", range(4))
def test_three_corners_are_enough(codes, gone):
    (place,), _ = pages_in(seen for seen in codes if seen.code.corner != gone)
    assert place.corners == 3
    assert off_mm(place, CARD, AT) < 0.2


def test_two_corners_are_told(codes):
    places, (part,) = pages_in(seen for seen in codes if seen.code.corner in (0, 2))
    assert places == ()
    assert (part.corners, part.crooked) == (2, False)


def test_marks_that_lie_elsewhere_make_no_page(codes):
    moved = [seen._replace(in_photo=seen.in_photo[:, ::-1] * (1 + seen.code.corner)) for seen in codes]
    places, (part,) = pages_in(moved)
    assert places == ()
    assert part.crooked


def test_boxes_show_their_colours_beside_the_paper(photo, codes):
    (place,), _ = pages_in(codes)
    seen = seen_boxes(np.asarray(photo), CARD, place)
    assert {box.box.n: box.flags for box in seen if box.flags} == {13: ("unpainted",)}
    assert not any(box.burnt_paper for box in seen)
    light = np.array([box.light[0] for box in seen])
    apart = delta_e_2000(lab_of_linear(np.clip(light, 0, 1)), lab_of_linear(TRUTH))
    assert np.median(apart) < 1.0
    assert apart.max() < 3.0


def test_boxes_on_burnt_paper_are_read_and_marked_so():
    """As drawn, with paper as white as a photo can tell."""
    photo = np.asarray(seen_from(painted(drawn(CARD), CARD, COLOURS), AT, (1500, 2000)))
    (place,), _ = pages_in(find_codes(photo).codes)
    seen = [box for box in seen_boxes(photo, CARD, place) if box.box.n != 13]
    assert {box.flags for box in seen} == {()}
    assert all(box.burnt_paper for box in seen)
    light = np.array([box.light[0] for box in seen])
    truth = np.array([TRUTH[box.box.n - 1] for box in seen])
    assert np.median(delta_e_2000(lab_of_linear(np.clip(light, 0, 1)), lab_of_linear(truth))) < 1.0
    # By the paper alone, which no colour is known beside, they would be too light.
    alone = read_card(CARD, [seen], Palette(paints=(), mixes=()), corners=4)
    assert {(box.colour, box.flags) for box in alone.boxes} == {(None, ("clipped",))}


def test_coats_are_read_off_the_squares():
    told = {1: 1, 2: 2, 3: 3, 4: 4, 8: 2}
    page = marked(marked(painted(drawn(CARD), CARD, COLOURS), CARD, told), CARD, {8: 3})
    photo = np.asarray(jpeg(noisy(blurred(lit(seen_from(page, AT, (1500, 2000)), 0.5), 1.0), 4), 80))
    (place,), _ = pages_in(find_codes(photo).codes)
    seen = {one.box.n: one.coats for one in seen_boxes(photo, CARD, place)}
    assert {n: coats for n, coats in seen.items() if coats} == {1: 1, 2: 2, 3: 3, 4: 4}


def flags_of(photo, change) -> tuple[str, ...]:
    """What is told of the seventh box once something happened to the picture."""
    picture = np.asarray(photo).copy()
    places, _ = pages_in(find_codes(picture).codes)
    corner = np.array(corner_of_box("letter", CARD.boxes[6]))
    change(picture, lambda x, y: places[0].pixels(np.array([[corner[0] + x, corner[1] + y]]))[0].astype(int))
    return seen_boxes(picture, CARD, places[0])[6].flags


def patch(colour, begin, end):
    def change(picture, at):
        (left, top), (right, bottom) = at(*begin), at(*end)
        picture[top:bottom, left:right] = colour

    return change


@pytest.mark.parametrize(
    ("change", "flag"),
    [
        (patch((255, 255, 255), (12, 4), (17, 9)), "clipped"),
        (patch((240, 240, 238), (12, 4), (17, 9)), "shine"),
        (patch((150, 100, 80), (-4, -4), (24, 24)), "covered"),
        (patch((12, 12, 12), (8, 2), (20, 9)), "uneven"),
    ],
)
def test_what_spoils_a_box_is_told(photo, change, flag):
    assert flag in flags_of(photo, change)


def test_a_box_outside_of_the_picture_is_told(photo, codes):
    (place,), _ = pages_in(codes)
    cut = np.asarray(photo)[:, :1150]
    assert [box.box.n for box in seen_boxes(cut, CARD, place) if box.flags == ("outside",)] == [
        5,
        10,
        15,
        20,
        25,
    ]


def test_a_dim_photo_is_told(photo, codes):
    (place,), _ = pages_in(codes)
    assert "dark" in seen_boxes(np.asarray(photo) // 6, CARD, place)[0].flags
