"""Keys in German words are told the key that is meant, at every depth in one run; an empty colour is told once."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.content_folders import put

from guidegen.building.check import check_with_photos
from guidegen.reading.types.german_keys import german_key

GUIDE = """---
title: Ölmäntel
schritte:
  - schritt: Mantel
    technik: wash
    bereich: Mantel
    farbe: none
    trocknen: 1,5 h
    zeit: 4 min
---
"""


def test_all_of_them_are_told_at_once(tmp_path: Path):
    put(tmp_path, {"palette.yaml": b"paints: []\n", "guides/a.md": GUIDE.encode()})
    told = [one for one in check_with_photos(tmp_path).diagnostics if one.code == "unknown-key"]
    assert [one.help.split(" (")[0].rstrip(".") for one in told] == [
        "Write steps", "Write step", "Write technique", "Write area", "Write paint", "Write dry", "Write each",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("word", "known", "key"),
    [
        ("Farbe", {"paint", "step"}, "paint"),
        ("farbe", {"colour", "name"}, "colour"),
        ("farbe", {"title"}, ""),
        ("reed", {"paint"}, ""),
    ],
)
def test_a_word_means_the_key_that_there_is(word: str, known: set[str], key: str):
    assert german_key(word, known) == key


def test_a_colour_that_stands_empty_is_told_once(tmp_path: Path):
    palette = "paints:\n  - name: A\n    colour:\n  - name: B\n"
    put(tmp_path, {"palette.yaml": palette.encode()})
    told = [(one.code, one.span.line) for one in check_with_photos(tmp_path).diagnostics]
    assert told == [("empty-value", 3), ("colour-not-known", 4)]
