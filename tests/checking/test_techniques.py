"""The technique that a word which is none calls to mind, and which of them `--fix` may write."""

from __future__ import annotations

import pytest

from guidegen.base.slips import only_meant
from guidegen.checking.techniques import technique_meant
from guidegen.model.technique import KNOWN_WORDS, TECHNIQUES, is_known
from guidegen.words.language import PhraseKey, language_of, languages

MEANT = {
    "highlite": "highlight",
    "highlighting": "highlight",
    "airbush": "airbrush",
    "glase": "glaze",
    "washing": "wash",
    "shading": "wash",
    "basecote": "base coat",
    "edging": "edge highlight",
    "Lasur": "glaze",
    "Lasieren": "glaze",
    "Trockenbuersten": "dry brush",
    "trocken bürsten": "dry brush",
    "Akzente": "highlight",
    "Tusche": "wash",
    "varnish": "spray varnish or brush varnish",
    "splattering": None,
}


@pytest.mark.parametrize("word", MEANT)
def test_what_is_meant_by_a_word(word: str):
    assert not is_known(word)
    assert technique_meant(word) == MEANT[word]


@pytest.mark.parametrize("code", languages())
def test_every_technique_is_known_by_its_name_on_the_pages(code: str):
    names = {name: language_of(code).t(PhraseKey(f"technique.name.{name}")) for name in TECHNIQUES}
    assert {name: technique_meant(label) for name, label in names.items()} == {name: name for name in names}


@pytest.mark.parametrize(
    ("word", "written"),
    [("dry-brush", None), ("pin-wash", "pin wash"), ("glazze", "glaze"), ("highlite", None), ("Lasur", None), ("wsh", None)],
)  # fmt: skip
def test_only_a_slip_is_written(word: str, written: str | None):
    assert only_meant(word, KNOWN_WORDS) == written
