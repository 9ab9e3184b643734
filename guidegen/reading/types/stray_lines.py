"""Entries of a list of steps whose first line is not what it should be: one more key behind a dash, a title for a key."""

from __future__ import annotations

from collections.abc import Iterable

from guidegen.reading.types.base import is_empty
from guidegen.reading.types.keys import Record
from guidegen.reading.types.parse_context import ParseContext, near
from guidegen.reading.yaml.nodes import Entry, MapNode, Node
from guidegen.reading.yaml.quoting import shortened


def joined(items: Iterable[Node], record: Record, context: ParseContext) -> list[Node]:
    """The entries, each key that stands alone behind a dash among those of the entry above, which is told.

    Only where that entry has the record's first key and lacks this one.
    """
    found: list[Node] = []
    for item in items:
        above = found[-1] if found else None
        if isinstance(item, MapNode) and isinstance(above, MapNode) and not (item.flow or above.flow):
            there = {entry.key.value for entry in above.entries}
            (first, *more) = item.entries
            if record.keys[0].name in there and not more and first.key.value in record.by_word.keys() - there:
                _tell_dash(first, record, context)
                found[-1] = above._replace(entries=(*above.entries, first), end=item.end)
                continue
        found.append(item)
    return found


def _tell_dash(entry: Entry, record: Record, context: ParseContext) -> None:
    written = context.source.text[entry.key.start : entry.value.end]
    context.say(
        "bad-yaml",
        f"A dash begins a new entry, but this line is one more key of the {record.noun} above.",
        context.span(entry.key),
        f"Put two spaces in its place: {shortened(written)}.",
    )


def with_title(node: MapNode, record: Record, context: ParseContext) -> MapNode:
    """A group of keys that begins with `Faces:`, a title where a key belongs: with that key, which is told."""
    if not node.entries:
        return node
    (first, *rest), known = node.entries, record.by_word
    word = first.key.value.strip()
    among_keys = any(entry.key.value.strip() in known for entry in rest)
    if not (word and first.colon and is_empty(first.value) and among_keys):
        return node
    if word in known or near(word, tuple(known)):
        return node
    key = record.keys[0].name
    context.say(
        "missing-key",
        f"“{shortened(word)}” stands where {key}: and a title belong.",
        context.span(first.key),
        f"Write {key}: {shortened(word)}.",
    )
    titled = Entry(first.key._replace(value=key), first.key)
    return node._replace(entries=(titled, *rest))
