"""Times as people write them."""

from __future__ import annotations

import pytest

from guidegen.base.units import DAY, HOUR, MINUTE, SECOND
from guidegen.reading.types.base import Complaint
from guidegen.reading.types.time_words import OVERNIGHT, read_time, turned_round
from guidegen.reading.types.times import Duration, TimePerFigure

ONE_TIME = {
    "1h30": 90 * MINUTE,
    "1h 30": 90 * MINUTE,
    "1 h and 30 min": 90 * MINUTE,
    "half an hour": 30 * MINUTE,
    "Half an hour": 30 * MINUTE,
    "½ h": 30 * MINUTE,
    "1½ h": 90 * MINUTE,
    "1 1/2 hours": 90 * MINUTE,
    "an hour": HOUR,
    "an hour and a half": 90 * MINUTE,
    "two and a half hours": 150 * MINUTE,
    "a quarter of an hour": 15 * MINUTE,
    "two minutes": 2 * MINUTE,
    "forty-five minutes": 45 * MINUTE,
    "2 min.": 2 * MINUTE,
    "ca. 10 min": 10 * MINUTE,
    "about 10 min": 10 * MINUTE,
    "~10 min": 10 * MINUTE,
    "about 30": 30 * MINUTE,
    "overnight": OVERNIGHT,
    "none": 0,
    "10 Minuten": 10 * MINUTE,
    "1,5 Std": 90 * MINUTE,
    "1,5 h": 90 * MINUTE,
    "0,75 h": 45 * MINUTE,
    "2,5 min": 150 * SECOND,
    "1,5": 90 * SECOND,
    "1 Std. 30 Min.": 90 * MINUTE,
    "eine Stunde und zehn Minuten": 70 * MINUTE,
    "eine halbe Stunde": 30 * MINUTE,
    "eineinhalb Stunden": 90 * MINUTE,
    "eine Viertelstunde": 15 * MINUTE,
    "fünfundvierzig Minuten": 45 * MINUTE,
    "fu\u0308nf Minuten": 5 * MINUTE,
    "zwei Tage": 2 * DAY,
    "über Nacht": OVERNIGHT,
    "eine Nacht": OVERNIGHT,
    "1:30 h": 90 * MINUTE,
    "2 min 30": 150 * SECOND,
    "20 min or so": 20 * MINUTE,
    "1 week": 7 * DAY,
    "dreiviertel Stunde": 45 * MINUTE,
    "no": 0,
}

RANGES = {
    "10-15 min": (10 * MINUTE, 15 * MINUTE),
    "10 – 15 min": (10 * MINUTE, 15 * MINUTE),
    "10-15": (10 * MINUTE, 15 * MINUTE),
    "10 to 15 min.": (10 * MINUTE, 15 * MINUTE),
    "about 1-2 h": (HOUR, 2 * HOUR),
    "between 10 and 15 minutes": (10 * MINUTE, 15 * MINUTE),
    "half an hour to an hour": (30 * MINUTE, HOUR),
    "45 min - 1h30": (45 * MINUTE, 90 * MINUTE),
    "10 bis 15 Minuten": (10 * MINUTE, 15 * MINUTE),
    "zwischen 1,5 und 2 Std.": (90 * MINUTE, 2 * HOUR),
    "an hour or two": (HOUR, 2 * HOUR),
    "5 or 10 min": (5 * MINUTE, 10 * MINUTE),
    "ein oder zwei Tage": (DAY, 2 * DAY),
    "eine Stunde oder zwei": (HOUR, 2 * HOUR),
}


@pytest.mark.parametrize("text", ONE_TIME)
def test_one_time(text: str):
    assert read_time(text) == (ONE_TIME[text], ONE_TIME[text])


@pytest.mark.parametrize("text", RANGES)
def test_from_one_time_to_another(text: str):
    assert read_time(text) == RANGES[text]


@pytest.mark.parametrize(
    "text",
    [
        *(
            "",
            "soon",
            "a few minutes",
            "5 min or an hour",
            "5 min or 30",
            "an hour or more",
            "2 or 1 h",
            "15-10 min",
            "5-5 min",
            "-5 min",
            "1-1/2 h",
        ),
        *(
            "1:30",
            "1,500 h",
            "1,30 min",
            "1,30",
            "10 m",
            "1h5",
            "1h75",
            "1 h 30 min 10",
            "20 min 10 min",
            "1/0 h",
            "2026-03-14",
            "3651 d",
        ),
        *("1-1 h 30", "99999999999 min", "min", "and 5 min and", "٣ min", "-", "1-", "5–", " - "),
    ],
)
def test_no_time_or_more_than_one(text: str):
    assert read_time(text) is None


def test_the_shorter_time_goes_first():
    assert turned_round("15-10 min") == "10-15 min"
    assert turned_round("10-15 min") is None
    assert turned_round("a-b") is None
    assert turned_round("-1") is None


@pytest.mark.parametrize("piece", ["1/2 ", "and a half "])
def test_pieces_without_end_are_no_time(piece: str):
    assert read_time(f"1 {piece * 3_000}h") is None


@pytest.mark.parametrize(
    "text", ["5 min each", "5min/figure", "5 min per model", "300 s a figure", "5 Min je Figur"]
)
def test_a_time_per_figure_may_say_so(text: str):
    assert TimePerFigure().of(text) == 5 * MINUTE
    refused = Duration().of(text)
    assert isinstance(refused, Complaint)
    assert "after each" in refused.help
