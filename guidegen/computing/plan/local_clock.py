"""The time that passes while a painter's clock goes on: the hour that a zone's clocks skip takes none."""

from __future__ import annotations

import datetime as dt
from bisect import bisect_left, bisect_right
from collections.abc import Callable
from functools import lru_cache
from zoneinfo import ZoneInfo

from guidegen.base.units import DAY
from guidegen.computing.plan.jobs import MS

# Clocks change at whole minutes of UTC.
_FINEST = dt.timedelta(minutes=1)


class LocalClock:
    """Moments of a plan in ms since its first midnight, as the clock shows them (`shown`) and as they pass (`passed`).

    An hour that comes twice counts once: what is planned by the clock has more time then, never less.
    """

    def __init__(self, zone: dt.tzinfo | None, start: dt.date) -> None:
        """`zone` is None where nobody knows it, and no clock is changed."""
        self.zone, self.start = zone, start
        # Where each skip begins by the clock, and the same in time that has passed; how much was skipped before each.
        self._begins: list[int] = []
        self._at: list[int] = []
        self._skipped = [0]
        self._day = start
        self._offset = self._offset_on(start)

    def passed(self, shown: int) -> int:
        """The time that has passed when the clock shows a moment; one that it skips is reached when it has."""
        self._look_ahead(shown)
        number = bisect_left(self._begins, shown)
        before = self._skipped[number]
        return shown - before if number == 0 else max(shown - before, self._at[number - 1])

    def shown(self, passed: int, *, until: bool = False) -> int:
        """What the clock shows then: where it skips, what it skips to, or from for a moment that something lasts `until`."""
        self._look_ahead(passed + self._skipped[-1])
        find: Callable[[list[int], int], int] = bisect_left if until else bisect_right
        return passed + self._skipped[find(self._at, passed)]

    def moment(self, passed: int, *, until: bool = False) -> dt.datetime:
        """The same as local time."""
        return dt.datetime.combine(self.start, dt.time()) + self.shown(passed, until=until) * MS

    def _look_ahead(self, shown: int) -> None:
        """Know every skip up to two days after a moment, since one may lie over midnight."""
        last = dt.date.max.toordinal() - 1
        target = min(last, self.start.toordinal() + shown // DAY + 2)
        while self.zone is not None and self._day.toordinal() < target:
            day = self._day + dt.timedelta(days=1)
            offset = self._offset_on(day)
            if offset > self._offset:
                self._skip(self._day, day, offset - self._offset)
            self._day, self._offset = day, offset

    def _skip(self, before: dt.date, after: dt.date, length: dt.timedelta) -> None:
        zone = self.zone or dt.UTC
        # A day earlier, since midnight itself may be skipped.
        low, high = (
            dt.datetime.combine(day, dt.time(), zone).astimezone(dt.UTC)
            for day in (before - dt.timedelta(days=1), after)
        )
        moment = first_minute(low, high, lambda one: one.astimezone(zone).utcoffset() != self._offset)
        begin = moment.replace(tzinfo=None) + self._offset
        self._begins.append((begin - dt.datetime.combine(self.start, dt.time())) // MS)
        self._at.append(self._begins[-1] - self._skipped[-1])
        self._skipped.append(self._skipped[-1] + length // MS)

    def _offset_on(self, day: dt.date) -> dt.timedelta:
        found = None if self.zone is None else dt.datetime.combine(day, dt.time(), self.zone).utcoffset()
        return found or dt.timedelta()


@lru_cache(maxsize=64)
def clock_of(timezone: str, start: dt.date) -> LocalClock:
    """The clock of a zone, from the first day of a plan on."""
    return LocalClock(zone_of(timezone), start)


def zone_of(name: str) -> dt.tzinfo | None:
    """A zone by its name in the IANA database; None for one that this machine does not know."""
    if name in ("UTC", "Etc/UTC", "Z"):
        return dt.UTC
    try:
        return ZoneInfo(name)
    # A name that is a folder, or no name at all, raises errors of its own kind.
    except (KeyError, ValueError, OSError):
        return None


def first_minute(low: dt.datetime, high: dt.datetime, holds: Callable[[dt.datetime], bool]) -> dt.datetime:
    """The first minute at which something holds that holds at `high` and not yet at `low`, both in UTC."""
    while high - low > _FINEST:
        middle = low + (high - low) / 2
        middle -= dt.timedelta(seconds=middle.second, microseconds=middle.microsecond)
        if holds(middle):
            high = middle
        else:
            low = middle
    return high
