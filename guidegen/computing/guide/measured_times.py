"""What steps really took, from the batches that were painted so far, beside the times that are written."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.base.suggest import folded
from guidegen.base.units import MINUTE, SECOND
from guidegen.model.guide import Guide, PaintedBatch, Step

# Measured times are written to five seconds: nobody's hands are more exact.
FINEST = 5 * SECOND


@dataclass(frozen=True, slots=True, kw_only=True)
class StepTimes:
    """The written and the measured times of a step, in ms; `sessions` are the batches that timed it.

    `spent` is what they took together, `foreseen` what they would have by the written times.
    """

    step: str
    once: int
    each: int
    measured_once: int | None
    measured_each: int | None
    sessions: int
    spent: int
    foreseen: int

    @property
    def differs(self) -> bool:
        """Whether two sessions or more say something else by three tenths or more: common practice, no source."""
        return self.sessions > 1 and abs(self.spent - self.foreseen) >= 0.3 * self.foreseen

    @property
    def to_write(self) -> tuple[int, int] | None:
        """The measured `once` and `each` as a step would say them, in ms; None where there is nothing to write.

        An `each` of 0 is never written: figures that take no time are a slip of the measuring. A step that is done in
        one go may still get another `once`.
        """
        once, each = rounded(self.measured_once or 0), rounded(self.measured_each or 0)
        return (once, each) if each or (once and not self.each) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Measurement:
    """What a guide's written times were measured on: different days, and the figures painted on them."""

    evenings: int
    figures: int


def measurement(guide: Guide) -> Measurement | None:
    """What the times of a guide were measured on, None where they are estimates.

    Nobody says of a written time where it comes from, so it is told from the times themselves: they count as measured
    where every step that batches timed says just what the fit of those gives, rounded as it is written, and these
    steps are at least half of the time at the brush for the guide's own number of figures. A step whose fit cannot be
    written counts as not timed.
    """
    timed = whole = 0
    for step, found in zip(guide.steps, measured_times(guide), strict=True):
        length = step.once + step.coats * step.each * guide.figures
        whole += length
        if found.to_write is None:
            continue
        if found.to_write != (step.once, step.each):
            return None
        timed += length
    batches = [batch for batch in guide.made if batch.minutes]
    if not timed or 2 * timed < whole:
        return None
    return Measurement(
        evenings=len({batch.date for batch in batches}), figures=sum(batch.figures for batch in batches)
    )


def rounded(ms: int) -> int:
    """A measured time as it is told and written."""
    return round(ms / FINEST) * FINEST


def measured_times(guide: Guide) -> tuple[StepTimes, ...]:
    """Every step of a guide in order, with what all its batches say of it."""
    return tuple(_times(guide, step) for step in guide.steps)


def _times(guide: Guide, step: Step) -> StepTimes:
    key = folded(step.title)
    sessions = [
        (_own_figures(guide, batch, step) * step.coats, spent)
        for batch in guide.made
        for title, spent in batch.minutes.items()
        if folded(title) == key
    ]
    sessions = [(strokes, spent) for strokes, spent in sessions if strokes]
    once, each = fitted(sessions, step.once) if sessions else (None, None)
    return StepTimes(
        step=step.title,
        once=step.once,
        each=step.each,
        measured_once=once,
        measured_each=each,
        sessions=len(sessions),
        spent=sum(spent for _, spent in sessions),
        foreseen=sum(step.once + step.each * strokes for strokes, _ in sessions),
    )


def _own_figures(guide: Guide, batch: PaintedBatch, step: Step) -> int:
    """How many figures of a batch had a step, by the variants that the batch chose or mixed; 0 for none."""
    figures = batch.figures
    for choice, option in step.only.items():
        mixed = {folded(name): options for name, options in batch.mixed.items()}.get(folded(choice))
        if mixed is not None:
            figures = min(figures, sum(n for name, n in mixed.items() if folded(name) == folded(option.text)))
            continue
        chosen = {folded(name): one.text for name, one in batch.choose.items()}
        taken = chosen.get(folded(choice), guide.default_choice.get(choice, ""))
        if folded(taken) != folded(option.text):
            return 0
    return figures


def fitted(sessions: Sequence[tuple[int, int]], once: int) -> tuple[int, int]:
    """`once` and `each` in ms from (figures × coats, ms) of some sessions, neither under 0.

    Non-negative least squares of the time on (1, figures × coats) (Lawson & Hanson, Solving Least Squares Problems,
    1974, chapter 23): with two unknowns one of them is 0 wherever the plain solution leaves the quadrant, so that
    the three cases can be looked at. Sessions of one size alone cannot tell the two apart: `once` stays as written.
    """
    count = len(sessions)
    x = math.fsum(strokes for strokes, _ in sessions)
    y = math.fsum(spent for _, spent in sessions)
    if len({strokes for strokes, _ in sessions}) < 2:
        return once, max(0, round((y - count * once) / x))
    xx = math.fsum(strokes * strokes for strokes, _ in sessions)
    xy = math.fsum(strokes * spent for strokes, spent in sessions)
    each = (count * xy - x * y) / (count * xx - x * x)
    intercept = (y - each * x) / count
    if each < 0:
        return round(y / count), 0
    if intercept < 0:
        return 0, round(xy / xx)
    return round(intercept), round(each)


def minutes(ms: int | None) -> float | None:
    """Milliseconds as minutes to four places, as data gives them: as whole numbers where they are."""
    found = None if ms is None else round(ms / MINUTE, 4)
    return int(found) if found is not None and found.is_integer() else found
