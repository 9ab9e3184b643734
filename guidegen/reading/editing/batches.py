"""A guide's file with one more batch under made: no other byte of it changes."""

from __future__ import annotations

import re

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source
from guidegen.reading.editing.more_paints import end_of
from guidegen.reading.editing.raw_text import RawText
from guidegen.reading.editing.written import values_of
from guidegen.reading.yaml.front_matter import split
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, tree_of


def with_batch(file: str, data: bytes, batch: str) -> bytes | None:
    """The bytes of a guide's file with a batch behind the others; None where nobody knows where it belongs.

    `batch` is YAML on one line, in braces.
    """
    source = Source.from_bytes(file, data)
    parts = split(source)
    tree = None if isinstance(parts, Diagnostic) else tree_of(source, parts.start, parts.end)
    if tree is None or isinstance(parts, Diagnostic) or tree.broken or not isinstance(tree.root, MapNode):
        return None
    place = _place(source, tree.root, parts.end, batch)
    if place is None:
        return None
    at, text = place
    raw = RawText(data)
    offset = raw.offset(*source.position(at))
    raw.replace(offset, offset, text)
    return raw.text.encode()


def _place(source: Source, root: MapNode, end: int, batch: str) -> tuple[int, str] | None:
    """The offset at which to write, and the text: behind the last batch, into brackets, or as a new key at the end."""
    made = values_of(root).get("made")
    if made is None:
        if root.flow:
            last = root.entries[-1].value if root.entries else None
            return root.end - 1, f"{_comma(source, last, root.end - 1)}made: [{batch}]"
        first = source.position(root.entries[0].key.start)[1] - 1
        return end, f"{' ' * first}made:\n{' ' * first}  - {batch}\n"
    if not isinstance(made, ListNode):
        return None
    if made.flow:
        last = made.items[-1] if made.items else None
        return made.end - 1, f"{_comma(source, last, made.end - 1)}{batch}"
    return _behind(source, made.items, batch)


def _comma(source: Source, last: Node | None, end: int) -> str:
    """What parts a new entry from the last one, before the closing bracket at `end`: nothing where there is a comma."""
    if last is None:
        return ""
    between = source.text[last.end : end]
    if "," in re.sub(r"\s#.*", "", between):
        return " " if between.endswith(",") else ""
    return ", "


def _behind(source: Source, items: tuple[Node, ...], batch: str) -> tuple[int, str] | None:
    """The same for a list with dashes."""
    line, column = source.position(items[0].start)
    indent, dash, _ = source.line(line)[: column - 1].rpartition("-")
    if not dash or indent.strip():
        return None
    last = len(source.text[: end_of(items[-1])].rstrip())
    after = source.text.find("\n", last)
    return (after + 1, f"{indent}- {batch}\n") if after >= 0 else None
