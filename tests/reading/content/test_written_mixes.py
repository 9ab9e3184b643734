"""Mixtures in guides and palettes, written as one text."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.content_folders import lay_out

from guidegen.building.check import check
from guidegen.model.guide import PaintUse, Step
from guidegen.reading.content.archive import read_archive

PALETTE = """» palette.yaml
paints:
  - {name: Wet Leather, colour: 6a4a33, colour_from: maker}
  - {name: Old Rope, colour: b49a6c, colour_from: maker}
  - {name: Opa's Mantel, colour: 3c4046, colour_from: maker}
  - {name: Salz & Asche, colour: d8d6d0, colour_from: maker}
  - {name: Ditchwater, kind: wash, colour: 40341f, colour_from: maker}
"""


def guide_of(tmp_path: Path, paint: str, more: str = "") -> tuple[Step, list[str]]:
    lay_out(tmp_path, PALETTE)
    lay_out(
        tmp_path,
        f"» guides/a.md\n---\ntitle: A\nsteps:\n- step: Coat\n  area: coat\n  {paint}\n  each: 1 min\n{more}---\n",
    )
    archive, _ = read_archive(tmp_path)
    said = [f"{one.code} {one.span.line}:{one.span.column} {one.help}" for one in check(tmp_path).diagnostics]
    return archive.guides[0].steps[0], said


@pytest.mark.parametrize(
    ("paint", "parts"),
    [
        ("paint: Wet Leather 2:1 Old Rope", [("Wet Leather", 2), ("Old Rope", 1)]),
        ('paint: "Wet Leather: 2, Old Rope: 1"', [("Wet Leather", 2), ("Old Rope", 1)]),
        ("paint: [Wet Leather: 2, Old Rope: 1]", [("Wet Leather", 2), ("Old Rope", 1)]),
        ("paint:\n  - Wet Leather: 2\n  - Old Rope: 1", [("Wet Leather", 2), ("Old Rope", 1)]),
        ("paint: {Opa's Mantel:2, Old Rope: 1}", [("Opa's Mantel", 2), ("Old Rope", 1)]),
        ("paint: {Wet Leather: 1/2, Old Rope: ½}", [("Wet Leather", 0.5), ("Old Rope", 0.5)]),
        ("paint: {Wet Leather: 70%, Old Rope: 30%}", [("Wet Leather", 70), ("Old Rope", 30)]),
        ("paint: {Wet Leather: 1, Old Rope: a drop}", [("Wet Leather", 1), ("Old Rope", 0.1)]),
        ("paint: [Wet Leather 70%, Old Rope 30%]", [("Wet Leather", 70), ("Old Rope", 30)]),
        ("paint: [2 parts Wet Leather, 1 part Old Rope]", [("Wet Leather", 2), ("Old Rope", 1)]),
        ("paint:\n  - 2 Wet Leather\n  - 1 Old Rope", [("Wet Leather", 2), ("Old Rope", 1)]),
        ("paint: Salz & Asche + Opa’s Mantel", [("Salz & Asche", 1), ("Opa’s Mantel", 1)]),
        ("paint: Wet Leather 2:1\n    Old   Rope", [("Wet Leather", 2), ("Old Rope", 1)]),
    ],
)
def test_mixed(tmp_path: Path, paint: str, parts: list[tuple[str, float]]):
    step, said = guide_of(tmp_path, paint)
    assert not said
    assert step.paint is not None
    assert step.paint.use is PaintUse.MIXED
    assert [(part.name.text, part.amount) for part in step.paint.parts] == parts


def test_a_slip_in_one_name_is_told_at_that_name(tmp_path: Path):
    _, said = guide_of(tmp_path, "paint: 2 Wet Leather + 1 Old Roope")
    assert said == ["unknown-paint 6:28 Write Old Rope, or add Old Roope to the palette."]


def test_a_slip_in_a_list_of_parts_is_told_at_that_name(tmp_path: Path):
    _, said = guide_of(tmp_path, "paint: [Wet Leather 50%, Old Roope 50%]")
    assert said == ["unknown-paint 6:28 Write Old Rope, or add Old Roope to the palette."]


@pytest.mark.parametrize(
    "paint", ["[Wet Leather, Old Rope]", "[2 Wet Leather, Old Rope]", "[1 Wet Leather, 2 Fog]"]
)
def test_a_list_of_names_is_not_mixed(tmp_path: Path, paint: str):
    step, _ = guide_of(tmp_path, f"paint: {paint}")
    assert step.paint is not None
    assert step.paint.use is PaintUse.SIDE_BY_SIDE


def test_substitutes_can_be_mixed_as_well(tmp_path: Path):
    step, said = guide_of(tmp_path, "paint: Old Rope\n  instead: [Wet Leather 2:1 Salz & Asche]")
    assert not said
    assert [(part.name.text, part.amount) for part in step.instead[0].parts] == [
        ("Wet Leather", 2),
        ("Salz & Asche", 1),
    ]


def test_a_substitute_with_a_note_can_be_a_list_of_parts(tmp_path: Path):
    step, said = guide_of(
        tmp_path, "paint: Old Rope\n  instead: [{paint: [Wet Leather: 2, Old Rope: 1], note: darker}]"
    )
    assert not said
    assert [(part.name.text, part.amount) for part in step.instead[0].parts] == [
        ("Wet Leather", 2),
        ("Old Rope", 1),
    ]


def test_house_mixes_too(tmp_path: Path):
    lay_out(
        tmp_path,
        PALETTE
        + "mixes:\n  - {name: Mud, parts: Wet Leather 2:1 Old Rope}\n  - {name: Silt, parts: [Mud: 1, Old Rope: 1]}\n",
    )
    archive, said = read_archive(tmp_path)
    assert not said
    assert [[part.name.text for part in mix.parts] for mix in archive.palette.mixes] == [
        ["Wet Leather", "Old Rope"],
        ["Mud", "Old Rope"],
    ]


@pytest.mark.parametrize(
    "paint", ["{Ditchwater: 1, water: 2}", "Ditchwater 1:2 water", "1 part Ditchwater and 2 parts water"]
)
def test_water_thins(tmp_path: Path, paint: str):
    step, said = guide_of(tmp_path, f"paint: {paint}")
    assert not said
    assert step.paint is not None
    assert [part.name.text for part in step.paint.parts] == ["Ditchwater"]
    assert step.thin is not None
    assert (step.thin.text, step.thin.paint_share) == ("1:2 water", 0.333333333)


def test_a_thinner_of_the_palette_is_a_pot(tmp_path: Path):
    (tmp_path / "palette").mkdir()
    (tmp_path / "palette" / "more.yaml").write_text(
        "paints: [{name: Water, kind: thinner}]\n", encoding="utf-8"
    )
    step, said = guide_of(tmp_path, "paint: {Ditchwater: 1, water: 2}")
    assert not said
    assert step.paint is not None
    assert step.thin is None
    assert len(step.paint.parts) == 2


def test_a_house_mix_with_water_is_told_what_to_add(tmp_path: Path):
    lay_out(tmp_path, PALETTE + "mixes:\n  - {name: Thin, parts: {Ditchwater: 1, water: 2}}\n")
    _, (told,) = read_archive(tmp_path)
    assert told.help == "Add it to the palette as {name: water, kind: thinner}."
    lay_out(tmp_path, "» palette/more.yaml\npaints: [{name: water, kind: thinner}]\n")
    assert read_archive(tmp_path)[1] == ()
