"""How an author's words are shown in sentences and in the lines that a help proposes."""

from __future__ import annotations

# Longer than any name, short enough for one line of a terminal.
_SHOWN = 60


def shortened(text: str) -> str:
    """One line of a text, cut with … where it is long."""
    line = " ".join(text.split())
    return line if len(line) <= _SHOWN else line[: _SHOWN - 1].rstrip() + "…"


def quoted(text: str) -> str:
    """The text as it has to be typed in quotes, cut with … where it is long."""
    line = shortened(text)
    if '"' in line or "\\" in line:
        return "'" + line.replace("'", "''") + "'"
    return f'"{line}"'
