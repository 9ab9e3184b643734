"""Laws of colour: differences, mixing, films, closest paints."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from support import strategies
from support.paints import blend, house_mix, palette_of, pot

from guidegen.computing.colour.closest import Matcher
from guidegen.computing.colour.drops import TOLERANCE, drops_for
from guidegen.computing.colour.kubelka_munk import layer_reflectance, thick_reflectance
from guidegen.computing.colour.layers import FACTORS, ReliefColours, film_over
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.colour.reflectance import curves_of, linear_of_curves
from guidegen.computing.colour.spaces import delta_e_2000, hex_of_linear, lightness, linear_of
from guidegen.model.paint import Paint

ratios = st.floats(0.0, 500.0)
reflectances = st.floats(0.0, 1.0)
thicknesses = st.floats(0.0, 20.0)


def mixed(pots: tuple[Paint, ...], amounts: list[float]) -> str:
    palette = palette_of(*pots)
    parts = {each.name: amount for each, amount in zip(pots, amounts, strict=True)}
    colour = Mixer(palette).predict(blend(palette, parts)).colour
    assert colour is not None
    return colour


def levels(colour: str) -> np.ndarray:
    return np.array(list(bytes.fromhex(colour[1:])), dtype=int)


def alike(one: str, two: str) -> bool:
    """The same but for rounding to a level."""
    return bool(np.abs(levels(one) - levels(two)).max() <= 1)


@st.composite
def pots_and_amounts(draw: st.DrawFn) -> tuple[tuple[Paint, ...], list[float]]:
    pots = draw(strategies.coloured_pots(least=2))
    return pots, [draw(strategies.parts) for _ in pots]


# Differences


@given(strategies.labs, strategies.labs)
def test_a_difference_is_the_same_both_ways(one: tuple[float, ...], two: tuple[float, ...]) -> None:
    forth, back = float(delta_e_2000(one, two)), float(delta_e_2000(two, one))
    assert forth == pytest.approx(back, abs=1e-9)
    assert forth >= 0


@given(strategies.labs)
def test_a_colour_does_not_differ_from_itself(lab: tuple[float, ...]) -> None:
    assert float(delta_e_2000(lab, lab)) == 0.0


@given(st.floats(0, 100), st.floats(0, 100))
def test_greys_differ_by_lightness_alone(one: float, two: float) -> None:
    """With no chroma only ΔL/S_L is left (Sharma, Wu, Dalal 2005, equation 22)."""
    off = ((one + two) / 2 - 50) ** 2
    expected = abs(one - two) / (1 + 0.015 * off / (20 + off) ** 0.5)
    assert float(delta_e_2000((one, 0, 0), (two, 0, 0))) == pytest.approx(expected, abs=1e-9)


@given(strategies.hexes)
def test_a_chip_comes_back_from_linear_light(colour: str) -> None:
    assert hex_of_linear(linear_of([colour])[0]) == (colour, False)


@given(strategies.hexes)
def test_a_chip_comes_back_from_its_curve(colour: str) -> None:
    curve = curves_of([colour])[0]
    assert ((curve > 0) & (curve < 1)).all()
    assert hex_of_linear(linear_of_curves(curve)) == (colour, False)


# Mixing


@given(strategies.hexes, st.lists(strategies.parts, min_size=2, max_size=4))
def test_mixing_a_colour_with_itself_changes_nothing(colour: str, amounts: list[float]) -> None:
    pots = tuple(pot(f"Jar {number}", colour) for number in range(len(amounts)))
    assert mixed(pots, amounts) == colour


@given(pots_and_amounts(), st.randoms())
def test_the_order_of_parts_does_not_matter(
    drawn: tuple[tuple[Paint, ...], list[float]], random: object
) -> None:
    pots, amounts = drawn
    order = list(range(len(pots)))
    random.shuffle(order)  # type: ignore[attr-defined]
    assert alike(mixed(pots, amounts), mixed(tuple(pots[i] for i in order), [amounts[i] for i in order]))


@given(pots_and_amounts(), st.floats(0.01, 100))
def test_twice_the_parts_is_the_same_colour(
    drawn: tuple[tuple[Paint, ...], list[float]], scale: float
) -> None:
    pots, amounts = drawn
    assert alike(mixed(pots, amounts), mixed(pots, [amount * scale for amount in amounts]))


@given(st.lists(st.tuples(strategies.greys, strategies.parts), min_size=2, max_size=5))
def test_neutrals_stay_neutral(drawn: list[tuple[str, float]]) -> None:
    pots = tuple(pot(f"Jar {n}", grey) for n, (grey, _) in enumerate(drawn))
    red, green, blue = levels(mixed(pots, [amount for _, amount in drawn]))
    assert red == green == blue


@given(strategies.hexes, strategies.parts, strategies.parts)
def test_white_lightens_and_more_white_lightens_more(colour: str, paint: float, white: float) -> None:
    pots = (pot("Paint", colour), pot("White", "#ffffff"))
    some, more = (lightness(mixed(pots, [paint, amount])) for amount in (white, 2 * white))
    # A level of rounding is at most 0.7 L* at the dark end.
    assert some >= lightness(colour) - 0.7
    assert more >= some - 0.7


@given(strategies.coloured_pots(least=2, most=2), strategies.parts, strategies.parts)
def test_a_mixture_lies_between_its_parts_in_lightness(
    pots: tuple[Paint, ...], one: float, two: float
) -> None:
    plain = tuple(pot(each.name, each.colour) for each in pots)
    curve = [curves_of([each.colour or ""])[0] for each in plain]
    low, high = np.minimum(*curve), np.maximum(*curve)
    light = lightness(mixed(plain, [one, two]))
    assert lightness(hex_of_linear(linear_of_curves(low))[0]) - 0.7 <= light
    assert light <= lightness(hex_of_linear(linear_of_curves(high))[0]) + 0.7


@given(pots_and_amounts(), st.data())
def test_nested_mixes_are_flat_ones(
    drawn: tuple[tuple[Paint, ...], list[float]], data: st.DataObject
) -> None:
    pots, amounts = drawn
    inside = data.draw(st.integers(1, len(pots)), "paints in the house mix")
    total = sum(amounts[:inside])
    inner = house_mix("House mix", {each.name: n for each, n in zip(pots[:inside], amounts, strict=False)})
    palette = palette_of(*pots, inner)
    nested = {"House mix": total} | {
        each.name: n for each, n in zip(pots[inside:], amounts[inside:], strict=True)
    }
    found = Mixer(palette).predict(blend(palette, nested)).colour
    assert alike(found or "", mixed(pots, amounts))


@given(pots_and_amounts())
def test_a_medium_leaves_the_colour_and_thins_the_film(drawn: tuple[tuple[Paint, ...], list[float]]) -> None:
    pots, amounts = drawn
    palette = palette_of(*pots, pot("Clear Medium", None, "medium"))
    mixer = Mixer(palette)
    neat = blend(palette, {each.name: n for each, n in zip(pots, amounts, strict=True)})
    thinned = blend(
        palette,
        {each.name: n for each, n in zip(pots, amounts, strict=True)} | {"Clear Medium": sum(amounts)},
    )
    assert alike(mixer.predict(neat).colour or "", mixer.predict(thinned).colour or "")
    assert mixer.film_strength(thinned) == pytest.approx(mixer.film_strength(neat) / 2)


# Films


@given(ratios, reflectances)
def test_a_layer_of_no_thickness_is_its_ground(ratio: float, ground: float) -> None:
    assert float(layer_reflectance(ratio, ground, 0.0)) == pytest.approx(ground, abs=1e-12)


@given(st.floats(1e-3, 500.0), reflectances)
def test_a_thick_layer_hides_its_ground(ratio: float, ground: float) -> None:
    assert float(layer_reflectance(ratio, ground, 1e4)) == pytest.approx(
        float(thick_reflectance(ratio)), abs=1e-9
    )


@given(ratios, thicknesses)
def test_over_its_own_colour_a_layer_shows_nothing(ratio: float, thickness: float) -> None:
    own = float(thick_reflectance(ratio))
    assert float(layer_reflectance(ratio, own, thickness)) == pytest.approx(own, abs=1e-9)


@given(ratios, reflectances, thicknesses, thicknesses)
def test_layers_add_up(ratio: float, ground: float, one: float, two: float) -> None:
    stacked = layer_reflectance(ratio, layer_reflectance(ratio, ground, one), two)
    assert float(stacked) == pytest.approx(float(layer_reflectance(ratio, ground, one + two)), abs=1e-9)


@given(ratios, reflectances, thicknesses, thicknesses)
def test_a_thicker_layer_is_nearer_to_its_own_colour(
    ratio: float, ground: float, one: float, two: float
) -> None:
    own = float(thick_reflectance(ratio))
    thin, thick = sorted((one, two))
    near = abs(float(layer_reflectance(ratio, ground, thick)) - own)
    assert near <= abs(float(layer_reflectance(ratio, ground, thin)) - own) + 1e-12


@given(ratios, reflectances, reflectances, thicknesses)
def test_over_a_lighter_ground_a_layer_is_lighter(
    ratio: float, one: float, two: float, thickness: float
) -> None:
    dark, light = sorted((one, two))
    assert layer_reflectance(ratio, dark, thickness) <= layer_reflectance(ratio, light, thickness) + 1e-12


@given(strategies.hexes, strategies.hexes, st.sampled_from(sorted(FACTORS)), st.floats(0, 100))
def test_a_film_over_its_own_chip_is_not_seen(
    colour: str, ground: str, technique: str, strength: float
) -> None:
    own = film_over(ReliefColours.of_one(colour), colour, strength=strength, technique=technique)
    assert all(alike(each or "", colour) for each in (own.edges, own.flats, own.recesses))
    none = film_over(ReliefColours.of_one(ground), colour, strength=0.0, technique=technique)
    assert none == ReliefColours.of_one(ground)


@given(
    strategies.greys, strategies.greys, st.sampled_from(("wash", "oil wash", "pin wash", "glaze", "stain"))
)
def test_a_dark_wash_darkens_recesses_most(one: str, two: str, technique: str) -> None:
    dark, light = sorted((one, two))
    washed = film_over(ReliefColours.of_one(light), dark, strength=1.0, technique=technique)
    edges, flats, recesses = (levels(each or "")[0] for each in (washed.edges, washed.flats, washed.recesses))
    assert levels(light)[0] >= edges >= flats >= recesses >= levels(dark)[0]


# Closest paints


@given(st.lists(strategies.hexes, min_size=1, max_size=12), strategies.hexes, strategies.hexes)
def test_adding_a_paint_never_worsens_the_closest_match(colours: list[str], asked: str, added: str) -> None:
    pots = [pot(f"Jar {n}", colour) for n, colour in enumerate(colours)]
    before = Matcher(palette_of(*pots)).closest_to_colour(asked)
    after = Matcher(palette_of(*pots, pot("Newcomer", added))).closest_to_colour(asked)
    assert len(after) >= len(before)
    for old, new in zip(before, after, strict=False):
        assert new.de00 <= old.de00


@given(st.lists(strategies.hexes, min_size=1, max_size=12), strategies.hexes)
def test_every_list_is_sorted_and_near(colours: list[str], asked: str) -> None:
    found = Matcher(palette_of(*(pot(f"Jar {n}", c) for n, c in enumerate(colours)))).closest_to_colour(asked)
    assert len(found) <= 5
    keys = [(match.de00, match.paint.full_name) for match in found]
    assert keys == sorted(keys)
    assert all(0 <= match.de00 <= 10 for match in found)


# Drops


@settings(max_examples=60)
@given(
    st.lists(
        st.tuples(st.sampled_from((0.1, 0.5, 1, 2, 3, 7)), st.sampled_from((0.03, 0.05, 0.06))),
        min_size=1,
        max_size=4,
    ),
    st.floats(0.05, 6),
)
def test_drops_make_the_amount_and_keep_the_parts(drawn: list[tuple[float, float]], ml: float) -> None:
    parts, sizes = [part for part, _ in drawn], [size for _, size in drawn]
    found = drops_for(parts, sizes, ml)
    assume(found.keeps_ratio)
    volumes = [n * size for n, size in zip(found.counts, sizes, strict=True)]
    assert sum(volumes) == pytest.approx(found.ml)
    assert found.ml >= ml - 1e-6
    scales = [volume / part for volume, part in zip(volumes, parts, strict=True)]
    assert max(scales) / min(scales) <= 1 + TOLERANCE + 1e-6
