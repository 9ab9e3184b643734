"""Cues as sentences of words, each word with the time and the line of its cue."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from guidegen.reading.drafts.records import Cue
from guidegen.words.spoken_words import SpokenWords

# A sentence that goes on for longer is cut: nobody has the breath.
MOST_WORDS = 70
_TOKEN = re.compile(r"[0-9]+(?:[.,][0-9]+)?(?![\w])|[^\W_]+(?:['’\-][^\W_]+)*['’]?|[.,;:?!/%()+]|\S")
# “Ropewalk'd work”: behind a name a short form is a word of its own.
_WOULD = re.compile(
    r"\b(?!(?:that|this|there|what|they|these|those|where|here|who)['’])([^\W\d_]{4,})['’](d|ll)\b",
    re.IGNORECASE,
)
_FULL = {"d": "would", "ll": "will"}
_ENDS = frozenset(".?!")
_CLOSES = frozenset(')]”’"»')
# After these a full stop ends no sentence.
_SHORT = frozenset(
    [
        "ca", "approx", "no", "nr", "z", "b", "d", "h", "st", "min", "sec", "bzw", "usw", "etc",
        "e", "g", "i", "std", "ml", "vs", "evtl",
    ]
)  # fmt: skip
# A silence so long ends a sentence that no full stop ends. Milliseconds; from memory.
_SILENCE = 1_500
# Where so many cues end in the middle of a phrase, they were cut by their length and end nothing; a share of all.
_CUT_ANYWHERE = 0.15
# So many words a condition has at most, before it says what then.
_CONDITION = 12
# After so many words a sentence that nothing else ends is cut at the end of its cue.
_LONG = 24


# “1½ h”, “3/4 hour”: parts of an hour, as decimals.
_QUARTERS = str.maketrans({"½": " 1/2", "¼": " 1/4", "¾": " 3/4"})
_FRACTION = re.compile(
    r"(?:\b([0-9]{1,2})\s+)?\b([1-3])/([2-4])(?=\s*(?:of\s+)?(?:an?\s+)?(?:h|hrs?|hours?|std|stunden?|day|tag)\b)",
    re.IGNORECASE,
)


def _decimal(found: re.Match[str]) -> str:
    return f"{int(found[1] or 0) + int(found[2]) / int(found[3]):.4g}"


@dataclass(frozen=True, slots=True)
class Token:
    """One word or sign: as written, in small letters, and the cue that it comes from."""

    text: str
    low: str
    cue: Cue

    @property
    def is_word(self) -> bool:
        """Whether it is a word or a number, and not a sign."""
        return self.text[0].isalnum()


@dataclass(frozen=True, slots=True)
class Span:
    """A sentence: its tokens from `start` to `end`."""

    start: int
    end: int


def tokens_of(cues: Sequence[Cue]) -> list[Token]:
    """All words in order; signs that patterns use for pots are left out."""
    found = []
    for cue in cues:
        plain = _WOULD.sub(lambda found: f"{found[1]} {_FULL[found[2]]}", cue.text)
        plain = _FRACTION.sub(_decimal, plain.translate(_QUARTERS))
        for match in _TOKEN.finditer(plain.replace("§", " ").replace("¤", " ")):
            text = match[0].replace("’", "'").rstrip("'") or "'"
            found.append(Token(text, text.lower(), cue))
    return found


def spans_of(tokens: Sequence[Token], words: SpokenWords) -> Iterator[Span]:
    """The sentences: by full stops; where hardly any are written by silences, by cues if these are no mere lengths,
    and by words that begin anew.
    """
    stops = sum(token.low in _ENDS for token in tokens)
    unmarked = stops * 40 < len(tokens)
    begins = _beginnings(tokens, words) if unmarked else None
    open_words = words.words("open")
    start = 0
    for at, token in enumerate(tokens):
        if at == start:
            continue
        before = tokens[at - 1]
        new_cue = token.cue is not before.cue
        ends = (
            (before.low in _ENDS and token.text not in _CLOSES and not _shortened(tokens, at - 1))
            or at - start >= MOST_WORDS
            or (token.cue.speaker, token.cue.turn) != (before.cue.speaker, before.cue.turn)
            or (new_cue and token.cue.start is None and token.cue.line != before.cue.line)
        )
        if not ends and begins is not None:
            silence = new_cue and (token.cue.start or 0) - (before.cue.end or 0) >= _SILENCE
            ends = silence or (before.low not in open_words and begins(at, at - start))
        if ends:
            yield Span(start, at)
            start = at
    if tokens:
        yield Span(start, len(tokens))


def _beginnings(tokens: Sequence[Token], words: SpokenWords) -> Callable[[int, int], bool]:
    """Whether a sentence that no full stop ends begins at a word, so many words after the one before it began."""
    ends = [
        before.low
        for before, token in pairwise(tokens)
        if token.cue is not before.cue and token.cue.start is not None and token.cue.turn == before.cue.turn
    ]
    open_words = words.words("open")
    cut = sum(word in open_words for word in ends) > _CUT_ANYWHERE * len(ends) or _of_one_length(tokens)
    pattern = words.text("told", "split")
    splits = re.compile(f"(?:{pattern}|{words.text('told', 'clause')})(?= )" if cut else f"{pattern}(?= )")

    conditions = words.words("subordinate")
    goes_on = conditions | {"then", "dann", "so"}

    def begins(at: int, length: int) -> bool:
        if tokens[at - length].low in conditions and tokens[at].low in goes_on and length < _CONDITION:
            return False  # if you can't stand yellow then …
        new_cue = tokens[at].cue is not tokens[at - 1].cue
        if new_cue and (not cut or length >= _LONG):
            return True
        return (
            length >= 3 and splits.match(" ".join(one.low for one in tokens[at : at + 5]) + " ") is not None
        )

    return begins


def _of_one_length(tokens: Sequence[Token]) -> bool:
    """Whether most cues that others follow at once hold as many words as the longest do."""
    cues = [list(words) for _, words in groupby(tokens, key=lambda token: id(token.cue))]
    followed = [
        len(words)
        for words, after in pairwise(cues)
        if (after[0].cue.start or 0) - (words[0].cue.end or 0) < _SILENCE
        and after[0].cue.turn == words[0].cue.turn
    ]
    longest = max(followed, default=0) - (
        tokens[-1].cue.turn > 0
    )  # where voices take turns, an arrow was a word
    return len(followed) > 3 and sum(count >= longest for count in followed) > 0.6 * len(followed)


def _shortened(tokens: Sequence[Token], at: int) -> bool:
    """Whether a full stop ends no sentence: it belongs to “approx.” or the like, or stands within a number."""
    if tokens[at].low != "." or at == 0:
        return False
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    short = tokens[at - 1].low in _SHORT or (tokens[at - 1].low.isdigit() and after is not None)
    goes_on = after is not None and after.text not in "([" and after.low == after.text
    return short and after is not None and (goes_on or tokens[at - 1].low in {"no", "nr"})


def plain_text(tokens: Sequence[Token]) -> str:
    """The words as a person would type them again."""
    text = " ".join(token.text for token in tokens)
    text = re.sub(r"(\d) : (?=\d)", r"\1:", text)
    return re.sub(r" (?=[.,;:?!%)])", "", text).replace("( ", "(")
