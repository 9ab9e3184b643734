"""How much one guide and one plan may hold: past these bounds nobody paints by them, and working them out would take hours.

A guide that is too large is told so and not looked at any further.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import prod
from typing import NamedTuple

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Span
from guidegen.base.suggest import folded
from guidegen.checking.plans import PlanCase
from guidegen.computing.guide.palette_use import names_in
from guidegen.computing.plan.schedule import schedule
from guidegen.computing.plan.sittings import longest_window
from guidegen.computing.plan.units import UnitScheme, unit_schemes
from guidegen.model.guide import MOST_VARIANTS, Guide, Step
from guidegen.model.plan import Plan

# Each coat is a row on the clock, and the timeline grows with it. A hundred steps of two coats make a long guide.
MOST_COATS = 2_000
# The clock goes through every figure in every coat on each variant's page: a million strokes take half a second or so.
MOST_STROKES = 1_000_000
# A figure has some ten areas, a diorama some fifty.
MOST_AREAS = 200
# What lies on each area is worked out after each step that touches it, and shown in some 700 bytes.
MOST_LAYERS = 6_000
# Each paint that a step names, or names as a substitute, is shown with its chip and its link, in some 500 bytes.
MOST_PAINTS_NAMED = 8_000
# And each that a guide uses has a row with the closest others, in some 3,500 bytes.
MOST_PAINTS = 1_000
# Each option gets a page, and the rules look at the guide once for each.
MOST_OPTIONS = 40
# Two milliseconds a step on each variant's page.
MOST_STEPS_SHOWN = 3_000
# Each piece of a chart is drawn anew after each step, in up to 400 bytes.
MOST_PIECES_DRAWN = 8_000
# Every figure is put into a sitting coat by coat; so many take a second or two.
MOST_STROKES_OF_A_PLAN = 200_000
# A line of the plan's page for each sitting and each job in it, in up to 700 bytes, and of its calendar.
MOST_LINES_OF_A_PLAN = 5_000
# Every day is one of the calendar on the plan's page, painted or not.
MOST_DAYS_OF_A_PLAN = 20 * 366
# A sitting for every hour: a plan that is never done looks at a century of them.
MOST_SITTINGS = 24


def too_much_of_a_guide(guide: Guide, pieces: int = 0) -> Iterator[Diagnostic]:
    """bad-value for a guide past one of the bounds, the first of them. `pieces` are those of its chart."""
    counts = _counts(guide, pieces)
    for bound in _OF_A_GUIDE:
        count = counts[bound.of]
        if count > bound.most:
            where = next((guide.places[key] for key in bound.keys if key in guide.places), guide.span)
            yield _too_much(bound.sentence.format(f"{count:,}", f"{bound.most:,}"), where, bound.advice)
            return


def _counts(guide: Guide, pieces: int) -> dict[str, int]:
    """What a guide comes to, in the words of the bounds."""
    steps = [entry for entry in guide.entries if isinstance(entry, Step)]
    coats = sum(step.coats for step in steps)
    areas = {folded(area.text) for step in steps for area in step.areas}
    areas |= {folded(area.text) for area in guide.leave}
    options = sum(map(len, guide.choose.values()))
    names = [folded(name.text) for name in names_in(guide)]
    pages = min(prod(map(len, guide.choose.values())), max(MOST_VARIANTS, options))
    return {
        "options": options,
        "coats": coats,
        "strokes": coats * guide.figures * pages,
        "steps shown": len(steps) * pages,
        "areas": len(areas),
        "layers": sum(len(step.areas) or len(areas) for step in steps),
        "paints named": len(names),
        "paints": len(set(names)),
        "pieces drawn": len(steps) * pieces,
    }


class _Bound(NamedTuple):
    """How much of something a guide may have, at which of its keys that is told, and what to do about it."""

    of: str
    keys: tuple[str, ...]
    most: int
    sentence: str
    advice: str = "Divide it into several guides."


_STEPS = ("steps",)
# The first that is passed is told.
_OF_A_GUIDE = (
    _Bound("options", ("choose",), MOST_OPTIONS, "The guide offers {} options, {} at most can be shown."),
    _Bound("coats", _STEPS, MOST_COATS, "The steps come to {} coats together, {} at most can be timed."),
    _Bound(
        "strokes",
        ("figures",),
        MOST_STROKES,
        "All figures in all coats of all variants come to {} strokes, {} at most can be timed.",
        "Give fewer figures; readers can change their number on the page.",
    ),
    _Bound(
        "steps shown",
        ("choose",),
        MOST_STEPS_SHOWN,
        "The pages of all variants have {} steps together, {} at most can be shown.",
    ),
    _Bound(
        "areas",
        _STEPS,
        MOST_AREAS,
        "The guide names {} areas, {} at most can be told apart.",
        "Give one name to areas that are painted alike.",
    ),
    _Bound(
        "layers", _STEPS, MOST_LAYERS, "The steps touch {} areas, each counted every time; {} at most can be."
    ),
    _Bound("paints named", _STEPS, MOST_PAINTS_NAMED, "The steps name {} paints, {} at most can be shown."),
    _Bound("paints", _STEPS, MOST_PAINTS, "The steps name {} different paints, {} at most can be listed."),
    _Bound(
        "pieces drawn",
        ("figure", "steps"),
        MOST_PIECES_DRAWN,
        "The chart after each step comes to {} pieces, {} at most can be drawn on a page.",
        "Simplify the chart, drawing shapes of one area one after another, or divide the guide.",
    ),
)


def too_much_of_a_plan(case: PlanCase) -> Iterator[Diagnostic]:
    """bad-value for a plan with more strokes, lines, days, or sittings a day, than can be laid out."""
    plan = case.plan
    too_many = tuple(_too_many_sittings(plan))
    yield from too_many
    units = unit_schemes(plan, case.guides, case.palette)
    coats = {unit.unit: sum(step.step.coats for step in unit.scheme.steps) for unit in units}
    strokes = sum(unit.figures * coats[unit.unit] for unit in units)
    jobs = sum(len(unit.batches) * coats[unit.unit] for unit in units)
    where = plan.places.get("units", plan.span)
    if strokes > MOST_STROKES_OF_A_PLAN:
        message = f"All figures in all coats come to {strokes:,} strokes, {MOST_STROKES_OF_A_PLAN:,} at most can be planned."
        yield _too_much(message, where, _DIVIDE_PLAN)
    elif jobs > MOST_LINES_OF_A_PLAN:
        message = (
            f"All coats of all batches come to {jobs:,} jobs, {MOST_LINES_OF_A_PLAN:,} at most can be listed."
        )
        yield _too_much(message, where, "Paint in larger batches, or divide it into several plans.")
    elif strokes > _SURELY_LISTED and plan.whole and not too_many and longest_window(plan, airborne=False):
        yield from _too_long_a_list(plan, units, where)


_DIVIDE_PLAN = "Divide it into several plans."
# A plan of no more strokes fits into twenty years of one sitting a week, and needs no look.
_SURELY_LISTED = 1_000


def _too_long_a_list(plan: Plan, units: Sequence[UnitScheme], where: Span) -> Iterator[Diagnostic]:
    """Jobs are cut by the ends of sittings and by others that come first, so the plan has to be worked out."""
    sittings = schedule(plan, units).sittings
    lines = len(sittings) + sum(len(sitting.jobs) for sitting in sittings)
    days = (sittings[-1].date - sittings[0].date).days + 1 if sittings else 0
    if lines > MOST_LINES_OF_A_PLAN:
        message = (
            f"The plan comes to {lines:,} sittings and jobs, {MOST_LINES_OF_A_PLAN:,} at most can be listed."
        )
        yield _too_much(
            message, where, "Give longer sittings or larger batches, or divide it into several plans."
        )
    elif days > MOST_DAYS_OF_A_PLAN:
        message = f"The plan goes on for {days:,} days, {MOST_DAYS_OF_A_PLAN:,} at most can be shown."
        yield _too_much(message, where, "Give more sittings, or divide it into several plans.")


def _too_many_sittings(plan: Plan) -> Iterator[Diagnostic]:
    for key, times in (("sittings", plan.sittings), ("spraying", plan.spraying)):
        if times is None:
            continue
        most = max(map(len, (*times.weekly.values(), *times.dated.values())), default=0)
        if most > MOST_SITTINGS:
            yield _too_much(
                f"A day has {most:,} stretches of hours under {key}, {MOST_SITTINGS} at most can be planned.",
                plan.places.get(key, plan.span),
                "Write hours that follow on each other as one stretch.",
            )


def _too_much(message: str, span: Span, help_line: str) -> Diagnostic:
    return Diagnostic(code="bad-value", message=message, span=span, help=help_line)
