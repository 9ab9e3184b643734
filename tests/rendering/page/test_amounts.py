"""Amounts as a reader hears them."""

from __future__ import annotations

from dataclasses import replace

import pytest
from support import town
from support.languages import ENGLISH

from guidegen.computing.guide.materials import PaintNeed
from guidegen.model.paint import Kind
from guidegen.rendering.page.amounts import amount_text, shelf_text, two_figures

NEED = PaintNeed(
    paint=town.paint("Oilskin Ochre", "#b8862f"), steps=(1,), ml=1.5, drops=30.0, owned=0, buy=1, cost=2.8
)


@pytest.mark.parametrize(
    ("ml", "drops", "said"),
    [
        (1.5, 30.0, "30 drops, 1.5 ml"),
        (1.549, 30.98, "31 drops, 1.5 ml"),
        (0.0341, 0.682, "2 drops"),
        (0.004, 0.08, "a trace"),
        (33.4, 668.0, "33 ml"),
        (None, None, "by eye"),
    ],
)
def test_two_figures_at_most(ml: float | None, drops: float | None, said: str) -> None:
    assert amount_text(replace(NEED, ml=ml, drops=drops), ENGLISH) == said


def test_cans_powders_and_pastes_are_not_poured() -> None:
    can = replace(NEED.paint, comes_as="can")
    powder = replace(NEED.paint, kind=Kind.PIGMENT)
    assert amount_text(replace(NEED, paint=can, ml=1.5), ENGLISH) == "1.5 ml"
    assert amount_text(replace(NEED, paint=powder, ml=0.05, drops=1.0), ENGLISH) == "0.05 ml"
    paste = replace(NEED.paint, kind=Kind.PASTE)
    assert amount_text(replace(NEED, paint=paste), ENGLISH) == "1.5 ml"


def test_halves_go_up_as_in_browsers() -> None:
    assert [two_figures(value, ENGLISH) for value in (0.125, 2.25, 250.0, 99.5)] == [
        "0.13",
        "2.3",
        "250",
        "100",
    ]


def test_what_is_missing_is_said() -> None:
    assert shelf_text(NEED, ENGLISH) == "buy 1 pot"
    assert shelf_text(replace(NEED, buy=3), ENGLISH) == "buy 3 pots"
    assert shelf_text(replace(NEED, owned=1, buy=0), ENGLISH) == "on the author’s shelf"
