"""The ladder of lightness."""

from __future__ import annotations

import re

from guidegen.computing.guide.contrast import Rung
from guidegen.rendering.guide.scheme_views import DOT, LADDER_WIDTH, in_words, ladder


def rung(lightness, colour="#777777"):
    return Rung(n=1, colour=colour, lightness=lightness)


def places(svg):
    return [float(x) for x in re.findall(r'cx="([\d.]+)"', svg)]


def test_dark_lies_left_and_light_right_and_both_inside():
    found = places(ladder((rung(0.0), rung(50.0), rung(100.0)), "L"))
    assert found == sorted(found)
    assert found[0] - DOT >= 0
    assert found[-1] + DOT <= LADDER_WIDTH
    assert found[1] == LADDER_WIDTH / 2


def test_dots_have_the_paints_colours_in_order():
    svg = ladder((rung(20, "#112233"), rung(60, "#aabbcc")), "L")
    assert re.findall(r'fill="(#\w+)"', svg) == ["#112233", "#aabbcc"]


def test_one_colour_is_no_ladder():
    assert ladder((rung(20),), "L") == ""


def test_it_can_be_heard():
    assert 'aria-label="&lt;L&gt; 20"' in ladder((rung(20), rung(60)), "<L> 20")
    assert in_words((rung(20.4), rung(59.6))) == "20, 60"
