"""The languages of the interface against Unicode's CLDR, as Babel carries it."""

from __future__ import annotations

import datetime as dt
from decimal import Decimal
from functools import cache
from pathlib import Path

import pytest
from babel.core import Locale
from babel.dates import format_date
from babel.numbers import format_decimal

from guidegen.words import language as languages_module
from guidegen.words.language import Language, language_of, languages

# Our English is written as in Great Britain; CLDR's plain `en` is that of the United States.
LOCALES = {"en": Locale("en", "GB"), "de": Locale("de")}


def test_every_language_is_compared():
    assert set(languages()) == set(LOCALES)


@pytest.mark.parametrize("code", LOCALES)
def test_plural_rules(code: str):
    language, locale = language_of(code), LOCALES[code]
    shown = [*range(200), 1_000, 1_000_000, *map(Decimal, ("0.1", "0.5", "1.1", "1.5", "2.5", "10.25"))]
    assert [language.plural(float(n)) for n in shown] == [locale.plural_form(n) for n in shown]


@pytest.mark.parametrize("code", LOCALES)
def test_signs_of_numbers(code: str):
    language, locale = language_of(code), LOCALES[code]
    signs = locale.number_symbols["latn"]
    assert (language.decimal, language.group) == (signs["decimal"], signs["group"])
    for number in (0, 0.5, 12, 1_234, 12_345.25, 1_234_567.5):
        assert language.number(number) == format_decimal(number, "#,##0.##", locale)


@pytest.mark.parametrize("code", LOCALES)
def test_months_and_the_pattern_of_dates(code: str):
    language, locale = language_of(code), LOCALES[code]
    assert language.months == tuple(locale.months["format"]["wide"][month] for month in range(1, 13))
    for day in (dt.date(2026, month, 28 - month) for month in range(1, 13)):
        assert language.on(day) == format_date(day, "long", locale)


def test_only_the_language_asked_for_is_read(monkeypatch: pytest.MonkeyPatch):
    read: list[str] = []
    whole = Path.read_text

    def noting(path: Path, encoding: str | None = None) -> str:
        read.append(path.name)
        return whole(path, encoding)

    monkeypatch.setattr(Path, "read_text", noting)
    # A cache of its own: other tests hold a language to be the one that was read first.
    monkeypatch.setattr(languages_module, "_read", cache(languages_module._read.__wrapped__))
    found: Language = language_of("de-AT")
    assert (found.code, read) == ("de", ["de.toml"])
    assert language_of("de") is found
    assert read == ["de.toml"]
