"""One folder with many mistakes: each is told once and at its place, nothing else is told, and nothing is written."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from support.content_folders import bytes_of, lay_out
from support.paths import CASES

from guidegen.commands.build import command as build
from guidegen.commands.check import command as check

CASE = CASES / "mistakes.txt"

WATCH = "guides/ferry-watch/guide.md"

# File, first line and column, last line and column (exclusive), kind, and what stands there. Counted by hand.
MISTAKES = (
    (WATCH, 3, 10, 3, 31, "text-after-hash", "The watch of ferry #2"),
    (WATCH, 4, 8, 4, 14, "text-after-hash", "Red #2"),
    (WATCH, 5, 7, 5, 16, "unknown-guide", "tol-house"),
    (WATCH, 12, 11, 12, 15, "bad-duration", "1:30"),
    (WATCH, 14, 19, 14, 28, "missing-photo", "coats.jpg"),
    (WATCH, 15, 53, 15, 57, "ambiguous-paint", "Reed"),
    (WATCH, 16, 79, 16, 85, "unknown-choice", "bonnet"),
    (WATCH, 18, 13, 18, 18, "unknown-insert", "jetti"),
    (WATCH, 19, 1, 19, 8, "duplicate-key", "figures"),
    (WATCH, 23, 4, 23, 9, "heading-near-a-step", "Coatz"),
    ("guides/heron.md", 1, 1, 1, 1, "two-guides-one-address", ""),
    ("palette.yaml", 2, 43, 2, 47, "bad-value", "2,80"),
    ("palette.yaml", 4, 61, 4, 68, "bad-colour", "#b8862f"),
    ("palette.yaml", 5, 12, 5, 19, "text-after-hash", "Grey #2"),
    ("palette.yaml", 6, 50, 6, 55, "unknown-key", "colur"),
    ("palette.yaml", 7, 51, 7, 57, "unknown-key", "collor"),
    ("palette.yaml", 12, 32, 12, 41, "mix-circle", "Low water"),
    ("plans/regatta.yaml", 5, 13, 5, 23, "step-longer-than-any-sitting", "toll-house"),
    ("plans/regatta.yaml", 6, 41, 6, 53, "unknown-stop", "Fit to field"),
    ("plans/winter.yaml", 3, 11, 3, 22, "no-sittings", "{sat: none}"),
    ("shared/towpath-base.yaml", 2, 13, 2, 23, "insert-circle", "jetty-base"),
)


@pytest.fixture
def content(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return lay_out(tmp_path / "content", CASE.read_text(encoding="utf-8"))


def test_each_mistake_is_told_once_at_its_place(content: Path):
    before = bytes_of(content)
    result = CliRunner().invoke(check, ["--format", "json"])
    assert result.exit_code == 1
    found = json.loads(result.stdout)
    places = [
        (d["file"], d["line"], d["column"], d["end_line"], d["end_column"], d["code"])
        for d in found["diagnostics"]
    ]
    by_weight = sorted(MISTAKES, key=lambda one: one[5] == "heading-near-a-step")
    assert places == [(f"content/{file}", *rest) for file, *rest, _ in by_weight]
    assert (found["errors"], found["warnings"], found["advice"]) == (len(MISTAKES) - 1, 1, 0)
    assert bytes_of(content) == before
    assert [path.name for path in content.parent.iterdir()] == ["content"]


@pytest.mark.parametrize(("file", "line", "column", "end_line", "end_column", "code", "piece"), MISTAKES)
def test_the_places_are_counted_in_characters(
    content: Path, file: str, line: int, column: int, end_line: int, end_column: int, code: str, piece: str
):
    """The expectation itself: what stands at each place is what is wrong, letters of any script counting one."""
    assert line == end_line
    text = (content / file).read_text(encoding="utf-8").split("\n")[line - 1]
    assert text[column - 1 : end_column - 1] == piece


def test_a_build_writes_nothing(content: Path):
    before = bytes_of(content)
    out, cache = content.parent / "site", content.parent / "cache"
    result = CliRunner().invoke(build, ["--out", str(out), "--cache", str(cache)])
    assert result.exit_code == 1
    assert not out.exists()
    assert bytes_of(content) == before
    assert "and 1 more" in result.stderr
    assert result.stderr.startswith("20 errors, 1 warning\n\n")
