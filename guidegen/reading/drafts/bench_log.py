"""The bench's `log.csv`: when each step was begun and ended, and for how many figures, in local time."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from typing import NamedTuple

from guidegen.base.suggest import folded
from guidegen.base.units import SECOND
from guidegen.reading.drafts.records import Draft, DraftStep
from guidegen.reading.paint_lists.csv_list import Line

# What is longer was left lying overnight, and is no time at the brush.
_LONGEST_SITTING = dt.timedelta(hours=6)


class Logged(NamedTuple):
    """One stretch at one step, without an offset: the clock on the wall."""

    step: str
    begun: dt.datetime
    ended: dt.datetime
    figures: int


def is_log(lines: Sequence[Line]) -> bool:
    """Whether a table has the headings of the bench's log."""
    return bool(lines) and {"step", "begun", "ended"} <= {folded(cell) for cell in lines[0].cells}


def read_log(lines: Sequence[Line]) -> tuple[Logged, ...]:
    """The stretches in order of time; a row whose times make no sense is left out."""
    heads = [folded(cell) for cell in lines[0].cells]
    found = []
    for line in lines[1:20_000]:
        held = dict(zip(heads, line.cells, strict=False))
        begun, ended = _time(held.get("begun", "")), _time(held.get("ended", ""))
        figures = re.match(r"\d{1,4}", held.get("figures", "").strip())
        if begun and ended and ended >= begun and held.get("step", "").strip():
            found.append(Logged(held["step"].strip()[:200], begun, ended, int(figures[0]) if figures else 1))
    return tuple(sorted(found, key=lambda one: one.begun))


def steps_of_log(log: Sequence[Logged], language: str) -> Draft:
    """Steps by their titles alone, where there is nothing else to tell of them."""
    draft = Draft(language=language)
    for title in dict.fromkeys(one.step for one in log):
        draft.entries.append(
            DraftStep(title=title, technique="base coat", doubts=["which paint it was, the log does not say"])
        )
    add_times(draft, log)
    return draft


def add_times(draft: Draft, log: Sequence[Logged]) -> None:
    """Time for each figure, by the stretches of a step of the same title."""
    for step in draft.steps:
        own = [
            one
            for one in log
            if folded(one.step) == folded(step.title) and one.ended - one.begun < _LONGEST_SITTING
        ]
        figures = sum(one.figures for one in own)
        if own and figures and step.each is None:
            seconds = sum((one.ended - one.begun).total_seconds() for one in own) / figures
            step.each = round(seconds / 30) * 30 * SECOND or 30 * SECOND


def _time(text: str) -> dt.datetime | None:
    try:
        read = dt.datetime.fromisoformat(text.strip())
    except ValueError:
        return None
    return read.replace(tzinfo=None)
