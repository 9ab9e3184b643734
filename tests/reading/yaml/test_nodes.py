"""The tree of a YAML text: what was typed, and where; what is refused, and how a # is seen through."""

from __future__ import annotations

from typing import Any

import pytest
import yaml

from guidegen.base.source import Source
from guidegen.reading.yaml import nodes as yaml_nodes
from guidegen.reading.yaml.fault import DEEPEST_NESTING
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, Scalar, Tree, tree_of


@pytest.fixture(params=["CSafeLoader", "SafeLoader"])
def loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Both readers of YAML: the fast one, and the one for machines without libyaml."""
    monkeypatch.setattr(yaml_nodes, "_LOADER", getattr(yaml, request.param))
    return str(request.param)


def tree(text: str, start: int = 0, end: int | None = None) -> Tree:
    return tree_of(Source(file="palette.yaml", text=text), start, end)


def plain(node: Node | None) -> Any:
    """A tree as dictionaries, lists and texts."""
    if isinstance(node, MapNode):
        return {entry.key.value: plain(entry.value) for entry in node.entries}
    if isinstance(node, ListNode):
        return [plain(item) for item in node.items]
    return node.value if node is not None else None


def leaves(node: Node | None) -> list[Scalar]:
    if isinstance(node, MapNode):
        return [leaf for entry in node.entries for leaf in (entry.key, *leaves(entry.value))]
    if isinstance(node, ListNode):
        return [leaf for item in node.items for leaf in leaves(item)]
    return [node] if node is not None else []


def told(text: str) -> list[tuple[str, str, str]]:
    """What a tree's diagnostics are, the piece of text each marks, and what it says."""
    source = Source(file="palette.yaml", text=text)
    return [
        (
            one.code,
            text[
                source.offset(one.span.line, one.span.column) : source.offset(
                    one.span.end_line, one.span.end_column
                )
            ],
            one.message,
        )
        for one in tree_of(source).diagnostics
    ]


TYPED = """\
title: Fähre 🖌 bei Nacht # remark
colour: 003366
parts: 1:2:1
word: no
"quoted": 'Caulker''s Pitch'
flow: {a: "b", c: [d, 1.50, {e: f}], at: 4:05}
folded: one
  two
block: |
  first
    second

list:
- 2026-03-14
-   - ~
"""


@pytest.mark.usefixtures("loader")
def test_values_are_what_was_typed():
    assert plain(tree(TYPED).root) == {
        "title": "Fähre 🖌 bei Nacht",
        "colour": "003366",
        "parts": "1:2:1",
        "word": "no",
        "quoted": "Caulker's Pitch",
        "flow": {"a": "b", "c": ["d", "1.50", {"e": "f"}], "at": "4:05"},
        "folded": "one two",
        "block": "first\n  second\n",
        "list": ["2026-03-14", ["~"]],
    }


@pytest.mark.usefixtures("loader")
@pytest.mark.parametrize("before", ["", "---\n", "🖌é: 1\n"])
def test_places_are_counted_in_characters(before: str):
    text = before + TYPED
    found = {leaf.value: text[leaf.start : leaf.end] for leaf in leaves(tree(text, len(before)).root)}
    assert found["Fähre 🖌 bei Nacht"] == "Fähre 🖌 bei Nacht"
    assert found["Caulker's Pitch"] == "'Caulker''s Pitch'"
    assert found["b"] == '"b"'
    assert found["4:05"] == "4:05"
    assert found["one two"] == "one\n  two"
    assert found["first\n  second\n"] == "|\n  first\n    second"
    assert found["~"] == "~"


@pytest.mark.usefixtures("loader")
def test_lists_and_groups_have_places_too():
    text = "a: [1, {b: 2}]\nc:\n  - d: 3\n    e: 4 # remark\n\n# end\nf: 5\n"
    root = tree(text).root
    assert isinstance(root, MapNode)
    pieces = [text[entry.value.start : entry.value.end] for entry in root.entries]
    assert pieces == ["[1, {b: 2}]", "- d: 3\n    e: 4", "5"]


@pytest.mark.parametrize("text", ["", "\n\n", "# only a remark\n", "---\n", "---\n...\n"])
def test_nothing_is_nothing(text: str):
    assert tree(text) == Tree(None)


def test_a_key_given_twice_is_there_twice():
    root = tree("a: 1\nb: 2\na: 3\n").root
    assert isinstance(root, MapNode)
    assert [entry.key.value for entry in root.entries] == ["a", "b", "a"]


def test_a_word_without_its_colon_is_known():
    root = tree("{a: 1, b, 'c' : , d: }").root
    assert isinstance(root, MapNode)
    assert [(entry.key.value, entry.colon) for entry in root.entries] == [
        ("a", True),
        ("b", False),
        ("c", True),
        ("d", True),
    ]


@pytest.mark.parametrize(
    ("text", "piece"),
    [
        ("steps: &all [1]", "&all [1"),
        ("steps: *all", "*all"),
        ("note: *very* wet", "*very* wet"),
        ("colour: !!str 003366", "!!str 003366"),
        ("note: ! mind", "! mind"),
        ("a: {<<: {b: 1}}", "<<"),
        ("a: 1\n---\nb: 2\n", "---"),
        ("{{title}}: 1", "{title}"),
        ("a: \x07", "\x07"),
        ("a: \ufeffb", "\ufeff"),
        ("a: \ud800", "\ud800"),
        ("[" * DEEPEST_NESTING + "[" + "]" * DEEPEST_NESTING + "]", "["),
        ("- " * DEEPEST_NESTING + "- x", "-"),
    ],
)
@pytest.mark.usefixtures("loader")
def test_what_is_left_out_of_yaml(text: str, piece: str):
    assert [(code, marked) for code, marked, _ in told(text)] == [("bad-yaml", piece)]
    assert tree(text).broken


@pytest.mark.usefixtures("loader")
def test_as_deep_as_allowed():
    assert tree("[" * DEEPEST_NESTING + "]" * DEEPEST_NESTING).diagnostics == ()


@pytest.mark.parametrize(
    "bomb", ["[" * 100_000, "{" * 100_000, "- " * 100_000, "? " * 100_000, "a: [" * 20_000]
)
def test_depth_costs_nothing(bomb: str):
    assert [code for code, _, _ in told(bomb)] == ["bad-yaml"]


def test_doubling_is_refused_before_it_begins():
    text = "a: &a [x, x]\n" + "".join(f"k{i}: &k{i} [*a, *a]\n" for i in range(100))
    marked = [marked for _, marked, _ in told(text)]
    assert marked == ["&a [x, x", *(f"&k{i} [*a, *a" for i in range(100))]


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("name: Grey #2\n", ["Grey #2"]),
        ("{name: Grey #2}\n", ["Grey #2"]),
        ("a: [Red #2, Blue, Green #3]\n", ["Red #2", "Green #3"]),
        ("a: {Grey #2: 3, Blue: 1}\n", ["Grey #2"]),
        ("a: [#2, Blue]\n", ["#2"]),
        ("a: [Blue,#2]\n", ["#2"]),
        ("- #2\n- two\n", ["#2"]),
        ("note: #2 of them\nb: 1\n", ["#2 of them"]),
        ("a: one\n  two #3\n  four\n", ["one\n  two #3\n  four"]),
        ("dry: 1 h #warm: 5 min\n", ["1 h #warm: 5 min"]),
        ("a: Boots' #2\n", ["Boots' #2"]),
        ("a: Grey #2 # and more\n", ["Grey #2"]),
        ("a: ## two\nb: 1", ["## two"]),
        ("ä🖌: Größe #2\n", ["Größe #2"]),
        ("steps: #all of them\n  - name: Grey #2\n", ["Grey #2"]),
        # No trap: in quotes, in a block of text, within a word, after a real remark, before a value on lines below.
        ("name: 'Grey #2' #note\n", []),
        ("name: Grey#2\n", []),
        ("name: Grey [#2]\n", []),
        ("name: Grey # 2\n", []),
        ("name: Grey #\n", []),
        ("name: Grey # see #2\n", []),
        ("#name: #2\n", []),
        ("a: |\n  Grey #2\nb: > #note\n  Red #3\n", []),
        ("steps: #all of them\n  - a: 1\n", []),
        ("steps: #all of them\n- a: 1\n", []),
        ("a: [b, c] #note\nd: {e: f} #note\n", []),
        ("--- #note\na: b\n", []),
    ],
)
@pytest.mark.usefixtures("loader")
def test_text_after_a_hash(text: str, pieces: list[str]):
    assert [(code, marked) for code, marked, _ in told(text)] == [("text-after-hash", one) for one in pieces]


@pytest.mark.parametrize(
    "text",
    [
        "{colour: #445566}",
        "colour: #445566\nb: 1",
        "- {color: #445566, b: 1}\n- {c: 1}",
        "a: {colour: #445566",
    ],
)
@pytest.mark.usefixtures("loader")
def test_a_colour_after_a_hash(text: str):
    assert told(text)[0][:2] == ("bad-colour", "#445566")


def test_what_a_hash_cut_off_is_read_all_the_same():
    assert plain(tree("- {n: Grey #2, colour: #445566, k: [#3, 'x # y']}\n- {n: Red}\n").root) == [
        {"n": "Grey #2", "colour": "#445566", "k": ["#3", "x # y"]},
        {"n": "Red"},
    ]
    assert plain(tree("a: Boots' #2\n").root) == {"a": "Boots' #2"}


def test_a_hash_hides_no_other_fault():
    assert [(code, marked) for code, marked, _ in told('a: Grey #2\nb: "open\n')] == [
        ("text-after-hash", "Grey #2"),
        ("bad-yaml", '"'),
    ]


def test_signs_of_every_private_kind_are_let_through():
    text = "a: " + "".join(map(chr, range(0xE000, 0xF8FF))) + " #2\n"
    assert [code for code, _, _ in told(text)] == ["text-after-hash"]
