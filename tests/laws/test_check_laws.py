"""Laws of checking a whole folder: whatever became of its files, each mistake is a message about a place in one."""

from __future__ import annotations

import json
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.content_folders import files_of
from support.every_key import CASE
from support.paths import CONTENT

from guidegen.base.diagnostic import has_errors, in_order
from guidegen.base.source import Span
from guidegen.building.build import Checked
from guidegen.building.check import check
from guidegen.reporting.as_json import as_json
from guidegen.reporting.sarif import as_sarif
from guidegen.reporting.text import as_lines, as_text

pytestmark = pytest.mark.slow

# The case of every key, and the demo's texts.
TEXTS: dict[str, dict[str, bytes]] = {
    "every key": files_of(CASE),
    "demo": {
        path.relative_to(CONTENT).as_posix(): path.read_bytes() if path.suffix in {".md", ".yaml"} else b""
        for path in sorted(CONTENT.rglob("*.*"))
        if path.is_file()
    },
}
PLACES = [(name, path) for name, files in TEXTS.items() for path in files if path.endswith((".md", ".yaml"))]

# What slips from a keyboard, and what YAML and Markdown have a meaning for.
SLIPS = st.sampled_from(
    ("#", " #", ":", ": ", "- ", "\n", "\n\n", "  ", "\t", "{", "}", "[", "]", ",", '"', "'", "&a ", "*", "!", "|", ">",
     "---\n", "%", "@", "`", "\\", "\x00", "\x85", "\ufeff", "\u202e", "é", "雨", "1:30", "null", "~", "<<: ", "## ")
)  # fmt: skip


@st.composite
def slips(draw: st.DrawFn, text: str) -> str:
    """A text with a few characters or lines put in, left out or moved."""
    for _ in range(draw(st.integers(1, 3))):
        at, more = draw(st.integers(0, len(text))), draw(st.integers(1, 40))
        kind = draw(st.sampled_from(["in", "out", "again", "cut"]))
        if kind == "in":
            text = text[:at] + draw(SLIPS) + text[at:]
        elif kind == "out":
            text = text[:at] + text[at + more :]
        elif kind == "again":
            text = text[:at] + text[at : at + more] + text[at:]
        elif draw(st.integers(0, 3)) == 0:
            text = text[:at]
    return text


def checked(files: dict[str, bytes]) -> Checked:
    with tempfile.TemporaryDirectory() as folder:
        for path, data in files.items():
            file = Path(folder) / path
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(data)
        return check(Path(folder))


def lies_inside(span: Span, found: Checked) -> bool:
    source = found.archive.sources.get(span.file)
    if source is None:
        return span == Span.of_file(span.file) or span.line == span.end_line
    first, last = source.line(span.line), source.line(span.end_line)
    return (
        1 <= span.line <= span.end_line <= len(source.starts)
        and 1 <= span.column <= len(first) + 1
        and 1 <= span.end_column <= len(last) + 1
        and (span.line, span.column) <= (span.end_line, span.end_column)
    )


@settings(max_examples=40)
@given(st.data())
def test_any_slip_is_told_or_makes_no_difference(data: st.DataObject):
    name, path = data.draw(st.sampled_from(PLACES))
    files = dict(TEXTS[name])
    files[path] = data.draw(slips(files[path].decode())).encode()
    found = checked(files)
    assert found.diagnostics == in_order(found.diagnostics)
    for one in found.diagnostics:
        assert lies_inside(one.span, found), one
        assert all(lies_inside(related.span, found) for related in one.related), one
        assert one.message.endswith((".", "?")), one.message
        assert one.help, one.code
    assert bool(found.archive.guides) or has_errors(found.diagnostics)

    def shown(file: str) -> str:
        return file

    as_text(found.diagnostics, shown=shown)
    assert len(json.loads(as_json(found.diagnostics, shown=shown))["diagnostics"]) == len(found.diagnostics)
    assert as_lines(found.diagnostics, shown=shown).count("\n") == len(found.diagnostics)
    json.loads(as_sarif(found.diagnostics, shown=shown, version="1"))


@settings(max_examples=15)
@given(st.sampled_from(PLACES), st.binary(max_size=60))
def test_any_bytes_at_all_are_a_file(place: tuple[str, str], data: bytes):
    name, path = place
    found = checked(TEXTS[name] | {path: data})
    assert all(lies_inside(one.span, found) for one in found.diagnostics)
