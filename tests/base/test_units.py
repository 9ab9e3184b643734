"""Times, volumes and colours as authors type them, and times printed back."""

from __future__ import annotations

import pytest

from guidegen.base.units import (
    DAY,
    HOUR,
    LONGEST,
    MINUTE,
    SECOND,
    iso_duration,
    print_duration,
    read_colour,
    read_duration,
    read_volume,
)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("10 min", 10 * MINUTE),
        ("10min", 10 * MINUTE),
        ("10 MINS", 10 * MINUTE),
        ("90 s", 90 * SECOND),
        ("90 seconds", 90 * SECOND),
        ("1 h 30 min", 90 * MINUTE),
        ("1h30min", 90 * MINUTE),
        ("30 min 1 h", 90 * MINUTE),
        ("1.5 h", 90 * MINUTE),
        ("2 d", 2 * DAY),
        ("2 days 1 hour", 2 * DAY + HOUR),
        ("30", 30 * MINUTE),
        (" 30 ", 30 * MINUTE),
        ("0", 0),
        ("0.5", 30 * SECOND),
        ("PT1H30M", 90 * MINUTE),
        ("pt45s", 45 * SECOND),
        ("P1DT2H", 26 * HOUR),
        ("P1D", DAY),
        ("0.0001 s", 0),
        ("0.0006 s", 1),
        ("3650 d", LONGEST),
    ],
)
def test_durations(text: str, expected: int):
    assert read_duration(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        "",
        " ",
        "soon",
        "1:30",
        "10 m",
        "-10 min",
        "10 min 5 min",
        "1 h and 30 min",
        "10,5 min",
        "1e3 s",
        "½ h",
        "١٠",
        "P",
        "PT",
        "P1H",
        "3651 d",
        "999999999 d",
        "1234567890",
        "10 min.",
        "P1,5D",
    ],
)
def test_what_is_no_duration(text: str):
    assert read_duration(text) is None


@pytest.mark.parametrize(
    ("milliseconds", "words", "iso"),
    [
        (0, "0 min", "PT0S"),
        (1, "0.001 s", "PT0.001S"),
        (30 * SECOND, "30 s", "PT30S"),
        (90 * SECOND, "1 min 30 s", "PT1M30S"),
        (90 * MINUTE, "1 h 30 min", "PT1H30M"),
        (DAY, "1 d", "P1D"),
        (DAY + HOUR + MINUTE + SECOND, "1 d 1 h 1 min 1 s", "P1DT1H1M1S"),
        (24 * HOUR + 30 * SECOND, "1 d 30 s", "P1DT30S"),
        (MINUTE + 1, "1 min 0.001 s", "PT1M0.001S"),
    ],
)
def test_printed(milliseconds: int, words: str, iso: str):
    """The second form is ISO 8601's."""
    assert print_duration(milliseconds) == words
    assert iso_duration(milliseconds) == iso


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("17 ml", 17.0),
        ("17ML", 17.0),
        ("0.5 l", 500.0),
        ("3 cl", 30.0),
        ("1 litre", 1000.0),
        ("2 liters", 2000.0),
        ("12 millilitres", 12.0),
        (" 17 ml ", 17.0),
        ("17", None),
        ("17,5 ml", None),
        ("-1 ml", None),
        ("17 oz", None),
        ("١٧ ml", None),
        ("ml", None),
        ("", None),
    ],
)
def test_volumes(text: str, expected: float | None):
    assert read_volume(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("#b8862f", "#b8862f"),
        ("B8862F", "#b8862f"),
        ("003366", "#003366"),
        ("#fa0", "#ffaa00"),
        ("fa0", "#ffaa00"),
        (" #FA0 ", "#ffaa00"),
        ("#12345", None),
        ("#1234567", None),
        ("#12345678", None),
        ("##112233", None),
        ("ochre", None),
        ("", None),
        ("#", None),
        ("１２３", None),
    ],
)
def test_colours(text: str, expected: str | None):
    assert read_colour(text) == expected
