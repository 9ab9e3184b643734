"""A painting project: units to paint, and the sittings there are for it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.base.source import Span
from guidegen.base.units import DAY, MINUTE
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
class Changes:
    """What changing over to another pot costs, ms: a brush into another paint, a mixture, a metal, an airbrush colour.

    Common practice, no source: a metal and a mixture have a brush and water of their own.
    """

    paint: int = 2 * MINUTE
    mix: int = 5 * MINUTE
    metal: int = 5 * MINUTE
    airbrush: int = 5 * MINUTE


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """Figures to paint by one guide. `batch` is how many at a time, 0 for all, None for as the
    guide says; `to` a stop, inclusive.

    `mixed` gives how many figures take each option of one choice. `trial` figures go to the unit's end before the
    others begin. `done` names the step or stop up to which all is painted, by batch, 0 standing for every batch.
    `without` names steps that are left out; `optional` alone stands for the optional ones.
    """

    guide: Name
    figures: int
    batch: int | None = None
    to: Name | None = None
    choose: Mapping[str, Name] = field(default_factory=dict)
    mixed: Mapping[str, Mapping[str, int]] = field(default_factory=dict)
    trial: int = 0
    done: Mapping[int, Name] = field(default_factory=dict)
    without: tuple[Name, ...] = ()
    span: Span
    places: Mapping[str, Span] = field(default_factory=lambda: NO_PLACES, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """`plans/<slug>.yaml`. `spraying` is None where every sitting will do for sprays.

    `set_up` and `clean_up` are the ms at both ends of a sitting in which nothing is painted, `cure` the ms that
    water-based paint lies before a can, solvent or tape touches it. What lies before `since` is past.
    `timezone` is the site's.

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
    change: Changes = field(default_factory=Changes)
    set_up: int = 0
    clean_up: int = 0
    cure: int = DAY
    since: dt.datetime | None = None
    timezone: str = "UTC"
    units: tuple[Unit, ...] = ()
    whole: bool = True
    span: Span
    places: Mapping[str, Span] = field(default_factory=lambda: NO_PLACES, compare=False)
