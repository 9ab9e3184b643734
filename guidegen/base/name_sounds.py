"""Keys of how names sound, by which misheard ones are compared.

English: the letter classes of R. C. Russell's index (US patent 1,261,167, 1918), for the whole name and not cut
off. German: Hans Joachim Postel, „Die Kölner Phonetik“, IBM-Nachrichten 19 (1969). Both from memory.
"""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import groupby

_RUSSELL = {
    letter: str(number)
    for number, letters in enumerate(("bfpv", "cgjkqsxz", "dt", "l", "mn", "r"), 1)
    for letter in letters
}

# Talk, folk, half, night. Of names that English speakers gave, in either language.
_UNSPOKEN = re.compile(r"(?<=[ao])l(?=k)|(?<=a)l(?=f)|gh(?=t)")


@lru_cache(maxsize=65_536)
def sound_of(name: str, language: str) -> str:
    """The key of a name of small letters without marks, where letters that English leaves unspoken are left out."""
    name = _UNSPOKEN.sub("", name)
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


def english_spelling(key: str) -> str:
    """An English name as a German ear writes it, spelt in English again: `kold tschiks`."""
    for german, english in (
        ("tsch", "ch"),
        ("dsch", "j"),
        ("sch", "sh"),
        ("ei", "i"),
        ("ie", "ee"),
        ("k", "c"),
    ):
        key = key.replace(german, english)
    return key


def distances(name: tuple[str, str], heard: tuple[str, str]) -> tuple[float, float]:
    """How far two names are apart by their letters and by their sound, as shares of the longer.

    Where two sounds change places, as in still for silt, only one is wrong.
    """
    from rapidfuzz.distance import OSA, Levenshtein

    letters = Levenshtein.normalized_distance(name[0], heard[0])
    return letters, OSA.normalized_distance(name[1], heard[1])


def pairs_of(letters: str, sound: str) -> set[str]:
    """The pairs of neighbouring letters of a name and of its sound, which are told apart."""
    return {*_pairs(letters), *(f"#{two}" for two in _pairs(sound))}


def _pairs(word: str) -> set[str]:
    """Its pairs of neighbouring letters; the word itself if it is too short."""
    return {word[at : at + 2] for at in range(len(word) - 1)} or {word}
