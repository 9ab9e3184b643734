"""Models of batches and plans for SimPy, a discrete-event simulator: events and waiting, no clocks kept by hand.

They know nothing of how guidegen reckons; the painter is a process, and each drying is an event of its own.
"""

from __future__ import annotations

from collections.abc import Generator, Sequence
from typing import Any

import simpy

from guidegen.computing.guide.batch import Pass, Times, passes_of
from guidegen.computing.plan.sittings import Slot
from guidegen.computing.plan.units import UnitScheme

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


# Unit, batch, step, coat, figure (from 1 through the unit), start, end in ms.
Stroke = tuple[int, int, int, int, int, int, int]


def simulated_plan(slots: Sequence[Slot], units: Sequence[UnitScheme]) -> list[Stroke]:
    """One painter over a plan's sittings, who looks at every figure of every batch before each stroke."""
    env = simpy.Environment()
    batches: list[dict[str, Any]] = []
    for unit in units:
        first = 1
        for number, size in enumerate(unit.batches, 1):
            figures = range(first, first + size)
            batches.append(
                {
                    "name": (unit.unit, number),
                    "todo": [(step, set(figures)) for step in passes_of(unit.scheme)],
                    "drying": {figure: [] for figure in figures},
                }
            )
            first += size
    strokes: list[Stroke] = []

    def fits(step: Pass, slot: Slot, length: int) -> bool:
        windows = slot.spraying if step.airborne else ((slot.start, slot.end),)
        return any(start <= env.now and env.now + length <= end for start, end in windows)

    def choose(slot: Slot, paid: set[tuple[int, int, Pass]]) -> tuple[dict[str, Any], Pass, int, int] | None:
        for batch in batches:
            while batch["todo"] and not batch["todo"][0][1]:
                del batch["todo"][0]
            if not batch["todo"]:
                continue
            step, figures = batch["todo"][0]
            once = 0 if (*batch["name"], step) in paid else step.once
            for figure in sorted(figures):
                dry = all(event.processed for event in wet_for(step, batch["drying"][figure]))
                if dry and fits(step, slot, once + step.each):
                    return batch, step, figure, once
        return None

    def changes(slot: Slot) -> list[simpy.Event]:
        """Everything at which something may become possible in this sitting."""
        moments = [start for start, _ in slot.spraying if start > env.now]
        return [
            env.timeout(slot.end - env.now),
            *(env.timeout(moment - env.now) for moment in moments),
            *(
                event
                for batch in batches
                for drying in batch["drying"].values()
                for _, event in drying
                if not event.processed
            ),
        ]

    def paint() -> Generator[simpy.Event, Any, None]:
        for slot in slots:
            yield env.timeout(slot.start - env.now)
            paid: set[tuple[int, int, Pass]] = set()
            while True:
                # A drying that ends at this very moment was set going earlier, so it comes before this.
                yield env.timeout(0)
                chosen = choose(slot, paid)
                if chosen is None:
                    if env.now >= slot.end or not any(batch["todo"] for batch in batches):
                        break
                    yield env.any_of(changes(slot))
                    if env.now > slot.end:
                        raise AssertionError
                    continue
                batch, step, figure, once = chosen
                start = int(env.now)
                yield env.timeout(once + step.each)
                paid.add((*batch["name"], step))
                batch["todo"][0][1].discard(figure)
                held = frozenset(step.areas) if step.holds_area else None
                batch["drying"][figure].append((held, env.timeout(step.dry)))
                strokes.append((*batch["name"], step.n, step.coat, figure, start, int(env.now)))
            if not any(batch["todo"] for batch in batches):
                return

    env.process(paint())
    env.run()
    return strokes
