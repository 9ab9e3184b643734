"""`check --fix` puts quotes around a text with a colon in it, where that is all that is the matter."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.content_folders import bytes_of, put

from guidegen.commands.fixes import apply_fixes

STEP = "{step: A, area: a, paint: none, each: 1}"

ADDED = {
    "a title": (
        "guides/a.md",
        f"---\ntitle: Deichwache: twelve men\nsteps: [{STEP}]\n---\nx\n",
        "Deichwache: twelve men",
    ),
    "before a remark": ("guides/a.md", f"---\ntitle: A: b\n# now\n\nsteps: [{STEP}]\n---\n", "A: b"),
    "the last line": ("plans/p.yaml", "start: 2026-06-01\ntitle: P: the long one", "P: the long one"),
    "a step": (
        "guides/a.md",
        "---\ntitle: A\nsteps:\n  - step: Coat: the red one\n    paint: none\n    area: a\n    each: 1\n---\n",
        "Coat: the red one",
    ),
    "a note": (
        "palette/b.yaml",
        "paints:\n  - name: Reed\n    colour: aaa\n    note: it's “thin”: shake it\n  - {name: B, colour: bbb}\n",
        "it's “thin”: shake it",
    ),
    "with quotes in it": ("site.yaml", 'title: The "town": guides\n', 'The "town": guides'),
    "several colons": ("site.yaml", "title: One: two: three\n", "One: two: three"),
}


@pytest.mark.parametrize("case", ADDED)
@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_they_are_added_and_no_byte_beside_them(tmp_path: Path, case: str, end: str, mark: str):
    path, text, value = ADDED[case]
    text = mark + text.replace("\n", end)
    put(tmp_path, {"palette.yaml": b"paints: []\n", path: text.encode()})
    apply_fixes(tmp_path)
    quote = "'" if '"' in value else '"'
    assert (tmp_path / path).read_bytes() == text.replace(value, f"{quote}{value}{quote}").encode()


def test_one_after_another_and_then_the_names(tmp_path: Path):
    text = "title: A: b\nsummary: c: d\nsteps:\n  - {step: E, area: a, paint: none, eahc: 1}\n"
    put(tmp_path, {"palette.yaml": b"paints: []\n", "guides/a.md": f"---\n{text}---\n".encode()})
    mended = apply_fixes(tmp_path)
    assert [put.fix.text for _, put in mended.applied] == ['"A: b"', '"c: d"', "each"]


LEFT = {
    "no text": "paint: Wet Leather: 2, Old Rope: 1",
    "a paint in parts": "paint: Wet Leather: 2",
    "times": "dry: air: 10 min",
    "a choice": "only: headgear: hood",
    "two keys on one line": "mind: little paint each: 4 min",
    "two keys, one of them misspelt": "mind: little paint eahc: 4 min",
    "a remark behind it": "mind: this: that # or not",
    "text on the next line too": "mind: this: that\n      and more",
    "a quote that ends too early": 'mind: "this": that',
    "a bracket": "mind: [this]: that: more",
}


@pytest.mark.parametrize("case", LEFT)
def test_where_more_is_the_matter_the_file_is_left(tmp_path: Path, case: str):
    text = f"---\ntitle: A\nsteps:\n  - step: A\n    area: a\n    {LEFT[case]}\n    each: 1\n---\n"
    put(tmp_path, {"palette.yaml": b"paints: []\n", "guides/a.md": text.encode()})
    before = bytes_of(tmp_path)
    assert apply_fixes(tmp_path).applied == ()
    assert bytes_of(tmp_path) == before


MENDED = {
    "a brace": ("paint: {A: 2, B: 1", "paint: {A: 2, B: 1}"),
    "a bracket": ("area: [coat, hat", "area: [coat, hat]"),
    "keys behind commas": (
        "mind: slow, area: coat, hat, each: 4 min",
        "mind: slow\n    area: coat, hat\n    each: 4 min",
    ),
    "keys behind tabs": (
        "mind: slow\tarea: coat\teach: 4 min",
        "mind: slow\n    area: coat\n    each: 4 min",
    ),
    "keys behind semicolons": ("mind: slow; each: 4 min", "mind: slow\n    each: 4 min"),
}


@pytest.mark.parametrize("case", MENDED)
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_brackets_are_closed_and_keys_get_lines_of_their_own(tmp_path: Path, case: str, end: str):
    typed, right = MENDED[case]
    text = "---\ntitle: T\nsteps:\n  - step: E\n    {}\n    coats: 1\n---\nx\n"
    put(tmp_path, {"guides/a.md": text.format(typed).replace("\n", end).encode()})
    apply_fixes(tmp_path)
    assert (tmp_path / "guides/a.md").read_bytes().decode() == text.format(right).replace("\n", end)


@pytest.mark.parametrize(
    "typed", ["mind: [slow", "mind: a pause, each of them", "mind: slow; a pause: each: 2"]
)
def test_what_may_be_text_is_left(tmp_path: Path, typed: str):
    text = f"---\ntitle: T\nsteps:\n  - step: E\n    {typed}\n    coats: 1\n---\nx\n"
    put(tmp_path, {"guides/a.md": text.encode()})
    apply_fixes(tmp_path)
    assert (tmp_path / "guides/a.md").read_text() == text


def test_a_decimal_comma_is_mended_where_no_time_takes_it(tmp_path: Path):
    text = "paints:\n  - {{name: A, colour: aaa, size: {} ml}}\n"
    put(tmp_path, {"palette.yaml": text.format("17,5").encode()})
    apply_fixes(tmp_path)
    assert (tmp_path / "palette.yaml").read_text() == text.format("17.5")
