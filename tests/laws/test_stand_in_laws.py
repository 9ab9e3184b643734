"""Laws of what stands in for a colour out of the pots one has."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from support import strategies
from support.paints import palette_of, pot

from guidegen.computing.colour.first_try import addition
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.colour.stand_in import (
    Advice,
    StandIn,
    StandIns,
    Target,
    binder_of,
    correction_of,
)
from guidegen.model.paint import Kind, Paint, Palette

kinds = st.sampled_from(
    ("paint", "paint", "paint", "paint", "primer", "ink", "oil", "effect", "wash", "metallic")
)
binders = st.sampled_from(("", "", "acrylic", "enamel", "oil", "lacquer"))


@st.composite
def shelves(draw: st.DrawFn, least: int = 1, most: int = 7) -> Palette:
    count = draw(st.integers(least, most))
    return palette_of(
        *(
            pot(
                f"Jar {n}",
                draw(strategies.hexes),
                draw(kinds),
                binder=draw(binders),
                comes_as=draw(st.sampled_from(("", "pot", "can", "airbrush"))),
                owned=draw(st.integers(0, 2)),
                discontinued=draw(st.booleans()),
                strength=draw(st.sampled_from((0.5, 1.0, 3.0))),
            )
            for n in range(count)
        )
    )


def answer(palette: Palette, target: Target, **more: Any) -> StandIn:
    return StandIns(Mixer(palette)).towards(target, **more)


def targets(palette: Palette) -> list[Target]:
    return [Target.of_paint(paint, paint.colour) for paint in palette.paints if paint.colour]


@settings(max_examples=40)
@given(shelves(least=2), strategies.hexes)
def test_one_pot_more_is_never_worse(palette: Palette, colour: str) -> None:
    fewer = palette_of(*palette.paints[:-1])
    for target in (Target(colour=colour), *targets(fewer)):
        before, after = answer(fewer, target), answer(palette, target)
        if before.pots:
            assert after.pots[0].de00 <= before.pots[0].de00
        if before.least is not None:
            assert after.least is not None
            assert after.least <= before.least
        assert before.advice is Advice.BUY or after.advice is not Advice.BUY


@settings(max_examples=60)
@given(shelves())
def test_a_pot_that_is_owned_is_never_missing(palette: Palette) -> None:
    for target in targets(palette):
        paint = target.paint
        if paint is None or not paint.owned or target.sort is None:
            continue
        found = answer(palette, target)
        assert found.advice is Advice.POT
        assert (found.pots[0].paint, found.pots[0].de00) == (paint, 0.0)


@settings(max_examples=60)
@given(shelves(), st.data())
def test_for_a_colour_of_the_palette_the_pot_is_advised(palette: Palette, data: st.DataObject) -> None:
    covering = [
        p for p in palette.paints if p.kind is Kind.PAINT and p.owned and p.comes_as != "can" and p.colour
    ]
    if covering:
        paint = data.draw(st.sampled_from(covering))
        found = answer(palette, Target(colour=paint.colour or ""))
        assert found.advice is Advice.POT
        assert found.pots[0].de00 == 0.0
        assert found.pots[0].paint.colour == paint.colour


@settings(max_examples=60)
@given(shelves(least=3), strategies.hexes)
def test_no_recipe_crosses_binders(palette: Palette, colour: str) -> None:
    for target in (Target(colour=colour), *targets(palette)):
        for recipe in answer(palette, target).recipes:
            used = [paint for paint, _ in recipe.parts]
            assert {binder_of(paint) for paint in used} == {"acrylic"}
            assert all(paint.kind is Kind.PAINT and paint.comes_as != "can" and paint.owned for paint in used)


@settings(max_examples=40)
@given(strategies.coloured_pots(least=2, most=3), st.data())
def test_parts_doubled_change_nothing(pots: tuple[Paint, ...], data: st.DataObject) -> None:
    """But what is to be added, which is doubled."""
    mixer = Mixer(palette_of(*pots))
    parts = [(each, float(data.draw(st.integers(1, 10)))) for each in pots]
    twice = [(each, 2 * amount) for each, amount in parts]
    got, wanted = data.draw(strategies.hexes), data.draw(strategies.hexes)
    seen, again = correction_of(mixer, parts, got), correction_of(mixer, twice, got)
    ins = StandIns(mixer, lambda _: True)
    target = Target(colour=wanted)
    assert ins.towards(target, tried=[seen]) == ins.towards(target, tried=[again])
    once, double = addition(mixer, parts, seen, wanted), addition(mixer, twice, again, wanted)
    assert (once is None) == (double is None)
    if once is not None and double is not None:
        assert [(p, 2 * n) for p, n in once.parts] == list(double.parts)
        assert once.de00 == double.de00
