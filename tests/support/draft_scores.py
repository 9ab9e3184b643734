"""How well a draft tells what a recording's truth says: steps by their paints in order, and what each step has."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Any

from guidegen.base.units import MINUTE
from guidegen.reading.drafts.records import Draft, DraftStep, DraftStop

# How far from the film's true place a step may lie, in ms.
NEAR = 20_000


@dataclass(slots=True)
class Score:
    """Counts of what was right, and of what there was; they add up over recordings."""

    truth: int = 0
    proposed: int = 0
    found: int = 0
    techniques: int = 0
    timed: int = 0
    at: int = 0
    details: int = 0
    right: int = 0
    wrong: list[str] = field(default_factory=list)

    def __add__(self, other: Score) -> Score:
        return Score(*(getattr(self, name) + getattr(other, name) for name in self.__dataclass_fields__))

    @property
    def row(self) -> tuple[float, float, float, float, float]:
        """Recall, precision, techniques, times, details; 1 where there was nothing to find."""
        return (
            _share(self.found, self.truth),
            _share(self.found, self.proposed),
            _share(self.techniques, self.found),
            _share(self.at, self.timed),
            _share(self.right, self.details),
        )


def score(draft: Draft, truth: dict[str, Any]) -> Score:
    """A draft beside the truth."""
    steps, wanted = draft.steps, truth["steps"]
    pairs = _aligned([_paints(step) for step in steps], [_wanted(step) for step in wanted])
    result = Score(truth=len(wanted), proposed=len(steps), found=len(pairs))
    for ours, theirs in pairs:
        _compare(steps[ours], wanted[theirs], result)
    missed = set(range(len(wanted))) - {theirs for _, theirs in pairs}
    extra = set(range(len(steps))) - {ours for ours, _ in pairs}
    result.wrong += [f"missed: {wanted[n]}" for n in sorted(missed)]
    result.wrong += [
        f"extra: {steps[n].paints} {steps[n].technique} {steps[n].said[:1]}" for n in sorted(extra)
    ]
    stops = _stops(draft)
    places = {theirs: ours for ours, theirs in pairs}
    for stop in truth.get("stops", []):
        result.details += 1
        if any(_same_place(one, stop, places) for one in stops):
            result.right += 1
        else:
            result.wrong.append(f"stop before step {stop} missed, found {stops}")
    surplus = max(0, len(stops) - len(truth.get("stops", [])))
    result.details += surplus
    return result


def _compare(step: DraftStep, truth: dict[str, Any], result: Score) -> None:
    label = f"{_wanted(truth)}"
    if step.technique == truth["technique"]:
        result.techniques += 1
    else:
        result.wrong.append(f"{label}: technique {step.technique}, not {truth['technique']}")
    if "at" in truth:
        result.timed += 1
        minutes, seconds = map(int, truth["at"].split(":"))
        near = step.at is not None and abs(step.at - (minutes * 60 + seconds) * 1000) <= NEAR
        result.at += near
        if not near:
            result.wrong.append(f"{label}: at {step.at}, not {truth['at']}")
    for key, ours, theirs in (
        ("parts", step.parts or None, _parts(truth)),
        ("dry", step.dry // MINUTE if step.dry else None, truth.get("dry")),
        ("instead", {name for name, _ in step.instead} or None, set(truth.get("instead", ())) or None),
    ):
        if ours is not None or theirs is not None:
            result.details += 1
            result.right += ours == theirs
            if ours != theirs:
                result.wrong.append(f"{label}: {key} {ours}, not {theirs}")


def _parts(truth: dict[str, Any]) -> dict[str, str] | None:
    parts = truth.get("parts")
    if not parts or all(value is None for value in parts.values()):
        return None
    return {name: "1" if value is None else str(value) for name, value in parts.items()}


def _paints(step: DraftStep) -> frozenset[str]:
    return frozenset({"as before"}) if step.as_before else frozenset(step.paints)


def _wanted(step: dict[str, Any]) -> frozenset[str]:
    paints = step["paints"]
    return frozenset({paints}) if isinstance(paints, str) else frozenset(paints)


def _aligned(ours: Sequence[frozenset[str]], theirs: Sequence[frozenset[str]]) -> list[tuple[int, int]]:
    """The longest common subsequence, as pairs of places."""
    best = [[0] * (len(theirs) + 1) for _ in range(len(ours) + 1)]
    for i in range(len(ours) - 1, -1, -1):
        for j in range(len(theirs) - 1, -1, -1):
            best[i][j] = max(best[i + 1][j], best[i][j + 1], best[i + 1][j + 1] + (ours[i] == theirs[j]))
    pairs, i, j = [], 0, 0
    while i < len(ours) and j < len(theirs):
        if ours[i] == theirs[j] and best[i][j] == best[i + 1][j + 1] + 1:
            pairs.append((i, j))
            i, j = i + 1, j + 1
        elif best[i + 1][j] >= best[i][j + 1]:
            i += 1
        else:
            j += 1
    return pairs


def _stops(draft: Draft) -> list[int]:
    """Before which step each stop stands, by number of steps before it."""
    places, count = [], 0
    for entry in draft.entries:
        if isinstance(entry, DraftStop):
            places.append(count)
        else:
            count += 1
    return places


def _same_place(ours: int, stop: int, places: dict[int, int]) -> bool:
    """Whether our stop stands right behind the step that theirs stands behind."""
    behind = places.get(stop - 1)
    return ours == behind + 1 if behind is not None else ours == stop


def _share(part: int, whole: int) -> float:
    return part / whole if whole else 1.0
