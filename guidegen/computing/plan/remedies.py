"""Remedies for a plan that misses its deadline: fewer figures, an earlier stop, more sittings.

Every answer is found by making the plan again with that one change, so each of them does meet the deadline.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from guidegen.base.units import MINUTE
from guidegen.computing.guide.batch import passes_of
from guidegen.computing.plan.jobs import Schedule
from guidegen.computing.plan.planned_pass import least_work
from guidegen.computing.plan.schedule import layouts
from guidegen.computing.plan.sittings import HORIZON_DAYS, slots, usual_hours
from guidegen.computing.plan.units import UnitScheme
from guidegen.model.plan import Hours, Plan, Timetable

# Strokes that may be painted over in search of an answer: a second or two. A plan that is larger still gets the
# answers found by then, always the same ones.
MOST_STROKES = 300_000


@dataclass(frozen=True, slots=True, kw_only=True)
class FewerFigures:
    """The most figures of one unit that are done in time, of so many; 0 leaves the unit out."""

    unit: int
    guide: str
    figures: int
    of: int


@dataclass(frozen=True, slots=True, kw_only=True)
class EarlierStop:
    """The latest stop up to which one unit is done in time."""

    unit: int
    guide: str
    stop: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MoreSittings:
    """The fewest more sittings of the usual hours (minutes from midnight), and free days that they fit on."""

    dates: tuple[dt.date, ...]
    hours: Hours


@dataclass(frozen=True, slots=True, kw_only=True)
class Remedies:
    """Each answer does by itself, with all else as planned."""

    figures: tuple[FewerFigures, ...]
    stops: tuple[EarlierStop, ...]
    sittings: MoreSittings | None


def remedies(plan: Plan, units: Sequence[UnitScheme], computed: Schedule) -> Remedies | None:
    """What would make the plan meet its deadline; None if it has no deadline or meets it."""
    if plan.deadline is None or computed.in_time:
        return None
    search = _Search(plan, plan.deadline)
    stops = tuple(search.stops(units))
    sittings = search.sittings(units)
    return Remedies(figures=tuple(search.figures(units)), stops=stops, sittings=sittings)


class _Search:
    def __init__(self, plan: Plan, deadline: dt.date) -> None:
        self.plan = plan
        self.days = min((deadline - plan.start).days + 1, HORIZON_DAYS)
        self.room = sum(slot.work[1] - slot.work[0] for slot in slots(plan, self.days))
        self.strokes = 0

    def meets(self, plan: Plan, units: Sequence[UnitScheme]) -> bool:
        """Whether it is all done in time; no once the search has gone on for too long."""
        strokes = sum(unit.figures * len(passes_of(unit.scheme)) for unit in units)
        for book in layouts(plan, units, self.days):
            self.strokes += strokes
            if self.strokes > MOST_STROKES:
                return False
            if all(batch.done for batch in book.batches) and book.dry_day < self.days:
                return True
        return False

    def figures(self, units: Sequence[UnitScheme]) -> Iterator[FewerFigures]:
        for at, unit in enumerate(units):
            fewest = 0 if len(units) > 1 else 1
            for count in range(unit.figures - 1, fewest - 1, -1):
                changed = [*units[:at], unit.of_figures(count), *units[at + 1 :]]
                # What takes longer than all sittings together need not be laid out.
                if least_work(changed, self.plan.change) <= self.room and self.meets(self.plan, changed):
                    yield FewerFigures(unit=unit.unit, guide=unit.guide.slug, figures=count, of=unit.figures)
                    break

    def stops(self, units: Sequence[UnitScheme]) -> Iterator[EarlierStop]:
        for at, unit in enumerate(units):
            before = [stop for stop in unit.scheme.stops if 0 < stop.after < len(unit.scheme.steps)]
            for stop in reversed(before):
                changed = [*units[:at], unit.up_to(stop.name) or unit, *units[at + 1 :]]
                if least_work(changed, self.plan.change) <= self.room and self.meets(self.plan, changed):
                    yield EarlierStop(unit=unit.unit, guide=unit.guide.slug, stop=stop.name)
                    break

    def sittings(self, units: Sequence[UnitScheme]) -> MoreSittings | None:
        usual = usual_hours(self.plan, self.days)
        if usual is None:
            return None
        length = (usual[1] - usual[0]) * MINUTE
        free = tuple(self.free_days())
        missing = -(-max(0, least_work(units, self.plan.change) - self.room) // length)
        for count in range(max(1, missing), len(free) + 1):
            # The first free days move all work forward; the last ones help where something dries for days.
            for dates in (free[:count], free[-count:]):
                if self.meets(_with(self.plan, dates, usual), units):
                    return MoreSittings(dates=dates, hours=usual)
        return None

    def free_days(self) -> Iterator[dt.date]:
        """Days until the deadline that have no sittings, and that nobody ruled out by their date."""
        for number in range(self.days):
            day = self.plan.start + dt.timedelta(days=number)
            ruled_out = day in self.plan.skip or day in self.plan.sittings.dated
            if not ruled_out and not self.plan.sittings.on(day):
                yield day


def _with(plan: Plan, dates: Sequence[dt.date], hours: Hours) -> Plan:
    dated = {**plan.sittings.dated, **dict.fromkeys(dates, (hours,))}
    return replace(plan, sittings=Timetable(weekly=plan.sittings.weekly, dated=dated))
