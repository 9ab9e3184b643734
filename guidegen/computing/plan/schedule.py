"""A plan over its sittings: who is painted when, when the last is dry, and what is late.

Whoever paints takes, of what is dry and fits into the sitting, the lowest unit, batch, step and figure, and keeps the
pot that is open. Within a batch a step begins when the one before it is done on all figures. What a step needs once
is spent again in each sitting, right before the first figure; a can is set up once for all who use it.
Other rules are tried beside that one, as many as there is time for, and the best layout is taken.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from guidegen.base.units import MINUTE
from guidegen.computing.plan.jobs import Schedule
from guidegen.computing.plan.layout import Rule, lay_out
from guidegen.computing.plan.planned_pass import planned_passes
from guidegen.computing.plan.schedule_builder import ScheduleBuilder
from guidegen.computing.plan.sittings import HORIZON_DAYS, Slot, slots
from guidegen.computing.plan.units import UnitScheme
from guidegen.model.plan import Plan

# Strokes that are laid out in search of the best plan: a few tenths of a second.
MOST_STROKES_TRIED = 12_000

# A run that is shorter than this although its batch takes longer looks like a flip from pot to pot.
FLIP = 4 * MINUTE

_WAITS = (0, 2 * MINUTE, 5 * MINUTE, 10 * MINUTE, 20 * MINUTE)
RULES = (
    Rule(),
    *(
        Rule(wait=wait, longest=longest, smooth=smooth)
        for smooth in (True, False)
        for longest in (True, False)
        for wait in _WAITS
        if wait or longest or smooth
    ),
    *(
        Rule(wait=_WAITS[number % 5], longest=number % 2 == 0, smooth=number % 4 < 2, noise=number)
        for number in range(1, 61)
    ),
)


def schedule(plan: Plan, units: Sequence[UnitScheme], days: int = HORIZON_DAYS) -> Schedule:
    """Work a plan out over the sittings of its first `days` days; what is not done by then never is."""
    return min(layouts(plan, units, days), key=_cost).schedule()


def layouts(plan: Plan, units: Sequence[UnitScheme], days: int = HORIZON_DAYS) -> Iterator[ScheduleBuilder]:
    """The plan laid out by one rule after the other, until no rule can do better or the time for trying is over."""
    passes = [(unit, planned_passes(unit, plan.change)) for unit in units]
    strokes = sum(unit.figures * len(planned) for unit, planned in passes)
    places = _Places(slots(plan, days))
    for number, rule in enumerate(RULES):
        builder = lay_out(plan, passes, iter(places), rule)
        yield builder
        stuck = not all(batch.done for batch in builder.batches)
        # Nobody sat idle, and no pot was changed: no rule does better.
        if not stuck and builder.seated == builder.hands_on and not builder.changes:
            return
        # What no sitting of a century has room for is stuck by every rule.
        if (stuck and days >= HORIZON_DAYS) or (number + 2) * strokes > MOST_STROKES_TRIED or not strokes:
            return


class _Places:
    """Sittings that are worked out once, as far as anybody asks for them."""

    def __init__(self, places: Iterator[Slot]) -> None:
        self.places, self.known = places, list[Slot]()

    def __iter__(self) -> Iterator[Slot]:
        at = 0
        while True:
            if at == len(self.known):
                slot = next(self.places, None)
                if slot is None:
                    return
                self.known.append(slot)
            yield self.known[at]
            at += 1


def _cost(builder: ScheduleBuilder) -> tuple[float, ...]:
    """What a layout costs, to be compared: batches undone, days late, then ms at the table with two minutes for each flip."""
    undone = sum(not batch.done for batch in builder.batches)
    deadline = builder.plan.deadline
    late = 0 if deadline is None else max(0, builder.dry_day - (deadline - builder.plan.start).days)
    flips = builder.short_jobs(FLIP)
    return undone, late, builder.seated + flips * 2 * MINUTE, builder.changes, builder.dry_day
