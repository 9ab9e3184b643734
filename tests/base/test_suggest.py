"""Names as they are compared, and the nearest to one that was not found."""

from __future__ import annotations

import pytest

from guidegen.base.suggest import distance, folded, nearest


@pytest.mark.parametrize(
    ("left", "right"),
    [
        ("Oilskin Ochre", "oilskin  ochre"),
        ("Oilskin Ochre", "OilskinOchre"),
        ("Straße", "STRASSE"),
        ("Café", "Cafe\u0301"),
        ("Café", "CAFE"),
        ("ﬁn", "fin"),
        ("No\u00a05", "no 5"),
        ("Range / Name", "range/name"),
    ],
)
def test_names_that_are_the_same(left: str, right: str):
    assert folded(left) == folded(right)


@pytest.mark.parametrize(
    ("left", "right"), [("Fog", "Frog"), ("Sluice-Teal", "Sluice Teal"), ("Grey 2", "Grey 3")]
)
def test_names_that_are_not(left: str, right: str):
    assert folded(left) != folded(right)


@pytest.mark.parametrize(
    ("left", "right", "edits"),
    [
        ("", "", 0),
        ("ochre", "ochre", 0),
        ("ochre", "ocre", 1),
        ("ochre", "ochree", 1),
        ("ochre", "ochra", 1),
        ("ochre", "ohcre", 1),  # a swap of neighbours is one slip
        ("kitten", "sitting", 3),  # the textbook example of Wagner and Fischer's distance
        ("ca", "abc", 3),  # optimal string alignment: no letter is edited twice
        ("abc", "", 3),
    ],
)
def test_edits(left: str, right: str, edits: int):
    assert distance(left, right, 5) == edits
    assert distance(right, left, 5) == edits


def test_past_the_limit_it_only_says_so():
    assert distance("kitten", "sitting", 2) == 3
    assert distance("a", "abcdefgh", 2) == 3
    assert distance("kitten", "sitting", 3) == 3


KNOWN = ("Oilskin Ochre", "Ropewalk", "Sluice Teal", "Fog", "Bog")


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("Oilskin Ocre", "Oilskin Ochre"),
        ("oilskinochre", "Oilskin Ochre"),
        ("Rope walk", "Ropewalk"),
        ("Ropwlak", "Ropewalk"),
        ("Slooce Teel", "Sluice Teal"),
        ("Log", "Bog"),  # as near as Fog: the first by the alphabet
        ("Fgo", "Fog"),
        ("Night Crossing", None),
        ("X", None),
        ("", None),
    ],
)
def test_the_nearest_name(name: str, expected: str | None):
    assert nearest(name, KNOWN) == expected
    assert nearest(name, reversed(KNOWN)) == expected


def test_nothing_to_choose_from():
    assert nearest("Fog", ()) is None
