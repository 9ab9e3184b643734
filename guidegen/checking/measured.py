"""Advice on times: what batches took against what is written."""

from __future__ import annotations

from collections.abc import Iterator

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.units import print_duration
from guidegen.checking.case import GuideCase, called, span_of
from guidegen.computing.guide.measured_times import measured_times


def times_differ(case: GuideCase) -> Iterator[Diagnostic]:
    """times-differ: two sessions or more say three tenths more or less than the step does."""
    for step, found in zip(case.guide.steps, measured_times(case.guide), strict=True):
        if not found.differs or not (step.once or step.each):
            continue
        once, each = (
            round(time / 5_000) * 5_000 for time in (found.measured_once or 0, found.measured_each or 0)
        )
        written = f"once: {print_duration(once)}, each: {print_duration(each)}" if each else ""
        yield Diagnostic(
            code="times-differ",
            message=f"{called(case, step)} took {print_duration(round(found.spent / 60_000) * 60_000)} in "
            f"{found.sessions} sessions; by the times written it takes {print_duration(round(found.foreseen / 60_000) * 60_000)}.",
            span=span_of(step, "each"),
            help=f"Write {written}, as measured." if written else "Look at its times again.",
        )
