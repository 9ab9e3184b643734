"""Prints diagnostics in full: in colour on a terminal, plain in a pipe or where NO_COLOR is set."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, TextIO

from guidegen.base.diagnostic import Diagnostic
from guidegen.reporting.text import MOST, PIPE_WIDTH, Line, Role, Shown, as_text, lines_of

if TYPE_CHECKING:
    from rich.text import Text

# Past this a line is tiring to read, and the slug at its right edge too far from its sentence.
WIDEST = 100

# Colours of the terminal's own palette, so that they suit its ground; weight tells the rest.
_STYLES: dict[Role, str] = {
    "plain": "",
    "sentence": "bold",
    "place": "cyan",
    "excerpt": "",
    "error": "bold red",
    "warning": "bold yellow",
    "advice": "bold blue",
    "help": "",
    "quiet": "dim",
}


def print_diagnostics(
    diagnostics: Sequence[Diagnostic],
    *,
    shown: Shown,
    stream: TextIO,
    environ: Mapping[str, str],
    most: int = MOST,
) -> None:
    """Print the full text form to a stream, 80 cells wide in a pipe, else as wide as the terminal, up to 100.

    NO_COLOR (no-color.org) and a terminal called `dumb` get no colour.
    """
    cells = width_of(stream)
    if not stream.isatty() or environ.get("NO_COLOR") or environ.get("TERM") == "dumb":
        stream.write(as_text(diagnostics, shown=shown, cells=cells, most=most))
        return
    from rich.console import Console

    console = Console(file=stream, width=cells, highlight=False, markup=False, emoji=False)
    for line in lines_of(diagnostics, shown=shown, cells=cells, most=most):
        console.print(_coloured(line), soft_wrap=True)


def width_of(stream: TextIO) -> int:
    """Cells to print within: the terminal's, at most 100; 80 for a pipe or a terminal that does not say."""
    if not stream.isatty():
        return PIPE_WIDTH
    try:
        columns = os.get_terminal_size(stream.fileno()).columns
    except OSError:
        return PIPE_WIDTH
    # A terminal that has not been told its size says nought.
    return min(columns, WIDEST) or PIPE_WIDTH


def _coloured(line: Line) -> Text:
    from rich.text import Text

    return Text.assemble(*((piece.text, _STYLES[piece.role]) for piece in line))
