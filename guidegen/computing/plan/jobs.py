"""A plan worked out: its sittings, their jobs, and what cannot be done."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

MS = dt.timedelta(milliseconds=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """An unbroken run of one coat of one step over neighbouring figures, which count from 1 through the unit.

    `pause` ms lie between what was done before it and its start; `change` of them go into another pot. Of the `length`
    ms that it takes, `once` at its start are spent on what the step needs once, 0 where that was done earlier in the
    sitting. `start` and `end` are what the clock shows, which may skip an hour between them.
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
    pause: int
    change: int
    once: int
    length: int
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
        return sum(job.length for job in self.jobs)


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
    last stroke, and `hands_on` the work in it, both in ms. `changes` counts the times that another pot is opened
    within a sitting, and `changing` is what they take, ms.
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
    changes: int
    changing: int

    @property
    def in_time(self) -> bool:
        """Whether all is painted, and dry by the deadline if there is one."""
        return not self.stuck and (self.slack_days is None or self.slack_days >= 0)
