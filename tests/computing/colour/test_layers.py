"""Films over a base: the stated size of a wash, factors by technique, what is unknown."""

from __future__ import annotations

import pytest

from guidegen.computing.colour.layers import FACTORS, ReliefColours, film_over
from guidegen.computing.colour.spaces import lab_of, lightness
from guidegen.model.technique import TECHNIQUES, Role

MID_TONE, DARK_WASH = "#8c8f86", "#3a2f24"


def lightnesses(relief: ReliefColours) -> list[float]:
    return [lightness(colour or "") for colour in (relief.edges, relief.flats, relief.recesses)]


def test_a_dark_wash_over_a_mid_tone() -> None:
    """What the assumed thickness is assumed from: L* 59 to about 55, 46 and 32."""
    base = "#8e8e8e"
    assert lightness(base) == pytest.approx(59, abs=0.5)
    washed = film_over(ReliefColours.of_one(base), "#2a2d36", strength=1, technique="wash")
    edges, flats, recesses = lightnesses(washed)
    assert edges == pytest.approx(55, abs=2)
    assert flats == pytest.approx(46, abs=3)
    assert recesses == pytest.approx(32, abs=4)


def test_strength_fifty_hides() -> None:
    hidden = film_over(ReliefColours.of_one(MID_TONE), DARK_WASH, strength=50, technique="glaze")
    for colour in (hidden.edges, hidden.flats, hidden.recesses):
        assert lab_of([colour or ""])[0] == pytest.approx(lab_of([DARK_WASH])[0], abs=1.5)


def test_every_film_technique_has_its_own_factors() -> None:
    assert set(FACTORS) == {name for name, row in TECHNIQUES.items() if row.role is Role.FILM}


def test_a_wash_gathers_in_recesses_and_more_so_over_gloss() -> None:
    under = ReliefColours.of_one(MID_TONE)
    matt = lightnesses(film_over(under, DARK_WASH, strength=1, technique="wash"))
    gloss = lightnesses(film_over(under, DARK_WASH, strength=1, technique="wash", over_gloss=True))
    assert matt[0] > matt[1] > matt[2]
    assert gloss[0] > matt[0]
    assert gloss[1] > matt[1]
    assert gloss[2] < matt[2]


def test_gloss_changes_washes_only() -> None:
    under = ReliefColours.of_one(MID_TONE)
    for technique in ("pin wash", "glaze", "stain"):
        matt = film_over(under, DARK_WASH, strength=1, technique=technique)
        assert matt == film_over(under, DARK_WASH, strength=1, technique=technique, over_gloss=True)


def test_a_pin_wash_leaves_edges_alone() -> None:
    washed = film_over(ReliefColours.of_one(MID_TONE), DARK_WASH, strength=1, technique="pin wash")
    assert washed.edges == MID_TONE
    assert washed.recesses != MID_TONE


def test_two_coats_are_one_twice_as_strong() -> None:
    under = ReliefColours.of_one(MID_TONE)
    twice = film_over(under, DARK_WASH, strength=1, technique="wash", coats=2)
    assert twice == film_over(under, DARK_WASH, strength=2, technique="wash")
    assert twice == film_over(under, DARK_WASH, strength=4, technique="wash", paint_share=0.5)
    one = film_over(under, DARK_WASH, strength=1, technique="wash")
    one_by_one = film_over(one, DARK_WASH, strength=1, technique="wash")
    # The colour between the coats has been through a chip, so a level or two may be lost.
    assert lightnesses(one_by_one) == pytest.approx(lightnesses(twice), abs=0.6)


def test_what_is_unknown_stays_unknown() -> None:
    half = ReliefColours(edges=None, flats=MID_TONE, recesses=MID_TONE)
    washed = film_over(half, DARK_WASH, strength=1, technique="wash")
    assert washed.edges is None
    assert washed.flats is not None
    assert film_over(half, None, strength=1, technique="wash") == ReliefColours.of_one(None)


def test_a_film_without_paint_changes_nothing() -> None:
    under = ReliefColours.of_one(MID_TONE)
    assert film_over(under, DARK_WASH, strength=0, technique="wash") == under


def test_an_unlisted_technique_counts_as_a_wash() -> None:
    under = ReliefColours.of_one(MID_TONE)
    assert film_over(under, DARK_WASH, strength=1, technique="filter") == film_over(
        under, DARK_WASH, strength=1, technique="wash"
    )
