"""A plan as data for other programs: what `guidegen plan --json` prints."""

from __future__ import annotations

import datetime as dt
from typing import Any

from guidegen.computing.evenings import Job, Sitting
from guidegen.computing.materials import round_ml
from guidegen.computing.project import Project


def plan_data(project: Project) -> dict[str, Any]:
    """The plan worked out, ready for JSON. Local times to the second, without an offset.

    `shopping` lists every paint that the plan uses; `pots` is how many to buy, 0 where the shelf has enough.
    """
    plan, worked = project.plan, project.evenings
    return {
        "title": plan.title,
        "finish": None if worked.finish is None else _moment(worked.finish),
        "deadline": None if plan.deadline is None else plan.deadline.isoformat(),
        "slack_days": worked.slack_days,
        "short_hours": round(worked.short_hours, 4),
        "sittings": [_sitting(sitting) for sitting in worked.sittings],
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
