"""How painters say things, in each language: the patterns by which a draft is made out of what was said or noted.

They stand in `spoken/<code>.toml`; a pattern asks about a sentence of lower-case words with one space between, in which
`§3` stands for the fourth pot that was named, and `¤` for the one that is asked about.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

_FOLDER = Path(__file__).parent / "spoken"

# Any pot, the one that is asked about included.
POT = r"(?:§\d+|¤)"
_GAP = r"(?:[^ ,.;:?!]+ ){0,4}"


@dataclass(frozen=True, slots=True)
class SpokenWords:
    """One language's lists. `numbers` are words for numbers with their values."""

    code: str
    numbers: dict[str, float]
    common: frozenset[str]
    _table: dict[str, Any] = field(repr=False)
    _found: dict[str, tuple[re.Pattern[str], ...]] = field(default_factory=dict, repr=False)

    @property
    def number(self) -> str:
        """A pattern for one number up to 9999, in words or digits: nobody counts drops or minutes beyond."""
        return _number(self.code)

    def value(self, text: str) -> float:
        """The number that a word or digits mean."""
        return self.numbers[text] if text in self.numbers else float(text.replace(",", "."))

    def words(self, section: str, key: str = "words") -> frozenset[str]:
        """A list of single words."""
        return _set_of(self.code, section, key)

    def text(self, section: str, key: str) -> str:
        """A text or a pattern as it stands."""
        return str(self._table[section][key])

    def pairs(self, section: str, key: str) -> list[list[Any]]:
        """A list of names with what belongs to each."""
        pairs: list[list[Any]] = self._table[section][key]
        return pairs

    def patterns(self, section: str, key: str) -> tuple[re.Pattern[str], ...]:
        """The patterns of one list, each of whole words."""
        name = f"{section}.{key}"
        if name not in self._found:
            given = self._table[section][key]
            self._found[name] = tuple(map(self._compiled, [given] if isinstance(given, str) else given))
        return self._found[name]

    def named_patterns(self, section: str, key: str) -> tuple[tuple[str, tuple[re.Pattern[str], ...]], ...]:
        """Names with their patterns, in the order in which they are to be tried."""
        found = []
        for at, (name, given) in enumerate(self.pairs(section, key)):
            place = f"{section}.{key}.{at}"
            if place not in self._found:
                self._found[place] = tuple(map(self._compiled, given))
            found.append((str(name), self._found[place]))
        return tuple(found)

    def says(self, section: str, key: str, sentence: str) -> re.Match[str] | None:
        """The first pattern of a list that is found in a sentence."""
        return next((found for one in self.patterns(section, key) if (found := one.search(sentence))), None)

    def _compiled(self, pattern: str) -> re.Pattern[str]:
        areas = "|".join(sorted(map(re.escape, self.words("areas")), key=len, reverse=True))
        for name, means in (
            ("{this}", "¤"), ("{pot}", POT), ("{n}", self.number), ("{gap}", _GAP), ("{area}", f"(?:{areas})"),
        ):  # fmt: skip
            pattern = pattern.replace(name, means)
        return re.compile(rf"(?:^|(?<= ))(?:{pattern.strip()})(?=$| )")


def spoken_languages() -> tuple[str, ...]:
    """The codes of the languages that are understood."""
    return tuple(sorted(file.stem for file in _FOLDER.glob("*.toml")))


@cache
def spoken_words(code: str) -> SpokenWords:
    """The lists of a language for a code such as `de-AT`, English where there are none."""
    wanted = code.split("-", maxsplit=1)[0].lower()
    name = wanted if wanted in spoken_languages() else "en"
    table = tomllib.loads((_FOLDER / f"{name}.toml").read_text(encoding="utf-8"))
    numbers = {word: float(value) for word, value in table["numbers"].items()}
    return SpokenWords(table["code"], numbers, frozenset(table["common"].split()), table)


@cache
def _number(code: str) -> str:
    words = "|".join(re.escape(word) for word in sorted(spoken_words(code).numbers, key=len, reverse=True))
    return rf"(?:{words}|[0-9]{{1,4}}(?:[.,][0-9]{{1,9}})?)"


@cache
def _set_of(code: str, section: str, key: str) -> frozenset[str]:
    table = spoken_words(code)._table  # noqa: SLF001  its own
    given = table[section][key] if isinstance(table[section], dict) else table[section]
    return frozenset(str(given).split())


def language_of_words(words: list[str]) -> str:
    """The language that most of the commonest little words are of; English where that is not to be seen."""
    counts = {code: sum(word in spoken_words(code).common for word in words) for code in spoken_languages()}
    return max(sorted(counts), key=lambda code: (counts[code], code == "en"))
