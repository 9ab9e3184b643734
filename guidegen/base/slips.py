"""Whether one name is another with a slip of the pen, so surely that it may be written in its place.

Sure are quotes, hyphens, blanks, ß and ss, ü and ue, and one slip within a long word that is no word itself. Other
digits, other signs and other words are other names: `Skin 3` is a pot that is not listed yet, and no slip for `Skin 2`.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import pairwise

from guidegen.base.known_words import is_listed, is_word, looks_like_word
from guidegen.base.suggest import all_near, distance, folded

# Shorter words are too near to one another: cold and old, sand and land. Among our own words there are few.
_SHORTEST = 5
_SHORTEST_OF_OURS = 4

# So long may be a word that reads like one; where a letter is another, one letter more.
_LONGEST_DOUBTFUL = 6
_VOWELS = frozenset("aeiouy")

# Quotes of all kinds and accents typed for them; after a digit they are feet and inches.
_QUOTES = re.compile("(?<![0-9])['’‘‛`´ʼ′\"“”„«»‹›]")
_HYPHEN = re.compile(r"(?<=\w)[-‐‑_](?=[^\W\d])|(?<=[^\W\d])[-‐‑_](?=\w)")  # but not between two digits
_PIECES = re.compile(r"[^\W\d_]+|\d+|[^\w\s]|_")
_UMLAUTS = str.maketrans({"ä": "ae", "ö": "oe", "ü": "ue"})
_ROMAN = re.compile("[ivxlcdm]+")


def only_meant(name: str, known: Iterable[str], *, ours: bool = False) -> str | None:
    """The known name that surely is meant by `name`; None where there is none, or more than one."""
    found = can_be_meant(name, known, ours=ours)
    return found[0] if len(found) == 1 else None


def can_be_meant(name: str, known: Iterable[str], *, ours: bool = False) -> list[str]:
    """The known names that may have been meant by `name`, nearest first; [] unless `is_sure` of the nearest."""
    among = set(known)
    same = sorted(other for other in among if alike(name, other))
    near = same or [other for other in all_near(name, among) if numbers(other) == numbers(name)]
    return near if near and is_sure(name, near[0], ours=ours) else []


@lru_cache(maxsize=32_768)  # each area of a guide with each other, and guides share theirs
def is_sure(typed: str, known: str, *, ours: bool = False) -> bool:
    """Whether what was typed can only mean the known name; `ours` for a word of guidegen's own, as a key is."""
    return alike(typed, known) or slipped(typed, known, ours=ours) is not None


def alike(typed: str, known: str) -> bool:
    """Whether two names are the same but for quotes, hyphens, blanks, case, accents, ß and umlauts spelt out."""
    return any(one == other and one for one, other in zip(_joined(typed), _joined(known), strict=True))


def numbers(name: str) -> list[str]:
    """The digits of a name, in order."""
    return re.findall(r"\d+", unicodedata.normalize("NFKC", name))


def slipped(typed: str, known: str, *, ours: bool = False) -> str | None:
    """The one word of what was typed that has a slip in it, folded, where all else is that of the known name."""
    for one, other in zip(_spelt(typed), _spelt(known), strict=True):
        if len(one) != len(other):
            continue
        apart = [(a, b) for a, b in zip(one, other, strict=True) if a != b]
        if len(apart) == 1 and _is_slip(*apart[0], ours=ours):
            return apart[0][0]
    return None


def words_in(text: str) -> Iterator[str]:
    """The words of a text as `slipped` gives them."""
    for spelt in _spelt(text):
        yield from spelt


@lru_cache(maxsize=32_768)
def _spelt(name: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Words, numbers and signs of a name, folded: without their umlauts, and with these spelt out."""
    bare = _HYPHEN.sub(" ", _QUOTES.sub("", unicodedata.normalize("NFC", name)))
    plain, spelt_out = (
        tuple(_PIECES.findall(" ".join(map(folded, text.split()))))
        for text in (bare, bare.casefold().translate(_UMLAUTS))
    )
    return plain, spelt_out


@lru_cache(maxsize=32_768)
def _joined(name: str) -> tuple[str, str]:
    """A name on one piece, in both spellings; two numbers stay apart."""
    plain, spelt_out = (
        "".join(a + (" " if a.isdecimal() and b.isdecimal() else "") for a, b in pairwise((*pieces, "")))
        for pieces in _spelt(name)
    )
    return plain, spelt_out


def _is_slip(typed: str, known: str, *, ours: bool) -> bool:
    """Whether one word is another with one letter too many, too few, another, or two of them swapped."""
    if not (typed.isascii() and typed.isalpha() and known.isascii() and known.isalpha()):
        return False  # of other letters we know no words
    if typed[0] != known[0] and typed[:2] != known[1::-1]:
        return False  # light, night; brown, crown
    if len(known) < (_SHORTEST_OF_OURS if ours else _SHORTEST) or distance(typed, known, 1) != 1:
        return False
    if ours and (typed, known) in {(f"{known}s", known), (typed, f"{typed}s")}:
        return True
    if is_word(typed) or _ROMAN.fullmatch(typed):
        return False
    if ours or (
        typed[-1] != "s" and any(typed == known[:at] + known[at - 1 :] for at in range(1, len(known) + 1))
    ):
        return True  # a key that was hit twice
    return not (
        _ends_otherwise(typed, known) or _may_be_a_word(typed, known) or _has_another_word(typed, known)
    )


def _ends_otherwise(typed: str, known: str) -> bool:
    """Whether the slip may be an ending: rider and riders, painted and painter, fisherman and fishermen."""
    if typed[:-1] == known[:-1]:
        return True
    if typed[:-1] == known:
        return True
    if typed == known[:-1]:
        # In German an n more makes several of one: Haube, Hauben.
        return known[-1] in "aiosy" or (known[-1] == "n" and looks_like_word(typed))
    return typed.replace("men", "man") == known.replace("men", "man")


def _may_be_a_word(typed: str, known: str) -> bool:
    """Whether a short word reads like one that we do not know: draft and drift, copse and corpse, wende and winde.

    Neighbours that are swapped make one rarely, and so does a last letter that is missing.
    """
    if len(typed) == len(known):
        ((a, b), *more) = [(a, b) for a, b in zip(typed, known, strict=True) if a != b]
        both_vowels = a in _VOWELS and b in _VOWELS
        return not more and len(typed) <= _LONGEST_DOUBTFUL + 1 and (both_vowels or looks_like_word(typed))
    return len(typed) <= _LONGEST_DOUBTFUL and typed != known[:-1] and looks_like_word(typed)


def _has_another_word(typed: str, known: str) -> bool:
    """Whether, in words made of several, one of these is another: rotbraun and rostbraun, moosgrün and moorgrün."""
    longer = len(known) - len(typed)
    heads = (
        (typed[:at], known[: at + longer], typed[at:], known[at + longer :])
        for at in range(3, len(typed) - 1)
    )
    tails = ((typed[at:], known[at:], typed[:at], known[:at]) for at in range(2, len(typed) - 2))
    return any(
        rest == its_rest and is_listed(piece) and is_listed(its_piece)
        for piece, its_piece, rest, its_rest in (*heads, *tails)
    )
