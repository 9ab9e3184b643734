"""The figure chart's pictures have the colour model's colours."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest

from guidegen.base.source import Source
from guidegen.computing.colour.layers import ReliefColours as Colours
from guidegen.computing.guide.area_states import AreaState
from guidegen.model.technique import TECHNIQUES
from guidegen.reading.content.chart import read_chart
from guidegen.rendering.guide.chart_pictures import (
    body_of,
    drawing_of,
    picture,
    shapes,
    standalone,
    states_after,
)

DRAWN = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 200">'
    '<path fill="#111111" d="M0 0h100z"/>'
    '<path data-area="Coat" d="M0 0h10v10z"/><path data-area="Coat" data-part="recess" d="M0 9h1z"/>'
    '<path data-area="Coat" data-part="edge" d="M0 1h1z"/>'
    '<path data-area="scarf" d="M5 5h3v3z"/>'
    '<g data-only="headgear: straw hat"><path data-area="hat" d="M7 7h1z"/></g>'
    "</svg>"
)


@pytest.fixture
def drawing():
    chart, told = read_chart(Source(file="figure.svg", text=DRAWN))
    assert told == ()
    return drawing_of(chart, {"headgear": "hood"})


def state(edges, flats, recesses, **more):
    relief = Colours(edges=edges, flats=flats, recesses=recesses)
    return AreaState(n=1, relief=relief, laid=None, technique=TECHNIQUES["base coat"], **more)


def fills(svg: str) -> list[tuple[str, str]]:
    root = ET.fromstring(svg)
    return [
        (use.get("href"), use.get("fill"))
        for use in root.iter()
        if use.tag.rpartition("}")[2] == "use" and use.get("fill")
    ]


def shown(drawing, states):
    return str(picture(drawing, body_of(drawing, states), key="k", title="After step 1", description="Coat"))


def test_each_part_has_its_own_colour_whatever_the_case_of_the_area(drawing):
    found = fills(shown(drawing, {"coat": state("#aaaaaa", "#777777", "#333333")}))
    assert [fill for _, fill in found[:3]] == ["#777777", "#333333", "#aaaaaa"]


def test_an_area_without_parts_has_all_three_colours_as_bands(drawing):
    found = fills(shown(drawing, {"scarf": state("#aa0000", "#770000", "#330000")}))
    assert {"#aa0000", "#770000", "#330000"} <= {fill for _, fill in found}


def test_a_plain_coat_is_one_fill(drawing):
    found = fills(shown(drawing, {"scarf": state("#770000", "#770000", "#770000")}))
    assert [fill for _, fill in found if fill.startswith("#77")] == ["#770000"]


def test_metal_sheens_and_gloss_shines(drawing):
    metal = {
        fill
        for _, fill in fills(shown(drawing, {"scarf": state("#888888", "#888888", "#888888", metal=True)}))
    }
    assert "url(#fig-sheen)" in metal
    gloss = {
        fill
        for _, fill in fills(
            shown(drawing, {"scarf": state("#888888", "#888888", "#888888", finish="gloss")})
        )
    }
    assert "url(#fig-shine)" in gloss


def test_other_variants_are_not_drawn(drawing):
    assert "hat" not in [piece.area for piece in drawing.pieces]


def test_every_use_leads_to_a_shape_and_ids_are_single(drawing):
    made = str(shapes(drawing))
    ids = [element.get("id") for element in ET.fromstring(made).iter() if element.get("id")]
    assert len(ids) == len(set(ids))
    for link, _ in fills(shown(drawing, {"scarf": state("#aa0000", "#770000", "#330000")})):
        assert link.removeprefix("#") in ids


def test_the_picture_says_what_it_shows(drawing):
    root = ET.fromstring(shown(drawing, {}))
    words = {child.get("id"): child.text for child in root}
    assert [words[key] for key in root.get("aria-labelledby").split()] == ["After step 1", "Coat"]


def test_titles_cannot_break_out(drawing):
    made = str(picture(drawing, body_of(drawing, {}), key="k", title="</title><script>", description="&"))
    assert "<script>" not in made


def test_the_file_of_its_own_is_whole(drawing):
    root = ET.fromstring(standalone(drawing, {"coat": state("#aaaaaa", "#777777", "#333333")}, "A & B"))
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    assert root.get("viewBox") == "0 0 100 200"


def test_states_after_a_step_are_the_last_ones_by_then():
    early, late = state("#111111", "#111111", "#111111"), replace(state("#222222", "#222222", "#222222"), n=3)
    assert states_after({"coat": (early, late), "hat": (late,)}, 2) == {"coat": early}
    assert states_after({"coat": (early, late)}, 3) == {"coat": late}


def test_only_a_picture_to_point_at_says_the_areas_of_its_shapes(drawing):
    plain = shown(drawing, {})
    pointed_at = str(picture(drawing, body_of(drawing, {}, marked=True), key="k", title="", description=""))
    assert "data-area" not in plain
    assert [
        group.get("data-area") for group in ET.fromstring(pointed_at).iter("g") if not group.get("id")
    ] == [
        "coat",
        "scarf",
    ]
    assert fills(plain) == fills(pointed_at)
