"""A plan's months as calendars: sittings with work and without, the deadline, the day on which all is dry."""

from __future__ import annotations

import datetime as dt
from calendar import Calendar
from collections.abc import Mapping

from guidegen.computing.plan.jobs import Schedule
from guidegen.computing.plan.sittings import slots_on
from guidegen.model.plan import Plan
from guidegen.rendering.page.links import Link
from guidegen.rendering.plan.plan_view import DayView, MonthView
from guidegen.rendering.plan.plan_words import clock_of, full_day
from guidegen.words.language import Language


def month_views(
    plan: Plan, computed: Schedule, places: Mapping[dt.datetime, str], language: Language
) -> tuple[MonthView, ...]:
    """Every month with a sitting, the deadline or the finish in it, in order. `places` lead to sittings, by their start."""
    finish = None if computed.finish is None else computed.finish.date()
    marked = {sitting.date for sitting in computed.sittings} | {day for day in (plan.deadline, finish) if day}
    last = max(marked, default=plan.start)
    midnight = dt.datetime.combine(plan.start, dt.time())
    by_day: dict[dt.date, list[dt.datetime]] = {}
    for sitting in computed.sittings:
        by_day.setdefault(sitting.date, []).append(sitting.start)

    def day_view(day: dt.date) -> DayView:
        begun = by_day.get(day, [])
        hours = [midnight + dt.timedelta(milliseconds=slot.start) for slot in slots_on(plan, day)]
        return DayView(
            number=day.day,
            iso=day.isoformat(),
            name=full_day(day, language),
            painted=tuple(Link(text=clock_of(start), href=places[start]) for start in begun),
            free=tuple(clock_of(start) for start in hours if start not in begun and day <= last),
            deadline=day == plan.deadline,
            finish=day == finish,
        )

    return tuple(
        MonthView(
            name=language.t("day.month", month=language.months[month - 1], year=str(year)),
            weeks=tuple(
                tuple(day_view(dt.date(year, month, day)) if day else None for day in week)
                for week in Calendar().monthdayscalendar(year, month)
            ),
        )
        for year, month in sorted({(day.year, day.month) for day in marked})
    )
