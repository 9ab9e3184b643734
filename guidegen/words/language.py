"""The languages of the interface: their phrases, and numbers, dates and durations as each writes them.

One TOML file each beside this one, read when the language is first asked for.
"""

from __future__ import annotations

import datetime as dt
import tomllib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import LiteralString, NewType

from guidegen.base.units import DAY, HOUR, MINUTE, SECOND

_FOLDER = Path(__file__).parent

# Plural rules by the name that a language's file calls them by. Categories and rules are those of Unicode's CLDR.
_PLURAL_RULES: dict[str, Callable[[float], str]] = {
    "one-other": lambda n: "one" if n == 1 else "other",
}

# The key of a phrase where it is held in a value and passed on. One that is written out where it is asked for is a str.
PhraseKey = NewType("PhraseKey", str)

# A phrase, or its plural forms by the names that Unicode's CLDR gives them; `n` chooses.
Phrase = str | Mapping[str, str]

# Below this a duration keeps its seconds: a step of 90 s would show as 2 min.
_SECONDS_UNDER = 10 * MINUTE

_RIGHT_TO_LEFT = frozenset({"ar", "dv", "fa", "he", "ku", "ps", "sd", "ug", "ur", "yi"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Language:
    """One language: its phrases by key, its plural rule, its signs. `months` are in the form dates use.

    `currencies` are the signs that stand for codes of ISO 4217 after an amount; any other code stands as it is.
    """

    code: str
    phrases: Mapping[str, Phrase]
    plural: Callable[[float], str]
    decimal: str
    group: str
    months: tuple[str, ...]
    date: str
    currencies: Mapping[str, str] = field(default_factory=dict)

    @property
    def direction(self) -> str:
        """`ltr` or `rtl`."""
        return direction_of(self.code)

    def t(self, key: PhraseKey | LiteralString, **values: object) -> str:
        """The phrase for a key with its values put in; whole and decimal numbers as the language writes them."""
        phrase = self.phrases[key]
        if not isinstance(phrase, str):
            n = values["n"]
            phrase = phrase[self.plural(n)] if isinstance(n, (int, float)) else phrase["other"]
        shown = {
            name: self.number(value) if isinstance(value, (int, float)) else value
            for name, value in values.items()
        }
        return phrase.format(**shown)

    def __reduce__(self) -> tuple[object, tuple[str]]:
        """Goes to another process by its code."""
        return language_of, (self.code,)

    def number(self, value: float, places: int = 2) -> str:
        """Digits with the language's signs, at most `places` after the decimal sign, no trailing noughts."""
        if isinstance(value, int) and 0 <= value < 1_000:  # most numbers, and the same there
            return f"{value:d}"
        text = f"{value:z,.{places}f}"  # z: no sign before a nought
        if "." in text:
            text = text.rstrip("0").rstrip(".")
        return text.translate({ord(","): self.group, ord("."): self.decimal})

    def money(self, amount: float, currency: str) -> str:
        """An amount with two decimals and its currency: `8.40 EUR`, `8,40 €`."""
        text = f"{amount:,.2f}".translate({ord(","): self.group, ord("."): self.decimal})
        sign = self.currencies.get(currency)
        return f"{text}\u00a0{sign}" if sign else f"{text} {currency}"

    def on(self, day: dt.date) -> str:
        """A date in words."""
        return self.date.format(day=day.day, month=self.months[day.month - 1], year=day.year)

    def duration(self, milliseconds: int) -> str:
        """`1 h 30 min`, as exact as a reader needs: seconds under ten minutes, minutes under two days, then hours."""
        if milliseconds < _SECONDS_UNDER:
            units = (("unit.min", MINUTE), ("unit.s", SECOND))
        elif milliseconds < 2 * DAY:
            units = (("unit.h", HOUR), ("unit.min", MINUTE))
        else:
            units = (("unit.d", DAY), ("unit.h", HOUR))
        finest = units[-1][1]
        rest = (milliseconds + finest // 2) // finest * finest
        parts = []
        for key, size in units:
            count, rest = divmod(rest, size)
            if count:
                parts.append(self.t(key, n=count))
        return " ".join(parts) or self.t("unit.min", n=0)

    def clock(self, milliseconds: int) -> str:
        """Time since the first stroke as hours and minutes, `2:05`; hours go on past a day."""
        hours, minutes = divmod((milliseconds + MINUTE // 2) // MINUTE, 60)
        return f"{hours}:{minutes:02d}"


def direction_of(code: str) -> str:
    """The direction in which a language is written, by its code, `ltr` where nothing says otherwise."""
    return "rtl" if code.split("-", maxsplit=1)[0].lower() in _RIGHT_TO_LEFT else "ltr"


def languages() -> tuple[str, ...]:
    """The codes of all languages that the interface speaks."""
    return tuple(sorted(file.stem for file in _FOLDER.glob("*.toml")))


def language_of(code: str) -> Language:
    """The interface's language for a language code such as `de-AT`, English where there is none."""
    wanted = code.split("-", maxsplit=1)[0].lower()
    return _read(wanted if wanted in languages() else "en")


@cache
def _read(code: str) -> Language:
    table = tomllib.loads((_FOLDER / f"{code}.toml").read_text(encoding="utf-8"))
    return Language(
        code=table["code"],
        phrases=table["phrases"],
        plural=_PLURAL_RULES[table["plural"]],
        decimal=table["decimal"],
        group=table["group"],
        months=tuple(table["months"]),
        date=table["date"],
        currencies=table.get("currencies", {}),
    )
