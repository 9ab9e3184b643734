"""Films solved from one coat and three: what was laid comes back, and where two thicknesses say nothing, nothing does."""

from __future__ import annotations

import numpy as np
import pytest

from guidegen.computing.card.film import Film, solve_film
from guidegen.computing.colour.layers import ReliefColours, film_over
from guidegen.computing.colour.spaces import delta_e_2000, lab_of, linear_of

PAPER = "#f0f0ee"


def coats(colour: str, strength: float) -> list[str]:
    laid = [
        film_over(ReliefColours.of_one(PAPER), colour, strength=strength, technique="wash", coats=count).flats
        for count in (1, 3)
    ]
    return [PAPER, *(one or "" for one in laid)]


@pytest.mark.parametrize(
    ("colour", "strength"),
    [("#3a2a1c", 2.0), ("#1d4a30", 6.0), ("#7a1f1f", 0.8), ("#c09a40", 6.0), ("#202020", 2.0)],
)
def test_colour_and_strength_come_back(colour, strength):
    found = solve_film(*linear_of(coats(colour, strength)))
    assert isinstance(found, Film)
    assert found.strength == pytest.approx(strength, rel=0.25)
    assert float(delta_e_2000(lab_of([found.colour])[0], lab_of([colour])[0])) < 4
    assert found.off < 1.5


def test_what_is_solved_lays_the_same_coats_again():
    for colour, strength in (("#4c5b2f", 1.2), ("#22303c", 3.0)):
        found = solve_film(*linear_of(coats(colour, strength)))
        assert isinstance(found, Film)
        again = lab_of(coats(found.colour, found.strength)[1:])
        assert delta_e_2000(again, lab_of(coats(colour, strength)[1:])).max() < 2


@pytest.mark.parametrize(
    ("one", "three", "reason"),
    [
        ("#f0f0ee", "#c0b0a0", "cannot be told from the paper"),
        ("#403020", "#403020", "three coats look like one"),
        ("#808080", "#d0d0d0", "no one film"),
        ("#c04040", "#4040c0", "no one film"),
    ],
)
def test_where_there_is_no_answer_it_says_why(one, three, reason):
    found = solve_film(*linear_of([PAPER, one, three]))
    assert isinstance(found, str)
    assert reason in found


def test_no_number_comes_out_of_nowhere():
    random = np.random.default_rng(6)
    for _ in range(4):
        found = solve_film(*random.uniform(0, 1, (3, 3)))
        assert isinstance(found, str) or 0.05 < found.strength < 100
