"""How a name finds a pot: level by level, and two on one level are one too many."""

from __future__ import annotations

import pytest
from support.paints import HERE, house_mix, pot

from guidegen.model.paint import Ambiguous, Kind, Paint, Palette

FOG = pot("Fog", "#aab4b8", range="Reedbank Acrylics", code="RB-07", aliases=("Mist",))
OTHER_FOG = pot("Fog", "#9fa8ac", range="Ninelock", code="7", aliases=("Haze",))
OLD = pot("Ropewalk", "#b09a72", range="Reedbank Acrylics", edition="first")
NEW = pot("Ropewalk", "#b29c74", range="Reedbank Acrylics", edition="2nd")
TEAL = pot("Sluice Teal", "#2f6c70", code="Haze 2")
MIX = house_mix("Dawn", {"Sluice Teal": 1}, aliases=("Daybreak",))
SHADOW = pot("Mist", "#777777", range="Sternpost")
PALETTE = Palette(paints=(FOG, OTHER_FOG, OLD, NEW, TEAL, SHADOW), mixes=(MIX,))


@pytest.mark.parametrize(
    ("name", "found"),
    [
        ("Reedbank Acrylics / Fog", FOG),
        ("reedbank acrylics/FOG", FOG),
        ("Reedbank Acrylics / Mist", FOG),  # an alias after its range
        ("Reedbank Acrylics / RB-07", FOG),  # a code after its range
        ("Ninelock / 7", OTHER_FOG),
        ("Mist", SHADOW),  # a name beats an alias
        ("Haze", OTHER_FOG),
        ("RB-07", FOG),
        ("rb-07", FOG),
        ("7", OTHER_FOG),
        ("Haze 2", TEAL),
        ("Ropewalk (2nd)", NEW),
        ("Reedbank Acrylics / Ropewalk (first)", OLD),
        ("Dawn", MIX),
        ("daybreak", MIX),
        ("Sluice  Teal", TEAL),
    ],
)
def test_names_that_find_one(name: str, found: object):
    assert PALETTE.find(name) is found


@pytest.mark.parametrize(
    ("name", "found"),
    [("Fog", (FOG, OTHER_FOG)), ("Ropewalk", (OLD, NEW)), ("Reedbank Acrylics / Ropewalk", (OLD, NEW))],
)
def test_names_that_find_two(name: str, found: tuple[Paint, ...]):
    assert PALETTE.find(name) == Ambiguous(found=found)


def test_an_old_name_leads_to_the_paint_unless_another_has_it():
    paint = pot("Ropewalk", "#b09a72", range="Reedbank Acrylics", was=("Hemp",))
    alone = Palette(paints=(paint,))
    assert alone.find("Hemp") is alone.find("Reedbank Acrylics / Hemp") is paint
    other = pot("Rope", "#b09a72", aliases=("Hemp",))
    assert Palette(paints=(paint, other)).find("Hemp") is other


def test_a_bare_name_stays_with_the_pot_without_an_edition_else_with_the_usual_one():
    first = pot("Ropewalk", "#b09a72", range="Reedbank Acrylics")
    usual = pot("Ropewalk", "#b29c74", range="Reedbank Acrylics", edition="2nd", usual=True)
    assert Palette(paints=(usual, first)).find("Ropewalk") is first
    assert Palette(paints=(OLD, usual)).find("Reedbank Acrylics / Ropewalk") is usual
    assert Palette(paints=(first, usual)).find("Ropewalk (2nd)") is usual
    both = Palette(paints=(usual, pot("Ropewalk", "#b09a72", edition="third", usual=True)))
    assert isinstance(both.find("Ropewalk"), Ambiguous)


@pytest.mark.parametrize(
    "name", ["", " ", "Frog", "Sternpost / Fog", "Dawn / Fog", "Range / Sluice Teal", "/ Fog"]
)
def test_names_that_find_none(name: str):
    assert PALETTE.find(name) is None


def test_a_mix_shares_the_level_of_names():
    twins = Palette(paints=(TEAL,), mixes=(house_mix("sluice teal", {"Sluice Teal": 1}),))
    assert isinstance(twins.find("Sluice Teal"), Ambiguous)


def test_one_pot_with_a_word_twice_is_one():
    same = pot("Pitch", "#202124", aliases=("pitch", "Tar", "TAR"), code="tar")
    palette = Palette(paints=(same,))
    assert palette.find("Pitch") is same
    assert palette.find("tar") is same


def test_a_code_of_nothing_is_no_code():
    assert Palette(paints=(pot("A", "#111111"), pot("B", "#222222"))).find("") is None


@pytest.mark.parametrize(
    ("name", "near"),
    [
        ("Sluce Teal", TEAL),
        ("Daybrake", MIX),
        ("Reedbank Acrylics / Fgo", FOG),
        ("Misst", SHADOW),
        ("Night Crossing", None),
    ],
)
def test_the_nearest_pot(name: str, near: object):
    assert PALETTE.nearest(name) is near


def test_full_names_tell_every_pot_from_the_others():
    assert FOG.full_name == "Reedbank Acrylics / Fog"
    assert NEW.full_name == "Reedbank Acrylics / Ropewalk (2nd)"
    assert TEAL.full_name == "Sluice Teal"
    assert MIX.full_name == "Dawn"
    names = [paint.full_name for paint in PALETTE.paints]
    assert len(set(names)) == len(names)
    for paint in PALETTE.paints:
        assert PALETTE.find(paint.full_name) is paint


def test_what_a_paint_is_unless_said():
    plain = Paint(name="Plain", span=HERE)
    assert (plain.kind, plain.owned, plain.strength, plain.drop) == (Kind.PAINT, 0, 1.0, 0.05)
