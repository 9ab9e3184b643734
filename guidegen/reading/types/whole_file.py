"""A file that is nothing but one group of keys: a plan, a shared list."""

from __future__ import annotations

from guidegen.reading.types.base import Fields
from guidegen.reading.types.keys import Record, read_record
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.yaml.nodes import tree_of


def read_whole(record: Record, context: ParseContext, *, empty: str, help_line: str) -> Fields | None:
    """The keys that a whole file is made of; None where there are none, which is told with `empty` where nothing is."""
    tree = tree_of(context.source)
    context.diagnostics += tree.diagnostics
    if tree.root is not None:
        return read_record(record, tree.root, "", context)
    if not tree.broken:
        context.say("missing-key", empty, context.source.span(0, 0), help_line)
    return None
