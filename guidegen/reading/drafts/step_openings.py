"""Sentences that open a step without naming its pot."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from guidegen.reading.drafts.amounts import TOUCH, added_parts, coats_in, has_ratio, times_in
from guidegen.reading.drafts.areas import ALL, AreaFinder
from guidegen.reading.drafts.pot_roles import Sentence
from guidegen.reading.drafts.pots import Mention, Pot, PotFinder
from guidegen.reading.drafts.records import DraftStep, DraftStop, Entry
from guidegen.reading.drafts.techniques import fits_with, pot_for, technique_said
from guidegen.words.spoken_words import SpokenWords

# What is laid on one part after the other: the same paint elsewhere is another step.
_LIGHTS = frozenset({"dry brush", "highlight", "edge highlight"})
# “Right, the trousers.” A sentence of more words says more than what comes next.
_SHORT = 7
# “For a game on Friday?” has so many words at the most.
_SHORT_PURPOSE = 9
# “I forgot something before the wash”: what is told so soon after it is what was forgotten. Milliseconds; from memory.
_LATE = 8_000
# How soon after a step began a mixture may be told. Milliseconds; from memory.
_MOMENT = 15_000


@dataclass(slots=True)
class Now:
    """What is remembered from sentence to sentence. Pots go by their index in `mentions`."""

    step: DraftStep | None = None  # the step that is being told
    fresh: bool = False  # whether it began with the sentence before
    lead: Sentence | None = None  # a sentence that may open the next step, whose pot is still to be named
    lacked: bool = False  # whether the sentence before said that a pot is lacking
    asked: tuple[int, Sentence] | None = None  # a pot that the sentence before asked about
    purpose: bool = False  # whether the sentence before named what the figures are for
    late: Sentence | None = None  # “I forgot something”: what comes next belongs earlier
    told_late: bool = False  # whether the sentence before said so
    offered: list[int] = field(default_factory=list)  # pots that were named and not taken
    mentions: list[Mention] = field(default_factory=list)

    def with_late(self, sentence: Sentence) -> Sentence:
        """A sentence with the one before it that said that something was forgotten."""
        late, self.late = self.late, None
        if late is None or (sentence.at or 0) - (late.at or 0) >= _LATE:
            return sentence
        return replace(sentence, low=f"{late.low} , {sentence.low}")


@dataclass(slots=True, kw_only=True)
class Taken:
    """Pots that a sentence takes up together, and what it says of them."""

    part: str  # what it says of them alone
    group: Sequence[int]
    names: list[str]
    pots: list[Pot]
    parts: dict[str, str]
    technique: str
    added: bool  # whether it is one pot that is stirred into what is there
    moves: bool  # whether it goes on to another place

    def goes_into(self, step: DraftStep, pots: Sequence[Pot]) -> bool:
        """Whether they may be mixed with what a step painted with, whose `pots` these are."""
        return not set(self.names) & set(step.paints) and fits_with(self.pots[0], pots)

    def mix_into(self, step: DraftStep, pots: Sequence[Pot], name: str, words: SpokenWords) -> None:
        """Put them into the mixture of a step, whose `pots` these are."""
        self.parts = added_parts(self.part, step.paints, step.parts, name, words)
        self.names, self.pots = [*step.paints, *self.names], [*pots, *self.pots]


def opens_step(sentence: Sentence, now: Now, words: SpokenWords, areas: AreaFinder) -> bool:
    """Whether a sentence without a pot may be the opening of the step that the next sentence tells of."""
    low = sentence.low
    if sentence.pots or times_in(low, words) or coats_in(low, words) > 1 or has_ratio(low, words):
        return False
    if any(words.says("told", key, low) for key in ("mind", "look_for", "if_wrong", "needn_t")):
        return False
    technique, step = technique_said(low, words), now.step
    moves = re.search(words.text("told", "moves"), low) is not None
    if (
        technique
        and step
        and now.fresh
        and not sentence.asks
        and not (step.technique_said or moves or any(map(areas.known, areas.find(low))))
    ):
        return False  # it says how what was just taken up is laid
    if (
        words.says("dry", "tea", low)
        or words.says("dry", "overnight", low)
        or (technique and step is not None and technique == step.technique)
    ):
        return False
    named = areas.find(low)
    opens = re.search(words.text("told", "lead"), low) is not None
    about = bool(named or technique)
    return (len(low.split()) <= _SHORT and (opens or about)) or (opens and about) or len(named) > 1


def says_little(sentence: Sentence, words: SpokenWords, areas: AreaFinder) -> bool:
    """Whether a sentence between a step's opening and its pot only fills the time, such as a question."""
    low = sentence.low
    if sentence.pots:
        return False
    told = any(words.says("told", key, low) for key in ("mind", "look_for", "if_wrong", "needn_t"))
    dries = times_in(low, words) or words.says("dry", "overnight", low) or words.says("dry", "tea", low)
    return not (told or dries or coats_in(low, words) > 1 or has_ratio(low, words) or areas.find(low))


def says_purpose(sentence: Sentence, words: SpokenWords) -> bool:
    """Whether what the figures are for is named: a game, a shelf."""
    return re.search(rf"(?:^|(?<= )){words.text('stop', 'purpose')}", sentence.low) is not None


def is_purpose(sentence: Sentence, words: SpokenWords) -> bool:
    """Whether a sentence names what the figures are for, and no more: “for a game on Friday?”."""
    return len(sentence.low.split()) <= _SHORT_PURPOSE and says_purpose(sentence, words)


def stops_here(sentence: Sentence, words: SpokenWords, *, asked: bool = False) -> bool:
    """Whether a sentence calls it done; `asked` where the sentence before asked whether it will do for something."""
    low = sentence.low
    farewell = words.says("stop", "not_stop", low) is not None
    whoever = re.search(words.text("stop", "whoever"), low) is not None
    if farewell and not (whoever or re.search(r"\b(?:if|wenn) (?:that|you|ihr|das|euch)", low)):
        return False
    if words.says("stop", "said", low):
        return True
    plain = not (sentence.pots or times_in(low, words) or words.says("dry", "overnight", low))
    enough, use, supposed = (
        re.search(rf"(?:^|(?<= )){words.text('stop', key)}", low) is not None
        for key in ("enough", "use", "supposed")
    )
    if plain and use and supposed and not sentence.asks:
        return True
    return plain and enough and (asked or whoever or says_purpose(sentence, words))


def stop_name(sentence: Sentence, words: SpokenWords) -> str:
    """What a stop is called, by what it is said to be good for."""
    names = words.pairs("stop", "names")
    plain = words.text("stop", "name")
    return next((str(name) for sign, name in names if re.search(sign, sentence.low)), plain)


def lays_out(sentence: Sentence, pots: int, words: SpokenWords, areas: AreaFinder) -> bool:
    """Whether pots are only laid out, as before anything is painted: several, and nothing that is done with them."""
    low = sentence.low
    if pots < 2 or words.says("add", "mixed", low) or words.says("add", "touch", low):
        return False
    return not areas.find(low) and not technique_said(low, words)


def unnamed_technique(sentence: Sentence, words: SpokenWords) -> str:
    """What is done without any pot being named: undercoat, varnish, sand, water; '' if nothing."""
    for technique, patterns in words.named_patterns("techniques", "unnamed"):
        if any(one.search(sentence.low) for one in patterns) and not sentence.asks:
            said = technique_said(sentence.low, words)
            # The brush may be named beside.
            other = said in {"brush undercoat", "brush varnish"} and said.split()[1] in technique
            return said if other else technique
    return ""


def unnamed_step(
    sentence: Sentence, steps: Sequence[DraftStep], finder: PotFinder, words: SpokenWords
) -> DraftStep | None:
    """The step of what is done without a name, once; `guessed` where it needs a pot that was not named."""
    technique = unnamed_technique(sentence, words)
    if not technique or any(step.technique == technique for step in steps):
        return None
    pot = pot_for(technique, sentence.low, finder.palette.pots)
    names = [finder.label(pot)] if pot is not None else []
    return DraftStep(
        paints=names, technique=technique, guessed=technique.split()[-1] in {"undercoat", "varnish"}
    )


def is_new(
    taken: Taken, entries: Sequence[Entry], step: DraftStep, words: SpokenWords, areas: AreaFinder
) -> bool:
    """Whether pots begin another step: others than those in hand, or by another technique, or as less or more."""
    if not set(taken.names) <= set(step.paints):
        return True
    part, technique, moves = taken.part, taken.technique, taken.moves
    if coats_in(part, words) > 1 and not technique:
        return False
    if isinstance(entries[-1], DraftStop):
        return True
    here = set(areas.find(part)) - {ALL}
    elsewhere = bool(here and step.areas and not here & set(step.areas))
    if technique and technique != step.technique and (step.technique_said or moves or elsewhere):
        return True
    if elsewhere and step.technique_said and step.technique in _LIGHTS:
        return True
    alone = words.says("roles", "alone", part) is not None or bool(areas.find(part))
    alone = alone or (technique not in ("", step.technique) and part.startswith("§"))
    return len(taken.names) < len(step.paints) and (moves or alone)


def is_mixed_now(
    step: DraftStep, parts: Mapping[str, str], said: str, at: int | None, words: SpokenWords
) -> bool:
    """Whether a sentence only tells in which parts the paint of a step, begun a moment ago, is mixed, and with what."""
    soon = at is not None and step.at is not None and at - step.at < _MOMENT
    more = bool(step.paints) and set(step.paints) < parts.keys() and TOUCH not in parts.values()
    anew = technique_said(said, words) or re.search(words.text("told", "moves"), said)
    return soon and more and not anew


def is_passing(taken: Taken, said: str, steps: Sequence[DraftStep], words: SpokenWords) -> bool:
    """Whether a pot that was used before is only spoken of."""
    if taken.technique or taken.moves or len(taken.group) > 1:
        return False
    used = any(set(taken.names) <= set(step.paints) for step in steps)
    return used and not words.says("roles", "again", said) and not words.says("roles", "alone", said)
