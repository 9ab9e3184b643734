"""One way of laying a plan out: a rule that says which batch comes next, followed through all sittings.

A run goes through its batch. It stops short only where the sitting ends, or where going on would mean waiting
longer than changing over costs; washes, sprays and mixtures are begun when they can be painted in one go, or are left
for a sitting with more time. Drying goes on between sittings.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from guidegen.computing.plan.batch_progress import BatchProgress
from guidegen.computing.plan.planned_pass import NO_POTS, PlannedPass, Pots
from guidegen.computing.plan.schedule_builder import ScheduleBuilder
from guidegen.computing.plan.sittings import Slot, Window, since_of
from guidegen.computing.plan.units import UnitScheme
from guidegen.model.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """Which of the batches that can be begun comes next.

    Those within `wait` ms of the first that can begin are looked at, and of these the one that comes first is taken:
    by the plan's order, or with `longest` the one with most work and drying before it. `smooth` begins a run when it
    can go through without waiting. `whole` begins only what the sitting has room for. `noise` shuffles the order a
    little, another way for each number.
    """

    wait: int = 0
    longest: bool = False
    smooth: bool = False
    whole: bool = False
    noise: int = 0


class _Offer(NamedTuple):
    """A run of the batch at place `rank` that could come next, in ms: see `BatchProgress.run`.

    `change` is what opening its pot costs, None where it is open.
    """

    rank: int
    start: int
    once: int
    limit: int
    patience: int
    change: int | None


# Batches that are compared at a time, in the plan's order.
_LOOKED_AT = 16

Passes = Sequence[tuple[UnitScheme, Sequence[PlannedPass]]]


def batches_of(plan: Plan, passes: Passes) -> list[BatchProgress]:
    """All batches of a plan as they stand when it begins; those after test figures know which these are."""
    found = []
    for unit, planned in passes:
        trial = None
        for number in range(1, len(unit.batches) + 1):
            batch = BatchProgress(unit, number, planned, cure=plan.cure, since=since_of(plan), after=trial)
            if batch.passes:
                found.append(batch)
            if number == 1 and unit.trial:
                trial = batch
    return found


def lay_out(
    plan: Plan, passes: Passes, places: Iterator[Slot] | Sequence[Slot], rule: Rule
) -> ScheduleBuilder:
    """Follow a rule through the sittings."""
    batches = batches_of(plan, passes)
    layout = _Layout(batches, rule)
    builder = ScheduleBuilder(plan, batches)
    todo = [rank for rank, batch in enumerate(batches) if not batch.done]
    for number, slot in enumerate(places if todo else ()):
        t, opened, first = slot.work[0], NO_POTS, True
        while todo:
            offer = layout.next(todo, slot, number, t, None if first else opened)
            if offer is None:
                break
            batch = batches[offer.rank]
            planned = batch.planned
            if offer.once:
                layout.pay(batch, number)
            strokes = batch.run(offer.start, offer.once, offer.limit, offer.patience)
            t = builder.add_run(batch, planned, strokes, slot, offer.change)
            opened, first = planned.pots or opened, False
            if batch.done:
                todo.remove(offer.rank)
        builder.end_sitting(slot)
        if not todo:
            break
    return builder


class _Layout:
    def __init__(self, batches: Sequence[BatchProgress], rule: Rule) -> None:
        self.batches, self.rule = batches, rule
        # The cans that were set up in a sitting, with its number.
        self.cans: dict[Pots, int] = {}
        self.ahead = [_ahead(batch) for batch in batches]
        self.smooth: dict[int, tuple[int, int, int, int]] = {}

    def pay(self, batch: BatchProgress, number: int) -> None:
        """Note that in sitting `number` the batch's step has had what it needs once, and its can is set up."""
        planned = batch.planned
        batch.paid = number
        if planned.work.airborne and planned.pots:
            self.cans[planned.pots] = number

    def next(
        self, todo: Sequence[int], slot: Slot, number: int, t: int, opened: Pots | None
    ) -> _Offer | None:
        """What to paint next, None if nothing fits into the sitting any more. `opened` is None at its beginning."""
        offers: list[_Offer] = []
        # In a large plan the first that can go on at once will do; the others are looked at only if all of these wait.
        for low in range(0, len(todo), _LOOKED_AT):
            for rank in todo[low : low + _LOOKED_AT]:
                offer = self._offer(rank, slot, number, t, opened)
                if offer is not None:
                    offers.append(offer)
            if any(offer.start <= t + (offer.change or 0) for offer in offers):
                break
        if not offers:
            return None
        soon = min(offer.start for offer in offers) + self.rule.wait
        return min((offer for offer in offers if offer.start <= soon), key=self._order)

    def _order(self, offer: _Offer) -> tuple[float, int]:
        """What offers are compared by, the least first: the rule's weight, then the place in the plan."""
        rank, rule = offer.rank, self.rule
        if not (rule.longest or rule.noise):
            return 0, rank
        at = self.batches[rank].at
        weight: float = self.ahead[rank][at] if rule.longest else len(self.batches) - rank
        if rule.noise:
            weight *= 0.4 + _hash(rule.noise, rank, at)
        return -weight, rank

    def _offer(self, rank: int, slot: Slot, number: int, t: int, opened: Pots | None) -> _Offer | None:
        """The run with which a batch could go on from `t`; None where it has to wait for another sitting."""
        batch, rule = self.batches[rank], self.rule
        if batch.after is not None and not batch.after.done:
            return None
        planned = batch.planned
        work = planned.work
        once = work.once if batch.paid != number and self.cans.get(planned.pots, -1) != number else 0
        change = None if opened is None or planned.pots <= opened else planned.change
        free = t + (change or 0)
        windows = slot.spraying if work.airborne else (slot.work,)
        begin = max(free, batch.left[0][0])
        if begin + once + work.each > slot.work[1]:
            return None
        length = once + work.each * len(batch.left)
        patience = planned.change
        if planned.together or (rule.smooth and planned.change) or rule.whole:
            unbroken = max(free, self._unbroken(rank, once))
            whole = _fit(windows, unbroken, length)
            if whole is not None:
                return _Offer(rank, whole[0], once, whole[1], 0, change)
            if (planned.together or rule.whole) and any(length <= end - start for start, end in windows):
                return None
        fit = _fit(windows, begin, once + work.each)
        if fit is None:
            return None
        if planned.together:
            patience = fit[1] - fit[0]
        return _Offer(rank, fit[0], once, fit[1], patience, change)

    def _unbroken(self, rank: int, once: int) -> int:
        """`BatchProgress.unbroken_from`, kept until the batch goes on."""
        batch = self.batches[rank]
        known = self.smooth.get(rank)
        key = batch.at, len(batch.left), once
        if known is None or known[:3] != key:
            known = self.smooth[rank] = (*key, batch.unbroken_from(once))
        return known[3]


def _fit(windows: Sequence[Window], t: int, length: int) -> tuple[int, int] | None:
    """The first moment from `t` on at which `length` lies within a window, and the end of that window."""
    for start, end in windows:
        begin = max(t, start)
        if begin + length <= end:
            return begin, end
    return None


def _ahead(batch: BatchProgress) -> list[int]:
    """For each pass the work and drying of the batch from it on, ms."""
    ahead, found = 0, []
    for planned, members in zip(reversed(batch.passes), reversed(batch.members), strict=True):
        ahead += planned.work.once + planned.work.each * len(members) + planned.work.dry
        found.append(ahead)
    return found[::-1]


def _hash(*numbers: int) -> float:
    """A number from 0 to 1 that looks drawn by lot, always the same for the same numbers."""
    mixed = 2166136261
    for number in numbers:
        mixed = (mixed ^ number) * 16777619 % 2**32
    return (mixed ^ mixed >> 15) * 0x2C1B3C6D % 2**32 / 2**32
