"""Single values: what each type takes, what it makes of it, and what it says to the rest."""

from __future__ import annotations

import datetime as dt
import zoneinfo
from typing import Any

import pytest

from guidegen.model.guide import Scale, Thin
from guidegen.model.web_address import WebAddress
from guidegen.reading.content.paints import KIND
from guidegen.reading.content.steps import STEP
from guidegen.reading.types.base import LONGEST_TEXT, Complaint, OneOf, Text, Words
from guidegen.reading.types.sizes import SIZES, Base, ScaleOf, Surface
from guidegen.reading.types.standards import Currency, Language, Timezone, Token, Url
from guidegen.reading.types.times import Date, Duration, HoursOf, VideoTime
from guidegen.reading.types.values import (
    Amount,
    AtATime,
    Colour,
    Decimal,
    Money,
    Pots,
    Ratio,
    Share,
    ThinOf,
    Volume,
    Whole,
    YesNo,
)

MINUTE = 60_000

TAKEN: tuple[tuple[Words[Any], str, Any], ...] = (
    (Duration(), "10 min", 10 * MINUTE),
    (Duration(), "90 s", 90_000),
    (Duration(), "1 h 30 min", 90 * MINUTE),
    (Duration(), "1.5 h", 90 * MINUTE),
    (Duration(), "2 d", 2 * 1440 * MINUTE),
    (Duration(), "30", 30 * MINUTE),
    (Duration(), "PT1H30M", 90 * MINUTE),
    (Duration(), "0", 0),
    (Duration(), "1h30", 90 * MINUTE),
    (Duration(), "10-15 min", 12 * MINUTE + 30_000),
    (Duration(longest=True), "10-15 min", 15 * MINUTE),
    (Colour(), "003366", "#003366"),
    (Colour(), "#B8862F", "#b8862f"),
    (Colour(), "f0a", "#ff00aa"),
    (YesNo(), "Yes", True),
    (YesNo(), "OFF", False),
    (YesNo(), "1", True),
    (Pots(), "yes", 1),
    (Pots(), "no", 0),
    (Pots(), "3", 3),
    (Share(), "20%", 0.2),
    (Share(), "12.5 %", 0.125),
    (Volume(), "17 ml", 17.0),
    (Volume(), "0.4l", 400.0),
    (Volume(bare=True), "0.05", 0.05),
    (Money(), "2.80", 2.8),
    (Money(), "0", 0.0),
    (Base(), "25 mm", 25.0),
    (Base(), "2.5cm round", 25.0),
    (Base(), "None", 0.0),
    (Surface(), "40 cm2", 40.0),
    (Surface(), "40 cm²", 40.0),
    (Surface(), "0.5 m^2", 5000.0),
    (ScaleOf(), "1:56", Scale(ratio=56.0, text="1:56", given=True)),
    (ScaleOf(), "1/35", Scale(ratio=35.0, text="1:35", given=True)),
    (ScaleOf(), "28mm", Scale(ratio=56.0, text="28 mm", given=True)),
    (Ratio(), "1:9", (1.0, 9.0)),
    (Ratio(), "2.5 : 1", (2.5, 1.0)),
    (ThinOf(), "3:1 water", Thin(text="3:1 water", paint_share=0.75)),
    (ThinOf(), "a drop of water", Thin(text="a drop of water")),
    (Amount(), "2", (2.0, False)),
    (Amount(), "A touch", (0.1, True)),
    (Date(), "2026-03-14", dt.date(2026, 3, 14)),
    (VideoTime(), "4:05", 245_000),
    (VideoTime(), "1:02:03", 3_723_000),
    (HoursOf(), "20:00-22:00", (1200, 1320)),
    (HoursOf(), "22:30 – 01:00", (1350, 1500)),
    (HoursOf(), "20:00-24:00", (1200, 1440)),
    (Whole(high=10), "10", 10),
    (AtATime(), "10", 10),
    (AtATime(), "All", 0),
    (Decimal(), "0.5", 0.5),
    (Url(), "https://example.org/film?v=1#t", WebAddress.parse("https://example.org/film?v=1#t")),
    (Url(home=True), "http://example.org:8080/delta", WebAddress.parse("http://example.org:8080/delta")),
    (Language(), "pt-BR", "pt-BR"),
    (Timezone(), "UTC", "UTC"),
    (Currency(), "eur", "EUR"),
    (Token(), "#1f2a40", "#1f2a40"),
    (Token(), '"Delta Sans", serif', '"Delta Sans", serif'),
    (KIND, "Undercoat", "primer"),
    (KIND, "shade", "wash"),
)


@pytest.mark.parametrize(("kind", "text", "value"), TAKEN, ids=lambda value: str(value)[:30])
def test_taken(kind: Words[Any], text: str, value: Any):
    assert kind.of(text) == value


# The type, what was typed, and what the sentence or the help has to have in it.
REFUSED: tuple[tuple[Words[Any], str, str], ...] = (
    (Duration(), "1:30", "1 min 30 s or 1 h 30 min"),
    (Duration(), "1:30:05", "1 h 30 min 5 s"),
    (Duration(), "1,500 h", "1.500 h"),
    (Duration(), "15-10 min", "the shorter time first: 10-15 min"),
    (Duration(), "10 m", "Write 10 min."),
    (Duration(), "a few minutes", "5-10 min"),
    (Duration(), "soon", "90 s"),
    (Duration(), "-5 min", "10 min"),
    (Duration(), "99999 d", "10 min"),
    (Colour(), "b8862", "three or six"),
    (Colour(), "#b8862fff", '"#b8862f"'),
    (Colour(), "ochre", "three or six"),
    (YesNo(), "perhaps", "yes or no"),
    (YesNo(), "Ja", "Write yes."),
    (Pots(), "nein", "Write no."),
    (Pots(), "two", "Write 2."),
    (OneOf(words={"metallic": 1, "varnish": 2, "wash": 3, "ink": 4}), "metal", "Write metallic."),
    (OneOf(words={"metallic": 1, "varnish": 2, "wash": 3, "ink": 4}), "matt varnish", "Write varnish."),
    (OneOf(words={"metallic": 1, "varnish": 2, "wash": 3, "ink": 4}), "ink/wash", "varnish, wash or ink"),
    (Pots(), "10001", "10,000"),
    (Share(), "0.2", "20%"),
    (Share(), "20", "20%"),
    (Share(), "120%", "100%"),
    (Share(), "0%", "above 0%"),
    (Volume(), "17", "17 ml"),
    (Volume(), "17,5 ml", "17.5 ml"),
    (Volume(), "0 ml", "17 ml"),
    (Money(), "2,80", "2.80"),
    (Money(), "€2.80", "currency"),
    (Base(), "25", "25 mm"),
    (Base(), "25x50 mm", "surface:"),
    (Surface(), "40", "40 cm2"),
    (ScaleOf(), "1:0", "1:56"),
    (ScaleOf(), "30 mm", "6, 10, 15, 20, 28, 32, 54, 75 and 90 mm"),
    (Ratio(), "0:9", "above 0"),
    (Ratio(), "1-9", "1:9"),
    (ThinOf(), "0:1 water", "above 0"),
    (ThinOf(), "1:2:3", "above 0"),
    (Amount(), "0", "above 0"),
    (Amount(), "1,5", "1.5"),
    (Amount(), "a toch", "a touch"),
    (Date(), "2026-02-30", "calendar"),
    (Date(), "2026-3-4", "2026-03-04"),
    (Whole(), "Two", "Write 2."),
    (Whole(low=5), "two", "Write digits only"),
    (Date(), "14.3.2026", "2026-03-14"),
    (Date(), "1492-10-12", "1900"),
    (VideoTime(), "4:65", "4:05"),
    (VideoTime(), "245", "4:05"),
    (HoursOf(), "20:00", "20:00-22:00"),
    (HoursOf(), "25:00-26:00", "24:00"),
    (HoursOf(), "20:00-20:00", "later"),
    (Whole(), "0", "from 1 to 10,000"),
    (AtATime(), "0", "from 1 to 10,000, or all."),
    (AtATime(), "two", "Write 2, or all."),
    (Whole(), "10.0", "digits only"),
    (Whole(), "a dozen or so", "digits only"),
    (Decimal(), "0", "1.5"),
    (Url(), "example.org", "https://"),
    (Url(), "ftp://example.org/", "https://"),
    (Url(), "javascript:alert(1)", "https://"),
    (Url(), "https://hob@example.org/", "address line"),
    (Url(), 'https://example.org/"><b>', "address line"),
    (Url(home=True), "https://example.org/?a", "Leave out"),
    (Url(), "https://[.]/x", "address line"),
    (Url(), "https://[::g]/", "address line"),
    (Url(), "https://\u2100.example/", "address line"),
    (Url(), "https://example.org:99999/", "address line"),
    (Url(), "https://example.org:٣/", "address line"),
    (Url(), "https://.../", "address line"),
    (Language(), "marshland", "two or three letters"),
    (Timezone(), "Delta/Nightjetty", "Europe/Amsterdam"),
    (Timezone(), "../../etc/passwd", "Europe/Amsterdam"),
    (Timezone(), "Europe", "continent and a city"),
    (Timezone(), "localtime", "continent and a city"),
    (Timezone(), "right/Europe/Amsterdam", "continent and a city"),
    (Currency(), "€", "EUR"),
    (Token(), "url(https://example.org)", "plain value"),
    (Token(), "red; } body {", "plain value"),
    (Text(), "x" * (LONGEST_TEXT + 1), "5,000"),
    (KIND, "washh", "Write wash"),
    (Duration(), "at least 1 h", "Write 1 h."),
    (Duration(), "30 min or more", "Write 30 min."),
    (Duration(), "10+ min", "Write 10 min."),
    (Duration(), ">30 min", "Write 30 min."),
    (Duration(), "1h30m", "Write 1h30 min."),
    (Date(), "14.3.2026", "Write 2026-03-14."),
    (Date(), "3/4/2026", "Write 2026-04-03 or 2026-03-04, whichever is meant."),
    (Date(), "3/14/2026", "Write 2026-03-14."),
    (Date(), "20 June 2026", "Write 2026-06-20."),
    (Date(), "June 3rd, 2026", "Write 2026-06-03."),
    (Date(), "3. März 2026", "Write 2026-03-03."),
    (Date(), "31 June 2026", "as in 2026-03-14"),
    (Date(), "June 2026", "as in 2026-03-14"),
    (Colour(), "rgb(79 107 69)", 'Write "#4f6b45".'),
    (Colour(), "79, 107, 269", "Write three or six"),
    (Timezone(), "Berlin", "Write Europe/Berlin."),
    (Currency(), "euro", "Write EUR."),
    (Language(), "English", "Write en."),
)


@pytest.mark.parametrize(("kind", "text", "words"), REFUSED, ids=lambda value: str(value)[:30])
def test_refused(kind: Words[Any], text: str, words: str):
    complaint = kind.of(text)
    assert isinstance(complaint, Complaint)
    assert words in f"{complaint.message} {complaint.help}"


@pytest.mark.parametrize("kind", {type(kind): kind for kind, *_ in (*TAKEN, *REFUSED)}.values(), ids=repr)
def test_every_type_says_what_it_expects(kind: Words[Any]):
    assert kind.expected
    if kind.example:
        assert not isinstance(kind.of(kind.example.strip('"')), Complaint)


def test_every_example_of_the_tables_can_be_read():
    for key in STEP.keys:
        if isinstance(key.type, Words) and key.type.example:
            assert not isinstance(key.type.of(key.type.example.strip('"')), Complaint), key.name


def test_every_size_is_one_scale():
    assert {size: ScaleOf().of(f"{size} mm").ratio for size in SIZES} == SIZES


def test_without_a_time_zone_database_a_name_of_that_form_will_do(monkeypatch: pytest.MonkeyPatch):
    def none(key: str) -> zoneinfo.ZoneInfo:
        raise zoneinfo.ZoneInfoNotFoundError(key)

    monkeypatch.setattr(zoneinfo, "ZoneInfo", none)
    monkeypatch.setattr(zoneinfo, "available_timezones", set)
    assert Timezone().of("Europe/Amsterdam") == "Europe/Amsterdam"
    assert isinstance(Timezone().of("over there"), Complaint)
