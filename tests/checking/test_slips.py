"""What painters write by mistake is seen for what it is: one message, and a help that can be copied."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.content_folders import lay_out

from guidegen.base.diagnostic import Diagnostic
from guidegen.building.check import check

TOWN = """
» palette.yaml
paints:
  - {name: Oilskin Ochre, colour: b8862f, colour_from: maker}
  - {name: Brass Lamp, colour: c99b45, colour_from: maker}
» guides/toll-house.md
---
title: Toll house
steps: [{step: Stones, paint: Brass Lamp, each: 1 min}]
---
"""


def said(folder: Path, *, head: str = "", step: str = "") -> tuple[Diagnostic, ...]:
    """What is told of a guide with some more keys; those of the step replace its own."""
    own = {"area": "apron", "paint": "Oilskin Ochre", "each": "4 min"}
    lines = [f"    {key}: {value}" for key, value in own.items() if f"{key}:" not in step]
    lines += [f"    {line}" for line in step.split("\n") if line]
    body = "\n".join(
        ["---", "title: Eel seller", *head.split("\n"), "steps:", "  - step: Apron", *lines, "---", ""]
    )
    lay_out(folder, TOWN)
    lay_out(folder, f"» guides/eel-seller.md\n{body}")
    return check(folder).diagnostics


MIXED = (
    "Write [Oilskin Ochre, Brass Lamp] if they are used side by side; for a mixture give each its parts, "
    "{Oilskin Ochre: 1, Brass Lamp: 1}."
)


@pytest.mark.parametrize(
    ("step", "code", "help_line"),
    [
        ("paint: Oilskin Ochre, Brass Lamp", "unknown-paint", MIXED),
        ("paint: Oilskin Ochre and Brass Lamp", "unknown-paint", MIXED),
        ("paint: Oilskin Ochre + 2 drops of Brass Lamp", "unknown-paint", "Write {Oilskin Ochre: 1, Brass Lamp: a drop}."),
        ("paint: Oilskin Ochre + 30% Brass Lamp", "unknown-paint", "Write {Oilskin Ochre: 70%, Brass Lamp: 30%}."),
        ("paint: Oilskin Ocre 2:1 Brass Lamp", "unknown-paint", "Write Oilskin Ochre, or add Oilskin Ocre to the palette."),
        (
            "paint: {Oilskin Ochre: 70%, Brass Lamp: 1}",
            "bad-value",
            "Write a drop where that is meant; else give all of them in parts, in per cent or in drops.",
        ),
        ("paint: {2 Oilskin Ochre, Brass Lamp: 1}", "bad-value", "Write Oilskin Ochre: 2."),
        (
            "paint: [Oilskin Ochre 2:1 Brass Lamp, Brass Lamp]",
            "unknown-paint",
            "Write {Oilskin Ochre: 2, Brass Lamp: 1} by itself, or give it a name under mixes: in the palette.",
        ),
        ("paint: “Oilskin Ocre”", "unknown-paint", "Write Oilskin Ochre, or add Oilskin Ocre to the palette."),
        ("paint: {Oilskin Ochre 2}", "bad-value", "Write Oilskin Ochre: 2."),
        (
            "paint: {Oilskin Ochre}",
            "bad-value",
            "Write Oilskin Ochre: 1, or put paints that are not mixed in brackets: [Oilskin Ochre, …].",
        ),
        ("area: coat, hood", "bad-value", "Put it in brackets: area: [coat, hood]"),
        ("area: {coat: 1}", "bad-value", "Write one value, as in area: coat"),
        ("only: hood", "bad-value", "Give the guide choose: and write its choice before the option, only: {…: hood}."),
        ("Brush: size 2", "unknown-key", "Write brush."),
        ("look-for: even", "unknown-key", "Write look_for."),
        ("share: 0.2", "bad-value", "Write 20%."),
        ("share: 20", "bad-value", "Add the sign: 20%"),
        ("amount: 0,2 ml", "bad-value", "The decimal sign is a point: 0.2 ml"),
        ("each: 1:30", "bad-duration", "Write 1 min 30 s or 1 h 30 min, whichever is meant."),
        ("each: 2-1 min", "bad-duration", "Write the shorter time first: 1-2 min"),
        ("each: 5 min or an hour", "bad-duration", "Write how long, as in 5 min, or from what to what, as in 5-10 min."),
    ],
)  # fmt: skip
def test_slips_in_a_step(tmp_path: Path, step: str, code: str, help_line: str):
    (one,) = said(tmp_path, step=step)
    assert (one.code, one.help) == (code, help_line)


@pytest.mark.parametrize(
    ("head", "code", "help_line"),
    [
        ("see: toll-house.md", "unknown-guide", "Write toll-house."),
        ("see: ../toll-house/guide.md", "unknown-guide", "Write toll-house."),
        ("see: [tolhouse]", "unknown-guide", "Write toll-house."),
        ("cover: [a.jpg]", "bad-value", "Write it as in cover: finished.jpg"),
        ("tags: eels, market", "bad-value", "Put it in brackets: tags: [eels, market]"),
        ("date: 2026/3/4", "bad-date", "Write 2026-03-04."),
        ("base: 25", "bad-value", "Add the unit: 25 mm"),
        ("coats: 2", "unknown-key", "It belongs to a step; look how far the line is set in."),
    ],
)
def test_slips_in_a_guide(tmp_path: Path, head: str, code: str, help_line: str):
    (one,) = said(tmp_path, head=head)
    assert (one.code, one.help) == (code, help_line)


@pytest.mark.parametrize(
    ("price", "help_line"),
    [
        ("2,80", "The decimal sign is a point: 2.80"),
        ("2,80 EUR", "Write the number alone, 2.80; site.yaml says which currency it is."),
        ("€ 2.80", "Write the number alone, 2.80; site.yaml says which currency it is."),
        ("cheap", "Write the number alone; site.yaml says once which currency it is."),
        ("-3", "Write the number alone; site.yaml says once which currency it is."),
    ],
)
@pytest.mark.parametrize("braces", [True, False])
def test_slips_in_a_price(tmp_path: Path, price: str, help_line: str, braces: bool):
    pot = f"{{name: Reed, colour: fff, price: {price}, owned: 1}}"
    if not braces:
        pot = f"name: Reed\n    colour: fff\n    price: {price}\n    owned: 1"
    (one,) = check(lay_out(tmp_path, f"» palette.yaml\npaints:\n  - {pot}\n")).diagnostics
    assert (one.code, one.help) == ("bad-value", help_line)
    text = (tmp_path / "palette.yaml").read_text(encoding="utf-8").split("\n")[one.span.line - 1]
    assert text[one.span.column - 1 : one.span.end_column - 1] == price


def test_a_units_names_are_looked_at_though_its_figures_cannot_be_read(tmp_path: Path):
    lay_out(tmp_path, TOWN)
    plan = (
        "title: P\nstart: 2026-06-01\nsittings: {sat: '9:00-12:00'}\nunits: [{guide: heron, figures: ten}]\n"
    )
    found = check(lay_out(tmp_path, f"» plans/market.yaml\n{plan}")).diagnostics
    assert [one.code for one in found] == ["unknown-guide", "bad-value"]


def test_a_file_alone_in_braces(tmp_path: Path):
    found = said(tmp_path, step="photo: {apron.jpg}")
    assert [(one.code, one.help.partition(" and ")[0]) for one in found] == [
        ("missing-key", "Add alt:"),
        ("unknown-key", "Write file: apron.jpg."),
    ]
