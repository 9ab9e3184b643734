"""Paint lists from elsewhere, of whichever kind: what `start --palette-from` takes in."""

from __future__ import annotations

from guidegen.reading.paint_lists.csv_list import read_csv
from guidegen.reading.paint_lists.gimp_palette import is_gpl, read_gpl
from guidegen.reading.paint_lists.rows import PaletteText
from guidegen.reading.paint_lists.workbook import is_workbook, read_workbook


def read_palette_bytes(data: bytes) -> PaletteText:
    """The paints of a workbook (.xlsx), a GIMP palette, a table or a bare list; which it is shows in how it begins."""
    return read_workbook(data) if is_workbook(data) else read_palette_text(_decoded(data))


def read_palette_text(text: str) -> PaletteText:
    """The paints of a GIMP palette, a table or a bare list; which it is shows in its first line."""
    return read_gpl(text) if is_gpl(text) else read_csv(text)


def _decoded(data: bytes) -> str:
    """Text as spreadsheets save it: UTF-8, UTF-16 with its mark, or the code page of Western Windows."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")
