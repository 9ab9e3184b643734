"""Families of colour: as CSS names colours, and by what covers most of a figure."""

from __future__ import annotations

from dataclasses import replace

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st
from support import town
from support.town import step, uses

from guidegen.computing.colour.spaces import lab_of
from guidegen.computing.guide.colour_families import (
    MAIN,
    WHOLE_FIGURE,
    Cover,
    Family,
    covers,
    families_of,
    family_of,
)
from guidegen.computing.guide.computed_guide import PaletteTools, compute_guide

# Colours that the CSS Color Module Level 4 (W3C), section 6.1, gives the name of a family to; their values come from
# coloraide's table of it. Left out are names that say something else (`lightgoldenrodyellow` is nearly white, `darkred`
# is as brown as red to nobody).
NAMED = {
    Family.REDS: ("red", "darkred", "crimson", "firebrick", "indianred"),
    Family.PINKS: ("pink", "lightpink", "hotpink", "deeppink"),
    Family.ORANGES: ("orange", "darkorange", "coral", "sandybrown"),
    Family.BROWNS: ("saddlebrown", "rosybrown", "sienna"),
    Family.OCHRES: ("tan", "wheat", "burlywood"),
    Family.YELLOWS: ("yellow", "gold", "khaki", "goldenrod"),
    Family.GREENS: ("green", "darkgreen", "lime", "lightgreen", "forestgreen", "darkolivegreen", "olive", "yellowgreen"),
    Family.BLUE_GREENS: ("teal", "turquoise", "aqua", "darkcyan", "paleturquoise"),
    Family.BLUES: ("blue", "navy", "darkblue", "lightskyblue", "steelblue", "royalblue", "cornflowerblue", "slateblue"),
    Family.PURPLES: ("purple", "rebeccapurple", "violet", "darkviolet", "indigo", "orchid"),
    Family.BLACKS: ("black",),
    Family.GREYS: ("gray", "dimgray", "darkgray", "lightgray", "silver"),
    Family.WHITES: ("white", "whitesmoke", "ivory", "floralwhite", "antiquewhite"),
}  # fmt: skip


@pytest.mark.parametrize(
    ("family", "name"), [(family, name) for family, names in NAMED.items() for name in names]
)
def test_colours_are_in_the_family_that_css_names_them_after(family: Family, name: str):
    assert family_of(*lab_of([Color(name).to_string(hex=True)])[0]) is family


@given(st.integers(0, 255))
def test_a_grey_has_no_hue_and_gets_no_darker_family_when_it_gets_lighter(level: int):
    order = [Family.BLACKS, Family.GREYS, Family.WHITES]
    here, lighter = (family_of(*lab_of([f"#{n:02x}{n:02x}{n:02x}"])[0]) for n in (level, min(255, level + 1)))
    assert order.index(here) <= order.index(lighter)


def test_a_red_a_hair_towards_purple_is_a_red():
    """Its hue angle, just under 0, comes to 360 degrees whole once it is rounded."""
    assert family_of(40.0, 50.0, -1e-16) is Family.REDS


def test_a_family_counts_from_a_quarter_on_and_the_largest_always():
    red, blue, green = "#ff0000", "#0000ff", "#008000"
    quarter = [Cover(colour=red, metal=False, part=750), Cover(colour=blue, metal=False, part=MAIN)]
    assert [(one.family, one.part) for one in families_of(quarter)] == [
        (Family.REDS, 750),
        (Family.BLUES, 250),
    ]
    many = [
        Cover(colour=colour, metal=False, part=part)
        for colour, part in ((red, 240), (blue, 230), (green, 220))
    ]
    assert [one.family for one in families_of(many)] == [Family.REDS]
    # Two reds together are more than one blue.
    two = [
        Cover(colour=blue, metal=False, part=300),
        *(Cover(colour=shade, metal=False, part=200) for shade in (red, "#8b0000")),
    ]
    assert [(one.family, one.colour, one.part) for one in families_of(two)] == [
        (Family.REDS, red, 400),
        (Family.BLUES, blue, 300),
    ]
    assert families_of([]) == ()


def test_what_glints_is_metal_whatever_its_hue():
    (found,) = families_of([Cover(colour="#c99b45", metal=True, part=1000)])
    assert found.family is Family.METALS


def covered(*steps):
    guide = replace(town.ferry_watch(), entries=steps, choose={}, leave=())
    computed = compute_guide(guide, PaletteTools.over(town.PALETTE))
    return {cover.colour: cover.part for cover in covers(computed.scheme, computed.states)}


def colour(name: str) -> str:
    return town.PALETTE.find(name).colour


def test_areas_count_alike_where_nobody_says_how_large_they_are():
    found = covered(*(step(area, uses(name), (area,)) for area, name in (
        ("coat", "Oilskin Ochre"), ("hood", "Oilskin Ochre"), ("boots", "Ropewalk"), ("hat", "Deckhand")
    )))  # fmt: skip
    assert found == {colour("Oilskin Ochre"): 500, colour("Ropewalk"): 250, colour("Deckhand"): 250}
    assert next(iter(found)) == colour("Oilskin Ochre")


def test_a_share_counts_and_the_others_divide_the_rest():
    found = covered(
        step("Coat", uses("Oilskin Ochre"), ("coat",), share=0.6),
        step("Boots", uses("Ropewalk"), ("boots",)),
        step("Hat", uses("Deckhand"), ("hat",)),
    )
    assert found == {colour("Oilskin Ochre"): 600, colour("Ropewalk"): 200, colour("Deckhand"): 200}


def test_shares_that_overlap_still_make_one_figure():
    found = covered(
        step("Coat", uses("Oilskin Ochre"), ("coat",), share=0.9),
        step("Boots", uses("Ropewalk"), ("boots",), share=0.9),
        step("Hat", uses("Deckhand"), ("hat",)),
    )
    assert abs(sum(found.values()) - WHOLE_FIGURE) <= 1
    assert found[colour("Oilskin Ochre")] == found[colour("Ropewalk")] > found[colour("Deckhand")] > 0


def test_only_the_last_coat_counts_and_what_has_no_colour_does_not():
    found = covered(
        step("Undercoat", uses("Ropewalk"), ()),
        step("Coat", uses("Oilskin Ochre"), ("coat",)),
        step("Sand", areas=("base",)),
    )
    assert found == {colour("Oilskin Ochre"): 500, colour("Ropewalk"): 500}
    assert covered(step("Sand", areas=("base",))) == {}
