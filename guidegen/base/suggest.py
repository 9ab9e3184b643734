"""The nearest name to one that was not found."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator
from functools import lru_cache

# A slip of the pen is looked for among all names there are, which costs by the name; somebody whose file has more than
# so many that lead nowhere has another trouble than slips.
MOST_SLIPS = 100


# What telephones and word processors make of an apostrophe and of quotes.
_STRAIGHT = {ord(c): "'" for c in "’‘‛ʼ"} | {ord(c): '"' for c in "“”„‟"}


@lru_cache(maxsize=16_384)  # the same names are compared over and over
def folded(text: str) -> str:
    """The form in which names are compared: NFKD, marks dropped, quotes straight, case folded, white space removed."""
    if text.isascii():  # nearly every name, and the same there
        return "".join(text.casefold().split())
    decomposed = unicodedata.normalize("NFKD", text.translate(_STRAIGHT))
    bare = "".join(c for c in decomposed if not unicodedata.combining(c))
    return "".join(unicodedata.normalize("NFKD", bare.casefold()).split())


def distance(left: str, right: str, limit: int) -> int:
    """Edits (insert, drop, change, swap of neighbours) between two words, or limit + 1 once past it.

    The optimal string alignment distance.
    """
    from rapidfuzz.distance import OSA

    return OSA.distance(left, right, score_cutoff=limit)


def nearest(name: str, known: Iterable[str]) -> str | None:
    """The known name closest to `name`, or None where nothing is near enough to be a slip of the pen.

    Near enough is one edit for short words and a third of the letters for longer ones, at most four.
    Ties go to the name that comes first in alphabetical order.
    """
    best = min(_near(name, known), default=None)
    return best[1] if best else None


def all_near(name: str, known: Iterable[str]) -> list[str]:
    """Every known name that is near enough, the nearest first."""
    return [candidate for _, candidate in sorted(_near(name, known))]


def _near(name: str, known: Iterable[str]) -> Iterator[tuple[int, str]]:
    """The known names that are near enough, with how far away each is."""
    asked, letters = _letters(name)
    limit = min(4, max(1, len(asked) // 3))
    for candidate in set(known):
        other, its_letters = _letters(candidate)
        # An edit brings in one letter at most and takes one away, and that is soon counted.
        if (letters ^ its_letters).bit_count() <= 2 * limit:
            away = distance(asked, other, limit)
            if away <= limit:
                yield away, candidate


@lru_cache(maxsize=32_768)
def _letters(name: str) -> tuple[str, int]:
    """A name as it is compared, and a bit for each of its letters (several letters may share one)."""
    bare = folded(name)
    bits = 0
    for letter in bare:
        bits |= 1 << (ord(letter) % 61)
    return bare, bits
