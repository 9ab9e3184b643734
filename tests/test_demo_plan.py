"""The demo's plan can be followed: few flips from pot to pot, few changes."""

from __future__ import annotations

import datetime as dt
from itertools import pairwise

import pytest
from support.paths import CONTENT

from guidegen.building.check import check
from guidegen.computing.plan.planned_pass import planned_passes
from guidegen.computing.plan.schedule import schedule
from guidegen.computing.plan.units import unit_schemes

pytestmark = pytest.mark.slow


def test_it_does_not_flip_and_changes_pots_seldom():
    """At most one job in ten is under 4 minutes though its pass takes longer; changes are near the units' own."""
    archive = check(CONTENT).archive
    (plan,) = archive.plans
    units = unit_schemes(plan, {guide.slug: guide for guide in archive.guides}, archive.palette)
    found = schedule(plan, units)
    jobs = [job for sitting in found.sittings for job in sitting.jobs]
    four = dt.timedelta(minutes=4)
    passes = {
        (unit.unit, p.work.n, p.work.coat): p.work
        for unit in units
        for p in planned_passes(unit, plan.change)
    }
    sizes = {(unit.unit, n): size for unit in units for n, size in enumerate(unit.batches, 1)}

    def whole(unit: int, batch: int, n: int, coat: int) -> dt.timedelta:
        work = passes[unit, n, coat]
        return dt.timedelta(milliseconds=work.once + work.each * sizes[unit, batch])

    flips = [job for job in jobs if job.end - job.start < four <= whole(job.unit, job.batch, job.n, job.coat)]
    assert len(flips) <= len(jobs) / 10
    # Each unit by itself opens its pots in turn, and a sitting's first is free.
    openings = 0
    for unit in units:
        pots = [p.pots for p in planned_passes(unit, plan.change) if p.pots]
        openings += 1 + sum(one != other for one, other in pairwise(pots))
    assert found.changes <= 1.3 * (openings - len(found.sittings))
