"""Paint lists in a workbook (.xlsx, ECMA-376), read by openpyxl within bounds that no list of paints meets."""

from __future__ import annotations

import io
import warnings
import zipfile
from collections.abc import Iterator, Sequence
from typing import Any

from guidegen.reading.paint_lists.csv_list import Line, read_table
from guidegen.reading.paint_lists.rows import PaletteText, Problem

# What is packed into a workbook may be a thousand times as large as its file.
LARGEST_UNPACKED = 20_000_000
MOST_PARTS = 1_000
MOST_SHEETS = 20
MOST_ROWS = 20_000
MOST_COLUMNS = 100
LONGEST_CELL = 2_000


def is_workbook(data: bytes) -> bool:
    """Whether a file begins like a ZIP archive, which a workbook is."""
    return data.startswith(b"PK\x03\x04")


def read_workbook(data: bytes) -> PaletteText:
    """The paints of the sheet whose headings say most; a problem where it is no workbook, or larger than any list."""
    tables = sheets_of(data)
    if isinstance(tables, str):
        return PaletteText(problems=(Problem(1, f"{tables} Save the list as CSV."),))
    found = [read_table(lines) for lines in tables if lines]
    if not found:
        return PaletteText(problems=(Problem(1, "There is nothing in the workbook."),))
    return max(found, key=lambda one: len(one.paints))


def sheets_of(data: bytes) -> list[Sequence[Line]] | str:
    """The rows of every sheet that is shown, or why the workbook is not read."""
    try:
        return _refusal(data) or list(_tables(data))
    except Exception:  # noqa: BLE001  a broken workbook fails in as many ways as it has parts
        return "The workbook cannot be read: it is broken, locked, or of another kind than .xlsx."


def _refusal(data: bytes) -> str:
    """Why a workbook is not opened, '' if it is: too much in it, or XML with entities, by which little becomes much."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        parts = archive.infolist()
        if len(parts) > MOST_PARTS or sum(part.file_size for part in parts) > LARGEST_UNPACKED:
            return "There is more in the workbook than in any list of paints."
        for part in parts:
            if part.filename.endswith((".xml", ".rels")):
                text = archive.read(part)
                if b"<!DOCTYPE" in text or b"\0" in text[:4] or text.startswith((b"\xff\xfe", b"\xfe\xff")):
                    return "The workbook has a part that no list of paints has."
    return ""


def _tables(data: bytes) -> Iterator[Sequence[Line]]:
    """The rows of every sheet that is shown, as text."""
    import openpyxl

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of styles and rules that are no matter here
        book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True, keep_links=False)
        for sheet in book.worksheets[:MOST_SHEETS]:
            if sheet.sheet_state == "visible":
                sheet.reset_dimensions()  # what the file says of its size may be anything
                rows = sheet.iter_rows(max_row=MOST_ROWS, max_col=MOST_COLUMNS, values_only=True)
                lines = (Line(number, [_text(value) for value in row]) for number, row in enumerate(rows, 1))
                yield [line for line in lines if any(line.cells)]


def _text(value: Any) -> str:
    """A cell as it would be typed: a whole number without its point, yes and no, nothing for nothing."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float) and value.is_integer() and abs(value) < 1e15:
        return str(int(value))
    return str(value)[:LONGEST_CELL]
