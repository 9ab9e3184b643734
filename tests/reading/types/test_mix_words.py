"""Mixtures as people write them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.base.suggest import folded
from guidegen.reading.types.amounts import measure_of
from guidegen.reading.types.mix_words import as_typed, read_mix

POTS = (
    "Wet Leather",
    "Old Rope",
    "Salz & Asche",
    "Opa's Mantel",
    "Gull",
    "Grey",
    "Rivers",
    "Moss + Lichen",
    "Sail, dark",
)


def knows(name: str) -> bool:
    return folded(name) in {folded(pot) for pot in POTS}


def parts(text: str) -> list[tuple[str, float]] | None:
    found = read_mix(text, knows)
    return None if found is None else [(part.name, part.measure.number) for part in found]


TWO_TO_ONE = [("Wet Leather", 2), ("Old Rope", 1)]


@pytest.mark.parametrize(
    "text",
    [
        "Wet Leather 2:1 Old Rope",
        "Wet Leather 2 : 1 Old Rope",
        "2:1 Wet Leather and Old Rope",
        "Wet Leather / Old Rope 2:1",
        "Wet Leather and Old Rope (2:1)",
        "2 Wet Leather + 1 Old Rope",
        "2 Wet Leather + Old Rope",
        "2x Wet Leather + 1x Old Rope",
        "Wet Leather: 2, Old Rope: 1",
        "Wet Leather:2, Old Rope:1",
        "2 parts Wet Leather and 1 part Old Rope",
        "2 parts of Wet Leather, 1 part of Old Rope",
        "two parts Wet Leather and one part Old Rope",
        "2 Teile Wet Leather und 1 Teil Old Rope",
        "2 drops Wet Leather + 1 drop Old Rope",
        "Wet Leather (2 parts), Old Rope (1 part)",
        "Wet Leather (2) + Old Rope (1)",
        "Wet Leather x2, Old Rope x1",
        "a mix of 2 Wet Leather to 1 Old Rope",
    ],
)
def test_two_to_one(text: str):
    assert parts(text) == TWO_TO_ONE


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Wet Leather + Old Rope", [("Wet Leather", 1), ("Old Rope", 1)]),
        ("Wet Leather + a touch of Gull", [("Wet Leather", 1), ("Gull", 0.1)]),
        ("Wet Leather and a drop of Gull", [("Wet Leather", 1), ("Gull", 0.1)]),
        ("Wet Leather with a bit of Gull", [("Wet Leather", 1), ("Gull", 0.1)]),
        ("Wet Leather and a little Gull", [("Wet Leather", 1), ("Gull", 0.1)]),
        ("Wet Leather 2/1 Gull", [("Wet Leather", 2), ("Gull", 1)]),
        ("Wet Leather mit etwas Gull", [("Wet Leather", 1), ("Gull", 0.1)]),
        ("mix of Wet Leather and Old Rope", [("Wet Leather", 1), ("Old Rope", 1)]),
        ("equal parts Wet Leather, Gull and Grey", [("Wet Leather", 1), ("Gull", 1), ("Grey", 1)]),
        ("Mischung aus Wet Leather und Gull", [("Wet Leather", 1), ("Gull", 1)]),
        ("Wet Leather 50/50 Gull", [("Wet Leather", 1), ("Gull", 1)]),
        ("Wet Leather thinned 1:2 with Gull", [("Wet Leather", 1), ("Gull", 2)]),
        ("Wet Leather + ein Hauch Gull", [("Wet Leather", 1), ("Gull", 0.1)]),
        ("70% Wet Leather + 30% Gull", [("Wet Leather", 70), ("Gull", 30)]),
        ("Wet Leather 70 %, Gull 30 %", [("Wet Leather", 70), ("Gull", 30)]),
        ("½ Wet Leather + 1/2 Gull", [("Wet Leather", 0.5), ("Gull", 0.5)]),
        ("Salz & Asche 2:1 Gull", [("Salz & Asche", 2), ("Gull", 1)]),
        ("2 Salz & Asche + 1 Gull", [("Salz & Asche", 2), ("Gull", 1)]),
        ("Moss + Lichen + Gull", [("Moss + Lichen", 1), ("Gull", 1)]),
        ("Sail, dark: 2, Gull: 1", [("Sail, dark", 2), ("Gull", 1)]),
        ("Opa's Mantel:2, Gull: 1", [("Opa's Mantel", 2), ("Gull", 1)]),
        ("Wet Lether 2:1 Old Rope", [("Wet Lether", 2), ("Old Rope", 1)]),
        ("Wet Leather + Old Rop + Gull", [("Wet Leather", 1), ("Old Rop", 1), ("Gull", 1)]),
        ("Skin 2: 1, Gull: 3", [("Skin 2", 1), ("Gull", 3)]),
        ("RB-05: 1, Gull: 3", [("RB-05", 1), ("Gull", 3)]),
        ("70 Grey + Gull", [("70 Grey", 1), ("Gull", 1)]),
    ],
)
def test_other_ways(text: str, expected: list[tuple[str, float]]):
    assert parts(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        *("mix of Gull", "Skin (2)", "Gull x2", "Road to 1 Gull"),
        *("Moss + Lichen", "Salz & Asche", "Wet Leather", "Skin 3", "K-31/08", "No. 1 Blue", "Foo + Bar", ""),
        *(
            "Wet Leather and Old Rope",
            "Wet Leather, Old Rope",
            "Wet Leather/Gull",
            "2 parts Gull",
            "Wet Leather 2, Gull 1",
        ),
        *(
            "Wet Leather + 30% Gull",
            "Wet Leather + 2 drops of Gull",
            "a" + " + a" * 40,
            "1:2",
            "+",
            ", ,",
            "2:1 and",
        ),
    ],
)
def test_a_name_or_nothing_certain(text: str):
    assert parts(text) is None


def test_what_is_meant_by_odd_amounts():
    for text, typed in (
        ("Wet Leather + 2 drops of Gull", "{Wet Leather: 1, Gull: a drop}"),
        ("Wet Leather + 30% Gull", "{Wet Leather: 70%, Gull: 30%}"),
        ("2 Wet Leather + a touch of Gull", "{Wet Leather: 2, Gull: a touch}"),
    ):
        found = read_mix(text, knows, odd=True)
        assert found is not None
        assert as_typed(found) == typed


@pytest.mark.parametrize(
    "text", ["0", "1/0", "10001", "2 x 3", "-1", "parts", "one", "a b drop", "1 2", "%", "٣"]
)
def test_no_amount(text: str):
    assert measure_of(text) is None


amounts = st.integers(1, 20)


@given(
    amounts,
    amounts,
    st.sampled_from(
        ("{} {n}:{} {m}", "{n} {} + {m} {}", "{}: {n}, {}: {m}", "{n} parts {} and {m} parts {}")
    ),
)
def test_what_is_written_comes_back(first: int, last: int, form: str):
    if form.startswith("{} {n}"):
        text = f"Wet Leather {first}:{last} Old Rope"
    else:
        text = form.format("Wet Leather", "Old Rope", n=first, m=last)
    assert parts(text) == [("Wet Leather", first), ("Old Rope", last)]


@given(st.text(alphabet="2:1 +,&%½GullandOpa's/()", max_size=60))
def test_no_text_upsets_it(text: str):
    found = read_mix(text, knows)
    assert found is None or len(found) > 1
