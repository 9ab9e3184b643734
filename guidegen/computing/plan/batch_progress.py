"""One batch of a plan: the pass it is at, and which figures are dry enough for it."""

from __future__ import annotations

from heapq import heapify, heappop, heappush

from guidegen.computing.guide.batch import Pass
from guidegen.computing.plan.units import UnitScheme


class BatchProgress:
    """A batch, the pass it is at, and its figures by whether they are dry enough for it; they count from 0."""

    __slots__ = ("area", "at", "dry", "first", "number", "paid", "passes", "size", "unit", "wet", "whole")

    def __init__(self, unit: UnitScheme, number: int, first: int, passes: tuple[Pass, ...]) -> None:
        self.unit, self.number, self.first, self.passes = unit, number, first, passes
        self.size = unit.batches[number - 1]
        self.whole = [0] * self.size
        self.area = {a: [0] * self.size for p in passes if p.holds_area for a in p.areas}
        self.at = -1
        self.next_pass()

    def next_pass(self) -> None:
        """Put every figure among the wet, each until its clocks let the new pass begin."""
        self.at += 1
        self.paid = -1
        self.dry: list[int] = []
        self.wet: list[tuple[int, int]] = []
        if self.at < len(self.passes):
            areas = self.passes[self.at].areas
            clocks = [self.whole, *(self.area[a] for a in areas if a in self.area)]
            self.wet = [(max(clock[i] for clock in clocks), i) for i in range(self.size)]
            heapify(self.wet)

    @property
    def done(self) -> bool:
        return self.at >= len(self.passes)

    def settle(self, t: int) -> int:
        """Move what is dry at `t` over, and give the moment from which something is dry."""
        while self.wet and self.wet[0][0] <= t:
            heappush(self.dry, heappop(self.wet)[1])
        return t if self.dry else self.wet[0][0]

    def stroke(self, t: int, end: int) -> tuple[int, int]:
        """Paint the lowest dry figure from `t` to `end`; gives the figure, and when it is dry all over."""
        self.settle(t)
        step, figure = self.passes[self.at], heappop(self.dry)
        held = [self.area[a] for a in step.areas] if step.holds_area else [self.whole]
        # The stroke waited for each of these, so none of them stands later than this.
        for clock in held:
            clock[figure] = end + step.dry
        if not self.dry and not self.wet:
            self.next_pass()
        return figure, max(clock[figure] for clock in (self.whole, *self.area.values()))

    def remaining(self) -> int:
        """Hands-on ms of what is not painted yet, once for each step that was not begun."""
        if self.done:
            return 0
        here, step = len(self.dry) + len(self.wet), self.passes[self.at]
        begun = here * step.each + (step.once if here == self.size else 0)
        return begun + sum(p.once + p.each * self.size for p in self.passes[self.at + 1 :])
