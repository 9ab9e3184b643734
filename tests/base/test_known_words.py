"""Words of painting: which a name is made of, and how much is looked at to tell."""

from __future__ import annotations

import pytest

from guidegen.base import known_words
from guidegen.base.known_words import is_word
from guidegen.base.slips import is_sure


@pytest.mark.parametrize("word", ["undercoat", "oilskins", "rotbraun", "bronzed"])
def test_words_with_endings_and_words_of_words(word: str):
    assert is_word(word)


def test_a_name_of_many_words_is_taken_apart_in_one_way_only(monkeypatch: pytest.MonkeyPatch):
    """Each of these words is one of the list and two of it, so there are two to the power of twenty ways."""
    looked: list[str] = []
    is_plain = known_words._is_plain

    def counted(word: str, words: frozenset[str]) -> bool:
        looked.append(word)
        assert len(looked) < 1_000
        return is_plain(word, words)

    monkeypatch.setattr(known_words, "_is_plain", counted)
    assert not is_word("warlock" * 20 + "qq")


@pytest.mark.parametrize(
    ("typed", "known"),
    [
        ("Pale Check", "Pale Cheek"),
        ("Titian Red", "Titan Red"),
        ("Spoke Grey", "Smoke Grey"),
        ("alte Münze", "alte Mütze"),
        ("Küfer", "Kupfer"),
        ("Hemmen", "Hemden"),
        ("Schal", "Schale"),
        ("grauer Umfang", "grauer Umhang"),
        ("Breaches", "Breeches"),
        ("Titles", "Tiles"),
        ("Knauf", "Kauf"),
        ("Rüsche", "Rüschen"),
    ],
)
def test_a_word_one_letter_away_from_another_is_no_slip_of_it(typed: str, known: str):
    assert not is_sure(typed, known)
