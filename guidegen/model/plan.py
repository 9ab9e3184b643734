"""A painting project: units to paint, and the sittings there are for it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.base.source import Span
from guidegen.model.names import NO_PLACES, Name

# Minutes from midnight of the day: start, end; an end before its start was written means the next day and is
# kept past 1440.
Hours = tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Timetable:
    """Hours by weekday (Monday is 0) and by date; a date beats a day, a day beat a range when it was read."""

    weekly: Mapping[int, tuple[Hours, ...]] = field(default_factory=dict)
    dated: Mapping[dt.date, tuple[Hours, ...]] = field(default_factory=dict)

    def on(self, day: dt.date) -> tuple[Hours, ...]:
        """The hours of one day, in order, empty for none."""
        return self.dated.get(day, self.weekly.get(day.weekday(), ()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """Figures to paint by one guide. `batch` is how many at a time, None for all; `to` a stop, inclusive."""

    guide: Name
    figures: int
    batch: int | None = None
    to: Name | None = None
    choose: Mapping[str, Name] = field(default_factory=dict)
    span: Span
    places: Mapping[str, Span] = field(default_factory=lambda: NO_PLACES, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """`plans/<slug>.yaml`. `spraying` is None where every sitting will do for sprays.

    `whole` is False where something in its file could not be read, so that its evenings cannot be told.
    """

    slug: str
    file: str
    title: str
    start: dt.date
    deadline: dt.date | None = None
    sittings: Timetable
    spraying: Timetable | None = None
    skip: frozenset[dt.date] = frozenset()
    units: tuple[Unit, ...] = ()
    whole: bool = True
    span: Span
    places: Mapping[str, Span] = field(default_factory=lambda: NO_PLACES, compare=False)
