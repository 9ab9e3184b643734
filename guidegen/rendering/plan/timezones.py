"""A time zone's rules for a calendar file: VTIMEZONE after RFC 5545, section 3.6.5."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from typing import TYPE_CHECKING

from guidegen.computing.plan.local_clock import first_minute

if TYPE_CHECKING:
    from icalendar import Timezone, TimezoneDaylight, TimezoneStandard

# Clocks change at whole minutes of UTC, and never twice within this in any zone's rules.
STEP = dt.timedelta(hours=12)
FINEST = dt.timedelta(minutes=1)


def describe_zone(name: str, zone: dt.tzinfo, first: dt.date, last: dt.date) -> Timezone:
    """The zone as it is in the years of two days and between: one observance for each change.

    Each begins in the local time that holds until then, as the RFC asks: the clock reads 02:00, not yet 03:00, when
    summer time begins.
    """
    from icalendar import Timezone

    # Whole years, since some programs ask for both halves of one; a day more, so that local midnight lies inside.
    start = dt.datetime(max(first.year, dt.MINYEAR + 1), 1, 1, tzinfo=dt.UTC) - 2 * STEP
    end = dt.datetime(min(last.year, dt.MAXYEAR - 1) + 1, 1, 1, tzinfo=dt.UTC) + 2 * STEP
    described = Timezone()
    described.add("tzid", name)
    described.add_component(_observance(start, zone, _offset(start, zone)))
    for moment in _changes(zone, start, end):
        described.add_component(_observance(moment, zone, _offset(moment - FINEST, zone)))
    return described


def _offset(moment: dt.datetime, zone: dt.tzinfo) -> dt.timedelta:
    return moment.astimezone(zone).utcoffset() or dt.timedelta()


def _kind(moment: dt.datetime, zone: dt.tzinfo) -> tuple[dt.timedelta, str | None]:
    return _offset(moment, zone), moment.astimezone(zone).tzname()


def _changes(zone: dt.tzinfo, start: dt.datetime, end: dt.datetime) -> Iterator[dt.datetime]:
    """The first minute of each new offset or name."""
    before = start
    while before < end:
        after = before + STEP
        if _kind(before, zone) != _kind(after, zone):
            yield _change(zone, before, after)
        before = after


def _change(zone: dt.tzinfo, low: dt.datetime, high: dt.datetime) -> dt.datetime:
    old = _kind(low, zone)
    return first_minute(low, high, lambda moment: _kind(moment, zone) != old)


def reached(local: dt.datetime, zone: dt.tzinfo) -> dt.datetime:
    """When a clock of the zone first reaches a local time: where it skips that one, the moment that it skips to.

    A later local time is never reached earlier. Of a time that comes twice RFC 5545, section 3.3.5, means the first, as
    here; a skipped one it counts on by the offset before, which would put it after later ones.
    """
    found = local.replace(tzinfo=zone, fold=0)
    after = found.astimezone(dt.UTC)
    if after.astimezone(zone).replace(tzinfo=None) == local:
        return found
    before = local.replace(tzinfo=zone, fold=1).astimezone(dt.UTC)
    return _change(zone, before, after).astimezone(zone)


def _observance(
    moment: dt.datetime, zone: dt.tzinfo, old: dt.timedelta
) -> TimezoneDaylight | TimezoneStandard:
    from icalendar import TimezoneDaylight, TimezoneStandard

    local = moment.astimezone(zone)
    found = TimezoneDaylight() if local.dst() else TimezoneStandard()
    found.add("dtstart", moment.replace(tzinfo=None) + old)
    found.add("tzoffsetfrom", old)
    found.add("tzoffsetto", _offset(moment, zone))
    found.add("tzname", local.tzname() or "")
    return found
