"""What holds for every plan over its sittings, and what SimPy and OR-tools say of it."""

from __future__ import annotations

import datetime as dt
import random
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.plans import guide_of, name, painted, plan_of, shelf, step, unit
from support.simulation import painted_plan
from support.strategies import plans

from guidegen.base.units import DAY, HOUR, MINUTE
from guidegen.computing.guide.batch import passes_of
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.computing.plan.jobs import Schedule
from guidegen.computing.plan.remedies import remedies
from guidegen.computing.plan.schedule import schedule
from guidegen.computing.plan.units import UnitScheme, cut, split, unit_schemes
from guidegen.model.guide import Guide
from guidegen.model.paint import Kind, Palette
from guidegen.model.plan import Plan, Timetable
from guidegen.model.technique import AIRBORNE, technique_of

pytestmark = pytest.mark.slow

Planned = tuple[Plan, dict[str, Guide]]
Drawn = tuple[Plan, tuple[UnitScheme, ...], Schedule]
# Jobs taken apart: unit, batch, step, coat, figure, start, end in ms.
Strokes = list[tuple[int, ...]]

# Months that a small plan with some time in it is done within, so that one that is stuck is soon known to be.
DAYS = 120


def compute_guide(planned: Planned) -> Drawn:
    plan, guides = planned
    units = unit_schemes(plan, guides, Palette())
    return plan, units, schedule(plan, units, DAYS)


def ms(plan: Plan, moment: dt.datetime) -> int:
    return round((moment - dt.datetime.combine(plan.start, dt.time())) / dt.timedelta(milliseconds=1))


def strokes(plan: Plan, units: tuple[UnitScheme, ...], found: Schedule) -> Strokes:
    each = {(unit.unit, p.n): p.each for unit in units for p in passes_of(unit.scheme)}
    rows = []
    for sitting in found.sittings:
        for job in sitting.jobs:
            at = ms(plan, job.start)
            for figure in range(job.figures[0], job.figures[1] + 1):
                end = at + each[job.unit, job.n] + (job.once if figure == job.figures[0] else 0)
                rows.append((job.unit, job.batch, job.n, job.coat, figure, at, end))
                at = end
            assert at == ms(plan, job.end)
    return rows


# Pots of every kind with the minutes that changing over to them costs.
SHELF = shelf(
    Ochre=Kind.PAINT,
    Slate=Kind.PRIMER,
    Brass=Kind.METALLIC,
    Bilge=Kind.WASH,
    Seal=Kind.VARNISH,
    Umber=Kind.OIL,
)
COSTS = {"Ochre": 2, "Slate": 2, "Brass": 5, "Bilge": 2, "Seal": 2, "Umber": 2}
TECHNIQUES = {"Ochre": ("base coat", "layer", "airbrush"), "Slate": ("spray", "prime"), "Brass": ("dry brush",),
              "Bilge": ("wash",), "Seal": ("spray varnish", "brush varnish"), "Umber": ("oil wash",)}  # fmt: skip


def evenings(seed: int) -> tuple[Plan, tuple[UnitScheme, ...]]:
    """A plan of one to three units with pots, cans, test figures and mixed batches, some of it painted already."""
    draw = random.Random(seed)
    guides: dict[str, Guide] = {}
    for slug in ("ferry-watch", "heron-riders", "patience")[: draw.randint(1, 3)]:
        entries = []
        for number in range(draw.randint(1, 7)):
            pot = draw.choice(tuple(COSTS))
            entries.append(
                step(
                    f"Step {number}",
                    draw.choice((0, 0, 3, 10)),
                    draw.choice((0, 1, 2.5, 4, 9)),
                    draw.choice((0, 5, 15, 40, 600)),
                    draw.choice(("", "coat", "hood", "coat hood")),
                    draw.choice(({}, {}, {"headgear": "hood"}, {"headgear": "hat"})),
                    technique=draw.choice(TECHNIQUES[pot]),
                    paint=draw.choice((painted(pot), painted(pot), None)),
                    holds_area=draw.random() < 0.4,
                    coats=draw.choice((1, 1, 2)),
                    optional=draw.random() < 0.2,
                )
            )
        guides[slug] = guide_of(slug, *entries, choose={"headgear": ("hood", "hat")})
    units = []
    for guide in guides.values():
        hoods, hats = draw.randint(1, 4), draw.randint(1, 4)
        more: dict[str, Any] = {"trial": draw.choice((0, 0, 1))}
        if draw.random() < 0.4:
            more["mixed"] = {"headgear": {"hood": hoods, "hat": hats}}
        if draw.random() < 0.3:
            more["done"] = {draw.choice((0, 1)): name("Step 1")}
        if draw.random() < 0.2:
            more["without"] = (name("optional"),)
        units.append(unit(guide, hoods + hats, draw.choice((None, 2, 3)), **more))
    plan = plan_of(
        *units,
        week={day: ((1200, 1200 + draw.choice((60, 90, 120))),) for day in range(7) if draw.random() < 0.7},
        spraying=draw.choice((None, dict.fromkeys(range(7), ((1200, 1260),)))),
        set_up=draw.choice((0, 10)) * MINUTE,
        clean_up=draw.choice((0, 10)) * MINUTE,
        cure=draw.choice((0, DAY)),
    )
    return plan, unit_schemes(plan, guides, SHELF)


def changing(row: SchemeStep) -> tuple[object, int, bool, bool]:
    """What a step of these plans needs, told from its words alone."""
    on_cured = row.technique.name in ("spray undercoat", "spray varnish", "oil wash")
    if row.step.paint is None:
        return None, 0, False, on_cured
    pot = row.step.paint.parts[0].name.text
    airbrush = row.step.technique == "airbrush"
    on_cured = on_cured or pot == "Umber"
    return (pot, airbrush), (5 if airbrush else COSTS[pot]) * MINUTE, not on_cured, on_cured


def wanted(plan: Plan, units: Sequence[UnitScheme]) -> set[tuple[int, int, str, int, int]]:
    """Unit, batch, step, coat and figure of all there is to paint, told from what the units say alone."""
    strokes = set()
    for number, one in enumerate(plan.units, 1):
        guide = units[number - 1].guide
        others = one.figures - one.trial
        size = one.batch or others
        sizes = [one.trial, *(min(size, others - at) for at in range(0, others, size))]
        batch_of = [at for at, count in enumerate([n for n in sizes if n], 1) for _ in range(count)]
        options = [
            option for option, n in one.mixed.get("headgear", {"hood": one.figures}).items() for _ in range(n)
        ]
        titles = [each.title for each in guide.steps]
        for figure, (batch, option) in enumerate(zip(batch_of, options, strict=True), 1):
            done = one.done.get(batch, one.done.get(0))
            no_optional = any(each.text == "optional" for each in one.without)
            # A step that the unit has not got is a place to go on from, too.
            behind = titles.index(done.text) if done is not None and done.text in titles else -1
            for at, each in enumerate(guide.steps):
                asked = not each.only or each.only["headgear"].text == option
                if at > behind and asked and not (no_optional and each.optional):
                    strokes |= {
                        (number, batch, each.title, coat, figure) for coat in range(1, each.coats + 1)
                    }
    return strokes


@pytest.mark.parametrize("seed", range(200))
def test_a_simulated_painter_can_follow_the_plan(seed: int):
    """SimPy (simpy.readthedocs.io) lets paint dry and cure: nothing wet is touched, nothing lies outside sittings."""
    plan, units = evenings(seed)
    found = schedule(plan, units, DAYS)
    painted_plan(plan, units, found, changing)
    if found.stuck:
        return
    jobs = [job for sitting in found.sittings for job in sitting.jobs]
    painted = Counter(
        (job.unit, job.batch, job.title, job.coat, figure)
        for job in jobs
        for figure in range(job.figures[0], job.figures[1] + 1)
    )
    assert painted == Counter(wanted(plan, units))
    assert found.changes == sum(job.change > 0 for job in jobs)
    for number, one in enumerate(plan.units, 1):
        # Test figures are at the end of their unit before any other is begun.
        trial = [job.end for job in jobs if (job.unit, job.batch) == (number, 1)] if one.trial else []
        others = [job.start for job in jobs if job.unit == number and job.batch > 1]
        assert not trial or not others or max(trial) <= min(others)


@given(plans(), st.integers(0, 2))
def test_what_holds_for_every_plan(planned: Planned, late: int):
    """All laws look at the same plans, since laying one out takes far longer than looking at it."""
    drawn = compute_guide(planned)
    plan, units, found = drawn
    rows = strokes(plan, units, found)
    every_stroke_is_painted_once(drawn, rows)
    there_is_one_painter_and_nothing_starts_wet(drawn, rows)
    steps_keep_their_order_over_the_whole_batch(rows)
    nothing_is_painted_outside_the_sittings(drawn)
    once_is_spent_once_a_sitting(drawn)
    the_sums_follow_from_the_jobs(drawn, rows)
    if found.finish is not None:
        what_is_said_to_mend_a_plan_does(drawn, late)


def every_stroke_is_painted_once(drawn: Drawn, rows: Strokes):
    _, units, found = drawn
    wanted = Counter(
        (unit.unit, p.n, p.coat, figure)
        for unit in units
        for p in passes_of(unit.scheme)
        for figure in range(1, unit.figures + 1)
    )
    painted = Counter((u, n, coat, figure) for u, _, n, coat, figure, _, _ in rows)
    if found.stuck:
        assert painted < wanted
    else:
        assert painted == wanted


def there_is_one_painter_and_nothing_starts_wet(drawn: Drawn, rows: Strokes):
    _, units, _ = drawn
    passes = {(unit.unit, p.n, p.coat): p for unit in units for p in passes_of(unit.scheme)}
    before = 0
    for at, (u, _, n, coat, figure, start, end) in enumerate(rows):
        assert start >= before
        before = end
        step = passes[u, n, coat]
        for u2, _, n2, coat2, figure2, _, end2 in rows[:at]:
            wet = passes[u2, n2, coat2]
            meets = not wet.holds_area or set(wet.areas) & set(step.areas)
            if (u2, figure2) == (u, figure) and meets:
                assert start >= end2 + wet.dry


def steps_keep_their_order_over_the_whole_batch(rows: Strokes):
    last: dict[tuple[int, int], tuple[int, int]] = {}
    for u, batch, n, coat, *_ in rows:
        assert (n, coat) >= last.get((u, batch), (0, 0))
        last[u, batch] = (n, coat)


def hours_around(
    plan: Plan, timetable: Timetable, moment: dt.datetime
) -> list[tuple[dt.datetime, dt.datetime]]:
    """The written hours of the days around, put together from the timetable alone."""
    return [
        (midnight + dt.timedelta(minutes=start), midnight + dt.timedelta(minutes=end))
        for shift in (-1, 0, 1)
        for day in (moment.date() + dt.timedelta(days=shift),)
        if timetable is plan.spraying or (day >= plan.start and day not in plan.skip)
        for midnight in (dt.datetime.combine(day, dt.time()),)
        for start, end in timetable.on(day)
    ]


def nothing_is_painted_outside_the_sittings(drawn: Drawn):
    """Each sitting lies within the written hours, each job within its sitting, each spray in spraying hours."""
    plan, units, found = drawn
    technique = {
        (unit.unit, row.n): technique_of(row.step.technique).name
        for unit in units
        for row in unit.scheme.steps
    }
    before = dt.datetime.combine(plan.start, dt.time())
    for sitting in found.sittings:
        assert before <= sitting.start < sitting.end
        assert sitting.jobs
        before = sitting.end
        for job in sitting.jobs:
            assert sitting.start <= job.start <= job.end <= sitting.end
            timetables = [plan.sittings]
            if technique[job.unit, job.n] in AIRBORNE and plan.spraying is not None:
                timetables.append(plan.spraying)
            for timetable in timetables:
                at = job.start
                for start, end in sorted(hours_around(plan, timetable, job.start)):
                    if start <= at:
                        at = max(at, min(end, job.end))
                assert at == job.end


def once_is_spent_once_a_sitting(drawn: Drawn):
    _, units, found = drawn
    once = {(unit.unit, p.n, p.coat): p.once for unit in units for p in passes_of(unit.scheme)}
    for sitting in found.sittings:
        begun: set[tuple[int, int, int, int]] = set()
        for job in sitting.jobs:
            key = (job.unit, job.batch, job.n, job.coat)
            assert job.once == (0 if key in begun else once[job.unit, job.n, job.coat])
            begun.add(key)


def the_sums_follow_from_the_jobs(drawn: Drawn, rows: Strokes):
    plan, units, found = drawn
    passes = {(unit.unit, p.n, p.coat): p for unit in units for p in passes_of(unit.scheme)}
    assert found.hands_on == sum(end - start for *_, start, end in rows)
    if found.stuck or not rows:
        assert found.finish is None
        return
    dry = max(end + passes[u, n, coat].dry for u, _, n, coat, _, _, end in rows)
    assert found.finish is not None
    assert ms(plan, found.finish) == dry
    if plan.deadline is None:
        assert (found.slack_days, found.short_hours) == (None, 0)
        return
    midnight = ((plan.deadline - plan.start).days + 1) * DAY
    assert found.slack_days == (plan.deadline - plan.start).days - dry // DAY
    assert round(found.short_hours * HOUR) == sum(
        max(0, end - max(start, midnight)) for *_, start, end in rows
    )
    assert (found.ready == found.figures) == (found.slack_days >= 0)


def what_is_said_to_mend_a_plan_does(drawn: Drawn, late: int):
    """Each answer alone makes a late plan be in time, one figure more than the most does not."""
    plan, units, found = drawn
    assert found.finish is not None
    plan = replace(plan, deadline=found.finish.date() - dt.timedelta(days=late))
    mended = remedies(plan, units, schedule(plan, units, DAYS))
    assert (mended is None) == (late == 0)
    if mended is None:
        return

    def in_time(plan: Plan, changed: Sequence[UnitScheme]) -> bool:
        result = schedule(plan, changed, DAYS)
        return not result.stuck and (result.slack_days is None or result.slack_days >= 0)

    def other(number: int, **change: Any) -> list[UnitScheme]:
        return [replace(unit, **change) if unit.unit == number else unit for unit in units]

    for fewer in mended.figures:
        (size,) = (unit.batches[0] for unit in units if unit.unit == fewer.unit)
        assert in_time(plan, other(fewer.unit, batches=split(fewer.figures, size)))
        assert not in_time(plan, other(fewer.unit, batches=split(fewer.figures + 1, size)))
    for earlier in mended.stops:
        (scheme,) = (unit.scheme for unit in units if unit.unit == earlier.unit)
        assert in_time(plan, other(earlier.unit, scheme=cut(scheme, earlier.stop)))
    if mended.sittings is not None:
        assert all(not plan.sittings.on(date) for date in mended.sittings.dates)
        more = {**plan.sittings.dated, **dict.fromkeys(mended.sittings.dates, (mended.sittings.hours,))}
        longer = replace(plan, sittings=Timetable(weekly=plan.sittings.weekly, dated=more))
        assert in_time(longer, units)
