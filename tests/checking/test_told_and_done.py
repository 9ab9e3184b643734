"""Whoever does what a message says has nothing left to mend: by `--fix`, and by typing what stands after Write."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from support.content_folders import lay_out, put

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source
from guidegen.building.check import check
from guidegen.commands.fixes import apply_fixes

CONTENT = """
» palette.yaml
paints:
  - {name: Oilskin Ochre, colour: b8862f}
  - {name: Fisherman's Cheek, colour: c99b8a}
  - {name: Silt Wash, kind: wash, colour: 4a3b2a}
"""

GUIDE = """\
---
title: Eel seller
choose: {hat: [felt hat, cap]}
steps:
  - step: Apron
    area: apron
    paint: Oilskin Ochre
    each: 4 min
    dry: 10 min
  - step: Cheeks
    area: cheeks
    paint: "Fisherman's Cheek"
    each: 1 min
    mind: the nose
  - {step: Felt, area: hat, paint: Oilskin Ochre, each: 1 min, only: {hat: felt hat}}
  - {step: Cap, area: hat, paint: Oilskin Ochre, each: 1 min, only: {hat: cap}}
  - {step: Folds, area: apron, technique: wash, paint: Silt Wash, each: 1 min, dry: 30 min}
  - stop: Fit for the market
---

## Apron
The strings come last.
"""

# What stood in the guide, and what stands there now.
SLIPS = (
    ("title: Eel seller", "title:Eel seller"),
    ("title: Eel seller", "title: Eel seller: the old one"),
    ("title: Eel seller", 'title: "Eel seller'),
    ("title: Eel seller", "name: Eel seller"),
    ("    area: apron\n", "\tarea: apron\n"),
    ("    area: apron\n", "area: apron\n"),
    ("    area: apron\n", "     area: apron\n"),
    ("    area: apron\n", "   area:apron\n"),
    ("    area: apron\n", "    areas: apron\n"),
    ("  - step: Cheeks", "  step: Cheeks"),
    ("  - step: Cheeks", "    step: Cheeks"),
    ("  - step: Cheeks", "  -step: Cheeks"),
    ("  - stop: Fit", "  stop: Fit"),
    ('"Fisherman\'s Cheek"', "'Fisherman's Cheek'"),
    ('"Fisherman\'s Cheek"', "Fishermans Cheek"),
    ("    mind: the nose", "    tip: the nose"),
    ("    dry: 10 min", "    drying: 10 min"),
    ("    each: 4 min", "    time: 4 min"),
    ("{step: Felt, area: hat,", "{step: Felt, area:hat,"),
    ("only: {hat: felt hat}", "only: felt hat"),
    ("only: {hat: cap}", "only: {hat: capp}"),
    ("only: {hat: cap}", "only: {hatt: cap}"),
    ("only: {hat: cap}", "only: {hat: ca}"),
    ("only: {hat: felt hat}", "only: {felt hat}"),
    ("only: {hat: felt hat}", "only: felt"),
    ("    each: 4 min", "    each: 4m30s"),
    ("area: apron, technique: wash", "area: the apron, technique: wash"),
    ("technique: wash", "technique: wsh"),
    ("technique: wash", "technique: Tusche"),
    ("area: apron, technique: wash", "area: aprons, technique: wash"),
    ("area: apron, technique: wash", "area: aprn, technique: wash"),
    ("area: apron, technique: wash", "area: apron and cheeks, technique: wash"),
    ("choose: ", "made: 2026-10-03, 12 figures\nchoose: "),
    ("choose: ", "meant: [unseeled]\nchoose: "),
    ("choose: ", "meant: {Aporn: [unsealed]}\nchoose: "),
    ("## Apron", "##Apron"),
    ("## Apron", "## Aprn"),
)


def typed(source: Source, one: Diagnostic) -> str:
    """The file with what its author types who does as the message says."""
    span = one.span
    start, end = source.offset(span.line, span.column), source.offset(span.end_line, span.end_column)
    marked = source.text[start:end]
    said = re.match(r"Write (?:## )?(.*?)(?: \(.*| if .*)?\.$", one.help)
    assert said is not None, one.help
    text = said[1]
    key = re.match(r"([a-z_]+): ", text)
    if key and not marked.startswith(key[1]) and source.text[:start].endswith(f"{key[1]}: "):
        text = text[key.end() :]  # the message shows the key as well
    if one.help.startswith("Write ## ") and marked.startswith("#"):
        text = f"## {text}"
    return source.text[:start] + text + source.text[end:]


@pytest.mark.parametrize(("before", "after"), SLIPS)
def test_who_does_what_is_said_has_nothing_left_to_mend(tmp_path: Path, before: str, after: str):
    assert GUIDE.count(before) == 1
    text = GUIDE.replace(before, after)
    content = put(lay_out(tmp_path, CONTENT), {"guides/a.md": text.encode()})
    told = apply_fixes(content).checked.diagnostics
    for _ in range(3):
        if not told:
            break
        source = Source(file="guides/a.md", text=(content / "guides/a.md").read_text(encoding="utf-8"))
        (content / "guides/a.md").write_text(typed(source, told[0]), encoding="utf-8")
        told = check(content).diagnostics
    assert told == ()


@pytest.mark.parametrize(("before", "after"), SLIPS)
def test_a_slip_is_told_once(tmp_path: Path, before: str, after: str):
    content = put(lay_out(tmp_path, CONTENT), {"guides/a.md": GUIDE.replace(before, after).encode()})
    assert len(check(content).diagnostics) == (2 if after == "   area:apron\n" else 1)


@pytest.mark.parametrize(
    ("typed_word", "ours"), [("nothing", "none"), ("same as above", "as before"), ("wie oben", "as before")]
)
def test_words_for_no_paint_and_the_one_before_are_named(tmp_path: Path, typed_word: str, ours: str):
    text = GUIDE.replace('"Fisherman\'s Cheek"', typed_word)
    content = put(lay_out(tmp_path, CONTENT), {"guides/a.md": text.encode()})
    (told,) = [one for one in check(content).diagnostics if one.code == "unknown-paint"]
    assert told.help == f"Write {ours}."
