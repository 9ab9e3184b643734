"""Paints put into a palette file that is there, with every other byte as it was."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.base.source import Source
from guidegen.model.paint import Palette
from guidegen.reading.content.palette import palette_of, read_palette_file
from guidegen.reading.editing.more_paints import not_there_yet, with_paints
from guidegen.reading.paint_lists.rows import PaintRow

FOG = PaintRow(name="Fog: pale #2", range="Reedbank", colour="#aab4b8", owned=1)
TAR = PaintRow(name="Teer")


def palette(data: bytes) -> Palette:
    return palette_of([read_palette_file(Source.from_bytes("palette.yaml", data))[0]])[0]


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (
            "paints:\n  - name: Gull\n    colour: e6e4dc   # white\n\n# the mixes\nmixes:\n  - {name: Mud, parts: {Gull: 1}}\n",
            'paints:\n  - name: Gull\n    colour: e6e4dc   # white\n  - name: "Teer"\n\n# the mixes\nmixes:\n  - {name: Mud, parts: {Gull: 1}}\n',
        ),
        ("paints:\n- {name: Gull, colour: fff}", 'paints:\n- {name: Gull, colour: fff}\n- name: "Teer"\n'),
        ("# mine\npaints:\n", '# mine\npaints:\n  - name: "Teer"\n'),
        (
            "ranges: {Reedbank: {size: 17 ml}}\n",
            'ranges: {Reedbank: {size: 17 ml}}\npaints:\n  - name: "Teer"\n',
        ),
        ("", 'paints:\n  - name: "Teer"\n'),
        ("# nothing yet\n", '# nothing yet\npaints:\n  - name: "Teer"\n'),
        (
            "\ufeffpaints:\r\n    - name: Gull\r\n      note: |\r\n        two\r\n        lines\r\nmixes: []\r\n",
            '\ufeffpaints:\r\n    - name: Gull\r\n      note: |\r\n        two\r\n        lines\r\n    - name: "Teer"\r\nmixes: []\r\n',
        ),
        (
            "paints:\n  - name: Gull\n    let_down: {colour: fff,\n      parts: 1:9}\nmixes: []\n",
            'paints:\n  - name: Gull\n    let_down: {colour: fff,\n      parts: 1:9}\n  - name: "Teer"\nmixes: []\n',
        ),
    ],
)
def test_they_follow_the_last_one(before: str, after: str):
    assert with_paints("palette.yaml", before.encode(), [TAR]) == after.encode()


@pytest.mark.parametrize(
    "before",
    [
        "paints: []\n",
        "paints: [{name: Gull}]\n",
        "{paints: []}\n",
        "- what\n",
        'paints: "\n',
        "paints:\n  - name: [\n",
    ],
)
def test_where_it_is_not_certain_nothing_is_put_in(before: str):
    assert with_paints("palette.yaml", before.encode(), [TAR]) is None


def test_no_text_of_another_kind():
    assert with_paints("palette.yaml", b"paints:\n- {name: \xff}\n", [TAR]) is None


def test_which_are_there():
    pots = palette(b"paints:\n- {name: Gull, range: Reedbank}\n- {name: Teer}\n")
    rows = (
        PaintRow(name="gull", range="Reedbank"),
        PaintRow(name="Gull"),
        PaintRow(name="Gull", range="Ninelock"),
        PaintRow(name="Gull", range="Reedbank", edition="new"),
        PaintRow(name="Teer"),
        FOG,
    )
    assert not_there_yet(rows, pots) == (rows[2], rows[3], FOG)


names = st.text(alphabet="abc '\"#:-{}[]ü\\", min_size=1, max_size=8).map(
    lambda text: " ".join(f"x{text}".split())
)


@given(
    st.lists(names, max_size=4, unique=True),
    st.lists(names, min_size=1, max_size=3, unique=True),
    st.booleans(),
    st.sampled_from(("\n", "\r\n")),
)
def test_everything_else_stays(old: list[str], new: list[str], spaced: bool, end: str):
    from guidegen.reading.paint_lists.palette_file import palette_yaml

    text = palette_yaml([PaintRow(name=name) for name in old]) if old else "paints:\n"
    before = (
        (("# mine\n" if spaced else "") + text + ("\n# end\n" if spaced else "")).replace("\n", end).encode()
    )
    after = with_paints("palette.yaml", before, [PaintRow(name=f"{name} new") for name in new])
    assert after is not None
    lines, longer = before.splitlines(keepends=True), iter(after.splitlines(keepends=True))
    assert all(any(line == other for other in longer) for line in lines)  # in order
    assert [paint.name for paint in read_palette_file(Source.from_bytes("p.yaml", after))[0].paints] == [
        *old,
        *(f"{name} new" for name in new),
    ]
