"""Photos of an evening, each with its step: by the bench's log, else groups between gaps as stages in order."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from guidegen.base.suggest import folded
from guidegen.reading.drafts.bench_log import Logged
from guidegen.reading.drafts.records import DraftStep

# A gap is much longer than the pauses between most photos, and never shorter than this. Tea and drying fill gaps, so
# they say nothing of how long a step takes. From memory.
_LEAST_GAP = dt.timedelta(minutes=4)
_LONGER = 4
# Of two photos the later one is taken unless it is much less sharp than the sharpest of its group.
_SHARP_ENOUGH = 0.4
# What is photographed so long after a step was done still shows it.
_AFTERWARDS = dt.timedelta(minutes=45)


class Shot(NamedTuple):
    """A photo by its file's name, when it was taken by the clock on the wall, and how sharp it is."""

    file: str
    when: dt.datetime
    sharpness: float


def put_photos(steps: Sequence[DraftStep], shots: Sequence[Shot], log: Sequence[Logged]) -> list[str]:
    """Propose a photo for steps; what was unsure, as remarks."""
    ordered = sorted(shots, key=lambda shot: (shot.when, shot.file))
    open_steps = [step for step in steps if not step.photos]
    if not ordered or not open_steps:
        return []
    days = {one.begun.date() for one in log} | {one.ended.date() for one in log}
    logged = [shot for shot in ordered if shot.when.date() in days]
    left = [shot for shot in ordered if shot.when.date() not in days]
    remarks: list[str] = []
    for step, group in _by_log(open_steps, logged, log, remarks):
        _propose(step, group)
    rest = [step for step in open_steps if not step.photos]
    groups = groups_of(left)
    if groups and rest:
        if len(groups) != len(rest):
            remarks.append(
                f"{len(groups)} groups of photos were laid among {len(rest)} steps in order: look whether each is right"
            )
        for at, group in enumerate(groups):
            step = rest[
                min(
                    len(rest) - 1, at if len(groups) >= len(rest) else (at + 1) * len(rest) // len(groups) - 1
                )
            ]
            if len(groups) != len(rest):
                step.doubts.append("its photo is a guess by the order")
            _propose(step, group)
    return remarks


def groups_of(shots: Sequence[Shot]) -> list[list[Shot]]:
    """Photos in order of time, parted at the long gaps."""
    if not shots:
        return []
    pauses = sorted(later.when - earlier.when for earlier, later in pairwise(shots))
    short = [pause for pause in pauses if pause < _LEAST_GAP]
    gap = max(_LEAST_GAP, _LONGER * short[len(short) // 2] if short else _LEAST_GAP)
    groups = [[shots[0]]]
    for earlier, later in pairwise(shots):
        if later.when - earlier.when >= gap:
            groups.append([])
        groups[-1].append(later)
    return groups


def _propose(step: DraftStep, group: Sequence[Shot]) -> None:
    """The last sharp photo of a group for the step; the others are named beside it."""
    sharpest = max(shot.sharpness for shot in group)
    best = next(shot for shot in reversed(group) if shot.sharpness >= _SHARP_ENOUGH * sharpest)
    step.other_photos += step.photos
    step.photos = [best.file]
    step.other_photos += [shot.file for shot in group if shot is not best]


def _by_log(
    steps: Sequence[DraftStep], shots: Sequence[Shot], log: Sequence[Logged], remarks: list[str]
) -> list[tuple[DraftStep, list[Shot]]]:
    """The shots of each step: taken while it was worked at, or after it and before the next."""
    by_title = {folded(step.title): step for step in steps}
    found: dict[int, tuple[DraftStep, list[Shot]]] = {}
    for shot in shots:
        before = [one for one in log if one.begun <= shot.when]
        last = before[-1] if before else None
        if last is None or shot.when - last.ended > _AFTERWARDS:
            remarks.append(f"{shot.file} belongs to no step of the log")
            continue
        step = by_title.get(folded(last.step))
        if step is not None:
            found.setdefault(id(step), (step, []))[1].append(shot)
    return list(found.values())
