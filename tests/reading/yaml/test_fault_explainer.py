"""Faults in YAML, as painters make them: each is marked where it is mended, in words of no programmer."""

from __future__ import annotations

import pytest
import yaml

from guidegen.base.source import Source
from guidegen.reading.yaml import nodes as yaml_nodes
from guidegen.reading.yaml.nodes import tree_of

# A text, what is marked in it, and a word or two that the sentence or the help has.
FAULTS = (
    ("title: Coats: the second\nb: 1\n", "Coats: the second", 'title: "Coats: the second"'),
    ("steps:\n  - step: Coats: two\n    each: 1\n", "Coats: two", 'step: "Coats: two"'),
    ("a: {title: Coats: the second, b: 1}\n", "title: Coats: the second", '"Coats: the second"'),
    ("a: {b: 1 c: 2}\n", "b: 1 c: 2", "comma"),
    ("a: {b: 1\n    c: 2}\n", "c", "Put one after “b: 1”"),
    ('a: "open\nb: 1\n', '"', "not closed"),
    ("a: 'open\nb: 1\n", "'", "not closed"),
    ('- a: "x"\n- "b: 1\n- c\n', '"', "not closed"),
    ("a: 'Caulker's Pitch'\nb: 1\n", "'Caulker's Pitch'", "after the closing quote"),
    ('a: "Grey" paint\nb: 1\n', '"Grey" paint', "after the closing quote"),
    ('a: {n: "Grey" paint}\n', '"Grey" paint', "after the closing quote"),
    ("a: {b: 1, c: 2\nd: 3\n", "{", "not closed"),
    ("- {a: 1, b: 2\n- {c: 3}\n", "{", "not closed"),
    ("a: [b, c\nd: 3\n", "[", "not closed"),
    ("a: [b, c\n", "[", "not closed"),
    ("a: [Red, # warm]\nb: 1\n", "[", "remark that hides"),
    ("a: [b]]\nd: 3\n", "]", "closes nothing"),
    ("a: {b: 1}}\n", "}", "closes nothing"),
    ("a: {b: 1]\n", "]", "closed with ]"),
    ("a: {note: see [b] there, c: 1}\n", "[", "in the middle of a text"),
    ("a: [b,, c]\n", ",", "Nothing stands before this comma"),
    ("a:\n\tb: 1\n", "\t", "A tab"),
    ("a:\n  - b: 1\n\tc: 2\n", "\t", "A tab"),
    ("a: @night\n", "@night", '"@night"'),
    ("a: `code`\n", "`code`", '"`code`"'),
    ("a: %20\n", "%20", '"%20"'),
    ("a: ? really\n", "? really", '"? really"'),
    ("a: > more\n", "> more", "on a line of its own"),
    ("a: | more\n", "| more", "on a line of its own"),
    ("title Ferry\nb: 1\n", "title Ferry", "no colon after its key"),
    ("b: 1\ntitle Ferry\nc: 2\n", "title Ferry", "no colon after its key"),
    ("title:Ferry\nb: 1\n", "title:Ferry", "title: Ferry"),
    ("b: 1\ntitle:Ferry\nc: 2\n", "title:Ferry", "title: Ferry"),
    ("a: 1\n  b: 2\n", "b: 2", "set in further"),
    ("a:\n    b: 1\n  c: 2\n", "c: 2", "set in differently"),
    ("steps:\n  - step: a\n   each: 1\n", "each: 1", "set in"),
    ("steps:\n  - step: a\n     each: 1\n", "each: 1", "set in"),
    ("  a: 1\nb: 2\n", "b: 2", "set in differently"),
    ("a: - b\n", "- b", "on the line of its key"),
    ('a: "C:\\photos"\n', "\\p", "single quotes"),
)


@pytest.mark.parametrize("before", ["", "# 🖌 Größe\n"])
@pytest.mark.parametrize(("text", "piece", "words"), FAULTS)
@pytest.mark.parametrize("loader", ["CSafeLoader", "SafeLoader"])
def test_a_fault_is_marked_and_told(
    loader: str, text: str, piece: str, words: str, before: str, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(yaml_nodes, "_LOADER", getattr(yaml, loader))
    source = Source(file="palette.yaml", text=before + text)
    tree = tree_of(source)
    assert [one.code for one in tree.diagnostics] == ["bad-yaml"]
    (fault,) = tree.diagnostics
    start = source.offset(fault.span.line, fault.span.column)
    end = source.offset(fault.span.end_line, fault.span.end_column)
    assert source.text[start:end] == piece
    assert words in f"{fault.message} {fault.help}"


@pytest.mark.parametrize("text", [text for text, _, _ in FAULTS])
def test_a_fault_has_no_words_of_programmers(text: str):
    (fault,) = tree_of(Source(file="palette.yaml", text=text)).diagnostics
    said = f"{fault.message} {fault.help}".lower()
    for word in ("yaml", "mapping", "scalar", "token", "parse", "while ", "did not find", "null", "invalid"):
        assert word not in said


def test_a_fault_of_front_matter_is_counted_in_its_file():
    text = "---\ntitle: Ferry\nsteps: [\n---\nText\n"
    (fault,) = tree_of(Source(file="guides/a.md", text=text), 4, text.index("---\nText")).diagnostics
    assert (fault.span.line, fault.span.column) == (3, 8)
