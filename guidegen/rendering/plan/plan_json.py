"""A plan as data for other programs: what `guidegen plan --json` prints."""

from __future__ import annotations

import datetime as dt
from typing import Any

from guidegen.base.units import MINUTE
from guidegen.computing.guide.materials import round_ml
from guidegen.computing.plan.jobs import Job, Sitting
from guidegen.computing.plan.project import Project


def plan_data(project: Project) -> dict[str, Any]:
    """The computed plan, ready for JSON. Local times to the second, without an offset.

    `shopping` lists every paint that the plan uses; `pots` is how many to buy, 0 where the shelf has enough.
    """
    plan, computed = project.plan, project.schedule
    return {
        "title": plan.title,
        "finish": None if computed.finish is None else _moment(computed.finish),
        "deadline": None if plan.deadline is None else plan.deadline.isoformat(),
        "slack_days": computed.slack_days,
        "short_hours": round(computed.short_hours, 4),
        "changes": computed.changes,
        "change_min": round(computed.changing / MINUTE, 4),
        "sittings": [_sitting(sitting) for sitting in computed.sittings],
        "shopping": [
            {
                "name": need.paint.name,
                "range": need.paint.range,
                "ml": round_ml(need.ml),
                "pots": need.buy,
                "cost": need.cost,
            }
            for need in project.needs
        ],
    }


def _sitting(sitting: Sitting) -> dict[str, Any]:
    return {
        "date": sitting.date.isoformat(),
        "start": _moment(sitting.start),
        "end": _moment(sitting.end),
        "jobs": [_job(job) for job in sitting.jobs],
    }


def _job(job: Job) -> dict[str, Any]:
    return {
        "unit": job.unit,
        "guide": job.guide,
        "batch": job.batch,
        "step": job.title,
        "figures": list(job.figures),
        "start": _moment(job.start),
        "end": _moment(job.end),
    }


def _moment(moment: dt.datetime) -> str:
    """To the nearest second; a step's time may end between two."""
    return (moment + dt.timedelta(milliseconds=500)).isoformat(timespec="seconds")
