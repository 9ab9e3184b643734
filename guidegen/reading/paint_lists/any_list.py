"""Paint lists from elsewhere, of whichever kind: what `start --palette-from` takes in."""

from __future__ import annotations

from guidegen.reading.paint_lists.csv_list import read_csv
from guidegen.reading.paint_lists.gimp_palette import is_gpl, read_gpl
from guidegen.reading.paint_lists.rows import PaletteText


def read_palette_text(text: str) -> PaletteText:
    """The paints of a GIMP palette or of a table; which it is shows in its first line."""
    return read_gpl(text) if is_gpl(text) else read_csv(text)
