"""What a batch uses up: worked by hand, against published examples, and in honest words."""

from __future__ import annotations

import pytest
from support.guides import item, needs, scheme, titled
from support.paints import house_mix, palette_of, pot

from guidegen.computing.guide.materials import (
    Supply,
    film_volume,
    paint_needs,
    pots_to_buy,
    round_drops,
    round_ml,
    shopping,
    supplies,
)
from guidegen.computing.guide.surface import disc, figure_surface
from guidegen.model.guide import Instead, Thin
from guidegen.model.paint import Paint, Palette

A = figure_surface(56)

OCHRE = pot("Oilskin Ochre", "#b8862f", size=12.0, price=2.8, owned=1)
ROPE = pot("Ropewalk", "#b09a72", size=12.0)
SILT = pot("Silt Wash", "#4a3b2a", "wash", size=18.0, price=3.4)
RUST = pot("Dredged Rust", "#9a552d", "pigment", owned=1)
PALETTE = palette_of(OCHRE, ROPE, SILT, RUST, house_mix("Slipway wash", {"Silt Wash": 4, "Ropewalk": 1}))


def test_a_film_and_its_spreading_rate_are_one():
    # A coatings maker's technical note 5.3, "Handy calculations: volume solids and spreading rate": 71% solids at
    # 125 µm dry need 176 µm wet and spread 5.68 m² a litre, so a litre over its 5.68 m² is a litre again.
    assert film_volume(10 * 71 / 125 * 10_000, 125 * 100 / 71) == pytest.approx(1000)


def one(paint: str, technique: str = "base coat", **more: object) -> float | None:
    (need,) = needs(PALETTE, titled("Coats", technique, paint, **more), figures=10)
    return need.ml


def test_a_base_coat_by_hand():
    # 10 figures · 11.79 cm² · 20% · 50 µm · loss 2 = 10 · 11.79 · 0.2 · 0.005 · 2 = 0.236 ml
    assert one("Oilskin Ochre") == pytest.approx(0.2357, abs=1e-4)


def test_coats_thinning_and_share_multiply():
    once = one("Oilskin Ochre")
    assert once is not None
    assert one("Oilskin Ochre", coats=2) == pytest.approx(2 * once)
    assert one("Oilskin Ochre", thin=Thin(text="3:1 water", paint_share=0.75)) == pytest.approx(0.75 * once)
    assert one("Oilskin Ochre", share=0.1) == pytest.approx(once / 2)


def test_an_amount_replaces_surface_film_and_loss():
    assert one("Oilskin Ochre", amount=0.3, share=0.9, coats=2) == pytest.approx(6.0)
    thinned = one("Oilskin Ochre", amount=0.3, thin=Thin(text="1:1", paint_share=0.5))
    assert thinned == pytest.approx(1.5)


def test_a_wash_over_everything_takes_the_base_in():
    (need,) = needs(PALETTE, titled("Darken", "wash", "Silt Wash"), base=25.0)
    assert need.ml == pytest.approx((A + disc(25)) * 60e-4 * 1.5)


def test_a_paste_goes_by_the_base_and_without_one_is_not_known():
    ground = pot("Towpath Paste", "#6e5c48", "paste")
    step = titled("Ground", "paste", "Towpath Paste")
    (need,) = needs(palette_of(ground), step, base=25.0)
    assert need.ml == pytest.approx(disc(25) * 1500e-4 * 1.2)
    (unknown,) = needs(palette_of(ground), step)
    assert (unknown.ml, unknown.drops, unknown.buy) == (None, None, 1)


def test_a_word_of_the_authors_own_takes_the_base_coats_figures():
    assert one("Oilskin Ochre", "dabbing") == pytest.approx(one("Oilskin Ochre"))


def test_side_by_side_splits_evenly_and_parts_split_by_parts():
    both = one("Oilskin Ochre")
    assert both is not None
    beside = needs(PALETTE, titled("Coats", "base coat", ["Oilskin Ochre", "Ropewalk"]), figures=10)
    assert [need.ml for need in beside] == pytest.approx([both / 2, both / 2])
    mixed = needs(PALETTE, titled("Coats", "base coat", {"Oilskin Ochre": 3, "Ropewalk": 1}), figures=10)
    assert [need.ml for need in mixed] == pytest.approx([both * 0.75, both * 0.25])


def test_house_mixes_are_broken_down_and_the_authors_substitutes_left_out():
    instead = Instead(
        parts=titled("x", "", "Dredged Rust").paint.parts,  # type: ignore[union-attr]
        span=OCHRE.span,
    )
    found = needs(PALETTE, titled("Darken", "wash", "Slipway wash", instead=(instead,)), figures=4)
    whole = 4 * A * 60e-4 * 1.5
    assert [need.paint.name for need in found] == ["Silt Wash", "Ropewalk"]
    assert [need.ml for need in found] == pytest.approx([whole * 0.8, whole * 0.2])


def test_pigment_has_no_film_and_steps_with_one_still_count():
    only = needs(PALETTE, titled("Dust", "pigment", "Dredged Rust"))
    assert (only[0].ml, only[0].drops, only[0].buy) == (None, None, 0)
    both = needs(
        PALETTE,
        titled("Dust", "pigment", "Dredged Rust"),
        titled("Glaze", "glaze", "Dredged Rust"),
        figures=3,
    )
    assert both[0].ml == pytest.approx(3 * A * 0.1 * 20e-4 * 3)
    assert both[0].steps == (1, 2)


def test_paints_come_in_the_order_of_first_use_with_all_their_steps():
    found = needs(
        PALETTE,
        titled("a", "wash", "Silt Wash"),
        titled("b", "base coat", "Oilskin Ochre"),
        titled("c", "layer", "Silt Wash"),
        titled("d", "tidy up", "as before"),
    )
    # What lies there before the tidying up is the layer of wash.
    assert [(need.paint.name, need.steps) for need in found] == [
        ("Silt Wash", (1, 3, 4)),
        ("Oilskin Ochre", (2,)),
    ]


def test_drops_go_by_the_paints_own_drop():
    thick = pot("Clear Medium", None, "medium", drop=0.1)
    (need,) = needs(palette_of(thick), titled("Mix", "glaze", "Clear Medium", amount=1.0))
    assert need.drops == pytest.approx(10)


@pytest.mark.parametrize(
    ("ml", "size", "owned", "expected"),
    [
        (12.0, 12.0, 0, 1),
        (12.1, 12.0, 0, 2),
        (12.1, 12.0, 1, 1),
        (3.0, 12.0, 1, 0),
        (100.0, 12.0, 20, 0),
        (0.0, 12.0, 0, 0),
        (None, 12.0, 0, 1),
        (None, 12.0, 2, 0),
        (3.0, None, 0, 1),
        (3.0, None, 1, 0),
        (0.1 * 3 * 10, 3.0, 0, 1),  # 3.0000000000000004
    ],
)
def test_pots_to_buy(ml: float | None, size: float | None, owned: int, expected: int):
    assert pots_to_buy(ml, size, owned) == expected


def test_cost_goes_by_what_is_to_buy():
    plenty = needs(PALETTE, titled("Darken", "wash", "Silt Wash", amount=20.0), figures=2)
    assert (plenty[0].buy, plenty[0].cost) == (3, 10.2)
    assert needs(PALETTE, titled("Coats", "base coat", "Oilskin Ochre"))[0].cost == 0.0
    assert needs(PALETTE, titled("Coats", "base coat", "Ropewalk"))[0].cost is None


def test_several_guides_are_summed_before_buying():
    # 10 ml and 10 ml of an 18 ml pot: one pot for each guide, but two for both together, and one owned leaves one.
    own = palette_of(pot("Silt Wash", "#4a3b2a", "wash", size=18.0, price=3.4, owned=1))
    unit = needs(own, titled("Darken", "wash", "Silt Wash", amount=10.0))
    assert unit[0].buy == 0
    (both,) = shopping([unit, unit])
    assert (both.ml, both.buy, both.cost, both.steps) == (20.0, 1, 3.4, ())


def test_a_sum_takes_what_is_known():
    dusted = needs(PALETTE, titled("Dust", "pigment", "Dredged Rust"))
    glazed = needs(PALETTE, titled("Glaze", "glaze", "Dredged Rust"))
    assert shopping([dusted, glazed])[0].ml == glazed[0].ml
    assert shopping([dusted, dusted])[0].ml is None
    assert shopping([]) == ()


def test_paints_that_share_a_name_stay_apart():
    old = Paint(name="Ropewalk", range="Reedbank Acrylics", span=OCHRE.span)
    new = Paint(name="Ropewalk", range="Reedbank Acrylics", edition="2nd", span=OCHRE.span)
    palette = Palette(paints=(old, new))
    found = needs(
        palette,
        titled("a", "layer", "Ropewalk (2nd)"),
        titled("b", "layer", "Reedbank Acrylics/Ropewalk (2nd)"),
    )
    assert [need.paint for need in found] == [new]
    assert len(shopping([found, paint_needs(scheme(palette), palette, 1)])) == 1


def test_rounding_for_files():
    assert round_ml(0.23572891) == 0.2357
    assert round_drops(4.71457) == 4.71
    assert (round_ml(None), round_drops(None)) == (None, None)


def test_supplies_are_merged_with_the_steps_that_use_them():
    found = scheme(
        PALETTE,
        titled("a", materials=(item("gloss gel", amount="a dab", cautions=("Don't drink.",)),)),
        titled("b", tools=(item("Old Brush"), item("cork"))),
        titled("c", materials=(item("Gloss  Gel", purpose="puddles", amount="5 ml"),), brush="size 2"),
        materials=(item("gloss gel", amount="5 ml"),),
        tools=(item("old brush", purpose="dry brushing"),),
    )
    materials, tools = supplies(found)
    assert materials == (
        Supply(
            name="gloss gel",
            purpose="puddles",
            amount="5 ml; a dab",
            cautions=("Don't drink.",),
            steps=(1, 3),
        ),
    )
    assert tools == (
        Supply(name="old brush", purpose="dry brushing", steps=(2,)),
        Supply(name="cork", steps=(2,)),
    )


def test_no_steps_need_nothing():
    assert needs(PALETTE) == ()
