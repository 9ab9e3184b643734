"""Several drafts of one guide as one: the film tells order and time, notes details, and a table wins."""

from __future__ import annotations

from collections.abc import Sequence

from guidegen.base.suggest import folded
from guidegen.reading.drafts.records import Draft, DraftStep, DraftStop, Entry

# A step of one source is another's where at least so much is alike: paints, technique, areas, titles.
_ALIKE = 0.45

# Fields of a step that are taken over whole.
_FILLED = (
    "title", "parts", "areas", "dry", "warm", "only", "each", "brush", "thin", "instead",
    "mind", "look_for", "if_wrong", "spots", "stray",
)  # fmt: skip


def joined(first: Draft, second: Draft, *, wins: bool) -> Draft:
    """The first draft with what the second has besides; where `wins`, what the second says counts."""
    pairs = dict(_pairs(first.steps, second.steps))
    entries: list[Entry] = list(first.entries)
    for ours, theirs in pairs.items():
        _fill(first.steps[ours], second.steps[theirs], wins=wins)
    matched = {theirs: first.steps[ours] for ours, theirs in pairs.items()}
    waiting: list[Entry] = []
    count = 0
    for entry in second.entries:
        if isinstance(entry, DraftStep):
            partner = matched.get(count)
            count += 1
            if partner is None:
                waiting.append(entry)
                continue
            place = next(at for at, one in enumerate(entries) if one is partner)
            _insert(entries, place, waiting)
            waiting = []
        else:
            waiting.append(entry)
    _insert(entries, len(entries), waiting)
    first.entries = entries
    first.likely |= second.likely
    first.unknown += [name for name in second.unknown if name not in first.unknown]
    first.intro = first.intro or second.intro
    return first


def _insert(entries: list[Entry], place: int, waiting: Sequence[Entry]) -> None:
    """Put what only one source has before what both have next; a stop only where there is none yet."""
    names = {folded(one.name) for one in entries if isinstance(one, DraftStop)}
    for entry in waiting:
        near = entries[max(0, place - 1) : place + 1]
        if isinstance(entry, DraftStop) and (
            folded(entry.name) in names or any(isinstance(one, DraftStop) for one in near)
        ):
            continue
        entries.insert(place, entry)
        place += 1


def _pairs(ours: Sequence[DraftStep], theirs: Sequence[DraftStep]) -> list[tuple[int, int]]:
    """Indexes of the steps that are the same, in the order of both lists, with the most likeness in all."""
    best = [[0.0] * (len(theirs) + 1) for _ in range(len(ours) + 1)]
    like = [[_likeness(one, other) for other in theirs] for one in ours]
    for i in range(len(ours) - 1, -1, -1):
        for j in range(len(theirs) - 1, -1, -1):
            together = like[i][j] + best[i + 1][j + 1] if like[i][j] >= _ALIKE else 0.0
            best[i][j] = max(best[i + 1][j], best[i][j + 1], together)
    found, i, j = [], 0, 0
    while i < len(ours) and j < len(theirs):
        if like[i][j] >= _ALIKE and best[i][j] == like[i][j] + best[i + 1][j + 1]:
            found.append((i, j))
            i, j = i + 1, j + 1
        elif best[i + 1][j] >= best[i][j + 1]:
            i += 1
        else:
            j += 1
    return found


def _likeness(one: DraftStep, other: DraftStep) -> float:
    """How surely two steps are the same, from 0 to 1.1."""
    a, b = set(one.paints), set(other.paints)
    paints = len(a & b) / len(a | b) if a | b else 0.0
    words = _words(one) & _words(other)
    titles = 0.3 if words else 0.0
    technique = 0.2 if one.technique == other.technique else 0.0
    if not (a and b):
        return titles + technique + (0.3 if folded(one.title) == folded(other.title) and one.title else 0.0)
    return 0.6 * paints + titles + technique if paints else 0.0


def _words(step: DraftStep) -> set[str]:
    return {folded(word) for text in (*step.areas, step.title) for word in text.split() if len(word) > 3}


def _fill(ours: DraftStep, theirs: DraftStep, *, wins: bool) -> None:
    """Put into one step what another tells of the same: what ours lacks, and where `wins` all that theirs has."""
    for key in _FILLED:
        value = getattr(theirs, key)
        if value and (wins or not getattr(ours, key)):
            setattr(ours, key, value)
    if theirs.paints and (wins or not ours.paints):
        ours.paints, ours.guessed = theirs.paints, theirs.guessed
        ours.parts = {name: amount for name, amount in ours.parts.items() if name in ours.paints}
    if theirs.technique_said and (wins or not ours.technique_said):
        ours.technique, ours.technique_said = theirs.technique, True
    ours.coats = theirs.coats if wins and theirs.coats > 1 else max(ours.coats, theirs.coats)
    ours.optional = ours.optional or theirs.optional
    if theirs.at is not None and (wins or ours.at is None):
        ours.at = theirs.at
    ours.beside += [sentence for sentence in theirs.said if sentence not in ours.said]
    ours.doubts += theirs.doubts
