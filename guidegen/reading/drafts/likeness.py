"""How alike two names are: keys of how they sound, and edits between their letters, many times over.

Sound, English: the letter classes of R. C. Russell's index (US patent 1,261,167, 1918), for the whole name and not cut
off. German: Hans Joachim Postel, „Die Kölner Phonetik“, IBM-Nachrichten 19 (1969). Both from memory.

Edits: G. Myers, “A fast bit-vector algorithm for approximate string matching based on dynamic programming”, Journal of
the ACM 46 (1999), in the form of H. Hyyrö, “Explaining and extending the bit-parallel approximate string matching
algorithm of Myers” (2001) for the distance of whole words.
"""

from __future__ import annotations

from functools import lru_cache
from itertools import groupby
from typing import NamedTuple

_RUSSELL = {
    letter: str(number)
    for number, letters in enumerate(("bfpv", "cgjkqsxz", "dt", "l", "mn", "r"), 1)
    for letter in letters
}


@lru_cache(maxsize=65_536)
def sound_of(name: str, language: str) -> str:
    """The key of a name of small letters without marks."""
    return _cologne(name) if language == "de" else _russell(name)


def _russell(name: str) -> str:
    codes = [_RUSSELL.get(letter, "") for letter in name if letter not in "hw"]
    return "".join(code for code, _ in groupby(codes))


def _cologne(name: str) -> str:
    padded = f" {name} "
    codes = [
        _letter(padded[at - 1], padded[at], padded[at + 1], first=at == 1) for at in range(1, len(name) + 1)
    ]
    joined = "".join(code for code, _ in groupby("".join(codes)))
    return joined[:1] + joined[1:].replace("0", "")


def _letter(before: str, letter: str, after: str, *, first: bool) -> str:
    if letter in "aeijouy":
        return "0"
    if letter in "dt":
        return "8" if after in "csz" else "2"
    if letter == "p":
        return "3" if after == "h" else "1"
    if letter == "x":
        return "8" if before in "ckq" else "48"
    if letter == "c":
        hard = after in ("ahkloqrux" if first else "ahkoqux") and before not in "sz"
        return "4" if hard and after != " " else "8"
    for letters, code in (
        ("b", "1"),
        ("fvw", "3"),
        ("gkq", "4"),
        ("l", "5"),
        ("mn", "6"),
        ("r", "7"),
        ("sz", "8"),
    ):
        if letter in letters:
            return code
    return ""


class Word(NamedTuple):
    """A word ready to be compared: where each of its letters stands, as bits, and how long it is."""

    places: dict[str, int]
    length: int


def word_of(text: str) -> Word:
    """A word made ready."""
    places: dict[str, int] = {}
    for at, letter in enumerate(text):
        places[letter] = places.get(letter, 0) | 1 << at
    return Word(places, len(text))


def edits(word: Word, other: str) -> int:
    """How many letters have to be put in, taken out or changed to make one word of the other (Levenshtein)."""
    if not word.length or not other:
        return word.length or len(other)
    whole = (1 << word.length) - 1
    last = 1 << (word.length - 1)
    more, less, count = whole, 0, word.length
    for letter in other:
        same = word.places.get(letter, 0)
        down = same | less
        across = (((same & more) + more) ^ more) | same
        up_here = less | ~(across | more) & whole
        down_here = more & across
        if up_here & last:
            count += 1
        elif down_here & last:
            count -= 1
        up_here = (up_here << 1 | 1) & whole
        down_here = down_here << 1 & whole
        more = down_here | ~(down | up_here) & whole
        less = up_here & down
    return count
