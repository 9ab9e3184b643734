"""How near plans come to the best there can be: CP-SAT of OR-tools (developers.google.com/optimization)."""

from __future__ import annotations

import datetime as dt
import random
from statistics import median
from typing import Any

import pytest
from ortools.sat.python import cp_model
from support.plans import guide_of, painted, plan_of, shelf, step, unit

from guidegen.base.units import MINUTE
from guidegen.computing.guide.batch import passes_of
from guidegen.computing.plan.schedule import schedule
from guidegen.computing.plan.sittings import Slot, slots
from guidegen.computing.plan.units import UnitScheme, unit_schemes
from guidegen.model.guide import Guide
from guidegen.model.paint import Kind
from guidegen.model.plan import Plan

pytestmark = pytest.mark.slow

SMALL = 120

POTS = shelf(Ochre=Kind.PAINT, Slate=Kind.PAINT, Brass=Kind.METALLIC, Bilge=Kind.WASH)
# Minutes that changing over to each costs.
COSTS = {"Ochre": 2, "Slate": 2, "Brass": 5, "Bilge": 2}


def small_plan(seed: int) -> tuple[Plan, tuple[UnitScheme, ...]]:
    """Two or three units of up to three figures, short evenings; drying between a moment and a night."""
    draw = random.Random(seed)
    guides: dict[str, Guide] = {}
    for slug in ("ferry-watch", "heron-riders", "patience")[: draw.choice((2, 2, 3))]:
        steps = []
        for number in range(draw.choice((2, 3))):
            area = draw.choice(("coat", "hood", "coat hood"))
            once, each, dry = (
                draw.choice((0, 1, 3)),
                draw.randint(2, 9),
                draw.choice((0, 5, 10, 15, 30, 40, 300)),
            )
            pot = draw.choice(tuple(COSTS))
            held = draw.random() < 0.4
            technique = "wash" if pot == "Bilge" else "base coat"
            steps.append(
                step(
                    f"Step {number}",
                    once,
                    each,
                    dry,
                    area,
                    holds_area=held,
                    paint=painted(pot),
                    technique=technique,
                )
            )
        guides[slug] = guide_of(slug, *steps)
    week = {day: ((1200, 1200 + draw.choice((25, 30, 45, 60))),) for day in range(7) if draw.random() < 0.8}
    figures = [(guide, draw.randint(1, 3)) for guide in guides.values()]
    plan = plan_of(*(unit(guide, count) for guide, count in figures), week=week, start=dt.date(2026, 4, 6))
    return plan, unit_schemes(plan, guides, POTS)


def seated(places: list[Slot], moment: int) -> int:
    """Minutes of sittings gone by until a moment that lies in one of them."""
    return sum(min(slot.end, moment) - slot.start for slot in places if slot.start < moment) // MINUTE


def shortest(units: tuple[UnitScheme, ...], places: list[Slot]) -> int:
    """The least sitting minutes until the last stroke, proven, for the same rules.

    Figures of a batch are alike and every step is done on all before the next, so a batch is a chain in order of
    step and figure; what is free is when each stroke begins, and so how batches interleave and when to wait. What a
    step needs once is spent by its first stroke in each sitting. Of two strokes with different pots the later begins
    no earlier than the change after the other; a night between them is longer than any change.
    """
    model = cp_model.CpModel()
    ends = places[-1].end // MINUTE
    intervals, last = [], model.new_int_var(0, ends, "")
    strokes: list[tuple[int, str, Any, Any]] = []
    for unit_scheme in units:
        chain: list[tuple[Any, int, Any, Any]] = []
        for p in passes_of(unit_scheme.scheme):
            once, each = p.once // MINUTE, p.each // MINUTE
            for figure in range(unit_scheme.figures):
                start, end = model.new_int_var(0, ends, ""), model.new_int_var(0, ends, "")
                inside = [model.new_bool_var("") for _ in places]
                model.add_exactly_one(inside)
                for slot, here in zip(places, inside, strict=True):
                    model.add(start >= slot.start // MINUTE).only_enforce_if(here)
                    model.add(end <= slot.end // MINUTE).only_enforce_if(here)
                number = sum(at * here for at, here in enumerate(inside))
                paid = model.new_bool_var("")
                if figure == 0:
                    model.add(paid == 1)
                else:
                    before = chain[-1][3]
                    model.add(number == before).only_enforce_if(paid.negated())
                    model.add(number > before).only_enforce_if(paid)
                model.add(end == start + each + once * paid)
                intervals.append(model.new_interval_var(start, each + once * paid, end, ""))
                if chain:
                    model.add(start >= chain[-1][2])
                for wet, other, done, _ in chain:
                    if other == figure and (not wet.holds_area or set(wet.areas) & set(p.areas)):
                        model.add(start >= done + wet.dry // MINUTE)
                chain.append((p, figure, end, number))
                pot = unit_scheme.scheme.steps[p.n - 1].step.paint.parts[0].name.text
                strokes.append((unit_scheme.unit, pot, start, end))
        model.add(last >= chain[-1][2])
    model.add_no_overlap(intervals)
    for at, (unit_number, pot, start, end) in enumerate(strokes):
        for other_unit, other_pot, other_start, other_end in strokes[:at]:
            if pot == other_pot:
                continue
            first = model.new_bool_var("")
            if unit_number == other_unit:
                model.add(first == 0)
            model.add(start >= other_end + COSTS[pot]).only_enforce_if(first.negated())
            model.add(other_start >= end + COSTS[other_pot]).only_enforce_if(first)
    model.minimize(last)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return seated(places, round(solver.objective_value) * MINUTE)


def test_plans_are_never_under_the_optimum_and_near_it():
    """Sitting minutes until the last stroke over the proven least, for small plans of fixed seeds."""
    ratios = []
    for seed in range(SMALL):
        plan, units = small_plan(seed)
        found = schedule(plan, units)
        ours = found.seated // MINUTE
        days = (found.sittings[-1].date - plan.start).days + 1
        best = shortest(units, list(slots(plan, days)))
        assert ours >= best, f"seed {seed}: {ours} minutes, under the optimum of {best}"
        ratios.append(ours / best)
    middle, worst, exact = median(ratios), max(ratios), sum(ratio == 1 for ratio in ratios)
    print(f"{SMALL} plans: median {middle:.3f}, worst {worst:.3f}, {exact} at the optimum")
    assert middle <= 1.03
    assert worst <= 1.25
