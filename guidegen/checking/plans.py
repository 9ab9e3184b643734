"""Rules on plans: their guides, stops and choices are there, and there is time in which each step fits."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.slips import only_meant
from guidegen.base.suggest import folded
from guidegen.base.units import print_duration
from guidegen.checking.case import did_you_mean, quoted_name, span_of
from guidegen.checking.sense import unknown_guide, wrong_choice, wrong_mixture
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.computing.plan.sittings import longest_window
from guidegen.computing.plan.units import OPTIONAL, UnitScheme, at_a_time, split, unit_schemes
from guidegen.model.guide import Guide, Step, Stop
from guidegen.model.paint import Palette
from guidegen.model.plan import Plan, Unit
from guidegen.model.technique import AIRBORNE
from guidegen.reading.yaml.quoting import fix_of


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanCase:
    """A plan and the guides it may name, by slug. `every_address` includes guides too faulty to be read."""

    plan: Plan
    palette: Palette
    guides: Mapping[str, Guide]
    every_address: frozenset[str]

    def guide_of(self, unit: Unit) -> Guide | None:
        """The guide a unit is painted by."""
        # An address is in its folded form already.
        return self.guides.get(folded(unit.guide.text))


def units_are_known(case: PlanCase) -> Iterator[Diagnostic]:
    """unknown-guide, unknown-stop, unknown-choice, unknown-step: what units name has to be there."""
    for number, unit in enumerate(case.plan.units, 1):
        guide = case.guide_of(unit)
        if guide is None:
            if folded(unit.guide.text) not in case.every_address:
                yield unknown_guide(unit.guide, case.every_address)
            continue
        stops = tuple(entry.name for entry in guide.entries if isinstance(entry, Stop))
        if unit.to is not None and folded(unit.to.text) not in map(folded, stops):
            yield Diagnostic(
                code="unknown-stop",
                message=f"“{guide.title}” has no stop {quoted_name(unit.to)}.",
                span=unit.to.span,
                help=did_you_mean(unit.to.text, stops)
                or "Take to: out; the guide has no stops, so it is painted to its end.",
                fix=fix_of(unit.to, only_meant(unit.to.text, stops)),
            )
        for name, option in unit.choose.items():
            yield from wrong_choice(guide, name, option, f"Unit {number}")
        yield from wrong_mixture(guide, unit, unit.places.get("mixed", unit.span), f"Unit {number}", "unit")
        yield from _steps_are_known(unit, guide)
        if "figures" in unit.places:
            yield from _figures_are_there(unit, guide, number)


def _figures_are_there(unit: Unit, guide: Guide, number: int) -> Iterator[Diagnostic]:
    """bad-value: more test figures than figures, and a batch under `done` that the unit has not got."""
    if unit.trial > unit.figures:
        yield Diagnostic(
            code="bad-value",
            message=f"Unit {number} has figures: {unit.figures}, fewer than trial: {unit.trial}.",
            span=unit.places.get("trial", unit.span),
            help="Let some come after the test figures: trial: 1 is usual.",
        )
    batches = len(split(unit.figures, at_a_time(unit, guide), min(unit.trial, unit.figures)))
    for batch, name in unit.done.items():
        if batch > batches:
            yield Diagnostic(
                code="bad-value",
                message=f"Under done there is a batch {batch}, and the figures of unit {number} make {batches}.",
                span=name.span,
                help="Batches count from 1, test figures being the first.",
            )


def _steps_are_known(unit: Unit, guide: Guide) -> Iterator[Diagnostic]:
    """unknown-step in `done` and `without`."""
    titles = tuple(entry.title for entry in guide.entries if isinstance(entry, Step))
    stops = tuple(entry.name for entry in guide.entries if isinstance(entry, Stop))
    lone = len(unit.without) == 1 and folded(unit.without[0].text) == OPTIONAL
    for names, known in (
        (unit.done.values(), (*titles, *stops)),
        (() if lone else unit.without, titles),
    ):
        for name in names:
            if folded(name.text) not in map(folded, known):
                yield Diagnostic(
                    code="unknown-step",
                    message=f"“{guide.title}” has no step {quoted_name(name)}.",
                    span=name.span,
                    help=did_you_mean(name.text, known) or "Write the title of one of its steps.",
                    fix=fix_of(name, only_meant(name.text, known)),
                )


def dates_in_order(case: PlanCase) -> Iterator[Diagnostic]:
    """bad-date: the deadline comes before the start."""
    plan = case.plan
    if plan.deadline is not None and plan.deadline < plan.start:
        yield Diagnostic(
            code="bad-date",
            message=f"The deadline, {plan.deadline.isoformat()}, is before the start, {plan.start.isoformat()}.",
            span=span_of(plan, "deadline"),
            help="Change one of the two.",
        )


def there_is_time(case: PlanCase) -> Iterator[Diagnostic]:
    """no-sittings and step-longer-than-any-sitting: each step of each unit has to fit into a sitting."""
    plan = case.plan
    if not plan.whole:
        return
    longest = longest_window(plan, airborne=False)
    if longest == 0:
        yield Diagnostic(
            code="no-sittings",
            message="The plan has no sittings after its start.",
            span=span_of(plan, "sittings"),
            help='Give sittings with times, for instance sittings: {mon-fri: "20:00-22:00"}.',
        )
        return
    longest_spray = longest_window(plan, airborne=True)
    diagnosed: set[object] = set()
    for unit in unit_schemes(plan, case.guides, case.palette):
        written = plan.units[unit.unit - 1]
        painted = min(map(unit.painted, range(1, len(unit.batches) + 1)))
        for step in unit.scheme.steps:
            if step.n <= painted:
                continue
            airborne = step.technique.name in AIRBORNE
            window = longest_spray if airborne else longest
            needed = step.step.once + step.step.each
            if airborne and window == 0:
                if "spraying" not in diagnosed:
                    yield _no_spraying(plan, unit, step)
                diagnosed.add("spraying")
            elif needed > window:
                if id(step.step) not in diagnosed:
                    yield _too_long(plan, written, unit, step, window)
                diagnosed.add(id(step.step))


def _no_spraying(plan: Plan, unit: UnitScheme, step: SchemeStep) -> Diagnostic:
    return Diagnostic(
        code="no-sittings",
        message=f"Step {step.n} of “{unit.guide.title}” is sprayed, but no spraying hours lie in a sitting.",
        span=span_of(plan, "spraying"),
        help="Let the spraying hours and the sittings overlap.",
    )


def _too_long(plan: Plan, written: Unit, unit: UnitScheme, step: SchemeStep, window: int) -> Diagnostic:
    sprayed = plan.spraying is not None and step.technique.name in AIRBORNE
    return Diagnostic(
        code="step-longer-than-any-sitting",
        message=f"Step {step.n} of “{unit.guide.title}”, “{step.step.title}”, takes "
        f"{print_duration(step.step.once + step.step.each)} for one figure; the longest "
        f"{'time for spraying' if sprayed else 'sitting'} is {print_duration(window)}.",
        span=written.guide.span,
        help="Make a sitting longer, or split the step in two.",
    )
