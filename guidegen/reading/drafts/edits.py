"""Edits between two words, many times over: the bit-parallel way.

G. Myers, “A fast bit-vector algorithm for approximate string matching based on dynamic programming”, Journal of the
ACM 46 (1999), in the form of H. Hyyrö, “Explaining and extending the bit-parallel approximate string matching algorithm
of Myers” (2001) for the distance of whole words.
"""

from __future__ import annotations

from typing import NamedTuple


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
