"""One batch of a plan: the pass it is at, and when its figures are dry enough for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from heapq import heappop, heappush
from typing import NamedTuple

from guidegen.computing.plan.planned_pass import PlannedPass, painted_before
from guidegen.computing.plan.units import UnitScheme


class Stroke(NamedTuple):
    """One figure (from 0 through the batch) painted from `start` to `end`; `dry` is when it is dry all over.

    `once` ms at the start are what the step needs once. `finished` marks the figure's last stroke.
    """

    figure: int
    start: int
    once: int
    end: int
    dry: int
    finished: bool


class BatchProgress:
    """A batch, the pass it is at, and the figures that this pass still has to paint.

    Figures count from 0 through the batch; moments are ms. `passes` are those of its own, `members` the figures of each,
    `at` the place of the current one. `whole`, `area` and `cured` are clocks: for each figure when all of it, one area,
    or one area's paint is dry or cured. `left` has a moment and a figure for each that is still to paint; `paid` is the
    sitting in which the pass had what it needs once.
    """

    __slots__ = ("after", "area", "at", "cure", "cured", "first", "last", "left", "members", "number", "paid", "passes",
                 "size", "unit", "whole")  # fmt: skip

    def __init__(
        self,
        unit: UnitScheme,
        number: int,
        passes: Sequence[PlannedPass],
        *,
        cure: int = 0,
        since: int = 0,
        after: BatchProgress | None = None,
    ) -> None:
        self.unit, self.number, self.cure, self.after = unit, number, cure, after
        self.first = sum(unit.batches[: number - 1])
        self.size = unit.batches[number - 1]
        mine = [(p, self._members(p)) for p in passes]
        self.passes = [p for p, members in mine if members]
        self.members = [members for _, members in mine if members]
        self.last = {i: at for at, members in enumerate(self.members) for i in members}
        self.whole = [0] * self.size
        self.area = {a: [0] * self.size for p in self.passes if p.work.holds_area for a in p.work.areas}
        met = {a for p in self.passes if p.on_cured and cure for a in p.work.areas}
        self.cured = {a: [0] * self.size for a in met}
        behind = painted_before(unit, number, [p for p, _ in mine])
        self.at = sum(bool(members) for _, members in mine[:behind]) - 1
        for p, members in zip(self.passes[: self.at + 1], self.members, strict=False):
            # It was dry when the plan began, but nobody knows for how long.
            self._lay_cure(p, members, since)
        self.next_pass()

    def _members(self, planned: PlannedPass) -> range:
        """The figures of this batch that a pass is for."""
        low, high = planned.figures or (self.first + 1, self.first + self.size)
        return range(max(0, low - 1 - self.first), min(self.size, high - self.first))

    def _lay_cure(self, planned: PlannedPass, figures: Sequence[int], end: int) -> None:
        """Set the clocks of paint that has to cure, as laid at `end`."""
        if planned.watery:
            for area in planned.work.areas:
                if area in self.cured:
                    for i in figures:
                        self.cured[area][i] = end + self.cure

    def next_pass(self) -> None:
        """Begin the pass after this one; each figure waits until its clocks let it."""
        self.at += 1
        self.paid = -1
        self.left: list[tuple[int, int]] = []
        if not self.done:
            planned = self.passes[self.at]
            clocks = [self.whole, *(self.area[a] for a in planned.work.areas if a in self.area)]
            if planned.on_cured:
                clocks += [self.cured[a] for a in planned.work.areas if a in self.cured]
            self.left = sorted((max(clock[i] for clock in clocks), i) for i in self.members[self.at])

    @property
    def done(self) -> bool:
        """Whether every pass is painted."""
        return self.at >= len(self.passes)

    @property
    def planned(self) -> PlannedPass:
        """The pass it is at."""
        return self.passes[self.at]

    def unbroken_from(self, once: int) -> int:
        """From when on all figures that are left can be painted without a wait, `once` ms before the first."""
        each = self.planned.work.each
        return max(0, *(dry - (once + i * each if i else 0) for i, (dry, _) in enumerate(self.left)))

    def run(self, t: int, once: int, limit: int, patience: int) -> Iterator[Stroke]:
        """Paint from `t` on, the lowest dry figure each time, until `limit`, the end of the pass, or a longer wait.

        The first figure has to be dry at `t`; after it nobody waits longer than `patience` ms.
        """
        work, planned, left = self.planned.work, self.planned, self.left
        held = [self.area[a] for a in work.areas] if work.holds_area else [self.whole]
        cured = [self.cured[a] for a in work.areas if a in self.cured] if planned.watery else []
        clocks = (self.whole, *self.area.values())
        dry: list[int] = []
        taken = 0
        count, each, drying, last = len(left), work.each, work.dry, self.last
        while dry or taken < count:
            if not dry:
                t, wait = max(t, left[taken][0]), left[taken][0] - t
                if wait > patience:
                    break
            if t + once + each > limit:
                break
            while taken < count and left[taken][0] <= t:
                heappush(dry, left[taken][1])
                taken += 1
            i = heappop(dry)
            end = t + once + each
            for clock in held:
                clock[i] = max(clock[i], end + drying)
            for clock in cured:
                clock[i] = end + self.cure
            yield Stroke(i, t, once, end, max(clock[i] for clock in clocks), last[i] == self.at)
            t, once = end, 0
        waiting = set(dry)
        self.left = [one for one in left[:taken] if one[1] in waiting] + left[taken:]
        if not self.left:
            self.next_pass()

    def remaining(self) -> int:
        """Hands-on ms of what is not painted yet, once for each step that was not begun."""
        if self.done:
            return 0
        here, work = len(self.left), self.planned.work
        begun = here * work.each + (work.once if here == len(self.members[self.at]) else 0)
        rest = zip(self.passes[self.at + 1 :], self.members[self.at + 1 :], strict=True)
        return begun + sum(p.work.once + p.work.each * len(members) for p, members in rest)
