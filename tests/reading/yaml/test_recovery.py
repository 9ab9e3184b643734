"""Every fault of a file is told in one reading, at its place, and what stands around it is read all the same."""

from __future__ import annotations

from typing import Any

import pytest

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source
from guidegen.reading.content.guide import MADE
from guidegen.reading.content.paints import MIX, PAINT
from guidegen.reading.content.plan import UNIT
from guidegen.reading.content.reference import REFERENCE, SWATCH
from guidegen.reading.content.steps import INSERT, STEP, STOP
from guidegen.reading.types.items import ITEM
from guidegen.reading.types.photos import PHOTO
from guidegen.reading.yaml.indents import FIRST_KEYS
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, tree_of

GUIDE = """\
title: Eel seller
summary: She sells eels by the lock.
tags: [eels, market]
choose:
  headgear: [hood, straw hat]
steps:
  - step: Prime
    technique: spray
    paint: Slate Undercoat
    once: 10 min
  - step: Apron
    technique: base coat
    area: apron
    paint: Oilskin Ochre
    each: 4 min
    mind: the strings
  - {step: Eels, area: eels, paint: Brass Lamp, each: 2 min}
  - step: Buckle
    area: buckle
    paint: Brass Lamp
    each: 1 min
  - stop: Fit for the market
figures: 10
"""


def plain(node: Node | None) -> Any:
    if isinstance(node, MapNode):
        return [(entry.key.value, plain(entry.value)) for entry in node.entries]
    if isinstance(node, ListNode):
        return [plain(item) for item in node.items]
    return node.value if node is not None else None


def marked(source: Source, one: Diagnostic) -> str:
    start = source.offset(one.span.line, one.span.column)
    return source.text[start : source.offset(one.span.end_line, one.span.end_column)]


def mended(source: Source, diagnostics: tuple[Diagnostic, ...]) -> str:
    """The text with its fixes put in, from the last to the first."""
    text = source.text
    for one in sorted(diagnostics, key=lambda one: one.span, reverse=True):
        assert one.fix is not None, f"no fix: {one.message}"
        span = one.fix.span
        start, end = source.offset(span.line, span.column), source.offset(span.end_line, span.end_column)
        text = text[:start] + one.fix.text + text[end:]
    return text


# What stood in the guide, what stands there now, and what is marked.
SURE = {
    "no space after a colon, first": ("title: Eel", "title:Eel", "title:Eel seller"),
    "no space after a colon, after a dash": ("- step: Apron", "- step:Apron", "- step:Apron"),
    "no space after a colon, within": ("area: apron\n", "area:apron\n", "area:apron"),
    "no space after a colon, last of a step": ("mind: the", "mind:the", "mind:the strings"),
    "no space after a colon, at the end": ("figures: 10", "figures:10", "figures:10"),
    "no space after a colon in braces": ("area: eels,", "area:eels,", "area:eels"),
    "lost quotes": ("title: Eel seller", "title: Eel: the seller", "Eel: the seller"),
    "lost quotes in a step": ("step: Buckle", "step: Buckle: brass", "Buckle: brass"),
    "lost quotes in braces": ("{step: Eels,", "{step: Eels: a heap,", "step: Eels: a heap"),
    "a quote that is not closed": ("title: Eel seller", 'title: "Eel seller', '"'),
    "a quote of one stroke that is not closed": ("mind: the strings", "mind: 'the strings", "'"),
    "a quote within quotes": ("mind: the strings", "mind: 'the wearer's strings'", "'the wearer's strings'"),
    "a sign at the beginning": ("mind: the strings", "mind: @the strings", "@the strings"),
    "a tab": ("    area: apron", "\tarea: apron", "\t"),
    "two tabs": ("    area: apron", "\t\tarea: apron", "\t"),
    "a tab after a dash": ("  - step: Apron", "  -\tstep: Apron", "\t"),
    "no space after a dash": ("  - step: Apron", "  -step: Apron", "-step: Apron"),
    "no space after a dash, in braces": ("  - {step", "  -{step", None),
    "no dash": ("  - step: Apron", "  step: Apron", "step: Apron"),
    "two spaces for a dash": ("  - step: Apron", "    step: Apron", None),
    "no dash at the first": ("  - step: Prime", "  step: Prime", "step: Prime"),
    "no dash before braces": ("  - {step", "  {step", None),
    "no dash before a stop": ("  - stop: Fit", "  stop: Fit", None),
    "column nought": ("    area: apron", "area: apron", "area: apron"),
    "column nought, first after the dash": ("    technique: base", "technique: base", "technique: base coat"),
    "column nought, last of a step": ("    mind: the", "mind: the", "mind: the strings"),
    "column nought, before a step": ("    once: 10", "once: 10", "once: 10 min"),
    "column nought, before a stop": ("    each: 1 min", "each: 1 min", "each: 1 min"),
    "one column short": ("    area: apron", "   area: apron", "area: apron"),
    "one column too far": ("    area: apron", "     area: apron", "area: apron"),
    "two columns too far": ("    area: apron", "      area: apron", "area: apron"),
    "in the column of the dash": ("    area: apron", "  area: apron", "area: apron"),
    "a key of the guide set in": ("summary: She", "  summary: She", "summary: She sells eels by the lock."),
    "a star for a dash": ("  - step: Apron", "  * step: Apron", "* step: Apron"),
    "a number for a dash": ("  - step: Apron", "  2. step: Apron", "2. step: Apron"),
    "a long dash": ("  - step: Apron", "  – step: Apron", "– step: Apron"),
    "no brace": ("{step: Eels,", "step: Eels,", None),
    "no colon after a key alone": ("steps:\n", "steps\n", "steps"),
    "two lines set in too far": ("    area: buckle\n    paint", "      area: buckle\n      paint", None),
    "a dash set in too far": ("  - step: Apron", "   - step: Apron", "- step: Apron"),
}


@pytest.mark.parametrize("case", SURE)
def test_a_slip_is_told_once_and_can_be_mended(case: str):
    before, after, piece = SURE[case]
    assert GUIDE.count(before) == 1
    source = Source(file="guides/a.md", text=GUIDE.replace(before, after))
    tree = tree_of(source)
    lines = 1 + (case == "two lines set in too far")
    assert [one.code for one in tree.diagnostics] == ["bad-yaml"] * lines
    line = source.text[: source.text.index(after) + len(after) - 1].count("\n") + 1
    assert tree.diagnostics[-1].span.line == line
    if piece is not None:
        assert marked(source, tree.diagnostics[0]) == piece
    fixed = Source(file="guides/a.md", text=mended(source, tree.diagnostics))
    right = tree_of(fixed)
    assert right.diagnostics == ()
    assert not tree.broken
    assert plain(tree.root) == plain(right.root)
    same = {
        "lost quotes",
        "lost quotes in a step",
        "lost quotes in braces",
        "a quote within quotes",
        "a sign at the beginning",
    }
    if case not in same:
        assert plain(tree.root) == plain(tree_of(Source(file="guides/a.md", text=GUIDE)).root)


# Slips where only the author knows; what stands elsewhere is read.
DOUBTFUL = {
    "a bracket too many": ("market]", "market]]", "]"),
    "another bracket": ("market]", "market}", "}"),
    "two commas": ("[eels, market", "[eels,, market", ","),
    "no colon": ("    area: apron", "    area apron", "area apron"),
    "an anchor": ("title: Eel seller", "title: &eel Eel seller", "&eel Eel seller"),
    "a merge": ("    area: apron", "    <<: apron", "<<"),
    "text after quotes": ("title: Eel seller", 'title: "Eel" seller', '"Eel" seller'),
    "a backslash": ("title: Eel seller", 'title: "Eel\\seller"', "\\s"),
    "an unseen character": ("summary: She", "summary: \x0bShe", "\x0b"),
}


@pytest.mark.parametrize("case", DOUBTFUL)
def test_what_stands_around_a_doubtful_one_is_read(case: str):
    before, after, piece = DOUBTFUL[case]
    assert GUIDE.count(before) == 1
    source = Source(file="guides/a.md", text=GUIDE.replace(before, after))
    tree = tree_of(source)
    assert [(one.code, one.fix) for one in tree.diagnostics] == [("bad-yaml", None)]
    assert marked(source, tree.diagnostics[0]) == piece
    assert tree.broken
    assert isinstance(tree.root, MapNode)
    read = dict(plain(tree.root))
    assert read["figures"] == "10"
    assert [dict(step).get("each") for step in read["steps"]][3:] == ["1 min", None]


@pytest.mark.parametrize(("before", "after", "sign"), [("market]", "market", "]"), ("2 min}", "2 min", "}")])
def test_a_bracket_that_can_only_end_with_its_line_is_closed_there(before: str, after: str, sign: str):
    tree = tree_of(Source(file="guides/a.md", text=GUIDE.replace(before, after)))
    assert [(one.code, one.fix.text if one.fix else "") for one in tree.diagnostics] == [("bad-yaml", sign)]
    assert plain(tree.root) == plain(tree_of(Source(file="guides/a.md", text=GUIDE)).root)


def test_a_key_without_a_value_in_brackets_is_taken_out_within_its_line():
    tree = tree_of(Source(file="guides/a.md", text="tags: [2its:\n mind: 2"))
    assert [one.message for one in tree.diagnostics] == [
        "The [ opened here is not closed.",
        "A comma is missing before mind.",
    ]


def test_a_guide_set_in_by_tabs_is_read_at_once():
    lines = GUIDE.split("\n")
    tabbed = "\n".join(
        line.replace("    ", "\t\t", 1).replace("  ", "\t", 1) if line[:1] == " " else line for line in lines
    )
    source = Source(file="guides/a.md", text=tabbed)
    tree = tree_of(source)
    assert {one.message.split(" ")[1] for one in tree.diagnostics} == {"tab"}
    assert [one.span.line for one in tree.diagnostics] == [
        n for n, line in enumerate(lines, 1) if line[:1] == " "
    ]
    assert plain(tree.root) == plain(tree_of(Source(file="guides/a.md", text=GUIDE)).root)
    assert mended(source, tree.diagnostics) == GUIDE


def test_tabs_that_can_be_read_in_two_ways_are_not_mended():
    """Either the second key belongs to the first one's value, or beside it."""
    tree = tree_of(Source(file="a.yaml", text="a:\n    b:\n\tc: 1\n"))
    assert [one.fix for one in tree.diagnostics] == [None]


def test_many_slips_at_once():
    cases = (
        "no space after a colon, first",
        "lost quotes in braces",
        "no dash",
        "column nought",
        "column nought, before a stop",
        "no space after a dash",
    )
    text = GUIDE
    lines = []
    for case in cases[:-1]:
        before, after, _ = SURE[case]
        text = text.replace(before, after)
    text = text.replace("  - step: Buckle", "  -step: Buckle")
    source = Source(file="guides/a.md", text=text)
    tree = tree_of(source)
    lines = [one.span.line for one in sorted(tree.diagnostics, key=lambda one: one.span)]
    assert lines == [1, 11, 13, 17, 18, 21]
    assert not tree.broken
    assert mended(source, tree.diagnostics) == GUIDE.replace("{step: Eels,", '{step: "Eels: a heap",')


def test_places_behind_a_slip_are_those_of_the_file():
    text = "title:Eel #2\nnote: a: b\nc: Grey #2\n"
    source = Source(file="a.yaml", text=text)
    pieces = {(one.code, marked(source, one)) for one in tree_of(source).diagnostics}
    assert ("text-after-hash", "Grey #2") in pieces
    assert ("bad-yaml", "a: b") in pieces


def test_the_keys_that_begin_entries_are_those_of_the_tables():
    lists = (STEP, STOP, INSERT, MADE, PHOTO, REFERENCE, SWATCH, ITEM, PAINT, MIX, UNIT)
    assert {record.keys[0].name for record in lists} == FIRST_KEYS
