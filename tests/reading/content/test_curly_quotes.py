"""Quotes and apostrophes as word processors and telephones type them."""

from __future__ import annotations

import pytest

from guidegen.base.source import Source
from guidegen.base.suggest import folded
from guidegen.model.paint import Mix, Paint, Palette
from guidegen.reading.content.guide import read_guide
from guidegen.reading.content.palette import palette_of, read_palette_file


def palette(text: str) -> Palette:
    file, told = read_palette_file(Source(file="palette.yaml", text=text))
    found, more = palette_of([file])
    assert (*told, *more) == ()
    return found


def test_an_apostrophe_is_one_however_it_is_typed():
    assert (
        len(
            {
                folded(name)
                for name in (
                    "Fisherman's Cheek",
                    "Fisherman’s Cheek",
                    "Fisherman‘s cheek",
                    "FISHERMANʼS CHEEK",
                )
            }
        )
        == 1
    )
    pots = palette(
        "paints:\n- {name: Fisherman's Cheek, colour: dba98a}\nmixes:\n- {name: Tan, parts: {Fisherman’s Cheek: 1}}\n"
    )
    assert isinstance(pots.find("Fisherman’s Cheek"), Paint)
    assert isinstance(pots.find("Tan"), Mix)


@pytest.mark.parametrize("typed", ["“Rost”", "„Rost“", "„Rost”", "‘Rost’", "»Rost«", "«Rost»", "“ Rost ”"])
def test_quotes_around_a_name_are_no_part_of_it(typed: str):
    pots = palette(
        f"paints:\n- name: {typed}\n  colour: “8a4b2a”\n  aliases: [{typed[0]}Rot{typed[-1]}]\n  size: “17 ml”\nmixes:\n- {{name: Brei, parts: {{{typed}: 1}}}}\n"
    )
    (paint,) = pots.paints
    assert (paint.name, paint.colour, paint.aliases, paint.size) == ("Rost", "#8a4b2a", ("Rot",), 17.0)
    assert pots.mixes[0].parts[0].name.text == "Rost"


@pytest.mark.parametrize("name", ["“Rost” und “Gold”", "Rost”", "“", "“”", "Opa's “Rost”"])
def test_other_quotes_stay(name: str):
    assert palette(f"paints:\n- name: {name}\n  colour: 8a4b2a\n").paints[0].name == name


def test_within_straight_quotes_they_are_meant():
    assert palette('paints:\n- name: "“Rost”"\n  colour: 8a4b2a\n').paints[0].name == "“Rost”"


def test_a_step_can_be_typed_in_them():
    text = "---\ntitle: “Deich”\nsteps:\n- stop: “Fit”\n- {step: Coat, technique: “wash”, paint: “Rost”, each: “2 min”, area: ‘coat’, optional: “yes”}\n---\n"
    guide, told = read_guide(Source(file="guides/a.md", text=text), slug="a")
    assert guide is not None
    assert not told
    (step,) = guide.steps
    assert step.paint is not None
    assert (step.paint.parts[0].name.text, step.each, step.areas[0].text, step.optional, step.technique) == (
        "Rost",
        120_000,
        "coat",
        True,
        "wash",
    )
    assert guide.title == "“Deich”"
