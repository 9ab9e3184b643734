"""Cells of tables for spreadsheets: text that none takes for a formula, numbers, and CSV after RFC 4180."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

# What spreadsheets part cells by, each by its own setting; and what makes them run a cell instead of showing it:
# OWASP, "CSV Injection".
SEPARATORS = ",;\t|"
FORMULA_STARTS = "=+\\-@\t\r＝＋－＠"

# Where a cell begins under one separator or another, before blanks and quotes that may be taken away.
_BEGINS = rf"(?:\A|(?<=[{SEPARATORS}\r\n]))"
_FORMULA = rf"(?=[ \"']*[{FORMULA_STARTS}])"
_UNSAFE = re.compile(_BEGINS + _FORMULA)
_MADE_SAFE = re.compile(f"{_BEGINS}'{_FORMULA}")

# Everything but numbers stands in quotes.
_NUMBER = re.compile("[0-9.]*")


def safe_cell(text: str) -> str:
    """Text that no spreadsheet takes for a formula: an apostrophe is put wherever one could begin a cell."""
    return _UNSAFE.sub("'", text)


def plain_cell(text: str) -> str:
    """The text without the apostrophes that `safe_cell` put in."""
    return _MADE_SAFE.sub("", text)


def table(columns: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Rows of text under our own headings as CSV after RFC 4180: commas, quotes around text and doubled within, CRLF."""
    return "".join(",".join(cells) + "\r\n" for cells in (columns, *(map(_quoted, row) for row in rows)))


def _quoted(cell: str) -> str:
    return cell if _NUMBER.fullmatch(cell) else '"' + cell.replace('"', '""') + '"'


def number(value: float | None) -> str:
    """A number as a cell, without an exponent and without noughts at its end; empty for None."""
    if value is None:
        return ""
    return f"{value:.4f}".rstrip("0").rstrip(".")


def money(value: float | None) -> str:
    """A sum of money as a cell, two decimals; empty for None."""
    return "" if value is None else f"{value:.2f}"
