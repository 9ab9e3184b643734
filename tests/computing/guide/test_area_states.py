"""Areas after each step: what covers, films, catches the edges, or leaves the hue."""

from __future__ import annotations

import pytest
from support.paints import house_mix, palette_of, pot, scheme, step

from guidegen.computing.colour.layers import ReliefColours, film_over
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.guide.area_states import AreaState, area_states
from guidegen.computing.guide.contrast import highlight_contrast, lightness_ladder, shade_contrast
from guidegen.model.guide import Step, Thin

OCHRE, LAMP, SILT, GLOW = "#b8862f", "#c99b45", "#4a3b2a", "#c4511f"
PALETTE = palette_of(
    pot("Slate Undercoat", "#6b737a", "primer", finish="matt"),
    pot("Oilskin Ochre", OCHRE),
    pot("Brass Lamp", LAMP),
    pot("Toll Biscuit", "#d6c196"),
    pot("Wet Ochre", OCHRE, finish="gloss"),
    pot("Fogbell", "#a78a4f", "metallic"),
    pot("Silt Wash", SILT, "wash"),
    pot("Pale Wash", "#e8e0d0", "wash"),
    pot("Stern Light Glaze", GLOW, "glaze"),
    pot("Clear Medium", None, "medium"),
    pot("Puddle Gloss", None, "varnish", finish="gloss"),
    pot("Calm Matt", None, "varnish", finish="matt"),
    pot("Towpath Paste", "#6e5c48", "paste"),
    pot("Dredged Rust", "#9a552d", "pigment"),
    house_mix("Thin silt", {"Silt Wash": 1, "Clear Medium": 1}),
)
MIXER = Mixer(PALETTE)


def coat(*steps: Step) -> tuple[AreaState, ...]:
    return area_states(scheme(PALETTE, *steps), MIXER)["coat"]


def one(technique: str, paint: object = "none", **more: object) -> Step:
    return step(technique, ["coat"], paint, **more)  # type: ignore[arg-type]


BASE = one("base coat", "Oilskin Ochre")


def test_a_covering_paint_sets_all_three() -> None:
    (state,) = coat(BASE)
    assert state.relief == ReliefColours.of_one(OCHRE)
    assert not state.estimate
    assert state.laid is not None


def test_a_wash_layers_over_all_three() -> None:
    washed = coat(BASE, one("wash", "Silt Wash"))[-1]
    assert washed.relief == film_over(ReliefColours.of_one(OCHRE), SILT, strength=1, technique="wash")
    assert washed.estimate


def test_thinning_coats_and_mediums_set_the_film() -> None:
    full = coat(BASE, one("wash", "Silt Wash"))[-1].relief
    halves = (
        one("wash", "Silt Wash", thin=Thin(text="1:1 water", paint_share=0.5), coats=2),
        one("wash", "Thin silt", coats=2),
        one("wash", {"Silt Wash": 1, "Clear Medium": 1}, coats=2),
    )
    for half in halves:
        assert coat(BASE, half)[-1].relief == full


def test_highlights_change_the_edges_only() -> None:
    washed, lit = coat(BASE, one("wash", "Silt Wash"), one("dry brush", "Brass Lamp"))[1:]
    assert lit.relief.edges == LAMP
    assert (lit.relief.flats, lit.relief.recesses) == (washed.relief.flats, washed.relief.recesses)


@pytest.mark.parametrize(
    ("technique", "paint"),
    [
        ("brush varnish", "Calm Matt"),
        ("spray", "Calm Matt"),
        ("airbrush", "Puddle Gloss"),
        ("layer", "Clear Medium"),
        ("pigment", "Dredged Rust"),
        ("paste", "Towpath Paste"),
        ("base coat", "none"),
    ],
)
def test_the_hue_stays(technique: str, paint: str) -> None:
    before, after = coat(BASE, one(technique, paint))
    assert after.relief == before.relief


def test_nothing_laid_has_no_colour() -> None:
    states = coat(
        one("paste", "Towpath Paste"), one("wash", "Silt Wash"), one("dry brush", "Brass Lamp"), BASE
    )
    assert states[0].relief == states[1].relief == ReliefColours.of_one(None)
    assert states[2].relief == ReliefColours(edges=LAMP, flats=None, recesses=None)
    assert states[3].relief == ReliefColours.of_one(OCHRE)


def test_gloss_under_a_wash_lets_it_run() -> None:
    over_gloss = film_over(ReliefColours.of_one(OCHRE), SILT, strength=1, technique="wash", over_gloss=True)
    for first in (
        (BASE, one("spray", "Puddle Gloss")),
        (BASE, one("airbrush", "Puddle Gloss")),
        (one("base coat", "Wet Ochre"),),
        (BASE, one("spray", "Puddle Gloss"), one("pigment", "Dredged Rust")),
    ):
        assert coat(*first, one("wash", "Silt Wash"))[-1].relief == over_gloss
    matt_again = coat(BASE, one("spray", "Puddle Gloss"), one("spray", "Calm Matt"), one("wash", "Silt Wash"))
    painted_over = coat(one("spray", "Puddle Gloss"), BASE, one("wash", "Silt Wash"))
    for states in (matt_again, painted_over):
        assert states[-1].relief == film_over(ReliefColours.of_one(OCHRE), SILT, strength=1, technique="wash")


def test_tidying_up_sets_the_covering_colour_again() -> None:
    states = coat(BASE, one("wash", "Silt Wash"), one("dry brush", "Brass Lamp"), one("tidy up", "as before"))
    assert states[-1].relief == ReliefColours.of_one(OCHRE)


def test_a_metal_by_itself_has_its_chip_and_glints() -> None:
    metal, washed, mixed = coat(
        one("base coat", "Fogbell"),
        one("wash", "Silt Wash"),
        one("layer", {"Fogbell": 1, "Oilskin Ochre": 1}),
    )
    assert metal.relief == ReliefColours.of_one("#a78a4f")
    assert metal.metal
    assert washed.metal
    assert washed.relief.recesses not in (None, "#a78a4f")
    assert mixed.relief == ReliefColours.of_one(None)
    assert mixed.metal
    assert not coat(one("base coat", "Fogbell"), BASE)[-1].metal


def test_side_by_side_paints_show_as_their_mixture() -> None:
    beside = coat(one("stipple", ["Oilskin Ochre", "Toll Biscuit"]))[-1]
    mixed = coat(one("stipple", {"Oilskin Ochre": 1, "Toll Biscuit": 1}))[-1]
    assert beside.relief == mixed.relief
    assert beside.estimate


def test_a_step_on_everything_is_on_every_area() -> None:
    states = area_states(
        scheme(
            PALETTE,
            step("prime", (), "Slate Undercoat"),
            step("base coat", ["coat"], "Oilskin Ochre"),
            step("base coat", ["lantern"], "Fogbell"),
        ),
        MIXER,
    )
    assert [state.n for state in states["coat"]] == [1, 2]
    assert [state.n for state in states["lantern"]] == [1, 3]
    assert states["coat"][0].finish == "matt"


def test_highlights_are_measured_against_the_washed_edges() -> None:
    states = coat(
        BASE,
        one("wash", "Silt Wash", coats=4),
        one("edge highlight", "Oilskin Ochre"),
        one("highlight", "Toll Biscuit"),
        one("highlight", "Silt Wash"),
    )
    first, second, third = highlight_contrast("coat", states)
    # The pot's own colour is a highlight once a wash has darkened the edges.
    assert first.gain > 3
    assert second.under == pytest.approx(first.laid)
    assert third.gain < 0
    assert [found.n for found in (first, second, third)] == [3, 4, 5]


def test_metals_are_no_highlights_to_measure() -> None:
    assert highlight_contrast("coat", coat(BASE, one("dry brush", "Fogbell"))) == ()
    assert highlight_contrast("coat", coat(one("base coat", "Fogbell"), one("dry brush", "Brass Lamp"))) == ()
    assert highlight_contrast("coat", coat(BASE, one("dry brush", "none"))) == ()
    assert highlight_contrast("coat", coat(one("dry brush", "Brass Lamp"))) == ()


def test_washes_are_measured_against_what_lies_under() -> None:
    dark, pale = shade_contrast(
        "coat", coat(BASE, one("wash", "Silt Wash"), one("oil wash", "Pale Wash")), MIXER
    )
    assert dark.gain < 0 < pale.gain
    assert pale.under < dark.under
    glazed = coat(one("base coat", "Silt Wash"), one("glaze", "Stern Light Glaze"))
    assert shade_contrast("coat", glazed, MIXER) == ()
    over_metal = coat(one("base coat", "Fogbell"), one("wash", "Pale Wash"))
    assert shade_contrast("coat", over_metal, MIXER) == ()


def test_the_lightness_ladder_has_what_was_laid() -> None:
    states = area_states(
        scheme(
            PALETTE,
            BASE,
            one("wash", "Silt Wash"),
            one("dry brush", "Toll Biscuit"),
            one("spray", "Calm Matt"),
            step("base coat", ["lantern"], {"Fogbell": 1, "Oilskin Ochre": 1}),
        ),
        MIXER,
    )
    base, wash, light = lightness_ladder(states["coat"], MIXER)
    assert [base.n, wash.n, light.n] == [1, 2, 3]
    assert wash.lightness < base.lightness < light.lightness
    assert lightness_ladder(states["lantern"], MIXER) == ()
