"""Paint lists kept in a spreadsheet: read under whatever headings they have, and written so that they come back."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from guidegen.base.csv_cells import SEPARATORS, money, number, plain_cell, safe_cell, table
from guidegen.reading.paint_lists.cells import Cells, fields_of
from guidegen.reading.paint_lists.rows import PaintRow, PaletteText, Problem, settled, tidy

COLUMNS = (
    "name", "range", "code", "edition", "aliases", "kind", "colour", "finish", "covers", "binder",
    "comes as", "size ml", "price", "owned", "discontinued", "hazards", "note",
)  # fmt: skip

# Rows of our own materials table that are no paints.
_NO_PAINTS = frozenset({"material", "tool"})


# Above the line that says what the columns are there may be a title, a date, a blank line.
_TITLE_LINES = 10

# A longer line is a sentence and no paint's name.
_LONGEST_BARE = 60
_BULLET = re.compile(r"(?:[-*•·–]|[0-9]{1,3}[.)])\s+")


@dataclass(frozen=True, slots=True)
class Line:
    """A row of a table: the number of its line from 1, and its cells; `broken` where quotes do not match."""

    number: int
    cells: Sequence[str]
    broken: bool = False


def read_csv(text: str) -> PaletteText:
    """The paints of a table whose cells are parted by commas, semicolons, tabs or bars, or of names, one a line."""
    typed = "\0" not in text
    return read_table(max(tables_of(text), key=lambda lines: len(_heading(lines)[1])), bare=typed)


def tables_of(text: str) -> list[list[Line]]:
    """The rows of a table, once for each sign that may part its cells; for that alone which its first line names."""
    text = text.lstrip("\ufeff").replace("\r\n", "\n").replace("\r", "\n").replace("\0", "")
    marked = re.match(r"sep=(.)\n", text, re.IGNORECASE)
    tables = [list(_lines(text, separator)) for separator in (marked[1] if marked else SEPARATORS)]
    return [[line for line in lines if not (marked and line.number == 1)] for lines in tables]


def read_table(lines: Sequence[Line], *, bare: bool = True) -> PaletteText:
    """The paints of a table with a line that says what its columns are; with `bare`, of names alone, one a line."""
    at, fields = _heading(lines)
    if "name" not in fields.values():
        found = _bare_names(lines) if bare else None
        return found if found is not None else PaletteText(problems=(_no_heading(lines),))
    rows: list[tuple[int, PaintRow]] = []
    problems: list[Problem] = []
    for line in lines[at + 1 :]:
        held = {key: cell_at(line.cells, at) for at, key in fields.items()}
        if line.broken:
            problems.append(Problem(line.number, "A quotation mark is not closed, or stands inside a cell."))
        elif held["name"] and held.get("what", "").casefold() not in _NO_PAINTS:
            rows.append((line.number, Cells(held, line.number, problems).row()))
        elif not held["name"] and any(held.values()):
            problems.append(Problem(line.number, "The row names no paint, so it was left out."))
    return settled("", rows, problems)


def _heading(lines: Sequence[Line]) -> tuple[int, dict[int, str]]:
    """Which line says what the columns are, and what each holds: the first, or one below a title that says more."""
    for at, line in enumerate(lines[:_TITLE_LINES]):
        fields = fields_of(line.cells)
        if "name" in fields.values() and len(fields) > (at > 0):
            return at, fields
    return 0, fields_of(lines[0].cells) if lines else {}


def _bare_names(lines: Sequence[Line]) -> PaletteText | None:
    """The paints of a list that has one name a line and nothing else; None for any other text."""
    names = [_BULLET.sub("", cell_at(line.cells, 0)) for line in lines]
    plain = all(len([cell for cell in line.cells if cell.strip()]) == 1 and not line.broken for line in lines)
    if not names or not plain or not all(names) or max(map(len, names)) > _LONGEST_BARE:
        return None
    if any(sign in name for name in names for sign in f"{SEPARATORS}<>{{}}\ufffd"):
        return None
    rows = []
    for line, name in zip(lines, names, strict=True):
        maker, slash, own = (part.strip() for part in name.partition(" / "))
        rows.append((line.number, PaintRow(name=own, range=maker) if slash and own else PaintRow(name=name)))
    return settled("", rows, ())


def _lines(text: str, separator: str) -> Iterator[Line]:
    reader = csv.reader(io.StringIO(text), delimiter=separator, strict=True)
    start = 1
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error:
            yield Line(start, [], broken=True)
        else:
            if any(cell.strip() for cell in cells):
                yield Line(start, cells)
        start = reader.line_num + 1


def _no_heading(lines: Sequence[Line]) -> Problem:
    if not lines:
        return Problem(1, "There is nothing in the file.")
    headings = ", ".join(f"“{tidy(cell)}”" for cell in lines[0].cells if cell.strip())[:120] or "none"
    return Problem(
        lines[0].number,
        f"The first line has to say what the columns are, as in name,range,colour; found {headings}.",
    )


def cell_at(cells: Sequence[str], at: int) -> str:
    """The text of a cell on one line, without the apostrophes of `safe_cell`; '' past the end of the row."""
    return tidy(plain_cell(cells[at].strip(" "))) if at < len(cells) else ""


def write_csv(paints: Iterable[PaintRow]) -> str:
    """The paints as CSV after RFC 4180, under headings that `read_csv` knows."""
    return table(COLUMNS, map(_cells, paints))


def _cells(paint: PaintRow) -> list[str]:
    cells = {
        "name": paint.name,
        "range": paint.range,
        "code": paint.code,
        "edition": paint.edition,
        "aliases": "; ".join(paint.aliases),
        "kind": paint.kind.value,
        "colour": paint.colour or "",
        "finish": paint.finish,
        "covers": paint.covers,
        "binder": paint.binder,
        "comes as": paint.comes_as,
        "size ml": number(paint.size),
        "price": money(paint.price),
        "owned": str(paint.owned),
        "discontinued": "yes" if paint.discontinued else "",
        "hazards": "; ".join(paint.hazards),
        "note": paint.note,
    }
    return [safe_cell(cells[column]) for column in COLUMNS]
