"""Values put into a palette file: those asked for, and not a byte beside."""

from __future__ import annotations

import pytest

from guidegen.base.source import Source
from guidegen.reading.content.palette import read_palette_file
from guidegen.reading.editing.palette_values import NewValues, with_values

PALETTE = """\
# Ours.
ranges: {Reedbank: {size: 17 ml}}
paints:
  - {name: Flow, colour: b8862f, note: "a: b"}   # the old lid
  - {name: Quoted, colour: "#c99b45", colour_from: eye, strength: 2}
  - name: Block
    color: 'AABBCC'   # from memory
    kind: wash

    owned: 1
  - owned: 2
    name: "Bare, one"
    let_down: {parts: 1:9, colour: e0c9a0}
  - {owned: yes, name: Last}
mixes:
  - {name: Mud, parts: {Flow: 1, Block: 1}}
"""

CHANGES = {
    "Flow": {
        "colour": "#102030",
        "colour_from": "photo",
        "let_down": ("#a0b0c0", 1.0, 4.0, "Gull, new"),
    },
    "Quoted": {"colour": "#112233", "colour_from": "photo"},
    "Block": {"colour": "#223344", "colour_from": "photo", "strength": 3.5},
    "Bare, one": {"let_down": ("#405060", 1.0, 4.0, "Gull")},
    "Last": {"colour": "#334455", "colour_from": "photo"},
}

EXPECTED = """\
# Ours.
ranges: {Reedbank: {size: 17 ml}}
paints:
  - {name: Flow, colour: 102030, colour_from: photo, let_down: {colour: "#a0b0c0", parts: 1:4, white: "Gull, new"}, note: "a: b"}   # the old lid
  - {name: Quoted, colour: "#112233", colour_from: photo, strength: 2}
  - name: Block
    color: '223344'   # from memory
    colour_from: photo
    strength: 3.5
    kind: wash

    owned: 1
  - owned: 2
    name: "Bare, one"
    let_down: {parts: 1:4, colour: 405060, white: Gull}
  - {owned: yes, name: Last, colour: "#334455", colour_from: photo}
mixes:
  - {name: Mud, parts: {Flow: 1, Block: 1}}
"""


def changes(data: bytes) -> list[NewValues]:
    file, _ = read_palette_file(Source.from_bytes("palette.yaml", data))
    return [
        NewValues(name=paint.places["name"], **CHANGES[paint.name])
        for paint in file.paints
        if paint.name in CHANGES
    ]


@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_only_the_values_change(mark, end):
    data = (mark + PALETTE.replace("\n", end)).encode()
    after = with_values("palette.yaml", data, changes(data))
    assert after is not None
    assert after.decode() == mark + EXPECTED.replace("\n", end)


def test_the_same_values_again_change_nothing():
    data = EXPECTED.encode()
    assert with_values("palette.yaml", data, changes(data)) == data


def test_nothing_to_change_is_the_same_file():
    assert with_values("palette.yaml", PALETTE.encode(), []) == PALETTE.encode()


@pytest.mark.parametrize(
    "data",
    [b"paints: [", b"\xff\xfe", b"", b"paints:\n  - {name: Other, colour: 112233}\n"],
    ids=["torn", "no-text", "empty", "another"],
)
def test_what_is_not_as_it_was_is_left_alone(data):
    assert with_values("palette.yaml", data, changes(PALETTE.encode())) is None


def test_a_let_down_that_says_nothing_is_left_alone():
    data = b"paints:\n  - {name: Flow, colour: b8862f, let_down: {}}\n"
    assert with_values("palette.yaml", data, changes(data)) is None


def test_a_value_comes_after_a_key_that_stands_empty():
    data = b"paints:\n  - name: Last\n    colour:\n    size: 17 ml\n"
    expected = b'paints:\n  - name: Last\n    colour: "#334455"\n    colour_from: photo\n    size: 17 ml\n'
    assert with_values("palette.yaml", data, changes(data)) == expected


NAMES = """\
paints:
  - {name: Flow, colour: b8862f}
  - {name: Quoted, aliases: [one, "two"], note: x}   # kept
  - name: Block
    aliases:
      - one of ours  # kept
    colour: aabbcc
  - {name: Alone, aliases: lonely}
mixes:
  - {name: Mud}
"""

MORE_NAMES = """\
paints:
  - {name: Flow, colour: b8862f, aliases: [flaw, "yes"]}
  - {name: Quoted, aliases: [one, "two", flaw, "yes"], note: x}   # kept
  - name: Block
    aliases:
      - one of ours  # kept
      - flaw
      - "yes"
    colour: aabbcc
  - {name: Alone, aliases: [lonely, flaw, "yes"]}
mixes:
  - {name: Mud, aliases: [flaw, "yes"]}
"""


def test_more_names_come_behind_those_that_are_there():
    file, _ = read_palette_file(Source.from_bytes("palette.yaml", NAMES.encode()))
    for pot in (*file.paints, *file.mixes):
        wanted = [NewValues(name=pot.places["name"], aliases=("flaw", "yes"))]
        after = with_values("palette.yaml", NAMES.encode(), wanted)
        assert after is not None
        now, _ = read_palette_file(Source.from_bytes("palette.yaml", after))
        learned = next(one for one in (*now.paints, *now.mixes) if one.name == pot.name)
        assert learned.aliases == (*pot.aliases, "flaw", "yes")
        changed = set(after.decode().splitlines()) - set(NAMES.splitlines())
        assert changed <= set(MORE_NAMES.splitlines())
        assert changed
