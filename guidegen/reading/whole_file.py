"""A file that is nothing but one group of keys: a plan, a shared list."""

from __future__ import annotations

from guidegen.reading.keys import Record, read_record
from guidegen.reading.sheet import Sheet
from guidegen.reading.typed import Fields
from guidegen.reading.yaml_nodes import tree_of


def read_whole(record: Record, sheet: Sheet, *, empty: str, help_line: str) -> Fields | None:
    """The keys that a whole file is made of; None where there are none, which is told with `empty` where nothing is."""
    tree = tree_of(sheet.source)
    sheet.diagnostics += tree.diagnostics
    if tree.root is not None:
        return read_record(record, tree.root, "", sheet)
    if not tree.broken:
        sheet.say("missing-key", empty, sheet.source.span(0, 0), help_line)
    return None
