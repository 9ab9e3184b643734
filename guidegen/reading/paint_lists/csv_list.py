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


@dataclass(frozen=True, slots=True)
class _Line:
    number: int
    cells: list[str]
    broken: bool = False


def read_csv(text: str) -> PaletteText:
    """The paints of a table whose first line says what its columns are, parted by commas, semicolons, tabs or bars."""
    text = text.lstrip("\ufeff").replace("\r\n", "\n").replace("\r", "\n").replace("\0", "")
    marked = re.match(r"sep=(.)\n", text, re.IGNORECASE)
    tables = [list(_lines(text, separator)) for separator in (marked[1] if marked else SEPARATORS)]
    tables = [[line for line in lines if not (marked and line.number == 1)] for lines in tables]
    lines = max(tables, key=lambda lines: len(fields_of(lines[0].cells)) if lines else 0)
    fields = fields_of(lines[0].cells) if lines else {}
    if "name" not in fields.values():
        return PaletteText(problems=(_no_heading(lines),))
    rows: list[tuple[int, PaintRow]] = []
    problems: list[Problem] = []
    for line in lines[1:]:
        held = {key: _cell(line.cells, at) for at, key in fields.items()}
        if line.broken:
            problems.append(Problem(line.number, "A quotation mark is not closed, or stands inside a cell."))
        elif held["name"] and held.get("what", "").casefold() not in _NO_PAINTS:
            rows.append((line.number, Cells(held, line.number, problems).row()))
        elif not held["name"] and any(held.values()):
            problems.append(Problem(line.number, "The row names no paint, so it was left out."))
    return settled("", rows, problems)


def _lines(text: str, separator: str) -> Iterator[_Line]:
    reader = csv.reader(io.StringIO(text), delimiter=separator, strict=True)
    start = 1
    while True:
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error:
            yield _Line(start, [], broken=True)
        else:
            if any(cell.strip() for cell in cells):
                yield _Line(start, cells)
        start = reader.line_num + 1


def _no_heading(lines: Sequence[_Line]) -> Problem:
    if not lines:
        return Problem(1, "There is nothing in the file.")
    headings = ", ".join(f"“{tidy(cell)}”" for cell in lines[0].cells if cell.strip())[:120] or "none"
    return Problem(
        lines[0].number,
        f"The first line has to say what the columns are, as in name,range,colour; found {headings}.",
    )


def _cell(cells: Sequence[str], at: int) -> str:
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
