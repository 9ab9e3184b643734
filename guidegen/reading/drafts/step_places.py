"""Where a step belongs that was told late, and which step is meant by a pot, a technique or an area."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from guidegen.base.suggest import folded
from guidegen.reading.drafts.areas import ALL
from guidegen.reading.drafts.pot_roles import Sentence
from guidegen.reading.drafts.pots import Pot
from guidegen.reading.drafts.records import Draft, DraftStep, Entry
from guidegen.reading.drafts.techniques import FILMS_LAID, fits, is_undercoat, lightens, technique_said
from guidegen.words.spoken_words import SpokenWords

# What is added to a sentence in fewer words goes by its verb.
_SHORT = 9


def place_of_late(
    draft: Draft,
    step: DraftStep,
    here: DraftStep | None,
    sentence: Sentence,
    words: SpokenWords,
    name_of: Callable[[int], str],
) -> int:
    """The index of the entry that a step told late goes before.

    That is what the sentence says it comes before, else the step that was being told, `here`; 0 for an undercoat.
    `name_of` gives the name of a pot by its number in the sentence.
    """
    entries = draft.entries
    if is_undercoat(step.technique):
        return 0
    if words.says("earlier", "start", sentence.low):
        painted = (at for at, one in enumerate(entries) if not _is_ground(one))
        return next(painted, len(entries))
    this = words.says("earlier", "before_this", sentence.low) is not None
    for pattern in () if this else words.patterns("earlier", "before"):
        for found in pattern.finditer(sentence.low):
            what = found["what"] or ""
            name = name_of(int(what[1:])) if what.startswith("§") else ""
            place = _told_at(draft, name, what, words)
            if place is not None:
                return place
    return next((at for at, entry in enumerate(entries) if entry is here), len(entries))


def _is_ground(entry: Entry) -> bool:
    return isinstance(entry, DraftStep) and is_undercoat(entry.technique)


def _told_at(draft: Draft, name: str, what: str, words: SpokenWords) -> int | None:
    """Which entry tells of a pot, a technique or an area."""
    steps = [(at, entry) for at, entry in enumerate(draft.entries) if isinstance(entry, DraftStep)]
    if name:
        return next((at for at, step in steps if name in step.paints), None)
    first = what.split(" ", maxsplit=1)[0]
    areas = {noun for noun in what.split() if noun in words.words("areas")}
    technique = technique_said(what, words) or technique_said(f"the {what}", words) or first
    place: int | None = None
    for at, step in reversed(steps) if not areas else ():
        if technique == step.technique or technique in step.technique.split():
            place = at  # of several in a row the first
        elif place is not None:
            return place
    if place is not None:
        return place
    nouns = areas or {noun for noun in what.split() if len(noun) > 3}
    return next((at for at, step in steps if any(same_noun(a, b) for a in step.nouns for b in nouns)), None)


def same_noun(one: str, other: str) -> bool:
    """Whether two words are one noun, whatever their number: coat and coats, Hose and Hosen."""
    short, long = sorted((folded(one), folded(other)), key=len)
    return long.startswith(short) and long[len(short) :] in {"", "s", "es", "n", "en", "e", "er"}


def step_on(area: str, steps: Sequence[DraftStep]) -> DraftStep | None:
    """The last step that painted an area."""
    stem = area.removesuffix("s")
    painted = [one for one in reversed(steps) if one.paints and not is_undercoat(one.technique)]
    by_area = [one for one in painted if any(each.startswith(stem) for each in one.areas)]
    by_noun = [one for one in painted if any(noun.startswith(stem) for noun in one.nouns)]
    return next(iter([*by_area, *by_noun]), None)


def mixed_before(mix: str, said: str, steps: Sequence[DraftStep]) -> DraftStep | None:
    """The step whose mixture is meant: the first, that of an area, else the last that was made."""
    words = set(said.split())
    mixed = [step for step in steps if len(step.paints) > 1]
    if re.search(r"\b(?:first|ersten?)\b", mix):
        return next(iter(mixed), None)
    own = [step for step in mixed if any(same_noun(word, area) for word in words for area in step.areas)]
    return next(reversed(own or mixed), None)


def like_before(said: str, steps: Sequence[DraftStep], words: SpokenWords) -> tuple[str, DraftStep | None]:
    """The area whose paint is taken once more and the step that laid it, or the step of the first colour."""
    same = words.says("same", "area", said)
    like = step_on(same["area"], steps) if same else None
    if same is None and (mix := words.says("same", "mix", said)) is not None:
        like = mixed_before(mix[0], said, steps)
    if like is None and words.says("same", "film", said):
        like = next((one for one in reversed(steps) if one.technique in FILMS_LAID), None)
    if like is None and words.says("same", "first", said):
        like = next((one for one in steps if one.paints and not is_undercoat(one.technique)), None)
    return (same["area"] if same else ""), like


def _shares_noun(one: str, other: str) -> bool:
    """Whether two titles speak of one thing; “Base: boots” and “Base: hats” do not."""
    words = [re.findall(r"[^\W\d_]{3,}", text.lower().rpartition(": ")[2]) for text in (one, other)]
    return any(same_noun(a, b) for a in words[0] for b in words[1])


def technique_carried(
    part: str, pots: Sequence[Pot], step: DraftStep | None, words: SpokenWords, *, first: bool
) -> str:
    """The technique of the step that is told, where one verb stands for both or this is done likewise; else ''."""
    if step is None or not fits(step.technique, pots):
        return ""
    # “and the crates with another”
    also = not first and len(part.split()) < _SHORT and re.match("(?:and|und|then|dann) ", part)
    likewise = words.says("same", "way", part) and step.technique != "base coat"
    return step.technique if (also and step.technique_said) or likewise else ""


def technique_again(
    step: DraftStep, steps: Sequence[DraftStep], pots: Sequence[Pot], words: SpokenWords, said: str
) -> str:
    """The technique of a step for which none was said, by what was painted before.

    A paint that is laid again is a highlight if something lighter was mixed in, else a layer; a fresh paint is a base coat,
    or a highlight where raised parts are named and a wash was laid before.
    """
    named = dict(zip(step.paints, pots, strict=False)) if len(pots) == len(step.paints) else {}
    earlier = [one for one in steps if set(step.paints) & set(one.paints)]
    first = next(iter(named), "")
    base = max(
        earlier, key=lambda one: (first in one.paints, len(set(one.paints) & named.keys())), default=step
    )
    fresh = [pot for name, pot in named.items() if name not in base.paints]
    shaded = any(one.technique in FILMS_LAID for one in steps)
    alone = [one for one in earlier if set(one.paints) <= set(step.paints)]
    own = set(step.areas) - {ALL}
    again = words.says("told", "again", said) is not None
    relief = shaded and re.search(words.text("told", "relief"), said) is not None
    there = any(
        any(same_noun(a, b) for a in own for b in one.areas)
        if own and set(one.areas) - {ALL}
        else _shares_noun(step.title, one.title)
        if not again and step.title and one.title
        else (shaded and not (own and relief)) or (again and not own) or not (own or set(one.areas) - {ALL})
        for one in earlier
    )
    if steps and steps[-1].technique in {"paste", "sand on glue"}:
        return "base coat"  # what was laid just now has no paint yet
    if earlier and (there or shaded) and lightens(fresh, pots):
        return "highlight"
    if (there and not (relief and not alone)) or (earlier and shaded and again):
        return "layer"
    return "highlight" if relief else "base coat"
