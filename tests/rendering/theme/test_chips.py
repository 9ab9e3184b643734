"""Chips: the paint's own colour, a look for each kind, a rim that shows on any ground."""

from __future__ import annotations

import re

import pytest
from support import town

from guidegen.base.own_files import own_templates
from guidegen.computing.colour.blend import Blend, BlendPart
from guidegen.computing.guide.computed_guide import PaletteTools
from guidegen.model.paint import Kind
from guidegen.rendering.page.chips import Chips
from guidegen.rendering.theme.chips import RIM, Chip, band, daub, look_of, read_shapes, shapes_for, swatch

SHAPES = read_shapes((own_templates() / "parts" / "chips.svg").read_text("utf-8"))
STYLE = (own_templates() / "style" / "site.css").read_text("utf-8")


@pytest.fixture
def chips() -> Chips:
    return Chips(PaletteTools.over(town.PALETTE).mixer)


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2's definition of terms."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio, WCAG 2.2's definition of terms."""
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("ground", ["--paper", "--card"])
def test_the_rim_shows_on_every_ground(ground: str) -> None:
    colours = re.findall(rf"{ground}: (#[0-9a-f]{{6}})", STYLE)
    assert len(colours) == 2
    for colour in [*colours, "#ffffff"]:
        assert contrast(RIM, colour) >= 3.0


def test_words_are_readable_in_both_themes() -> None:
    for name in ("--ink", "--soft", "--accent"):
        light, dark = re.findall(rf"{name}: (#[0-9a-f]{{6}})", STYLE)[:2]
        for paper in ("--paper", "--card", "--tint"):
            light_paper, dark_paper = re.findall(rf"{paper}: (#[0-9a-f]{{6}})", STYLE)[:2]
            assert contrast(light, light_paper) >= 4.5
            assert contrast(dark, dark_paper) >= 4.5


def test_every_kind_has_a_look_that_is_drawn_in_both_shapes() -> None:
    looks = {look_of(kind) for kind in Kind}
    assert {"flat", "metal", "film", "varnish", "medium", "dust", "primer"} <= looks
    for look in (*looks, "none", "hole"):
        assert f"c-{look}" in SHAPES
        assert f"d-{look}" in SHAPES
    drawn = [re.sub(r'id="[^"]*"', "", SHAPES[f"c-{look}"]) for look in sorted(looks)]
    assert len(set(drawn)) == len(looks)


def test_a_chip_hands_down_the_paints_colour(chips: Chips) -> None:
    ochre = next(paint for paint in town.PALETTE.paints if paint.name == "Oilskin Ochre")
    assert '<use href="#c-flat" fill="#b8862f"/>' in swatch(chips.of_pot(ochre))
    assert '<use href="#d-flat" fill="#b8862f"/>' in daub(chips.of_pot(ochre))


def test_a_film_lies_over_white_and_over_grey(chips: Chips) -> None:
    wash = next(paint for paint in town.PALETTE.paints if paint.name == "Silt Wash")
    chip = chips.of_pot(wash)
    assert chip.look == "film"
    assert chip.film is not None
    white, grey = chip.film
    assert luminance(white) > luminance(grey) > luminance("#4a3b2a")
    assert '<use href="#c-film" fill="#4a3b2a"/>' in swatch(chip)
    assert f'fill="{white}"' in swatch(chip)
    assert f'fill="{grey}"' in swatch(chip)


def test_only_an_estimate_is_punched(chips: Chips) -> None:
    mix = town.PALETTE.mixes[1]
    assert "#c-hole" in swatch(chips.of_pot(mix))
    measured = Chip(look="flat", fill="#445566")
    assert "hole" not in swatch(measured)


def test_clear_paints_and_unknown_colours_have_no_fill(chips: Chips) -> None:
    matt = next(paint for paint in town.PALETTE.paints if paint.name == "Calm Matt")
    assert swatch(chips.of_pot(matt)).count("fill") == 0
    with_metal = Blend(
        tuple(BlendPart(paint, 1.0) for paint in town.PALETTE.paints if paint.kind is Kind.METALLIC)
    )
    assert '<use href="#c-none"/>' in swatch(chips.of(with_metal))


def test_a_page_carries_the_shapes_it_uses_and_no_others() -> None:
    html = swatch(Chip(look="flat", fill="#445566", estimate=True)) + daub(Chip(look="metal", fill="#777777"))
    ids = re.findall(r' id="([a-z-]+)"', shapes_for(html, SHAPES))
    assert ids == ["c-cut", "d-cut", "c-flat", "c-hole", "d-metal"]
    assert shapes_for("<p>no chip</p>", SHAPES) == ""


def test_a_band_shows_its_colours_in_order() -> None:
    drawn = band([Chip(look="flat", fill="#111111"), Chip(look="varnish"), Chip(look="film", fill="#222222")])
    assert re.findall(r'fill="(#[0-9]+)"', drawn) == ["#111111", "#222222"]
    assert 'viewBox="0 0 2 1"' in drawn
