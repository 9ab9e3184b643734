"""A guide as it is painted: variants, areas, stops, and what each step lays where."""

from __future__ import annotations

import pytest
from support.guides import guide, titled
from support.paints import HERE, blend, house_mix, named, palette_of, parts_of, pot, step

from guidegen.computing.colour.blend import Blend, Ingredient, blend_of, find_pot, ingredients
from guidegen.computing.guide.scheme import WHOLE, scheme_of
from guidegen.model.guide import Step, Stop
from guidegen.model.paint import Paint, Palette

OCHRE, ROPE, PITCH, MATT = (
    pot("Oilskin Ochre", "#b8862f"),
    pot("Ropewalk", "#b09a72"),
    pot("Caulker's Pitch", "#202124"),
    pot("Calm Matt", None, "varnish"),
)
PALETTE = palette_of(
    OCHRE,
    ROPE,
    PITCH,
    MATT,
    house_mix("Old rope", {"Ropewalk": 3, "Caulker's Pitch": 1}),
    house_mix("Older rope", {"Old rope": 1, "Caulker's Pitch": 1}),
)


def stop(name: str) -> Stop:
    return Stop(name=name, span=HERE)


def names(blends: tuple[Blend, ...]) -> list[list[str]]:
    return [[part.pot.name for part in one.parts] for one in blends]


def test_steps_count_from_one_and_stops_stand_between():
    found = scheme_of(
        guide(stop("Nothing"), titled("a"), titled("b"), stop("Fit to field"), titled("c"), stop("All")),
        PALETTE,
    )
    assert [one.n for one in found.steps] == [1, 2, 3]
    assert [(halt.name, halt.after) for halt in found.stops] == [
        ("Nothing", 0),
        ("Fit to field", 2),
        ("All", 3),
    ]
    assert [one.step.title for one in found.until(found.stops[1])] == ["a", "b"]


def test_a_choice_takes_its_first_option_unless_told():
    hood = titled("hood", only={"headgear": named("Hood")})
    hat = titled("hat", only={"headgear": named("straw hat")})
    own = guide(hood, titled("coat"), hat, choose={"headgear": ("hood", "straw hat")})
    assert [one.step.title for one in scheme_of(own, PALETTE).steps] == ["hood", "coat"]
    other = scheme_of(own, PALETTE, {"headgear": "Straw Hat"})
    assert [(one.n, one.step.title) for one in other.steps] == [(1, "coat"), (2, "hat")]
    assert other.choice == {"headgear": "Straw Hat"}


def test_areas_are_spelled_as_first_written():
    found = scheme_of(
        guide(step("layer", ["Coat", "hood"]), step("wash", ["COAT"]), step("wash", ["co at", "coat"])),
        PALETTE,
    )
    assert found.areas == ("Coat", "hood")
    assert [one.areas for one in found.steps] == [("Coat", "hood"), ("Coat",), ("Coat",)]
    assert not any(one.whole for one in found.steps)


def test_all_is_every_area_even_those_named_later_or_left():
    found = scheme_of(guide(step("wash"), step("layer", ["coat"]), leave=(named("boots"),)), PALETTE)
    assert found.areas == ("coat", "boots")
    assert found.steps[0].areas == ("coat", "boots")
    assert found.steps[0].whole


def test_a_guide_without_areas_is_one_whole():
    found = scheme_of(guide(step("wash")), PALETTE)
    assert found.areas == (WHOLE,)
    assert found.steps[0].areas == (WHOLE,)


def test_a_list_is_brushed_by_itself_and_parts_together():
    beside = scheme_of(guide(step("layer", ["coat"], ["Oilskin Ochre", "Ropewalk"])), PALETTE).steps[0]
    assert names(beside.brushed) == [["Oilskin Ochre"], ["Ropewalk"]]
    mixed = scheme_of(guide(step("layer", ["coat"], {"Oilskin Ochre": 2, "Ropewalk": 1})), PALETTE).steps[0]
    assert names(mixed.brushed) == [["Oilskin Ochre", "Ropewalk"]]
    assert mixed.laid["coat"] == mixed.brushed[0]
    assert mixed.brushed[0].pot is None
    assert beside.brushed[0].pot is OCHRE


def test_as_before_is_what_covers_those_areas():
    found = scheme_of(
        guide(
            step("base coat", ["coat"], "Oilskin Ochre"),
            step("base coat", ["boots"], "Caulker's Pitch"),
            step("wash", (), "Ropewalk"),
            step("tidy up", ["coat", "boots", "hood"], "as before"),
        ),
        PALETTE,
    )
    tidy = found.steps[3]
    assert names(tidy.brushed) == [["Oilskin Ochre"], ["Caulker's Pitch"]]
    assert {area: laid.parts[0].pot.name for area, laid in tidy.laid.items()} == {
        "coat": "Oilskin Ochre",
        "boots": "Caulker's Pitch",
    }


def test_nothing_to_lay():
    for one in (
        step("layer"),
        step("layer", (), "as before"),
        step("layer", (), "Nowhere Grey"),
        Step(title="a", span=HERE),
    ):
        found = scheme_of(guide(one), PALETTE).steps[0]
        assert found.brushed == ()
        assert not found.laid


def test_an_unknown_paint_leaves_the_others():
    found = scheme_of(guide(step("layer", (), ["Nowhere Grey", "Ropewalk"])), PALETTE).steps[0]
    assert names(found.brushed) == [["Ropewalk"]]
    assert blend_of(parts_of({"Nowhere Grey": 1}), PALETTE) is None


def test_spray_with_a_varnish_is_varnish():
    found = scheme_of(
        guide(step("spray", (), "Calm Matt"), step("spray", (), "Oilskin Ochre"), step("spray")), PALETTE
    )
    assert [one.technique.name for one in found.steps] == [
        "spray varnish",
        "spray undercoat",
        "spray undercoat",
    ]


def test_an_ambiguous_name_finds_no_pot():
    twins = Palette(
        paints=(
            Paint(name="Fog", range="Reedbank Acrylics", span=HERE),
            Paint(name="Fog", range="Ninelock", span=HERE),
        )
    )
    assert find_pot(twins, named("Fog")) is None
    assert find_pot(twins, named("Ninelock / Fog")) is twins.paints[1]


def shares(found: tuple[Ingredient, ...]) -> dict[str, float]:
    return {one.paint.name: one.share for one in found}


def test_ingredients_break_mixes_down_to_one():
    assert shares(ingredients(blend(PALETTE, {"Old rope": 5}), PALETTE)) == {
        "Ropewalk": 0.75,
        "Caulker's Pitch": 0.25,
    }
    # A mix inside a mix weighs its parts, however many parts its own recipe has.
    older = shares(ingredients(blend(PALETTE, {"Older rope": 1, "Oilskin Ochre": 1}), PALETTE))
    assert older == pytest.approx({"Ropewalk": 3 / 16, "Caulker's Pitch": 5 / 16, "Oilskin Ochre": 1 / 2})
    assert sum(older.values()) == pytest.approx(1)


def test_a_touch_counts_as_told():
    touched = blend(PALETTE, {"Ropewalk": 1, "Caulker's Pitch": "a touch"})
    assert shares(ingredients(touched, PALETTE)) == pytest.approx(
        {"Ropewalk": 1 / 1.1, "Caulker's Pitch": 0.1 / 1.1}
    )
    assert shares(ingredients(touched, PALETTE, touch=0.25))["Caulker's Pitch"] == pytest.approx(0.2)


def test_a_circle_of_mixes_ends():
    circle = palette_of(OCHRE, house_mix("A", {"B": 1, "Oilskin Ochre": 1}), house_mix("B", {"A": 1}))
    assert shares(ingredients(blend(circle, {"A": 1}), circle)) == pytest.approx({"Oilskin Ochre": 1.0})
    alone = palette_of(OCHRE, house_mix("A", {"B": 1}), house_mix("B", {"A": 1}))
    assert ingredients(blend(alone, {"A": 1}), alone) == ()


def test_mixes_of_mixes_that_fan_out_are_worked_out_once_each():
    """Every mix uses both of the row below, twenty rows deep: a million ways down, and forty mixes."""
    rows = [
        house_mix(f"{side}{row}", {f"L{row - 1}": 1, f"R{row - 1}": 3} if row else {"Ropewalk": 1})
        for row in range(20)
        for side in "LR"
    ]
    deep = palette_of(OCHRE, ROPE, *rows)
    assert shares(ingredients(blend(deep, {"L19": 1, "Oilskin Ochre": 1}), deep)) == pytest.approx(
        {"Ropewalk": 0.5, "Oilskin Ochre": 0.5}
    )


def test_a_knot_of_circles_ends():
    knot = palette_of(
        OCHRE,
        *(house_mix(f"K{n}", {f"K{m}": 1 for m in range(25)} | {"Oilskin Ochre": 1}) for n in range(25)),
    )
    assert shares(ingredients(blend(knot, {"K0": 1}), knot)) == pytest.approx({"Oilskin Ochre": 1.0})
