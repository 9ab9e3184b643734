"""Mixing: what has a colour, what is an estimate, what a touch means, kinds and film strengths."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from support.paints import blend, house_mix, let_down, palette_of, pot

from guidegen.computing.colour.mixing import (
    ESTIMATE_WORDS,
    MIX_ERROR,
    Mixer,
    scatter_from_let_down,
)
from guidegen.computing.colour.reflectance import TO_LINEAR, curves_of
from guidegen.computing.colour.spaces import linear_of
from guidegen.model.paint import Kind, Palette

PALETTE = palette_of(
    pot("Oilskin Ochre", "#b8862f"),
    pot("Ropewalk", "#b09a72"),
    pot("Pilot's Jersey", "#2c4a78"),
    pot("Saltpan White", "#eeeae0"),
    pot("Fogbell", "#a78a4f", "metallic"),
    pot("Silt Wash", "#4a3b2a", "wash"),
    pot("Bilge Wash", "#2a2d36", "wash"),
    pot("Kelp Wash", "#3b4427", "wash", strength=2.0),
    pot("Stern Light Glaze", "#c4511f", "glaze"),
    pot("Cordage Stain", "#a67c46", "stain"),
    pot("Clear Medium", "#ff00ff", "medium"),
    pot("Calm Matt", None, "varnish"),
    pot("Towpath Paste", "#6e5c48", "paste"),
    pot("Faded Label", None),
    house_mix("Wet Wool wash", {"Bilge Wash": 5, "Kelp Wash": 2, "Clear Medium": 1}),
    house_mix("Rained-on slate", {"Oilskin Ochre": 3, "Pilot's Jersey": 1}, colour="#4a5a66"),
    house_mix("Strong wash", {"Silt Wash": 1, "Clear Medium": 1}, strength=4.0),
    house_mix("Called a glaze", {"Oilskin Ochre": 1, "Clear Medium": 4}, kind=Kind.GLAZE),
    house_mix("Harbour slop", {"Wet Wool wash": 1, "Ropewalk": 1}),
)
MIXER = Mixer(PALETTE)


def colour_by_hand(weights: dict[str, float]) -> np.ndarray:
    """The recipe, band by band and in plain arithmetic, as linear sRGB."""
    absorbed = [0.0] * 36
    for colour, weight in weights.items():
        for band, reflectance in enumerate(curves_of([colour])[0].tolist()):
            lifted = 0.005 + 0.995 * reflectance
            absorbed[band] += weight / sum(weights.values()) * (1 - lifted) ** 2 / (2 * lifted)
    lifted_mix = [1 + q - (q * q + 2 * q) ** 0.5 for q in absorbed]
    return TO_LINEAR @ np.array([(r - 0.005) / 0.995 for r in lifted_mix])


def test_the_recipe_by_hand() -> None:
    found = MIXER.predict(blend(PALETTE, {"Oilskin Ochre": 2, "Ropewalk": 1}))
    assert found.estimate
    assert not found.clipped
    assert found.colour is not None
    by_hand = colour_by_hand({"#b8862f": 2, "#b09a72": 1})
    # Half a level of 255 is at most 0.0046 in linear light.
    assert linear_of([found.colour])[0] == pytest.approx(by_hand, abs=0.0046)


def test_yellow_and_blue_do_not_make_grey() -> None:
    """The reason for all of it. Mixing pigments of these hues gives green: common practice, no source."""
    palette = palette_of(pot("Yellow", "#f0c81e"), pot("Blue", "#1e468c"))
    colour = Mixer(palette).predict(blend(palette, {"Yellow": 3, "Blue": 1})).colour or ""
    red, green, blue = bytes.fromhex(colour[1:])
    assert green > red + 20
    assert green > blue + 20


@pytest.mark.parametrize("name", ["Oilskin Ochre", "Fogbell", "Silt Wash", "Towpath Paste"])
def test_a_pot_by_itself_keeps_its_colour(name: str) -> None:
    found = MIXER.predict(blend(PALETTE, {name: 3}))
    pot_found = PALETTE.find(name)
    assert (found.colour, found.estimate) == (pot_found.colour, False)  # type: ignore[union-attr]


@pytest.mark.parametrize("white", [1, 3, 10])
def test_a_blue_black_with_white_is_a_dark_blue_tint(white: int) -> None:
    palette = palette_of(pot("Night Tide", "#000019"), pot("Chalk", "#ffffff"))
    tint = Mixer(palette).predict(blend(palette, {"Night Tide": 1, "Chalk": white})).colour
    assert tint is not None
    red, green, blue = bytes.fromhex(tint[1:])
    assert red < 0xA0
    assert abs(red - green) < 0x18  # a blue, not a purple
    assert blue > max(red, green) + 0x10


def test_a_measured_house_mix_is_no_estimate_but_a_predicted_one_is() -> None:
    measured = MIXER.predict(blend(PALETTE, {"Rained-on slate": 1}))
    assert (measured.colour, measured.estimate) == ("#4a5a66", False)
    assert MIXER.predict(blend(PALETTE, {"Wet Wool wash": 1})).estimate


def test_inside_another_mix_a_house_mix_counts_as_its_paints_even_if_measured() -> None:
    nested = MIXER.predict(blend(PALETTE, {"Rained-on slate": 4, "Saltpan White": 4})).colour
    flat = {"Oilskin Ochre": 3, "Pilot's Jersey": 1, "Saltpan White": 4}
    assert nested == MIXER.predict(blend(PALETTE, flat)).colour


def test_a_house_mix_with_a_medium_weighs_only_its_colour() -> None:
    """Eight parts of the wash hold five of bilge, two of kelp and one of medium; kelp counts double."""
    nested = MIXER.predict(blend(PALETTE, {"Wet Wool wash": 8, "Ropewalk": 5}))
    by_hand = colour_by_hand({"#2a2d36": 5, "#3b4427": 4, "#b09a72": 5})
    assert nested.colour is not None
    assert linear_of([nested.colour])[0] == pytest.approx(by_hand, abs=0.0046)


def test_a_medium_has_no_colour_whatever_is_written() -> None:
    found = MIXER.predict(blend(PALETTE, {"Silt Wash": 1, "Clear Medium": 5}))
    assert (found.colour, found.estimate) == ("#4a3b2a", True)
    assert MIXER.predict(blend(PALETTE, {"Clear Medium": 1})).colour is None
    only_clear = MIXER.predict(blend(PALETTE, {"Clear Medium": 1, "Calm Matt": 1}))
    assert only_clear.colour is None
    assert "no colour of their own" in only_clear.reason


def test_a_metal_in_a_mix_leaves_the_colour_open() -> None:
    found = MIXER.predict(blend(PALETTE, {"Fogbell": 1, "Oilskin Ochre": 1}))
    assert found.colour is None
    assert "“Fogbell” is a metal paint" in found.reason
    assert MIXER.has_metal(blend(PALETTE, {"Fogbell": 1, "Oilskin Ochre": 1}))
    assert not MIXER.has_metal(blend(PALETTE, {"Oilskin Ochre": 1}))


def test_a_paint_without_a_colour_is_named() -> None:
    found = MIXER.predict(blend(PALETTE, {"Faded Label": 1, "Oilskin Ochre": 1}))
    assert found.colour is None
    assert "Faded Label" in found.reason


def test_a_touch_shows_both_ends_and_is_a_tenth_between() -> None:
    touched = MIXER.predict(blend(PALETTE, {"Saltpan White": 1, "Pilot's Jersey": "a touch"}))
    for amount, colour in ((0.05, touched.touch_low), (0.1, touched.colour), (0.25, touched.touch_high)):
        plain = MIXER.predict(blend(PALETTE, {"Saltpan White": 1, "Pilot's Jersey": amount}))
        assert colour == plain.colour
        assert plain.touch_low is plain.touch_high is None


def test_a_touch_inside_a_house_mix_counts() -> None:
    palette = palette_of(
        *PALETTE.paints, house_mix("Dawn", {"Saltpan White": 1, "Pilot's Jersey": "a touch"})
    )
    found = Mixer(palette).predict(blend(palette, {"Dawn": 1}))
    assert found.touch_low is not None
    assert found.touch_low != found.touch_high


def test_the_same_pot_twice_is_that_pot() -> None:
    twice = blend(PALETTE, {"Oilskin Ochre": 1, "oilskin ochre": 2})
    assert MIXER.predict(twice).colour == "#b8862f"
    assert not MIXER.predict(twice).estimate
    measured = blend(PALETTE, {"Rained-on slate": 1, "rained-on SLATE": 2})
    assert MIXER.predict(measured).colour == "#4a5a66"


def test_strength_weighs_parts() -> None:
    strong = palette_of(pot("Strong", "#2c4a78", strength=3.0), pot("White", "#eeeae0"))
    plain = palette_of(pot("Strong", "#2c4a78"), pot("White", "#eeeae0"))
    one = Mixer(strong).predict(blend(strong, {"Strong": 1, "White": 4})).colour
    assert one == Mixer(plain).predict(blend(plain, {"Strong": 3, "White": 4})).colour


def test_mixing_within_what_srgb_shows_is_not_called_clipped() -> None:
    palette = palette_of(pot("Red", "#ff0000"), pot("Green", "#00ff00"), pot("Cyan", "#00ffff"))
    assert not Mixer(palette).predict(blend(palette, {"Red": 1, "Cyan": 1})).clipped


@pytest.mark.parametrize(
    ("amounts", "kind"),
    [
        ({"Oilskin Ochre": 1}, Kind.PAINT),
        ({"Cordage Stain": 1}, Kind.STAIN),
        ({"Fogbell": 1}, Kind.METALLIC),
        ({"Oilskin Ochre": 1, "Silt Wash": 1, "Stern Light Glaze": 1}, Kind.WASH),
        ({"Oilskin Ochre": 1, "Stern Light Glaze": 1}, Kind.GLAZE),
        ({"Cordage Stain": 1, "Clear Medium": 1}, Kind.PAINT),
        ({"Wet Wool wash": 1}, Kind.WASH),
        ({"Harbour slop": 1}, Kind.WASH),
        ({"Called a glaze": 1}, Kind.GLAZE),
        ({"Called a glaze": 1, "Ropewalk": 1}, Kind.GLAZE),
    ],
)
def test_kinds_of_mixes(amounts: dict[str, float | str], kind: Kind) -> None:
    assert MIXER.kind(blend(PALETTE, amounts)) is kind


@pytest.mark.parametrize(
    ("amounts", "strength"),
    [
        ({"Silt Wash": 1}, 1.0),
        ({"Kelp Wash": 1}, 2.0),
        ({"Wet Wool wash": 1}, (5 + 2 * 2) / 8),
        ({"Silt Wash": 1, "Clear Medium": 3}, 0.25),
        ({"Strong wash": 1}, 4.0),
        ({"Strong wash": 2, "Clear Medium": 2}, 0.25),
        ({"Clear Medium": 1}, 0.0),
    ],
)
def test_film_strengths(amounts: dict[str, float | str], strength: float) -> None:
    assert MIXER.film_strength(blend(PALETTE, amounts)) == pytest.approx(strength)


def test_a_circle_of_mixes_hangs_nothing() -> None:
    palette = palette_of(house_mix("Slack", {"Flood": 1}), house_mix("Flood", {"Slack": 1}))
    mixer = Mixer(palette)
    assert mixer.predict(blend(palette, {"Slack": 1})).colour is None
    assert mixer.kind(blend(palette, {"Slack": 1})) is Kind.PAINT


def test_a_mix_of_nothing_known_has_no_colour() -> None:
    palette = palette_of(house_mix("Lost recipe", {"Gone": 1}))
    found = Mixer(palette).predict(blend(palette, {"Lost recipe": 1}))
    assert found.colour is None
    assert found.reason


def test_two_constants_from_a_let_down() -> None:
    """Solved back: with S from the let-down, paint and white in its parts have the let-down's K/S."""
    paint, down, white = np.array([2.0, 5.0]), np.array([0.4, 1.5]), np.array([0.01, 0.02])
    scatter = scatter_from_let_down(paint, down, white, 0.2)
    assert (0.2 * paint * scatter + 0.8 * white) / (0.2 * scatter + 0.8) == pytest.approx(down)


def test_let_downs_that_make_no_sense_are_kept_in_bounds() -> None:
    paint = np.array([1.0, 1.0, 1.0, 1.0])
    down = np.array([1.0, 2.0, 1e-9, 0.999999])
    scatter = scatter_from_let_down(paint, down, np.array([0.0, 0.0, 0.0, 0.0]), 0.1)
    assert scatter.tolist() == [100.0, 100.0, 0.01, 100.0]


def test_a_strong_tint_shows_in_white() -> None:
    """With a let-down that stays dark, a little of the paint goes further than the chips alone would have it."""
    white = pot("White", "#ffffff")
    amounts: dict[str, float | str] = {"Blue": 1, "White": 9}

    def of(palette: Palette) -> str:
        return Mixer(palette).predict(blend(palette, amounts)).colour or ""

    plain = palette_of(pot("Blue", "#1f2a40"), white)
    known = palette_of(pot("Blue", "#1f2a40", let_down=let_down("#3a62a0", 1, 9)), white)
    assert of(known) == "#3a62a0"
    assert linear_of([of(known)]).sum() < linear_of([of(plain)]).sum()


def test_the_white_of_a_let_down_may_be_named() -> None:
    blue, white = "#1f2a40", "#e7dfcc"
    for named in ("Saltpan", None, "Not on the shelf"):
        palette = palette_of(
            pot("Blue", blue, let_down=let_down("#4d6f9c", 1, 9, named)), pot("Saltpan", white)
        )
        colour = Mixer(palette).predict(blend(palette, {"Blue": 1, "Saltpan": 9})).colour
        assert (colour == "#4d6f9c") == (named == "Saltpan")


def test_the_words_carry_the_measured_figures() -> None:
    assert f"{MIX_ERROR.median:g}" in ESTIMATE_WORDS
    assert f"{MIX_ERROR.worst_of_twenty:g}" in ESTIMATE_WORDS


def test_a_let_down_says_how_strong_a_paint_is() -> None:
    """So a strength written beside it changes nothing; without the let-down it does."""

    def mixed(**more: Any) -> str | None:
        palette = palette_of(pot("Soot", "#262321", **more), pot("Gull", "#e6e4dc"))
        return Mixer(palette).predict(blend(palette, {"Soot": 1, "Gull": 3})).colour

    measured = let_down("#8d8a85", 1, 9)
    assert mixed(let_down=measured, strength=4.0) == mixed(let_down=measured)
    assert mixed(strength=4.0) != mixed()
