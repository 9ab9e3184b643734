"""What a pot that is named in a sentence is there for: in hand, an alternative, rejected, or merely mentioned."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum, auto

from guidegen.base.units import print_clock
from guidegen.words.spoken_words import SpokenWords

# Notes of one line may hold several sentences; behind a short form a full stop ends none.
_FULL_STOP = re.compile(r"(?<=[^ .]{4}) \. |(?<=§\d) \. |(?<=¤) \. |(?<=\)) \. ")


class Role(Enum):
    """What a pot is named for."""

    TAKEN = auto()  # the step is painted with it
    ADDED = auto()  # it is stirred into what is there
    ALTERNATIVE = auto()  # it would do as well
    LACKING = auto()  # it should have been taken, and is not there
    REJECTED = auto()  # it was taken by mistake, or thought of and not taken
    MENTIONED = auto()  # it is only spoken of
    ASKED = auto()  # somebody asks whether it is the one


@dataclass(slots=True, kw_only=True)
class Sentence:
    """A sentence as it was said, and as patterns see it: small letters, `§3` for the fourth pot that is named.

    `names` are those of its pots; `tells` is False where these are none that the step is painted with, `besides`
    is whether somebody else than the painter speaks.
    """

    text: str
    low: str
    at: int | None = None
    line: int = 1
    speaker: str = ""
    pots: list[int] = field(default_factory=list)
    names: dict[int, str] = field(default_factory=dict)
    tells: bool = True
    besides: bool = False
    turn: int = 0

    @property
    def asks(self) -> bool:
        """Whether it ends with a question mark."""
        return self.low.endswith("?")

    @property
    def place(self) -> str:
        """Where it was said: its time in the film, else its line."""
        return print_clock(self.at) if self.at is not None else f"line {self.line}"

    def about(self, pot: int) -> str:
        """The sentence as a question about one of its pots."""
        low = re.sub(rf"§{pot}(?!\d)", "¤", self.low, count=1)
        return next((one for one in _FULL_STOP.split(low) if "¤" in one), low)


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """What else decides: the sentence before lacked a pot, somebody else speaks, steps were told before."""

    lacked: bool = False
    other_voice: bool = False
    begun: bool = False


def is_repair(said: str, words: SpokenWords) -> bool:
    """Whether a sentence tells how something is put right that may go wrong, rather than what is done."""
    if not words.says("told", "if_wrong", said):
        return False
    tidied = any(one.search(said) for one in dict(words.named_patterns("techniques", "names"))["tidy up"])
    return (
        not tidied
        or re.match(r"(?:if|wenn|falls|wenn's|falls's|wo's|geht's) ", said) is not None
        or "?" in said
    )


def laid_before(sentence: Sentence, roles: Mapping[int, Role], words: SpokenWords) -> list[int]:
    """Pots that are merely mentioned as being on already before what is told: “once the varnish is on”."""
    return [
        pot
        for pot, role in roles.items()
        if role is Role.MENTIONED and words.says("roles", "laid_before", sentence.about(pot))
    ]


def role_of(pot: int, sentence: Sentence, words: SpokenWords, around: Around) -> Role:
    """What one pot of a sentence is named for."""
    said = sentence.about(pot)

    def says(key: str, text: str = said) -> bool:
        return words.says("roles", key, text) is not None

    if (
        says("listed")
        or (not around.begun and says("laid_out"))
        or says("recap")
        or says("later")
        or is_repair(said, words)
    ):
        return Role.MENTIONED
    if says("corrected"):
        return Role.REJECTED
    if says("lacking"):
        return Role.LACKING
    if says("thought"):
        return Role.REJECTED
    if says("conditional") or says("alternative"):
        return Role.ALTERNATIVE
    others = [sentence.about(other) for other in sentence.pots if other != pot]
    # A full stop later one may be spoken of that is lacking; what was taken up before stays.
    near = [
        sentence.about(other)
        for other in sentence.pots
        if other != pot and (other < pot or f"§{other} " in f"{said} ")
    ]
    if (around.lacked and not says("given")) or any(says("lacking", other) for other in near):
        return Role.ALTERNATIVE
    if says("rejected"):
        return Role.REJECTED
    if sentence.asks:
        return Role.ASKED if says("asked") or around.other_voice else Role.MENTIONED
    if around.other_voice:
        if says("mine"):
            return Role.ALTERNATIVE
        return Role.ASKED  # what the painter says to it decides
    if words.says("add", "base", said) and any(_is_added(other, words) for other in others):
        return Role.TAKEN
    if words.says("add", "into", said):
        return Role.ADDED
    if says("mentioned"):
        return Role.MENTIONED
    return Role.ADDED if words.says("add", "said", said) else Role.TAKEN


def _is_added(said: str, words: SpokenWords) -> bool:
    return bool(
        words.says("add", "said", said) or re.search(rf"(?:{words.text('add', 'touch')}) (?:\S+ )?¤", said)
    )
