"""Mending a file changes what it says it changes: to the byte, and never what is read of anything else."""

from __future__ import annotations

from itertools import pairwise

from hypothesis import assume, given
from hypothesis import strategies as st

from guidegen.base.diagnostic import Fix
from guidegen.base.source import Source
from guidegen.reading.content.paints import PAINT
from guidegen.reading.content.palette import read_palette_file
from guidegen.reading.editing.fixes import with_fixes
from guidegen.reading.types.base import words_of
from guidegen.reading.yaml.nodes import ListNode, MapNode, Scalar, tree_of
from guidegen.reading.yaml.quoting import in_quotes, typed

_LINE_ENDS = st.sampled_from(["\n", "\r\n", "\r"])
_WORDS = st.sampled_from(
    [
        "name",
        "nmae",
        "colour",
        "colur",
        "kind",
        "kidn",
        "wash",
        "wsah",
        "aaa",
        "#aab4b8",
        "Grey #2",
        "# a remark",
        "é★",
    ]
)
_GAPS = st.sampled_from([" ", "  ", "\t# ü\n    ", "\n    "])
_NAMES = st.text(st.characters(codec="utf-8", categories=("L", "N", "P", "S", "Zs")), min_size=1, max_size=30)


@st.composite
def palettes(draw: st.DrawFn) -> bytes:
    """Palette files with slips of the pen, as odd as they come."""
    lines = ["# Ours — é\n", "paints:\n"]
    for _ in range(draw(st.integers(1, 4))):
        pairs = draw(st.lists(st.tuples(_WORDS, _WORDS), min_size=1, max_size=3))
        flow = draw(st.booleans())
        if flow:
            inside = ",".join(f"{draw(_GAPS)}{key}: {value}" for key, value in pairs)
            lines.append(f"  - {{{inside} }}\n")
        else:
            lines += [
                f"  {'-' if not at else ' '} {key}:  {value}\n" for at, (key, value) in enumerate(pairs)
            ]
    text = "".join(lines).replace("\n", draw(_LINE_ENDS))
    mark = draw(st.sampled_from(["", "\ufeff"]))
    return (mark + (text if draw(st.booleans()) else text.rstrip())).encode()


@given(palettes())
def test_fixes_take_away_what_they_are_for_and_nothing_else(data: bytes):
    source = Source.from_bytes("palette.yaml", data)
    _, told = read_palette_file(source)
    assume(all(one.code != "bad-yaml" for one in told))
    fixes = [one.fix for one in told if one.fix is not None]
    after, applied = with_fixes(source, data, fixes)
    assert len(applied) == len({(fix.span, fix.text) for fix in fixes})
    _, left = read_palette_file(Source.from_bytes("palette.yaml", after))
    spans = [one.fix.span for one in applied]
    growth = [len(one.fix.text) - len(one.before) for one in applied]
    gone = set()
    for one in told:
        if one.fix:
            # A slip like it may stand behind it in its line, and is told once the first is mended.
            moved = sum(
                by
                for span, by in zip(spans, growth, strict=True)
                if span.line == one.span.line and span < one.span
            )
            gone.add((one.span.line, one.span.column + moved, one.code, one.message))
    assert not gone & {(one.span.line, one.span.column, one.code, one.message) for one in left}
    mended_lines = {one.fix.span.line for one in applied}
    for number, (old, new) in enumerate(zip(_lines(data), _lines(after), strict=True), 1):
        assert old == new or number in mended_lines
    assert with_fixes(source, after, fixes) == (after, ()) or not applied


def _lines(data: bytes) -> list[str]:
    return data.decode().splitlines(keepends=True)


@given(_NAMES, st.sampled_from(["{%s: 1}", "[a, %s ]", "- %s", "%s: 1", "a: %s"]))
def test_a_name_is_typed_so_that_it_is_read_as_itself(name: str, form: str):
    name = " ".join(name.split())
    assume(name)
    for way in (typed, in_quotes):
        root = tree_of(Source(file="x.yaml", text=form % way(name))).root
        assert root is not None
        found = root.items[-1] if isinstance(root, ListNode) else root
        if isinstance(found, MapNode):
            entry = found.entries[0]
            found = entry.value if form.startswith("a") else entry.key
        assert isinstance(found, Scalar)
        assert words_of(found) == name


@given(st.lists(st.tuples(st.integers(0, 30), st.integers(0, 6), st.sampled_from(["x", "yy"])), max_size=6))
def test_what_overlaps_is_left(pieces: list[tuple[int, int, str]]):
    text = "a: 0123456789 123456789 123456789 1"
    source = Source(file="x.yaml", text=text)
    fixes = [Fix(span=source.span(3 + start, 3 + start + long), text=new) for start, long, new in pieces]
    after, applied = with_fixes(source, text.encode(), fixes)
    ends = [(one.fix.span.column, one.fix.span.end_column) for one in applied]
    assert all(end <= start for (_, end), (start, _) in pairwise(ends))
    grown = sum(len(one.fix.text) - len(one.before) for one in applied)
    assert len(after) == len(text) + grown


def test_the_table_of_paints_has_the_keys_that_are_misspelt_above():
    assert {"name", "colour", "kind"} <= set(PAINT.by_word)


def test_a_file_that_changed_since_it_was_read_is_left():
    source = Source(file="x.yaml", text="a: bc\n")
    fixes = [Fix(span=source.span(3, 5), text="dd")]
    assert with_fixes(source, b"a: bc\n", fixes)[0] == b"a: dd\n"
    assert with_fixes(source, b"a: bc\nb: c\n", fixes) == (b"a: bc\nb: c\n", ())


def test_a_fix_that_would_change_what_else_is_read_is_left():
    source = Source(file="x.yaml", text="a: bc\nb: d\n")
    for text in ("[", "x: y", "x\nc: d", "x #"):
        data = source.text.encode()
        after, applied = with_fixes(source, data, [Fix(span=source.span(3, 5), text=text)])
        assert (after, applied) == (data, ()) or text == "x #"
