"""Models of batches and plans for SimPy, a discrete-event simulator: events and waiting, no clocks kept by hand.

They know nothing of how guidegen reckons; the painter is a process, and each drying is an event of its own.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Generator, Sequence
from typing import Any

import simpy

from guidegen.computing.guide.batch import Pass, Times, passes_of
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.computing.plan.jobs import Job, Schedule
from guidegen.computing.plan.units import UnitScheme
from guidegen.model.plan import Plan

# What a step needs open (None for nothing), the ms to change to it, whether it cures, whether it needs cured paint.
Changing = Callable[[SchemeStep], tuple[object, int, bool, bool]]

Drying = list[tuple[frozenset[int] | None, simpy.Event]]


def wet_for(step: Pass, drying: Drying) -> list[simpy.Event]:
    """What on a figure has to be dry before a pass may touch it."""
    areas = frozenset(step.areas)
    return [event for held, event in drying if held is None or held & areas]


def simulated_batch(passes: Sequence[Pass], figures: int) -> Times:
    """Run one painter through a batch and read the times off the simulator's clock."""
    env = simpy.Environment()
    painter = simpy.Resource(env, capacity=1)
    drying: list[Drying] = [[] for _ in range(figures)]
    seen = {"hands_on": 0, "waiting": 0, "last_stroke": 0}

    def stroke(length: int) -> Generator[simpy.Event, Any, None]:
        with painter.request() as brush:
            yield brush
            yield env.timeout(length)
        seen["hands_on"] += length

    def paint() -> Generator[simpy.Event, Any, None]:
        for step in passes:
            yield env.process(stroke(step.once))
            for figure in range(figures):
                before = env.now
                yield env.all_of(wet_for(step, drying[figure]))
                seen["waiting"] += int(env.now - before)
                yield env.process(stroke(step.each))
                held = frozenset(step.areas) if step.holds_area else None
                drying[figure].append((held, env.timeout(step.dry)))
        seen["last_stroke"] = int(env.now)

    env.process(paint())
    env.run()
    return Times(figures=figures, total=int(env.now), **seen)


def painted_plan(plan: Plan, units: Sequence[UnitScheme], found: Schedule, changes: Changing) -> None:
    """One painter who follows a schedule with paint that dries and cures, and stops where it cannot be followed.

    `changes` gives what a step needs open and the ms that opening it takes. Nothing wet is touched, nothing uncured by
    what needs it cured, all of it in the sitting's hours, no two things at once, the changes in full.
    """
    env = simpy.Environment()
    painter = simpy.Resource(env, capacity=1)
    zero = dt.datetime.combine(plan.start, dt.time())
    passes = {(unit.unit, p.n, p.coat): p for unit in units for p in passes_of(unit.scheme)}
    steps = {(unit.unit, step.n): step for unit in units for step in unit.scheme.steps}
    drying: dict[tuple[int, int], Drying] = {}
    curing: dict[tuple[int, int], Drying] = {}

    def ms(moment: dt.datetime) -> int:
        return round((moment - zero) / dt.timedelta(milliseconds=1))

    def follow(job: Job, opened: object, first: bool) -> Generator[simpy.Event, Any, object]:
        step, work = steps[job.unit, job.n], passes[job.unit, job.n, job.coat]
        pot, cost, watery, on_cured = changes(step)
        if pot is not None and not first and pot != opened:
            assert job.change == cost
            with painter.request() as hands:
                yield hands
                yield env.timeout(cost)
        else:
            assert job.change == 0, f"{job.title} changes to what is open"
        assert env.now <= ms(job.start), f"{job.title} begins before it can"
        yield env.timeout(ms(job.start) - env.now)
        for figure in range(job.figures[0], job.figures[1] + 1):
            # A drying that ends at this very moment was set going earlier, so it comes before this.
            yield env.timeout(0)
            before = drying.setdefault((job.unit, figure), [])
            assert all(event.processed for event in wet_for(work, before)), f"{job.title} meets wet paint"
            if on_cured:
                uncured = wet_for(work, curing.get((job.unit, figure), []))
                assert all(event.processed for event in uncured), f"{job.title} meets uncured paint"
            length = work.each + (job.once if figure == job.figures[0] else 0)
            with painter.request() as hands:
                yield hands
                yield env.timeout(length)
            held = frozenset(work.areas) if work.holds_area else None
            before.append((held, env.timeout(work.dry)))
            if watery:
                curing.setdefault((job.unit, figure), []).append(
                    (frozenset(work.areas), env.timeout(plan.cure))
                )
        assert env.now == ms(job.end)
        return opened if pot is None else pot

    def paint() -> Generator[simpy.Event, Any, None]:
        for sitting in found.sittings:
            yield env.timeout(ms(sitting.start) + plan.set_up - env.now)
            opened: object = None
            for number, job in enumerate(sitting.jobs):
                opened = yield from follow(job, opened, number == 0)
            assert env.now <= ms(sitting.end) - plan.clean_up

    env.run(env.process(paint()))
