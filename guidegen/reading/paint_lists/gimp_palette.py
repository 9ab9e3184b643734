"""The GIMP palette format (.gpl): a heading, then red, green and blue from 0 to 255 and a name a line.

After the description in GIMP's documentation and its own files, from memory; no standard defines it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from guidegen.reading.paint_lists.cells import colour_of
from guidegen.reading.paint_lists.rows import PaintRow, PaletteText, Problem, settled, tidy

HEADING = "GIMP Palette"

_ENTRY = re.compile(r"\s*(\S+)\s+(\S+)\s+(\S+)(?:\s+(.*))?", re.DOTALL)
_SETTING = re.compile(r"(Name|Columns)\s*:\s*(.*)", re.IGNORECASE)


def is_gpl(text: str) -> bool:
    """Whether a text begins like a GIMP palette."""
    return text.lstrip("\ufeff").startswith(HEADING)


def read_gpl(text: str) -> PaletteText:
    """The paints of a GIMP palette. A name written `Range / Name` gives both."""
    title = ""
    rows: list[tuple[int, PaintRow]] = []
    problems: list[Problem] = []
    for number, line in enumerate(text.lstrip("\ufeff").splitlines(), 1):
        setting = _SETTING.fullmatch(line.strip())
        if number == 1 or not line.strip() or line.lstrip().startswith("#"):
            continue
        if setting and not rows:
            title = tidy(setting[2]) if setting[1].lower() == "name" else title
            continue
        row = _row(line)
        if isinstance(row, PaintRow):
            rows.append((number, row))
        else:
            problems.append(Problem(number, row))
    return settled(title, rows, problems)


def _row(line: str) -> PaintRow | str:
    entry = _ENTRY.fullmatch(line)
    colour = colour_of(entry.group(1, 2, 3)) if entry else None
    if entry is None or colour is None:
        return f"“{tidy(line)[:60]}” is no colour: three numbers from 0 to 255 and a name were expected."
    label = tidy(entry[4] or "")
    if label.lower() in {"", "untitled"}:
        return "The colour has no name, so it was left out."
    before, slash, after = label.partition(" / ")
    if slash and before and after:
        return PaintRow(name=after, range=before, colour=colour)
    return PaintRow(name=label, colour=colour)


def write_gpl(title: str, entries: Iterable[tuple[str, str]], columns: int = 0) -> str:
    """A GIMP palette of (name, `#rrggbb`) pairs; `columns` is how many stand in a row, 0 for as many as fit."""
    lines = [HEADING, f"Name: {tidy(title)}", f"Columns: {columns}", "#"]
    for name, colour in entries:
        red, green, blue = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
        lines.append(f"{red:3d} {green:3d} {blue:3d}\t{tidy(name)}")
    return "\n".join(lines) + "\n"
