"""How an author's words are shown in sentences and in the lines that a help proposes."""

from __future__ import annotations

import re

from guidegen.base.diagnostic import Fix
from guidegen.model.names import Name

# Says the same with and without quotes wherever it stands in YAML: letters, digits, blanks and a few signs.
_PLAIN = re.compile(r"[^\W_](?:[\w'’().!/&+–-]| (?! ))*(?<! )")

# Longer than any name, short enough for one line of a terminal.
_SHOWN = 60


def shortened(text: str) -> str:
    """One line of a text, cut with … where it is long."""
    line = " ".join(text.split())
    return line if len(line) <= _SHOWN else line[: _SHOWN - 1].rstrip() + "…"


def quoted(text: str) -> str:
    """The text as it has to be typed in quotes, cut with … where it is long."""
    return in_quotes(shortened(text))


def typed(text: str) -> str:
    """The text as it may be typed anywhere in YAML, whole, in quotes where it has to be."""
    if _PLAIN.fullmatch(text):
        return text
    return in_quotes(text)


def in_quotes(text: str) -> str:
    """The whole text in quotes, which says the same as the text itself where nothing had to be escaped in it."""
    if '"' in text or "\\" in text:
        return "'" + text.replace("'", "''") + "'"
    return f'"{text}"'


def fix_of(name: Name, meant: str | None) -> Fix | None:
    """To write what was meant in a name's place; None where nobody knows."""
    return Fix(span=name.span, text=typed(meant)) if meant is not None else None
