"""Types of times: durations, dates, places in a video, and the hours of a timetable."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.base import units
from guidegen.base.diagnostic import Related
from guidegen.model.plan import Hours, Timetable
from guidegen.reading.types.base import Complaint, Type, Words, is_empty
from guidegen.reading.types.maps import named_entries
from guidegen.reading.types.parse_context import ParseContext, near
from guidegen.reading.types.time_words import read_time, turned_round
from guidegen.reading.types.values import comma_help
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, Scalar

# Years that a hobby's records and plans lie in; sums of dates stay far from the calendar's ends.
FIRST_YEAR = 1900
LAST_YEAR = 2200

_CLOCK = re.compile(r"([0-9]{1,3}):([0-9]{2})(?::([0-9]{2}))?")


@dataclass(frozen=True, slots=True, kw_only=True)
class Duration(Words[int]):
    """A stretch of time in whole ms; a form that can be read as minutes and as hours is refused.

    A range counts as its middle, which is what hands take on average, with `longest` as its upper end, after which
    paint is dry.
    """

    longest: bool = False
    expected: str = "a time such as 10 min"
    example: str = "10 min"
    code: str = "bad-duration"

    def of(self, text: str) -> int | Complaint:
        duration = units.read_duration(text)
        if duration is not None:
            return duration
        clock = _CLOCK.fullmatch(text)
        if clock:
            return Complaint(_readings(clock), f"“{text}” can be read in more than one way as a time.")
        meant = read_time(text)
        if meant is not None:
            return meant.most if self.longest else (meant.least + meant.most) // 2
        return Complaint(comma_help(text) or _which_time(text))


_PER_FIGURE = re.compile(
    r"\s*(?:\beach|(?:\b(?:per|a|for each|je|pro)\b|/)\s*(?:figure|model|miniature|figur|modell))",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TimePerFigure(Duration):
    """A stretch of time for each figure, which may say so once more."""

    def of(self, text: str) -> int | Complaint:
        said = _PER_FIGURE.search(text)
        return Duration.of(self, text[: said.start()] if said and said.end() == len(text) else text)


@dataclass(frozen=True, slots=True, kw_only=True)
class Minutes(Duration):
    """A stretch of time; a number alone counts minutes."""

    expected: str = "minutes such as 52"
    example: str = "52"

    def of(self, text: str) -> int | Complaint:
        bare = re.fullmatch(r"[0-9]{1,4}(?:\.[0-9]{1,2})?", text)
        return Duration.of(self, f"{text} min" if bare else text)


_QUALIFIED = re.compile(
    r"(?:at least|at most|min\.|max\.|mindestens|höchstens|maximal|up to|bis zu|[<>≥≤])\s*(.+)"
    r"|(.+?)\s*(?:\+|or more|or longer|at least|oder mehr|mindestens)",
    re.IGNORECASE,
)
_UNTIL_DRY = re.compile(
    r"(?:(?:un)?till?|when|bis|wenn)\b.*\b(?:dry|trocken|getrocknet|durchgetrocknet)\b.*|dry|trocken",
    re.IGNORECASE,
)
_MINUTES = frozenset("'’′")
_SIGN = re.compile(r"([0-9]{1,4})\s*(['’′]|''|[\"”″])")
_UNSURE = re.compile(r"\b(?:few|couple|some|several|while|paar|einige|or|oder)\b", re.IGNORECASE)


def _which_time(text: str) -> str:
    """What to type instead of words that mean no time, or not one."""
    metres = re.fullmatch(r"([0-9]{1,9}(?:\.[0-9]{1,9})?)\s*(?:m|mn)\.?", text, re.IGNORECASE)
    if metres:
        return f"Write {metres[1]} min."
    in_full = re.sub(r"(?<=[0-9])\s*m(?![^\W\d])\s*", " min ", re.sub(r"(?<=[0-9])\+", "", text)).strip()
    if in_full != text and read_time(in_full):
        return f"Write {in_full}."
    if sign := _SIGN.fullmatch(text):
        return f"Write {sign[1]} {'min' if sign[2] in _MINUTES else 's'}."
    if _UNTIL_DRY.fullmatch(text):
        return "Write how long that takes, as in 30 min, or overnight."
    qualified = _QUALIFIED.fullmatch(text)
    bare = (qualified[1] or qualified[2]) if qualified else ""
    if bare and read_time(bare):
        return f"Write {bare}."
    figure = _PER_FIGURE.search(text)
    if figure and read_time(text[: figure.start()]):
        return f"Write {text[: figure.start()]} after each, which is the time for each figure."
    turned = turned_round(text)
    if turned:
        return f"Write the shorter time first: {turned}"
    if _UNSURE.search(text):
        return "Write how long, as in 5 min, or from what to what, as in 5-10 min."
    return "Write it as 10 min, 90 s, 1 h 30 min, 1.5 h, 2 d or PT1H30M."


def _readings(clock: re.Match[str]) -> str:
    """What to type instead of 1:30: each time that it may be read as."""
    first, second, third = int(clock[1]), int(clock[2]), clock[3]
    if third is not None:
        whole = first * units.HOUR + second * units.MINUTE + int(third) * units.SECOND
        return f"Write {units.print_duration(whole)} if that is meant."
    short = units.print_duration(first * units.MINUTE + second * units.SECOND)
    long = units.print_duration(first * units.HOUR + second * units.MINUTE)
    return f"Write {short} or {long}, whichever is meant." if short != long else "Write 0 min."


_DAY_MONTH_YEAR = re.compile(r"([0-9]{1,2})([./-])\s*([0-9]{1,2})[./-]\s*([0-9]{4})")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_GERMAN_MONTHS = {"mär": "mar", "mae": "mar", "mai": "may", "okt": "oct", "dez": "dec"}


def _which_day(text: str) -> str:
    """What to type instead of a day in another form; both readings where a month may stand first."""
    found: list[str] = []
    if numbers := _DAY_MONTH_YEAR.fullmatch(text):
        first, sign, second, year = numbers.groups()
        orders = [(second, first)] if sign == "." else [(second, first), (first, second)]
        found = [day for month, day_of in orders if (day := _iso(year, int(month), day_of))]
    elif words := re.fullmatch(
        r"(?:([0-9]{1,2})\S{0,2}\s+)?([^\W\d]{3,9})\.?(?:\s+([0-9]{1,2})\S{0,2})?,?\s+([0-9]{4})", text
    ):
        month = words[2].casefold()[:3]
        month = _GERMAN_MONTHS.get(month, month)
        if month in _MONTHS and (words[1] or words[3]):
            found = [_iso(words[4], _MONTHS.index(month) + 1, words[1] or words[3])]
    days = list(dict.fromkeys(day for day in found if day))
    if not days:
        return "Write the year, the month and the day, as in 2026-03-14."
    return f"Write {days[0]}." if len(days) == 1 else f"Write {' or '.join(days)}, whichever is meant."


def _iso(year: str, month: int, day: str) -> str:
    try:
        return dt.date(int(year), month, int(day)).isoformat()
    except ValueError:
        return ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Date(Words[dt.date]):
    """A day by year, month and day."""

    expected: str = "a date such as 2026-03-14"
    example: str = "2026-03-14"
    code: str = "bad-date"

    def of(self, text: str) -> dt.date | Complaint:
        """The day, from 1900 to 2200."""
        if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text):
            loose = re.fullmatch(r"([0-9]{4})[-/.]([0-9]{1,2})[-/.]([0-9]{1,2})", text)
            if loose:
                return Complaint(f"Write {loose[1]}-{int(loose[2]):02}-{int(loose[3]):02}.")
            return Complaint(_which_day(text))
        try:
            day = dt.date.fromisoformat(text)
        except ValueError:
            return Complaint("Look at the calendar: a month has 28 to 31 days.", f"There is no day {text}.")
        if not FIRST_YEAR <= day.year <= LAST_YEAR:
            return Complaint(f"The year has to lie between {FIRST_YEAR} and {LAST_YEAR}.")
        return day


@dataclass(frozen=True, slots=True, kw_only=True)
class VideoTime(Words[int]):
    """A place in a video as players show it, in ms from its start."""

    expected: str = "a place in the video such as 4:05"
    example: str = '"4:05"'

    def of(self, text: str) -> int | Complaint:
        found = _CLOCK.fullmatch(text)
        if found and found[3] is None and int(found[2]) < 60:
            return int(found[1]) * units.MINUTE + int(found[2]) * units.SECOND
        if found and found[3] is not None and int(found[2]) < 60 and int(found[3]) < 60:
            return int(found[1]) * units.HOUR + int(found[2]) * units.MINUTE + int(found[3]) * units.SECOND
        return Complaint("Write minutes and seconds as in 4:05, or hours too as in 1:02:03.")


_HOURS = re.compile(r"([0-9]{1,2}):([0-9]{2})\s*[-–]\s*([0-9]{1,2}):([0-9]{2})")


@dataclass(frozen=True, slots=True, kw_only=True)
class HoursOf(Words[Hours]):
    """From when till when, in minutes from midnight; an end before its start is the next day."""

    expected: str = "hours such as 20:00-22:00"
    example: str = '"20:00-22:00"'

    def of(self, text: str) -> Hours | Complaint:
        found = _HOURS.fullmatch(text)
        if not found:
            return Complaint('Write them as "20:00-22:00", or none.')
        start, end = int(found[1]) * 60 + int(found[2]), int(found[3]) * 60 + int(found[4])
        if int(found[2]) > 59 or int(found[4]) > 59 or start >= units.DAY // units.MINUTE or end > 24 * 60:
            return Complaint("A day goes from 0:00 to 24:00, an hour to 59 minutes.")
        if start == end:
            return Complaint(
                "Let them end later than they begin.", f"“{text}” begins and ends at the same minute."
            )
        return start, end if end > start else end + 24 * 60


HOURS = HoursOf()
DATE = Date()
WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
_DAYS = {word: number for number, day in enumerate(WEEKDAYS) for word in (day[:3], day)}

_GERMAN_DAYS = {
    word: number
    for number, day in enumerate(
        ["montag", "dienstag", "mittwoch", "donnerstag", "freitag", "samstag", "sonntag"]
    )
    for word in (day[:2], day)
} | {"sonnabend": 5}


@dataclass(frozen=True, slots=True, kw_only=True)
class TimetableOf(Type[Timetable]):
    """Hours by ranges of weekdays, by weekday and by date: a date beats a day, a day beats a range."""

    expected: str = 'days and hours such as {mon-fri: "20:00-22:00"}'
    example: str = '{mon-fri: "20:00-22:00"}'

    def read(self, node: Node, key: str, context: ParseContext) -> Timetable | None:
        if not isinstance(node, MapNode):
            self.refuse(node, key, context)
            return None
        ranges: dict[int, tuple[Hours, ...]] = {}
        days: dict[int, tuple[Hours, ...]] = {}
        dated: dict[dt.date, tuple[Hours, ...]] = {}
        first: dict[tuple[str, object], Scalar] = {}
        for name, entry in named_entries(node, key, context):
            if is_empty(entry.value):
                self._empty(name, entry.key, context)
                continue
            hours = _hours_of(entry.value, name, context)
            span = _days_of(name)
            if span is None:
                date = DATE.of(name)
                if isinstance(date, Complaint):
                    _tell_day(name, entry.key, context)
                    continue
                dated[date] = hours
                continue
            kind, target = ("range", ranges) if len(span) > 1 else ("day", days)
            twice = next((first[kind, day] for day in span if (kind, day) in first), None)
            if twice is not None:
                _tell_days_again(entry.key, twice, context)
                continue
            for day in span:
                first[kind, day] = entry.key
                target[day] = hours
        return Timetable(weekly=dict(sorted((ranges | days).items())), dated=dict(sorted(dated.items())))

    def _empty(self, name: str, key: Scalar, context: ParseContext) -> None:
        context.say(
            "empty-value",
            f"Nothing stands after {name}, so it counts as left out.",
            context.span(key),
            f"Write hours after {name}:, or none.",
        )


def _days_of(name: str) -> tuple[int, ...] | None:
    """The weekdays of `sat` or `fri-mon`, None for another word."""
    first, dash, last = (part.strip() for part in name.casefold().replace("–", "-").partition("-"))
    if first not in _DAYS or (dash and last not in _DAYS):
        return None
    start = _DAYS[first]
    length = (_DAYS[last] - start) % 7 + 1 if dash else 1
    return tuple((start + step) % 7 for step in range(length))


def _tell_day(name: str, key: Scalar, context: ParseContext) -> None:
    if re.match(r"[0-9]", name):
        DATE.refuse(key, "a timetable", context, "Write the year, the month and the day, as in 2026-06-03.")
        return
    days = [part.strip().casefold() for part in name.replace("–", "-").split("-")]
    parts = [
        WEEKDAYS[_GERMAN_DAYS[day]][:3] if day in _GERMAN_DAYS else near(day, tuple(_DAYS)) for day in days
    ]
    best = "-".join(filter(None, parts)) if all(parts) else None
    context.bad(
        key,
        "a timetable",
        "a day such as sat, days such as mon-fri, or a date",
        f"Write {best}." if best else "The days are mon, tue, wed, thu, fri, sat and sun.",
    )


def _tell_days_again(second: Scalar, first: Scalar, context: ParseContext) -> None:
    """duplicate-key for a day that two entries of the same weight give hours for."""
    context.say(
        "duplicate-key",
        f"“{second.value.strip()}” and “{first.value.strip()}” give hours for the same day; only one can count.",
        context.span(second),
        "Let each day stand in one of them; a single day beats days such as mon-fri.",
        (Related(span=context.span(first), message="gives them first."),),
    )


def _hours_of(node: Node, key: str, context: ParseContext) -> tuple[Hours, ...]:
    if isinstance(node, Scalar) and node.value.strip().casefold() == "none":
        return ()
    nodes = node.items if isinstance(node, ListNode) else (node,)
    read = [(hours, item) for item in nodes if (hours := HOURS.read(item, key, context)) is not None]
    read.sort(key=lambda pair: pair[0])
    return tuple(_apart(read, context))


def _apart(read: list[tuple[Hours, Node]], context: ParseContext) -> Iterator[Hours]:
    """The hours in order; those that run into the ones before are told and left out."""
    busy = 0
    for hours, node in read:
        if hours[0] < busy:
            context.say(
                "bad-value",
                "These hours begin before the ones before them have ended.",
                context.span(node),
                "Write one stretch from the first beginning to the last end.",
            )
            continue
        busy = hours[1]
        yield hours
