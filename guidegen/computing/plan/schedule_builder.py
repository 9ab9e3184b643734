"""Gathers strokes into jobs and sittings while a plan is laid out, and makes a `Schedule` of them."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence

from guidegen.base.units import DAY, HOUR
from guidegen.computing.plan.batch_progress import BatchProgress, Stroke
from guidegen.computing.plan.jobs import Job, Schedule, Sitting, Stuck
from guidegen.computing.plan.local_clock import clock_of
from guidegen.computing.plan.planned_pass import PlannedPass
from guidegen.computing.plan.sittings import Slot
from guidegen.model.plan import Plan


class _Run:
    """Strokes of one pass on neighbouring figures without a pause."""

    __slots__ = ("batch", "change", "end", "first", "last", "once", "planned", "start", "whole")

    def __init__(self, batch: BatchProgress, planned: PlannedPass, stroke: Stroke, change: int) -> None:
        self.batch, self.planned, self.change = batch, planned, change
        self.start, self.once, self.end = stroke.start, stroke.once, stroke.end
        self.first = self.last = batch.first + stroke.figure + 1
        self.whole = planned.work.once + planned.work.each * len(batch.members[batch.at])

    def extend(self, batch: BatchProgress, planned: PlannedPass, stroke: Stroke) -> bool:
        """Take in a stroke that follows without a pause on the next figure; whether it did."""
        joins = (
            self.batch is batch
            and self.planned is planned
            and self.last == batch.first + stroke.figure
            and self.end == stroke.start
        )
        if joins:
            self.last, self.end = self.last + 1, stroke.end
        return joins


class ScheduleBuilder:
    """What was painted when, so far; times in ms that passed since the plan's first midnight."""

    def __init__(self, plan: Plan, batches: Sequence[BatchProgress]) -> None:
        self.plan, self.batches = plan, batches
        self.clock = clock_of(plan.timezone, plan.start)
        last = None if plan.deadline is None else (plan.deadline - plan.start).days + 1
        self.deadline = None if last is None else self.clock.passed(last * DAY)
        self.painted: list[tuple[Slot, list[_Run]]] = []
        self.runs: list[_Run] = []
        self.dry = self.late = self.hands_on = self.sat = self.seated = self.changes = self.changing = 0
        # Batches that were painted to their end before the plan began.
        self.ready = sum(batch.size for batch in batches if batch.done)

    def add_run(
        self,
        batch: BatchProgress,
        planned: PlannedPass,
        strokes: Iterable[Stroke],
        slot: Slot,
        change: int | None,
    ) -> int:
        """Add strokes without a pause, and the change-over before them, None for no other pot; the end of the last stroke."""
        t = 0
        for number, stroke in enumerate(strokes):
            _, start, _, t, dry, finished = stroke
            self.dry = max(self.dry, dry)
            self.hands_on += t - start
            if self.deadline is not None:
                self.late += max(0, t - max(start, self.deadline))
            if finished and (self.deadline is None or dry < self.deadline):
                self.ready += 1
            if not (self.runs and self.runs[-1].extend(batch, planned, stroke)):
                self.runs.append(_Run(batch, planned, stroke, 0 if number else change or 0))
        self.seated = self.sat + t - slot.start
        if change is not None:
            self.changes += 1
            self.changing += change
        return t

    def end_sitting(self, slot: Slot) -> None:
        """Close the sitting: what was added since the last one is its jobs."""
        self.sat += slot.end - slot.start
        if self.runs:
            self.painted.append((slot, self.runs))
            self.runs = []

    def short_jobs(self, short: int) -> int:
        """How many jobs take less than `short` ms although all of that pass of their batch takes longer."""
        return sum(run.end - run.start < short <= run.whole for _, runs in self.painted for run in runs)

    def schedule(self) -> Schedule:
        """The finished schedule."""
        stuck = tuple(
            Stuck(
                unit=batch.unit.unit,
                guide=batch.unit.guide.slug,
                batch=batch.number,
                n=work.n,
                title=work.title,
                airborne=work.airborne,
            )
            for batch in self.batches
            if not batch.done
            for work in (batch.planned.work,)
        )
        finish = self._moment(self.dry) if self.painted and not stuck else None
        deadline = self.plan.deadline
        short = self.late + sum(batch.remaining() for batch in self.batches) if deadline else 0
        return Schedule(
            sittings=tuple(
                Sitting(
                    date=slot.date,
                    start=self._moment(slot.start),
                    end=self._moment(slot.end, until=True),
                    jobs=tuple(self._jobs(slot, runs)),
                )
                for slot, runs in self.painted
            ),
            finish=finish,
            slack_days=None if deadline is None or finish is None else (deadline - finish.date()).days,
            short_hours=short / HOUR,
            figures=sum(batch.size for batch in self.batches),
            ready=self.ready,
            stuck=stuck,
            hands_on=self.hands_on,
            seated=self.seated,
            changes=self.changes,
            changing=self.changing,
        )

    @property
    def dry_day(self) -> int:
        """The day on which all is dry, the plan's first being 0."""
        return self.clock.shown(self.dry) // DAY

    def _moment(self, ms: int, *, until: bool = False) -> dt.datetime:
        return self.clock.moment(ms, until=until)

    def _jobs(self, slot: Slot, runs: Sequence[_Run]) -> Iterator[Job]:
        free_from = slot.work[0]
        for run in runs:
            yield self._job(run, run.start - free_from)
            free_from = run.end

    def _job(self, run: _Run, pause: int) -> Job:
        work = run.planned.work
        return Job(
            unit=run.batch.unit.unit,
            guide=run.batch.unit.guide.slug,
            batch=run.batch.number,
            n=work.n,
            coat=work.coat,
            coats=work.coats,
            title=work.title,
            airborne=work.airborne,
            figures=(run.first, run.last),
            pause=pause,
            change=run.change,
            once=run.once,
            length=run.end - run.start,
            start=self._moment(run.start),
            end=self._moment(run.end, until=True),
        )
