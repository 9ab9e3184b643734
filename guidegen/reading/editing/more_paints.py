"""A palette file with more paints in it: they follow the last one, and no other byte changes."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from guidegen.base.diagnostic import has_errors
from guidegen.base.source import Source
from guidegen.base.suggest import folded
from guidegen.model.paint import Palette
from guidegen.reading.content.palette import read_palette_file
from guidegen.reading.paint_lists.palette_file import entries_yaml
from guidegen.reading.paint_lists.rows import PaintRow
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, Scalar, tree_of

_LINE = re.compile(r"[^\r\n]*(?:\r\n|\r|\n|$)")


def not_there_yet(rows: Iterable[PaintRow], palette: Palette) -> tuple[PaintRow, ...]:
    """The paints that the palette lacks; one that names no range is there where any of its name is."""
    there = {
        (folded(paint.range or ""), folded(paint.name), folded(paint.edition)) for paint in palette.paints
    }
    named = {(name, edition) for _, name, edition in there}

    def is_there(row: PaintRow) -> bool:
        name, edition = folded(row.name), folded(row.edition)
        return (folded(row.range), name, edition) in there if row.range else (name, edition) in named

    return tuple(row for row in rows if not is_there(row))


def with_paints(file: str, data: bytes, rows: Sequence[PaintRow]) -> bytes | None:
    """The bytes of a palette file with more paints after its last; None where they cannot be put in for certain."""
    try:
        source = Source.from_bytes(file, data)
    except UnicodeDecodeError:
        return None
    place = _place(source)
    if place is None:
        return None
    at, indent, key = place
    end = "\r\n" if b"\r\n" in data else "\n"
    lines = [line for line in _LINE.findall(data.decode()) if line]
    if at and not lines[at - 1].endswith(("\r", "\n")):
        lines[at - 1] += end
    added = [*(["paints:"] if key else []), *entries_yaml(rows, indent)]
    lines[at:at] = [f"{line}{end}" for line in added]
    after = "".join(lines).encode()
    return after if _only_more(source, Source.from_bytes(file, after), rows) else None


def _place(source: Source) -> tuple[int, str, bool] | None:
    """After how many lines paints go in, how far they are set in, and whether the key `paints` is missing."""
    tree = tree_of(source)
    if tree.broken or (tree.root is not None and not isinstance(tree.root, MapNode)):
        return None
    every = len(source.starts) - (source.text.endswith("\n") or not source.text)
    if tree.root is None:
        return every, "  ", True
    if tree.root.flow:
        return None
    found = next((entry for entry in tree.root.entries if entry.key.value.strip() == "paints"), None)
    if found is None:
        return every, "  ", True
    if isinstance(found.value, Scalar) and not found.value.value.strip() and not found.value.style:
        return source.position(found.key.end)[0], "  ", False
    if not isinstance(found.value, ListNode) or found.value.flow or not found.value.items:
        return None
    first, last = found.value.items[0], found.value.items[-1]
    line, column = source.position(first.start)
    indent, dash, _ = source.line(line)[: column - 1].rpartition("-")
    if not dash or indent.strip():
        return None
    ends = len(source.text[: end_of(last)].rstrip())
    return source.position(ends)[0], indent, False


def end_of(node: Node) -> int:
    """Where what is written of a node ends: a block's own end lies before whatever follows."""
    if isinstance(node, MapNode) and not node.flow and node.entries:
        last = node.entries[-1]
        return max(end_of(last.value), last.key.end)
    if isinstance(node, ListNode) and not node.flow and node.items:
        return end_of(node.items[-1])
    return node.end


def _only_more(old: Source, new: Source, rows: Sequence[PaintRow]) -> bool:
    """Whether the file reads as before with these paints after the others, and without an error it did not have."""
    (before, told), (after, told_now) = read_palette_file(old), read_palette_file(new)
    names = [paint.name for paint in before.paints] + [row.name for row in rows]
    return (
        [paint.name for paint in after.paints] == names
        and [mix.name for mix in after.mixes] == [mix.name for mix in before.mixes]
        and [one.name for one in after.ranges] == [one.name for one in before.ranges]
        and (has_errors(told) or not has_errors(told_now))
    )
