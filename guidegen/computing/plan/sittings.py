"""A plan's timetable laid out in time: the sittings one after another, and the hours for spraying in each.

All moments are whole milliseconds that have passed since midnight at the start of the plan's first day. Hours are
those of the painter's clock (`local_clock.py`), so a sitting in an hour that this skips is shorter by it.
"""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from guidegen.base.units import DAY, MINUTE
from guidegen.computing.plan.jobs import MS
from guidegen.computing.plan.local_clock import clock_of
from guidegen.model.plan import Hours, Plan, Timetable

# Nobody paints longer than a century at one plan; a plan that is not done by then is told never to finish.
HORIZON_DAYS = 36_525

# The longest drying a step can have, so that even the last one is dry on a day that a calendar can write.
_LATEST = dt.date.max - dt.timedelta(days=3_700)

_MINUTES = 24 * 60

# From one moment to another.
Window = tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One sitting's hours. There is time to paint during `work`, between setting up and clearing up.

    `spraying` are the parts of that in which paint may go into the air.
    """

    date: dt.date
    start: int
    end: int
    work: Window
    spraying: tuple[Window, ...]


def slots(plan: Plan, days: int = HORIZON_DAYS) -> Iterator[Slot]:
    """The sittings of a plan's first `days` days, in order of time and never overlapping."""
    for number in range(min(days, (_LATEST - plan.start).days)):
        yield from slots_on(plan, plan.start + dt.timedelta(days=number))


def since_of(plan: Plan) -> int:
    """The moment that a plan goes on from."""
    if plan.since is None:
        return 0
    return clock_of(plan.timezone, plan.start).passed(
        (plan.since - dt.datetime.combine(plan.start, dt.time())) // MS
    )


def slots_on(plan: Plan, day: dt.date) -> tuple[Slot, ...]:
    """The sittings that begin on one day.

    Hours of a day that overlap are one sitting; hours that only touch are two, since they were written as two.
    Where the evening before runs on past midnight into the first of them, that one begins when it ends.
    """
    clock = clock_of(plan.timezone, plan.start)
    midnight = (day - plan.start).days * DAY
    before = _hours(plan, day - dt.timedelta(days=1)) if day > plan.start else ()
    since = since_of(plan)
    taken = max((end for _, end in before), default=0) - _MINUTES
    found = []
    for start, end in _hours(plan, day):
        begin = max(clock.passed(midnight + max(start, taken) * MINUTE), since)
        finish = clock.passed(midnight + end * MINUTE)
        work = begin + plan.set_up, finish - plan.clean_up
        if begin < finish and work[0] <= work[1]:
            spraying = _spraying(plan, day, work)
            found.append(Slot(date=day, start=begin, end=finish, work=work, spraying=spraying))
    return tuple(found)


def _hours(plan: Plan, day: dt.date) -> tuple[Hours, ...]:
    if day < plan.start or day in plan.skip:
        return ()
    return _joined(plan.sittings.on(day), touching=False)


def _joined(hours: Iterable[Window], *, touching: bool) -> tuple[Window, ...]:
    joined: list[Window] = []
    for start, end in sorted(hours):
        if joined and (start < joined[-1][1] or (touching and start == joined[-1][1])):
            joined[-1] = (joined[-1][0], max(joined[-1][1], end))
        elif start < end:
            joined.append((start, end))
    return tuple(joined)


def _spraying(plan: Plan, day: dt.date, slot: Window) -> tuple[Window, ...]:
    if plan.spraying is None:
        return (slot,)
    clock = clock_of(plan.timezone, plan.start)
    # A sitting lasts past the next midnight at most once, and hours of the day before may reach into it.
    hours = [
        (clock.passed(midnight + start * MINUTE), clock.passed(midnight + end * MINUTE))
        for other in map(dt.date.fromordinal, range(max(1, day.toordinal() - 1), day.toordinal() + 2))
        for midnight in ((other - plan.start).days * DAY,)
        for start, end in plan.spraying.on(other)
    ]
    inside = [(max(start, slot[0]), min(end, slot[1])) for start, end in hours]
    return _joined(inside, touching=True)


def longest_window(plan: Plan, *, airborne: bool = False) -> int:
    """Milliseconds to paint in the longest sitting there will ever be; with `airborne` the longest run of spraying hours.

    Looks at a fortnight of the plain week, and at every date that the plan names from its start on with its two
    neighbours, whose sittings reach into it or give way to it. 0 if there is no time at all.
    """
    every_week = Plan(
        slug=plan.slug,
        file=plan.file,
        title=plan.title,
        start=plan.start,
        sittings=Timetable(weekly=plan.sittings.weekly),
        spraying=None if plan.spraying is None else Timetable(weekly=plan.spraying.weekly),
        set_up=plan.set_up,
        clean_up=plan.clean_up,
        span=plan.span,
    )
    named = {*plan.sittings.dated, *(() if plan.spraying is None else plan.spraying.dated)}
    found = [
        *slots(every_week, 14),
        *(
            slot
            for date in sorted(named)
            for shift in (-1, 0, 1)
            if plan.start <= date <= _LATEST
            for slot in slots_on(plan, date + dt.timedelta(days=shift))
        ),
    ]
    if airborne:
        return max((end - start for slot in found for start, end in slot.spraying), default=0)
    return max((slot.work[1] - slot.work[0] for slot in found), default=0)


def usual_hours(plan: Plan, days: int) -> Hours | None:
    """The hours that most sittings of the first `days` days keep; of equals the longest, then the earliest."""
    count = Counter(
        hours for number in range(days) for hours in _hours(plan, plan.start + dt.timedelta(days=number))
    )
    return max(count, key=lambda hours: (count[hours], hours[1] - hours[0], -hours[0]), default=None)
