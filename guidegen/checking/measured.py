"""Advice on times: what batches took against what is written."""

from __future__ import annotations

from collections.abc import Iterator

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.units import MINUTE, print_duration
from guidegen.checking.case import GuideCase, called, span_of
from guidegen.computing.guide.measured_times import measured_times


def times_differ(case: GuideCase) -> Iterator[Diagnostic]:
    """times-differ: two sessions or more say three tenths more or less than the step does."""
    for step, found in zip(case.guide.steps, measured_times(case.guide), strict=True):
        if not found.differs or not (step.once or step.each):
            continue
        written = ", ".join(
            f"{word}: {print_duration(ms)}"
            for word, ms in zip(("once", "each"), found.to_write or (), strict=False)
            if ms or word == "once"
        )
        yield Diagnostic(
            code="times-differ",
            message=f"{called(case, step)} took {_to_a_minute(found.spent)} in {found.sessions} sessions; "
            f"by the times written it takes {_to_a_minute(found.foreseen)}.",
            span=span_of(step, "each"),
            help=f"Write {written}, as measured." if written else "Look at its times again.",
        )


def _to_a_minute(ms: int) -> str:
    return print_duration(round(ms / MINUTE) * MINUTE)
