"""Cues as sentences in which pots are marked, as patterns see them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from guidegen.model.paint import Kind
from guidegen.reading.drafts.amounts import hands_on
from guidegen.reading.drafts.areas import AreaFinder
from guidegen.reading.drafts.pot_roles import Role, Sentence
from guidegen.reading.drafts.pots import Mention, PotFinder
from guidegen.reading.drafts.records import Cue
from guidegen.reading.drafts.sentences import Span, Token, plain_text, spans_of, tokens_of
from guidegen.reading.drafts.techniques import fits_with, kind_of, technique_said
from guidegen.words.spoken_words import SpokenWords

# What thins is no pot that a step is painted with, and stands as a word.
THINNERS = {Kind.MEDIUM: "medium", Kind.THINNER: "thinner"}


# What a clause of its own begins with, though no sign stands before it.
_ANEW = re.compile(
    r" (?:the|his|her|its|their|der|die|das|den|dem) [^ §,.]+ (?:is|are|gets?|ist|sind|bekommt|bekommen|kriegt|kriegen|wird|werden) "
)


def heard(
    cues: Sequence[Cue], finder: PotFinder, *, misheard: bool = True, whole: bool = False
) -> tuple[list[Mention], list[Sentence]]:
    """The pots that are named, and the sentences that name them by their number; with `whole` all of it is one."""
    tokens = tokens_of(cues)
    mentions = finder.find(tokens, misheard=misheard)
    spans = [Span(0, len(tokens))] if whole else spans_of(tokens, finder.words)
    sentences = list(_marked(tokens, spans, mentions, finder))
    _name_voices(sentences)
    main = _main_voice(sentences)
    for sentence in sentences:
        sentence.besides = _speaks_besides(sentence, main, finder.words)
    return mentions, sentences


def _marked(
    tokens: Sequence[Token],
    spans: Iterator[Span] | list[Span],
    mentions: Sequence[Mention],
    finder: PotFinder,
) -> Iterator[Sentence]:
    at = 0
    for span in spans:
        pieces: list[str] = []
        pots: list[int] = []
        shown: list[Token] = []
        place = span.start
        while place < span.end:
            while at < len(mentions) and mentions[at].start < place:
                at += 1
            if at == len(mentions) or mentions[at].start != place:
                pieces.append(tokens[place].low)
                shown.append(tokens[place])
                place += 1
                continue
            mention = mentions[at]
            right = replace(tokens[place], text=finder.label(mention.pot))
            shown += tokens[place : mention.end] if mention.sure else [right]
            thinner = THINNERS.get(kind_of(mention.pot))
            pieces.append(thinner or f"§{at}")
            if thinner is None:
                pots.append(at)
            place = mention.end
        if pieces:
            first = tokens[span.start].cue
            pauses = finder.words.text("told", "pauses")
            low = re.sub(rf"^(?:(?:{pauses}) (?:, )?)+", "", " ".join(pieces).rstrip(" ."))
            if (
                (first.speaker or first.turn)
                and re.match(finder.words.text("told", "question"), low)
                and low[-1:] != "?"
            ):
                low += " ?"
            yield Sentence(
                text=plain_text(shown),
                low=re.sub(finder.words.text("told", "tag"), "", low),
                at=first.start,
                line=first.line,
                speaker=first.speaker,
                turn=first.turn,
                pots=pots,
                names={pot: finder.label(mentions[pot].pot) for pot in pots},
            )


def groups_of(
    sentence: Sentence,
    taken: Sequence[int],
    words: SpokenWords,
    areas: AreaFinder,
    mentions: Sequence[Mention],
) -> list[list[int]]:
    """Pots that are mixed, or named as one, together; each other by itself, and what does not go together."""
    mixed = words.says("add", "mixed", sentence.low) is not None
    joined = words.words("connectives") | words.numbers.keys() | {",", "+", "&", ":", "/", "(", ")"}
    groups: list[list[int]] = []
    listed = False  # this, that and a third one, which are no mixture
    for pot in taken:
        if groups:
            between = sentence.low[end_of(sentence, groups[-1][-1]) : start_of(sentence, pot)].split()
            plain = all(word in joined or word.isdigit() for word in between)
            touch = re.search(rf"(?:^|(?<= ))(?:{words.text('add', 'touch')})(?=$| )", " ".join(between))
            near = (mixed or touch) and len(between) <= 9 and not areas.find(" ".join(between))
            about = sentence.about(pot)
            apart = (
                words.says("add", "apart", " ".join(between)) is not None
                or (between == [","] and words.says("add", "own_clause", about) is not None)
                or (not mixed and not touch and words.says("add", "with_own", about) is not None)
                or (not mixed and "/" in between and hands_on(sentence.low, words))
            )
            bare = not (mixed or touch) and (between == [","] or (listed and between in (["and"], ["und"])))
            listed = bare
            apart = apart or bare
            goes = fits_with(mentions[pot].pot, [mentions[one].pot for one in groups[-1]])
            if (plain or near) and not apart and (goes or (mixed and "," not in between)):
                groups[-1].append(pot)
                continue
        groups.append([pot])
    return [_told_last(group, mentions) for group in groups]


def _told_last(group: list[int], mentions: Sequence[Mention]) -> list[int]:
    """A mixture that is told twice, first its pots and then how much of each: as it was told last."""
    half = len(group) // 2
    pots = [{id(mentions[pot].pot) for pot in group[part]} for part in (slice(half), slice(half, None))]
    return group[half:] if half > 1 and pots[0] == pots[1] else group


def parts_of(
    sentence: Sentence, groups: Sequence[list[int]], words: SpokenWords
) -> Iterator[tuple[list[int], str]]:
    """Each group of pots with what the sentence says of it: up to where the clause of the next begins."""
    start = 0
    for at, group in enumerate(groups):
        end = len(sentence.low)
        if at + 1 < len(groups):
            last, end = end_of(sentence, group[-1]), start_of(sentence, groups[at + 1][0])
            for signs in ((" . ", " ; "), (" , ",), words.text("add", "clause").split("|")):
                begins = max(sentence.low.rfind(sign, last, end) for sign in signs)
                if begins >= last:
                    end = begins
                    break
            else:  # §0 the handle is §1
                anew = _ANEW.search(sentence.low, last, end)
                end = anew.start() if anew else end
        yield group, sentence.low[start:end].strip(" ,;.")
        start = end


def carry_on(sentence: Sentence, roles: dict[int, Role], words: SpokenWords) -> None:
    """In a list of pots the first says what all of them are for: “any brown: this, that, whatever's open”."""
    for before, pot in pairwise(sentence.pots):
        between = sentence.low[end_of(sentence, before) : start_of(sentence, pot)].split()
        listed = set(between) <= {",", "or", "and", "oder", "und", "the", "even", "die", "das"}
        if listed and roles[pot] is Role.TAKEN and not words.says("roles", "taken", sentence.about(pot)):
            roles[pot] = roles[before]


def answered(asked: tuple[int, Sentence], sentence: Sentence, words: SpokenWords) -> Sentence:
    """A question about a pot with its yes taken for a statement; any other answer as it is."""
    pot, question = asked
    if (
        sentence.pots
        or words.says("roles", "approves", sentence.low)
        or not words.says("roles", "yes", sentence.low)
    ):
        return sentence
    text = f"{question.text.rstrip('?')}. {sentence.text}"
    low = f"now §{pot} , {sentence.low}"
    names = {pot: question.names[pot]}
    return Sentence(text=text, low=low, at=question.at, line=question.line, pots=[pot], names=names)


def start_of(sentence: Sentence, pot: int) -> int:
    """Where a pot stands in a sentence."""
    found = re.search(rf"§{pot}(?!\d)", sentence.low)
    return found.start() if found else 0


def end_of(sentence: Sentence, pot: int) -> int:
    """Where a pot's mark ends in a sentence."""
    found = re.search(rf"§{pot}(?!\d)", sentence.low)
    return found.end() if found else 0


def _speaks_besides(sentence: Sentence, main: str, words: SpokenWords) -> bool:
    """Whether another voice than the painter's speaks, and tells of no work of its own."""
    if not (main and sentence.speaker and sentence.speaker != main):
        return False
    tells = technique_said(sentence.low, words) or re.search(
        r"\b(?:dab|touch|coat|klecks|auf die|on the|over the|über die|everywhere|all over|überall|drüber)\b",
        sentence.low,
    )
    return not tells or words.says("roles", "mine", sentence.low) is not None


def _name_voices(sentences: Sequence[Sentence]) -> None:
    """Voices that only take turns: from each question on one asks and one answers; none are named where nobody asks."""
    turns = sorted({one.turn for one in sentences if not one.speaker})
    last = {one.turn: one for one in sentences}  # a question that is answered in the same breath asks nobody
    asking = {turn for turn, one in last.items() if one.asks and turn}
    if not asking:
        return
    first = next(at for at, turn in enumerate(turns) if turn in asking)
    asks, voices = first % 2 == 1, {}
    for turn in turns:
        asks = turn in asking or not asks
        voices[turn] = "who asks" if asks else "who answers"
    for one in sentences:
        one.speaker = one.speaker or voices[one.turn]


def _main_voice(sentences: Sequence[Sentence], share: float = 0.6) -> str:
    """Who paints: the voice that says most and does not ask, '' where nobody is named or several say about as much."""
    said: dict[str, int] = {}
    for one in sentences:
        if one.speaker and not one.asks:
            said[one.speaker] = said.get(one.speaker, 0) + len(one.low.split())
    best = max(sorted(said), key=lambda name: said[name], default="")
    return best if best and said[best] >= share * sum(said.values()) else ""
