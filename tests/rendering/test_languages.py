"""Every language of the interface says everything that English says, each in its own words and signs."""

from __future__ import annotations

import datetime as dt
import re
from string import Formatter

import pytest
from support.languages import ENGLISH, GERMAN, LANGUAGES

from guidegen.base.units import DAY, HOUR, MINUTE
from guidegen.computing.guide.cautions import ALWAYS, PRACTICE
from guidegen.computing.guide.hazards import HAZARDS
from guidegen.computing.guide.spraying import REASONS, SprayVerdict
from guidegen.model.paint import Kind
from guidegen.model.technique import TECHNIQUES, Role
from guidegen.reading.content.discover import starter_charts
from guidegen.words.language import Language, Phrase, language_of

OTHERS = [language for language in LANGUAGES.values() if language is not ENGLISH]

# Unicode CLDR, plural rules of cardinal numbers: the forms of each language, and numbers that take them.
PLURALS: dict[str, dict[str, tuple[float, ...]]] = {
    "en": {"one": (1,), "other": (0, 2, 10, 1.5, 0.5)},
    "de": {"one": (1,), "other": (0, 2, 10, 1.5, 0.5)},
}

# What a language truly writes as English does: units, forms without words, and words that both have.
SAME = {
    "de": {
        "unit.d", "unit.h", "unit.min", "unit.s", "pot.ml", "head.mm", "head.cm2", "day.full", "day.month",
        "finish.matt", "head.base", "amount.ml", "care.airbrush.subject",
    },
}  # fmt: skip


def forms(phrase: Phrase) -> dict[str, str]:
    return {"": phrase} if isinstance(phrase, str) else dict(phrase)


def places(text: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(text) if name}


@pytest.mark.parametrize("language", OTHERS, ids=lambda language: language.code)
class TestComplete:
    def test_it_has_the_very_keys(self, language: Language) -> None:
        assert set(language.phrases) == set(ENGLISH.phrases)

    def test_it_puts_in_the_same_values(self, language: Language) -> None:
        for key, phrase in ENGLISH.phrases.items():
            wanted = set().union(*map(places, forms(phrase).values()))
            for form, text in forms(language.phrases[key]).items():
                # A form for one thing alone may say its number in words or not at all.
                assert places(text) == wanted or (form == "one" and places(text) == wanted - {"n"}), key

    def test_it_has_plurals_where_english_has(self, language: Language) -> None:
        for key, phrase in ENGLISH.phrases.items():
            assert isinstance(phrase, str) == isinstance(language.phrases[key], str), key

    def test_it_is_no_english(self, language: Language) -> None:
        same = {key for key, phrase in ENGLISH.phrases.items() if language.phrases[key] == phrase}
        assert same == SAME[language.code]


@pytest.mark.parametrize("language", LANGUAGES.values(), ids=LANGUAGES)
def test_every_phrase_is_whole(language: Language) -> None:
    for key, phrase in language.phrases.items():
        if not isinstance(phrase, str):
            assert set(phrase) == set(PLURALS[language.code]), key
        for text in forms(phrase).values():
            assert text.strip() == text != "", key
            # Straight quotation marks, dots for an ellipsis and double spaces are slips of typing.
            assert not re.search(r"""["']|\.\.\.|  """, text), key


@pytest.mark.parametrize("language", LANGUAGES.values(), ids=LANGUAGES)
def test_plurals_follow_the_common_locale_data(language: Language) -> None:
    for form, numbers in PLURALS[language.code].items():
        assert {language.plural(n) for n in numbers} == {form}


@pytest.mark.parametrize("language", LANGUAGES.values(), ids=LANGUAGES)
def test_whatever_is_worked_out_has_words(language: Language) -> None:
    asked = {
        *(f"hazard.{code}" for code in HAZARDS),
        *(f"hazard.source.{origin}" for origin in HAZARDS.values()),
        *(f"care.{key}.{part}" for key in (*PRACTICE, ALWAYS) for part in ("subject", "text", "source")),
        *(f"technique.{part}.{name}" for name in TECHNIQUES for part in ("name", "words")),
        *(f"brush.{row.brush}" for row in TECHNIQUES.values() if row.brush),
        *(f"role.{role}" for role in Role),
        *(f"kind.{kind}" for kind in Kind),
        *(f"spray.{word}" for word in (*REASONS, *SprayVerdict)),
        *(f"chart.{name}" for name in starter_charts()),
    }
    assert asked <= set(language.phrases)
    assert len(language.months) == 12


def test_german_quotes_as_german_does() -> None:
    for key, phrase in GERMAN.phrases.items():
        for text in forms(phrase).values():
            assert text.count("„") == text.count("“"), key
            assert "”" not in text, key
            # A per cent sign stands apart from its number.
            assert not re.search(r"[\d}]%", text), key


@pytest.mark.parametrize("code", ["de", "DE", "de-AT", "de-CH-1996"])
def test_every_kind_of_german_gets_german_words(code: str) -> None:
    assert language_of(code) is GERMAN


def test_numbers_dates_and_money_in_german() -> None:
    assert [GERMAN.number(value) for value in (3.0, 1.5, 0.1, 12345.678)] == ["3", "1,5", "0,1", "12.345,68"]
    assert GERMAN.on(dt.date(2026, 3, 14)) == "14. März 2026"
    assert GERMAN.money(8.4, "EUR") == "8,40\u00a0€"
    assert GERMAN.money(1234.5, "CHF") == "1.234,50 CHF"
    assert GERMAN.t("parts", n=1.5) == "1,5 Teile"
    assert GERMAN.t("figures.n", n=1) == "1 Figur"
    assert GERMAN.t("figures.n", n=1000) == "1.000 Figuren"


def test_durations_in_german_have_the_signs_of_the_si() -> None:
    said = [GERMAN.duration(ms) for ms in (70_000, 90 * MINUTE, 2 * DAY + 9 * HOUR)]
    assert said == ["1 min 10 s", "1 h 30 min", "2 d 9 h"]
