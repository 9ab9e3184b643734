"""The passes of a unit as a plan sees them: with the pot they open, what that costs, and whom they are for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from guidegen.base.suggest import folded
from guidegen.computing.colour.blend import Blend
from guidegen.computing.guide.batch import Pass, passes_of
from guidegen.computing.guide.caution_signs import is_solvent, wants_cured
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.computing.plan.units import UnitScheme
from guidegen.model.paint import Kind, Mix, Paint
from guidegen.model.plan import Changes
from guidegen.model.technique import Role

# What is open at the bench: pots and mixtures, those of an airbrush apart from those of brushes.
Pots = frozenset[tuple[bool, object]]

NO_POTS: Pots = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedPass:
    """A pass with the pots it needs open, and the ms that changing over to them costs.

    `together` marks washes, sprays and mixtures, which nobody breaks off. `watery` paint has to cure before a pass
    that is `on_cured` paint. `figures` are the first and last through the unit where it is not for all.
    """

    work: Pass
    pots: Pots
    change: int
    together: bool
    watery: bool
    on_cured: bool
    figures: tuple[int, int] | None


def planned_passes(unit: UnitScheme, changes: Changes) -> tuple[PlannedPass, ...]:
    """Every coat of every step of a unit, in order."""
    steps = {step.n: step for step in unit.scheme.steps}
    facts = {n: _facts(unit, step, changes) for n, step in steps.items()}
    return tuple(
        PlannedPass(
            work=work,
            pots=pots,
            change=change,
            together=bool(pots) and (together or work.airborne),
            watery=watery,
            on_cured=on_cured,
            figures=figures,
        )
        for work in passes_of(unit.scheme)
        for pots, change, together, watery, on_cured, figures in (facts[work.n],)
    )


def _facts(
    unit: UnitScheme, step: SchemeStep, changes: Changes
) -> tuple[Pots, int, bool, bool, bool, tuple[int, int] | None]:
    airbrush = step.technique.name == "airbrush"
    stirred = any(_is_mixture(blend) for blend in step.brushed)
    paints = unit.paints.get(step.n, ())
    pots: Pots = frozenset((airbrush, _pot(blend)) for blend in step.brushed)
    costs = [changes.paint] if pots else []
    if stirred:
        costs.append(changes.mix)
    if any(paint.kind is Kind.METALLIC for paint in paints):
        costs.append(changes.metal)
    change = changes.airbrush if pots and airbrush else max(costs, default=0)
    on_cured = wants_cured(step, paints)
    return (
        pots,
        change,
        stirred or step.technique.role is Role.FILM,
        not on_cured and any(_is_watery(paint) for paint in paints),
        on_cured,
        _figures(unit, step),
    )


def _pot(blend: Blend) -> object:
    pot = blend.pot
    return pot.full_name if pot else tuple((part.pot.full_name, part.amount) for part in blend.parts)


def _is_mixture(blend: Blend) -> bool:
    paints = [
        part.pot
        for part in blend.parts
        if not (isinstance(part.pot, Paint) and part.pot.kind is Kind.THINNER)
    ]
    return len(paints) > 1 or any(isinstance(pot, Mix) for pot in paints)


def _is_watery(paint: Paint) -> bool:
    dry = paint.kind in (Kind.PIGMENT, Kind.THINNER)
    return not dry and paint.comes_as != "can" and not is_solvent(paint)


def _figures(unit: UnitScheme, step: SchemeStep) -> tuple[int, int] | None:
    option = step.step.only.get(unit.choice)
    if option is None:
        return None
    first = 1
    for one in unit.varieties:
        if folded(one.option) == folded(option.text):
            return first, first + one.figures - 1
        first += one.figures
    return first, first - 1


def painted_before(unit: UnitScheme, batch: int, passes: Sequence[PlannedPass]) -> int:
    """How many passes a batch has behind it when the plan begins."""
    return sum(one.work.n <= unit.painted(batch) for one in passes)


def least_work(units: Sequence[UnitScheme], changes: Changes) -> int:
    """The least hands-on time that units can take, ms: what several batches may share counts for one."""
    return sum(map(sum, (_work_of(unit, changes) for unit in units)))


def _work_of(unit: UnitScheme, changes: Changes) -> Iterator[int]:
    passes = planned_passes(unit, changes)
    first = 1
    for number, size in enumerate(unit.batches, 1):
        for one in passes[painted_before(unit, number, passes) :]:
            low, high = one.figures or (first, first + size - 1)
            count = max(0, min(high, first + size - 1) - max(low, first) + 1)
            shared = one.work.airborne and one.pots
            yield count * one.work.each + (one.work.once if count and not shared else 0)
        first += size
