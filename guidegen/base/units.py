"""Durations, volumes, lengths and money: read what an author typed, and print it back.

Readers return None for text of another form; the caller says so with the place at hand. Durations are
whole milliseconds everywhere, so that Python and the browser add the same integers.
"""

from __future__ import annotations

import math
import re

SECOND = 1_000
MINUTE = 60 * SECOND
HOUR = 60 * MINUTE
DAY = 24 * HOUR

# Ten years: longer than any drying, and small enough that sums stay exact in a browser's numbers.
LONGEST = 3_650 * DAY

_UNITS = {
    **dict.fromkeys(("s", "sec", "secs", "second", "seconds"), SECOND),
    **dict.fromkeys(("min", "mins", "minute", "minutes"), MINUTE),
    **dict.fromkeys(("h", "hour", "hours"), HOUR),
    **dict.fromkeys(("d", "day", "days"), DAY),
}
_NUMBER = r"[0-9]{1,9}(?:\.[0-9]{1,9})?"
_PART = re.compile(rf"\s*({_NUMBER})\s*([a-z]+)\s*", re.IGNORECASE)
_ISO = re.compile(
    rf"P(?:({_NUMBER})D)?(?:T(?:({_NUMBER})H)?(?:({_NUMBER})M)?(?:({_NUMBER})S)?)?", re.IGNORECASE
)


def read_duration(text: str) -> int | None:
    """Milliseconds of `10 min`, `1 h 30 min`, `1.5 h`, `30` (minutes) or `PT1H30M`; None for anything else."""
    text = text.strip()
    if re.fullmatch(_NUMBER, text):
        return _whole(float(text) * MINUTE)
    iso = _ISO.fullmatch(text)
    if iso and any(iso.groups()):
        given = zip(iso.groups(), (DAY, HOUR, MINUTE, SECOND), strict=True)
        return _whole(math.fsum(float(number) * unit for number, unit in given if number))
    total, at, used = 0.0, 0, set()
    while at < len(text):
        part = _PART.match(text, at)
        unit = _UNITS.get(part[2].lower()) if part else None
        if part is None or unit is None or unit in used:
            return None
        used.add(unit)
        total += float(part[1]) * unit
        at = part.end()
    return _whole(total) if used else None


def _whole(milliseconds: float) -> int | None:
    return round(milliseconds) if milliseconds <= LONGEST else None


def print_duration(milliseconds: int) -> str:
    """`1 h 30 min`: days, hours, minutes and seconds, leaving out what is nought."""
    if milliseconds < SECOND:
        return "0 min" if milliseconds == 0 else f"{milliseconds / SECOND:g} s"
    parts = []
    for name, unit in (("d", DAY), ("h", HOUR), ("min", MINUTE)):
        count, milliseconds = divmod(milliseconds, unit)
        if count:
            parts.append(f"{count} {name}")
    if milliseconds:
        parts.append(f"{milliseconds / SECOND:g} s")
    return " ".join(parts)


def print_clock(milliseconds: int) -> str:
    """A time in a film as players show it: `4:05`, with hours where there are any, `1:02:03`."""
    minutes, seconds = divmod(milliseconds // SECOND, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02d}:{seconds:02d}" if hours else f"{minutes}:{seconds:02d}"


def iso_duration(milliseconds: int) -> str:
    """ISO 8601 duration, as schema.org and RFC 5545 read it: `PT1H30M`."""
    days, rest = divmod(milliseconds, DAY)
    hours, rest = divmod(rest, HOUR)
    minutes, rest = divmod(rest, MINUTE)
    clock = "".join(
        f"{value:g}{letter}"
        for value, letter in ((hours, "H"), (minutes, "M"), (rest / SECOND, "S"))
        if value
    )
    return "P" + (f"{days}D" if days else "") + (f"T{clock}" if clock else "") if days or clock else "PT0S"


_VOLUME = re.compile(rf"({_NUMBER})\s*(ml|millilitres?|milliliters?|cl|l|litres?|liters?)", re.IGNORECASE)


def read_volume(text: str) -> float | None:
    """Millilitres of `17 ml`, `0.5 l` or `3 cl`; None for anything else."""
    found = _VOLUME.fullmatch(text.strip())
    if not found:
        return None
    unit = found[2].lower()
    factor = 1.0 if unit[0] == "m" else 10.0 if unit == "cl" else 1000.0
    return float(found[1]) * factor


_COLOUR = re.compile(r"#?([0-9a-f]{3}|[0-9a-f]{6})", re.IGNORECASE)


def read_colour(text: str) -> str | None:
    """`#rrggbb` in lower case from `#rgb`, `rgb`, `#rrggbb` or `rrggbb`; None for anything else."""
    found = _COLOUR.fullmatch(text.strip())
    if not found:
        return None
    digits = found[1].lower()
    return "#" + ("".join(c + c for c in digits) if len(digits) == 3 else digits)
