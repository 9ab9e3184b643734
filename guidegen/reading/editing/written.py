"""Pieces of an author's YAML written anew: nodes as flow text, the entries of a palette by where they stand."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from guidegen.base.source import Source, Span
from guidegen.reading.paint_lists.palette_file import quoted
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, tree_of
from guidegen.reading.yaml.quoting import typed


def said(text: str) -> str:
    """A text as a YAML scalar on one line that says the same anywhere."""
    plain = typed(text)
    return plain if plain == text else quoted(text)


def flow(node: Node) -> str:
    """A node on one line, which is read as the same."""
    if isinstance(node, ListNode):
        return "[" + ", ".join(flow(item) for item in node.items) + "]"
    if isinstance(node, MapNode):
        return keyed((entry.key.value, flow(entry.value)) for entry in node.entries)
    return said(node.value) if node.value or node.style else '""'


def keyed(pairs: Iterable[tuple[str, str]]) -> str:
    """Keys with values that are written already, in braces."""
    return "{" + ", ".join(f"{said(key)}: {value}" for key, value in pairs) + "}"


def listed(texts: Iterable[str]) -> str:
    """Texts in brackets."""
    return "[" + ", ".join(map(said, texts)) + "]"


def values_of(node: Node | None) -> dict[str, Node]:
    """What stands after each key, the first of doubles."""
    found: dict[str, Node] = {}
    for entry in node.entries if isinstance(node, MapNode) else ():
        found.setdefault(entry.key.value.strip(), entry.value)
    return found


def entries_of_palette(source: Source) -> Iterator[tuple[Span, Mapping[str, Node]]]:
    """Each paint and mix of a palette file by the place of its name, with what stands after its keys."""
    root = values_of(tree_of(source).root)
    for key in ("paints", "mixes"):
        several = root.get(key)
        for item in several.items if isinstance(several, ListNode) else ():
            values = values_of(item)
            if (name := values.get("name")) is not None:
                yield source.span(name.start, name.end), values


def ranges_of_palette(source: Source) -> dict[str, Node]:
    """What holds for each range of a palette file, by its name as typed."""
    return values_of(values_of(tree_of(source).root).get("ranges"))
