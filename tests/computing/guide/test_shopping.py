"""Shopping lists: totals, and tables that a spreadsheet shows and never runs."""

from __future__ import annotations

import csv
import io

import pytest
from support.guides import item, needs, scheme, titled
from support.paints import palette_of, pot

from guidegen.base.csv_cells import money, number, safe_cell
from guidegen.computing.guide.materials import shopping, supplies
from guidegen.computing.guide.shopping import PAINT_COLUMNS, materials_csv, shopping_csv, to_buy, total
from guidegen.reading.paint_lists.csv_list import read_csv

PALETTE = palette_of(
    pot("Oilskin Ochre", "#b8862f", range="Reedbank Acrylics", size=12.0, price=2.8),
    pot("Silt Wash", "#4a3b2a", "wash", range="Ninelock", size=18.0, price=3.4, owned=1),
    pot("Dredged Rust", "#9a552d", "effect", size=20.0),
)
STEPS = (
    titled("Coats", "base coat", "Oilskin Ochre", amount=1.0, tools=(item("brush, size 2"),)),
    titled("Darken", "wash", "Silt Wash", amount=1.0, materials=(item("gloss gel", purpose="=puddles"),)),
    titled("Rust", "sponge", "Dredged Rust", amount=1.0),
)


def rows(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_two_guides_and_a_shelf():
    """Ten of the watch and twenty by a second guide: what both take together decides what to buy."""
    listed = shopping([needs(PALETTE, *STEPS, figures=10), needs(PALETTE, *STEPS[:2], figures=20)])
    assert [(need.paint.name, need.ml, need.owned, need.buy) for need in listed] == [
        ("Oilskin Ochre", 30.0, 0, 3),
        ("Silt Wash", 30.0, 1, 1),
        ("Dredged Rust", 10.0, 0, 1),
    ]
    summed = total(listed)
    assert (summed.pots, summed.cost) == (5, 11.8)
    assert [paint.name for paint in summed.unpriced] == ["Dredged Rust"]


def test_what_the_shelf_holds_is_not_to_buy():
    listed = needs(PALETTE, *STEPS)
    assert [need.paint.name for need in to_buy(listed)] == ["Oilskin Ochre", "Dredged Rust"]
    assert total([]) == total(needs(PALETTE, STEPS[1]))


def test_the_table_of_a_guide():
    materials, tools = supplies(scheme(PALETTE, *STEPS))
    text = materials_csv(needs(PALETTE, *STEPS), materials, tools, "EUR")
    assert text.startswith(",".join(PAINT_COLUMNS) + "\r\n")
    listed = rows(text)
    assert [row["what"] for row in listed] == ["paint", "paint", "paint", "material", "tool"]
    assert listed[0] | {"drops": "20"} == listed[0]
    assert (listed[0]["ml"], listed[0]["price"], listed[0]["cost"], listed[0]["currency"]) == (
        "1",
        "2.80",
        "2.80",
        "EUR",
    )
    assert (listed[2]["price"], listed[2]["cost"]) == ("", "")
    assert (listed[3]["name"], listed[3]["for"], listed[3]["steps"]) == ("gloss gel", "'=puddles", "2")
    assert listed[4]["name"] == "brush, size 2"


@pytest.mark.parametrize("name", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"])
def test_no_cell_is_a_formula(name: str):
    own = palette_of(pot(name, "#123456", code="=2"))
    listed = rows(shopping_csv(needs(own, titled("a", "layer", name)), "=EUR"))
    assert listed[0]["name"] == safe_cell(name) == "'" + name.replace("\t", "\t'").replace("\r", "\r'")
    assert listed[0]["code"] == "'=2"
    assert listed[0]["currency"] == "'=EUR"
    assert not any(cell.startswith(("=", "+", "-", "@", "\t", "\r")) for cell in listed[0].values())


def test_plain_cells_stay_as_they_are():
    assert safe_cell("Cut Osier - dark") == "Cut Osier - dark"
    assert (number(None), number(12.0), number(0.00012), number(0.1 + 0.2)) == ("", "12", "0.0001", "0.3")
    assert (money(None), money(2.8)) == ("", "2.80")


def test_quotes_and_line_ends_follow_rfc_4180():
    own = palette_of(pot('Ferryman\'s "Slate", dark', "#4c5660"))
    text = shopping_csv(needs(own, titled("a", "layer", 'Ferryman\'s "Slate", dark')), "EUR")
    assert '"Ferryman\'s ""Slate"", dark"' in text
    assert text.count("\r\n") == text.count("\n") == 2


def test_the_table_comes_back_as_a_palette():
    materials, tools = supplies(scheme(PALETTE, *STEPS))
    back = read_csv(materials_csv(needs(PALETTE, *STEPS), materials, tools, "EUR"))
    assert back.problems == ()
    assert [(row.name, row.range, row.colour, row.size, row.price, row.owned) for row in back.paints] == [
        (paint.name, paint.range or "", paint.colour, paint.size, paint.price, paint.owned)
        for paint in PALETTE.paints
    ]
