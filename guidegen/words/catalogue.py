"""The languages of the interface: one TOML file each beside this one, read when the language is first asked for."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from functools import cache
from pathlib import Path

from guidegen.words.language import Language

_FOLDER = Path(__file__).parent

# Plural rules by the name that a language's file calls them by. Categories and rules are those of Unicode's CLDR.
_PLURAL_RULES: dict[str, Callable[[float], str]] = {
    "one-other": lambda n: "one" if n == 1 else "other",
}


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
