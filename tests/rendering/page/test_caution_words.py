"""What cautions and labels say in every language: the official words against their publications, and nothing left unsaid."""

from __future__ import annotations

import csv
import re

import pytest
from support.languages import ENGLISH, GERMAN, LANGUAGES
from support.paths import REFERENCE

from guidegen.computing.guide.cautions import ALWAYS, PRACTICE, Caution
from guidegen.computing.guide.hazards import HAZARDS, Statement, read_entry
from guidegen.rendering.page.caution_words import (
    caution_source,
    caution_subject,
    caution_words,
    statement_words,
)
from guidegen.words.language import Language

# Where the European words differ from the United Nations' by more than spelling.
TOLD_OTHERWISE = {"H200", "H261"}

# Not found in a publication at hand: from memory alone.
FROM_MEMORY = {"EUH001", "EUH006", "EUH059", "H210"}
WITHDRAWN = {"EUH001", "EUH006", "EUH059"}


def published(file: str) -> list[tuple[str, str]]:
    with (REFERENCE / file).open(encoding="utf-8", newline="") as lines:
        return [(row["code"], row["statement"]) for row in csv.DictReader(lines)]


def plain(text: str) -> str:
    """Without what a label fills in, punctuation, and British or American spelling."""
    bare = re.sub(r"<[^>]*>", "", text).lower().replace("ise", "ize").replace("ising", "izing")
    return " ".join(re.findall(r"[a-z()]+", bare))


def bare(text: str) -> str:
    """Without what a label fills in, and with a full stop."""
    return re.sub(r"\s*<[^>]*>", "", text).rstrip(".") + "."


@pytest.mark.parametrize(("code", "words"), published("ghs-statements.csv"))
def test_the_official_words_in_english(code: str, words: str):
    if code == "EUH208":
        assert statement_words(Statement(code, "<name of sensitising substance>"), ENGLISH) == words
    elif code not in TOLD_OTHERWISE:
        assert plain(statement_words(Statement(code), ENGLISH)) == plain(words)


@pytest.mark.parametrize(("code", "words"), published("ghs-statements-de.csv"))
def test_the_official_words_in_german(code: str, words: str):
    if code == "EUH208":
        assert statement_words(Statement(code, "<Name des sensibilisierenden Stoffes>"), GERMAN) == words
    else:
        assert statement_words(Statement(code), GERMAN) == bare(words)


def test_what_was_not_checked_is_listed():
    assert set(HAZARDS) - {code for code, _ in published("ghs-statements.csv")} == FROM_MEMORY
    unpublished = {code for code, origin in HAZARDS.items() if origin == "un-only"}
    assert set(HAZARDS) - {code for code, _ in published("ghs-statements-de.csv")} == unpublished | WITHDRAWN


@pytest.mark.parametrize("language", LANGUAGES.values(), ids=LANGUAGES)
def test_every_statement_is_whole_and_has_a_source(language: Language):
    for code in HAZARDS:
        (found,) = read_entry(code)
        told = Caution(label=found, steps=(1,))
        assert re.fullmatch(r"[A-ZÄÖÜ].*\.", caution_words(told, language)), code
        assert caution_source(told, language)


def test_euh208_without_a_substance_sends_to_the_label():
    assert "named on the label" in statement_words(Statement("EUH208"), ENGLISH)
    assert "auf dem Etikett" in statement_words(Statement("EUH208"), GERMAN)


def test_where_the_words_are_published():
    def source(code: str, language: Language) -> str:
        return caution_source(Caution(label=Statement(code), steps=()), language)

    assert source("H222", ENGLISH) == "UN GHS, Annex 3"
    assert source("H360FD", ENGLISH) == source("EUH066", ENGLISH) == "Regulation (EC) No 1272/2008, Annex III"
    assert source("H222", GERMAN) == source("EUH066", GERMAN) == "Verordnung (EG) Nr. 1272/2008, Anhang III"
    # The United Nations publish no German.
    assert "selbst übersetzt" in source("H303", GERMAN)


@pytest.mark.parametrize("language", LANGUAGES.values(), ids=LANGUAGES)
@pytest.mark.parametrize("key", [*PRACTICE, ALWAYS])
def test_every_caution_is_whole_and_names_its_source(key: str, language: Language):
    caution = Caution(key=key, steps=())
    words = caution_words(caution, language)
    assert words.endswith(".")
    assert len(words) < 330
    assert caution_subject(caution, language)
    assert caution_source(caution, language)


@pytest.mark.parametrize(
    ("language", "said"),
    [(ENGLISH, ("outdoors", "lames", "50 °C")), (GERMAN, ("im Freien", "Flammen", "50 °C"))],
    ids=["en", "de"],
)
def test_what_is_said_of_sprays(language: Language, said: tuple[str, ...]):
    words = caution_words(Caution(key="sprays", steps=(1,)), language)
    assert all(word in words for word in said)


@pytest.mark.parametrize(
    ("language", "authorities"),
    [
        (ENGLISH, ("label", "safety data sheet", "local rules", "trained")),
        (GERMAN, ("Etikett", "Sicherheitsdatenblatt", "Regeln", "geschulte")),
    ],
    ids=["en", "de"],
)
def test_the_last_word_is_not_ours(language: Language, authorities: tuple[str, ...]):
    words = caution_words(Caution(key=ALWAYS, steps=()), language)
    assert all(authority in words for authority in authorities)


def test_an_author_s_caution_stays_as_it_is():
    caution = Caution(text="Pour it by an open window.", steps=(2,), subject="water gel")
    assert (caution_subject(caution, GERMAN), caution_words(caution, GERMAN)) == (
        "water gel",
        "Pour it by an open window.",
    )
