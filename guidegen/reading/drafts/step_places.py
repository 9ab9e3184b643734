"""Where a step belongs that was told late, and which step is meant by a pot, a technique or an area."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from guidegen.reading.drafts.areas import ALL
from guidegen.reading.drafts.pot_roles import Sentence
from guidegen.reading.drafts.pots import Pot
from guidegen.reading.drafts.records import Draft, DraftStep
from guidegen.reading.drafts.techniques import is_undercoat, lightens, technique_said
from guidegen.words.spoken_words import SpokenWords


def place_of_late(
    draft: Draft,
    step: DraftStep,
    here: DraftStep | None,
    sentence: Sentence,
    words: SpokenWords,
    name_of: Callable[[int], str],
) -> int:
    """Before which entry a step belongs: what it is said to come before, else the one that is told, `here`."""
    entries = draft.entries
    if is_undercoat(step.technique) or words.says("earlier", "start", sentence.low):
        return 0
    for pattern in words.patterns("earlier", "before"):
        for found in pattern.finditer(sentence.low):
            what = found["what"] or ""
            name = name_of(int(what[1:])) if what.startswith("§") else ""
            place = _told_at(draft, name, what, words)
            if place is not None:
                return place
    return next((at for at, entry in enumerate(entries) if entry is here), len(entries))


def _told_at(draft: Draft, name: str, what: str, words: SpokenWords) -> int | None:
    """Which entry tells of a pot, a technique or an area."""
    steps = [(at, entry) for at, entry in enumerate(draft.entries) if isinstance(entry, DraftStep)]
    if name:
        return next((at for at, step in steps if name in step.paints), None)
    first = what.split(" ", maxsplit=1)[0]
    technique = technique_said(what, words) or technique_said(f"the {what}", words) or first
    for at, step in reversed(steps):
        if technique == step.technique or technique in step.technique.split():
            return at
    nouns = {noun for noun in what.split() if len(noun) > 3}
    return next((at for at, step in steps if step.nouns & nouns), None)


def step_on(area: str, steps: Sequence[DraftStep]) -> DraftStep | None:
    """The last step that painted an area."""
    stem = area.removesuffix("s")
    painted = [one for one in reversed(steps) if one.paints and not is_undercoat(one.technique)]
    by_area = [one for one in painted if any(each.startswith(stem) for each in one.areas)]
    by_noun = [one for one in painted if any(noun.startswith(stem) for noun in one.nouns)]
    return next(iter([*by_area, *by_noun]), None)


def technique_again(step: DraftStep, steps: Sequence[DraftStep], pots: Mapping[str, Pot]) -> str:
    """What it is where a paint is laid once more where paint lies: a highlight if it was made lighter, else a layer."""
    earlier = [one for one in steps if set(step.paints) & set(one.paints)]
    own = set(step.areas) - {ALL}
    if not any(not own or not set(one.areas) - {ALL} or set(one.areas) & own for one in earlier):
        return "base coat"
    fresh = [pot for name, pot in pots.items() if not any(name in one.paints for one in earlier)]
    return "highlight" if lightens(fresh, list(pots.values())) else "layer"
