"""A plan over its sittings: who is painted when, when the last is dry, and what is late.

At each moment the painter takes, of what is dry and fits into the sitting, the lowest unit, batch, step and figure,
skips what is wet, and waits only if nothing is left. Within a batch a step begins when the one before it is done on
all figures. What a step needs once is spent again in each sitting, for each batch, right before the first figure
and not apart from it. Drying goes on between sittings.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

from guidegen.base.units import DAY, HOUR
from guidegen.computing.guide.batch import Pass, passes_of
from guidegen.computing.plan.batch_progress import BatchProgress
from guidegen.computing.plan.sittings import HORIZON_DAYS, Slot, Window, longest_window, slots
from guidegen.computing.plan.units import UnitScheme, unit_schemes
from guidegen.model.plan import Plan

__all__ = [
    "Job",
    "Schedule",
    "Sitting",
    "Stuck",
    "UnitScheme",
    "longest_window",
    "schedule",
    "unit_schemes",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """An unbroken run of one coat of one step over neighbouring figures, which count from 1 through the unit.

    `once` ms at its start are spent on what the step needs once; 0 where that was done earlier in the sitting.
    """

    unit: int
    guide: str
    batch: int
    n: int
    coat: int
    coats: int
    title: str
    airborne: bool
    figures: tuple[int, int]
    once: int
    start: dt.datetime
    end: dt.datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Sitting:
    """One sitting's hours in local time, and its jobs in order."""

    date: dt.date
    start: dt.datetime
    end: dt.datetime
    jobs: tuple[Job, ...]

    @property
    def hands_on(self) -> int:
        """Milliseconds of work in it."""
        return sum(round((job.end - job.start) / _MS) for job in self.jobs)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuck:
    """A step that a batch never gets past: no sitting, or no spraying hours, ever have room for it."""

    unit: int
    guide: str
    batch: int
    n: int
    title: str
    airborne: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Schedule:
    """A plan worked out. Sittings without a job are left out.

    `finish` is when the last figure is dry, None where nothing is painted or some of it never can be: `stuck` says
    where. `slack_days` is None without a deadline or a finish. `short_hours` are the hands-on hours after the
    deadline's last midnight, with those of what never gets done; 0 without a deadline. `ready` counts the figures
    that are done and dry by then, of `figures`. `seated` is the sitting time from the first sitting's start to the
    last stroke, and `hands_on` the work in it, both in ms.
    """

    sittings: tuple[Sitting, ...]
    finish: dt.datetime | None
    slack_days: int | None
    short_hours: float
    figures: int
    ready: int
    stuck: tuple[Stuck, ...]
    hands_on: int
    seated: int


_MS = dt.timedelta(milliseconds=1)


def _fit(windows: Sequence[Window], t: int, length: int) -> int | None:
    """The first moment from `t` on at which `length` lies within a window."""
    return next((max(t, start) for start, end in windows if max(t, start) + length <= end), None)


def schedule(plan: Plan, units: Sequence[UnitScheme], days: int = HORIZON_DAYS) -> Schedule:
    """Work a plan out over the sittings of its first `days` days; what is not done by then never is."""
    batches = [
        BatchProgress(unit, number, sum(unit.batches[: number - 1]), passes)
        for unit in units
        for passes in (passes_of(unit.scheme),)
        if passes
        for number in range(1, len(unit.batches) + 1)
    ]
    book = _Book(plan)
    shortest = min((p.each for batch in batches for p in batch.passes), default=0)
    # Every batch with work left is in one of these: dry now (by rank), to look at later (by moment and rank), or
    # without room in this sitting.
    ready: list[int] = []
    later = [(0, rank) for rank in range(len(batches))]
    aside: list[int] = []
    for number, slot in enumerate(slots(plan, days) if batches else ()):
        t = slot.start
        for rank in aside:
            heappush(ready, rank)
        aside.clear()
        while slot.end - t >= shortest:
            while later and later[0][0] <= t:
                heappush(ready, heappop(later)[1])
            if not ready:
                if not later or later[0][0] > slot.end:
                    break
                t = later[0][0]
                continue
            rank = heappop(ready)
            batch = batches[rank]
            step = batch.passes[batch.at]
            once = 0 if batch.paid == number else step.once
            begin = _fit(slot.spraying if step.airborne else ((slot.start, slot.end),), t, once + step.each)
            if begin is None:
                aside.append(rank)
            elif begin > t:
                heappush(later, (begin, rank))
            else:
                batch.paid = number
                end = t + once + step.each
                figure, dry = batch.stroke(t, end)
                book.enter(_Run(batch, step, figure, t, once, end), slot, dry)
                t = end
                if not batch.done:
                    heappush(later, (batch.settle(t), rank))
        book.close(slot)
        if not (ready or later or aside):
            break
    return book.sum(batches)


class _Run:
    """Strokes of one pass on neighbouring figures without a pause."""

    __slots__ = ("batch", "end", "first", "last", "once", "start", "step")

    def __init__(
        self, batch: BatchProgress, step: Pass, figure: int, start: int, once: int, end: int
    ) -> None:
        self.batch, self.step, self.start, self.once, self.end = batch, step, start, once, end
        self.first = self.last = batch.first + figure + 1

    def goes_on(self, other: _Run) -> bool:
        """Take the other in if it follows right on."""
        joins = (
            self.batch is other.batch
            and self.step is other.step
            and self.last + 1 == other.first
            and self.end == other.start
        )
        if joins:
            self.last, self.end = other.last, other.end
        return joins

    def job(self, moment: Callable[[int], dt.datetime]) -> Job:
        return Job(
            unit=self.batch.unit.unit,
            guide=self.batch.unit.guide.slug,
            batch=self.batch.number,
            n=self.step.n,
            coat=self.step.coat,
            coats=self.step.coats,
            title=self.step.title,
            airborne=self.step.airborne,
            figures=(self.first, self.last),
            once=self.once,
            start=moment(self.start),
            end=moment(self.end),
        )


class _Book:
    """What was painted when, gathered into jobs and sittings, with the sums."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.zero = dt.datetime.combine(plan.start, dt.time())
        last = None if plan.deadline is None else (plan.deadline - plan.start).days + 1
        self.deadline = None if last is None else last * DAY
        self.sittings: list[Sitting] = []
        self.runs: list[_Run] = []
        self.dry = self.late = self.hands_on = self.sat = self.seated = self.ready = 0
        self.painted = False

    def enter(self, run: _Run, slot: Slot, dry: int) -> None:
        """One stroke, as a run of its own figure, and when that figure is dry all over."""
        self.painted = True
        self.dry = max(self.dry, dry)
        self.hands_on += run.end - run.start
        self.seated = self.sat + run.end - slot.start
        if self.deadline is not None:
            self.late += max(0, run.end - max(run.start, self.deadline))
        if run.step is run.batch.passes[-1] and (self.deadline is None or dry < self.deadline):
            self.ready += 1
        if not (self.runs and self.runs[-1].goes_on(run)):
            self.runs.append(run)

    def close(self, slot: Slot) -> None:
        self.sat += slot.end - slot.start
        if self.runs:
            start, end = self.moment(slot.start), self.moment(slot.end)
            jobs = tuple(run.job(self.moment) for run in self.runs)
            self.sittings.append(Sitting(date=slot.date, start=start, end=end, jobs=jobs))
            self.runs = []

    def moment(self, ms: int) -> dt.datetime:
        return self.zero + ms * _MS

    def sum(self, batches: Sequence[BatchProgress]) -> Schedule:
        stuck = tuple(
            Stuck(
                unit=batch.unit.unit,
                guide=batch.unit.guide.slug,
                batch=batch.number,
                n=step.n,
                title=step.title,
                airborne=step.airborne,
            )
            for batch in batches
            if not batch.done
            for step in (batch.passes[batch.at],)
        )
        finish = self.moment(self.dry) if self.painted and not stuck else None
        deadline = self.plan.deadline
        short = self.late + sum(batch.remaining() for batch in batches) if deadline else 0
        return Schedule(
            sittings=tuple(self.sittings),
            finish=finish,
            slack_days=None if deadline is None or finish is None else (deadline - finish.date()).days,
            short_hours=short / HOUR,
            figures=sum(batch.size for batch in batches),
            ready=self.ready,
            stuck=stuck,
            hands_on=self.hands_on,
            seated=self.seated,
        )
