"""Numbers, dates and durations as a language writes them, and a table that says everything the pages ask for."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import replace
from pathlib import Path

import pytest
from support.languages import ENGLISH

from guidegen.base.own_files import own_templates
from guidegen.base.units import DAY, HOUR, MINUTE
from guidegen.words.language import direction_of, language_of


@pytest.mark.parametrize(
    ("milliseconds", "said"),
    [
        (0, "0 min"),
        (400, "0 min"),
        (20_000, "20 s"),
        (70_000, "1 min 10 s"),
        (9 * MINUTE + 59_600, "10 min"),
        (13 * MINUTE + 20_000, "13 min"),
        (59 * MINUTE + 40_000, "1 h"),
        (90 * MINUTE, "1 h 30 min"),
        (40 * HOUR + 13 * MINUTE, "40 h 13 min"),
        (2 * DAY, "2 d"),
        (2 * DAY + 8 * HOUR + 31 * MINUTE, "2 d 9 h"),
    ],
)
def test_a_duration_is_as_exact_as_a_reader_needs(milliseconds: int, said: str) -> None:
    assert ENGLISH.duration(milliseconds) == said


def test_the_clock_runs_on_past_a_day() -> None:
    assert [ENGLISH.clock(at) for at in (0, 14 * MINUTE, 29_000, 26 * HOUR + 25 * MINUTE)] == [
        "0:00",
        "0:14",
        "0:00",
        "26:25",
    ]


def test_numbers_have_no_idle_noughts() -> None:
    assert [ENGLISH.number(value) for value in (3.0, 1.5, 0.1, 12345.678)] == ["3", "1.5", "0.1", "12,345.68"]
    german = replace(ENGLISH, code="de", decimal=",", group=".")
    assert german.number(12345.678) == "12.345,68"
    assert german.t("parts", n=1.5) == "1,5 parts"


def test_plural_and_date() -> None:
    assert ENGLISH.t("figures.n", n=1) == "1 figure"
    assert ENGLISH.t("figures.n", n=1000) == "1,000 figures"
    assert ENGLISH.on(dt.date(2026, 3, 4)) == "4 March 2026"


def test_an_unknown_language_gets_english_words() -> None:
    assert language_of("tlh").code == "en"
    assert direction_of("ar-EG") == "rtl"
    assert direction_of("cy") == "ltr"


def test_every_phrase_that_a_template_asks_for_is_there() -> None:
    asked = {
        key
        for file in Path(own_templates()).rglob("*.html")
        for key in re.findall(r"""\bt\(\s*"([a-z0-9.-]+)"\s*[,)]""", file.read_text("utf-8"))
    }
    assert len(asked) > 50
    assert asked <= set(ENGLISH.phrases)


def test_a_number_that_rounds_to_nought_has_no_sign() -> None:
    assert [ENGLISH.number(value) for value in (-0.001, -0.0, -0.1)] == ["0", "0", "-0.1"]
