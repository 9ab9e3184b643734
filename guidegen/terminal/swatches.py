"""How colours are printed: a block of the colour on a terminal that shows colours, words and numbers everywhere."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import click

from guidegen.computing.colour.closest import Match
from guidegen.computing.colour.spaces import DIFFERENCES, difference_words, lightness
from guidegen.reporting.cells import harmless, width

if TYPE_CHECKING:
    from rich.console import Console

# Cells of a block of colour.
_BLOCK = 4

LEGEND = f"ΔE00 (CIEDE2000): {', '.join(f'under {limit:g} {words}' for limit, _, words in DIFFERENCES)}."


@dataclass(frozen=True, slots=True)
class Row:
    """A line of a list: a colour if there is one, and cells of text that line up with those of the other rows."""

    colour: str | None
    cells: tuple[str, ...]


def match_rows(matches: Iterable[Match]) -> list[Row]:
    """The closest paints as rows: name, colour, difference, words, and what else a painter wants to know of the pot."""
    return [
        Row(
            match.paint.colour,
            (
                match.paint.full_name,
                match.paint.colour or "",
                f"{match.de00:.2f}",
                difference_words(match.de00),
                _remarks(match),
            ),
        )
        for match in matches
    ]


def match_data(matches: Iterable[Match]) -> list[dict[str, Any]]:
    """The closest paints as data."""
    return [
        {
            "name": match.paint.name,
            "range": match.paint.range,
            "kind": match.paint.kind.value,
            "colour": match.paint.colour,
            "de00": round(match.de00, 4),
            "owned": match.paint.owned,
        }
        for match in matches
    ]


def colour_cells(colour: str) -> tuple[str, str]:
    """A colour in figures: its hex and its lightness."""
    return colour, f"L* {lightness(colour):.0f}"


def print_rows(title: str, rows: Sequence[Row], *, none: str = "", first: bool = False) -> None:
    """A heading and its rows in columns, under an empty line but for the `first`; `none` stands for no rows."""
    if not first:
        click.echo()
    _say(title, bold=True)
    if not rows:
        _say(f"  {none}")
        return
    count = max(len(row.cells) for row in rows)
    columns = [
        max((width(harmless(row.cells[i])) for row in rows if i < len(row.cells)), default=0)
        for i in range(count)
    ]
    console = _console()
    for row in rows:
        shown = [harmless(cell) for cell in row.cells]
        padded = [cell + " " * (columns[i] - width(cell)) for i, cell in enumerate(shown)]
        line = "  ".join(padded).rstrip()
        if console is None:
            _say(f"  {line}")
            continue
        from rich.text import Text

        block = (" " * _BLOCK, f"on {row.colour}") if row.colour else (" " * _BLOCK, "")
        console.print(Text.assemble("  ", block, "  ", line), soft_wrap=True)


def say(text: str, indent: str = "") -> None:
    """A line, or a paragraph, folded at 80 cells."""
    import textwrap

    for line in textwrap.wrap(harmless(text), 80, initial_indent=indent, subsequent_indent=indent):
        _say(line)


def _say(text: str, *, bold: bool = False) -> None:
    console = _console()
    if console is None or not bold:
        click.echo(harmless(text))
    else:
        console.print(harmless(text), style="bold", soft_wrap=True)


def _console() -> Console | None:
    """A console that shows colours, or None for a pipe, NO_COLOR (no-color.org) or a terminal called `dumb`."""
    if not sys.stdout.isatty() or os.environ.get("NO_COLOR") or os.environ.get("TERM") == "dumb":
        return None
    from rich.console import Console

    return Console(file=sys.stdout, highlight=False, markup=False, emoji=False)


def _remarks(match: Match) -> str:
    paint = match.paint
    owned = "" if not paint.owned else "yours" if paint.owned == 1 else f"{paint.owned} of yours"
    return ", ".join(filter(None, (owned, "no longer sold" if paint.discontinued else "")))
