"""Words of painting and of what is painted, in English and German: a name that has one was hardly a slip of the pen.

They stand in `known_words.txt` beside this file, which is read when one is first asked for.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, lru_cache
from pathlib import Path

# What makes another word of one: more of them, of that kind, done to, and the endings of German.
_ENDINGS = (
    "s", "es", "y", "ly", "ed", "er", "est", "en", "ish", "ing", "ern", "less", "e", "em", "ig", "lich",
)  # fmt: skip
# Only after an e: bronze, bronzed; pale, paler.
_AFTER_E = ("d", "r", "n", "st")


@cache
def _languages() -> tuple[frozenset[str], ...]:
    """The words by language: the parts of a word that is made of several are all of one."""
    text = Path(__file__).with_suffix(".txt").read_text(encoding="utf-8")
    _, *languages = text.split("\n## ")
    return tuple(frozenset(words.partition("\n")[2].split()) for words in languages)


@lru_cache(maxsize=8_192)
def is_word(word: str) -> bool:
    """Whether a folded word is one of the list, one with an ending, or made of several of them."""
    return any(_is_of(word, words) for words in _languages())


@lru_cache(maxsize=8_192)
def looks_like_word(word: str) -> bool:
    """Whether all its runs of three letters, with its edges as ^ and $, occur in words of one language of the list."""
    return any(all(three in known for three in _threes(word)) for known in _known_threes())


def _threes(word: str) -> Iterator[str]:
    """The runs of three letters of `^word$`: of hat ^ha, hat and at$."""
    edged = f"^{word}$"
    return (edged[at : at + 3] for at in range(len(word)))


@cache
def _known_threes() -> tuple[frozenset[str], ...]:
    return tuple(frozenset(three for word in words for three in _threes(word)) for words in _languages())


def is_listed(word: str) -> bool:
    """Whether a folded word is one of the list as it stands."""
    return any(word in words for words in _languages())


@lru_cache(maxsize=8_192)  # the rest of a word, which it comes to in many ways
def _is_of(word: str, words: frozenset[str]) -> bool:
    return _is_plain(word, words) or any(
        word[:at] in words and _is_of(word[at:], words) for at in range(3, len(word) - 2)
    )


def _is_plain(word: str, words: frozenset[str]) -> bool:
    return (
        word in words
        or any(
            word.endswith(ending) and _is_stem(word.removesuffix(ending), ending, words)
            for ending in _ENDINGS
        )
        or any(word.endswith(f"e{ending}") and word.removesuffix(ending) in words for ending in _AFTER_E)
        or (word.endswith("ies") and f"{word[:-3]}y" in words)
    )


def _is_stem(stem: str, ending: str, words: frozenset[str]) -> bool:
    """Three letters and more: sand of sandy, smoke of smoky, red of reddish; but no ochre of ochree."""
    return (
        len(stem) > 2
        and stem[-1] != ending
        and (stem in words or f"{stem}e" in words or (stem[-1] == stem[-2] and stem[:-1] in words))
    )
