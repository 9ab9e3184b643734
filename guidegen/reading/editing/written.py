"""Writing YAML: texts, lists and groups of keys on one line; and finding the entries of a palette file."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from guidegen.base.source import Source, Span
from guidegen.reading.paint_lists.palette_file import double_quoted
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, tree_of
from guidegen.reading.yaml.quoting import typed


def yaml_text(text: str) -> str:
    """A text as a YAML scalar on one line, in quotes unless it reads the same without them."""
    plain = typed(text)
    return plain if plain == text else double_quoted(text)


def one_line(node: Node) -> str:
    """A node of any kind as YAML on one line: `[a, {b: c}]`."""
    if isinstance(node, ListNode):
        return "[" + ", ".join(one_line(item) for item in node.items) + "]"
    if isinstance(node, MapNode):
        return in_braces((entry.key.value, one_line(entry.value)) for entry in node.entries)
    return yaml_text(node.value) if node.value or node.style else '""'


def in_braces(pairs: Iterable[tuple[str, str]]) -> str:
    """A group of keys, `{a: 1, b: 2}`; the values are YAML already."""
    return "{" + ", ".join(f"{yaml_text(key)}: {value}" for key, value in pairs) + "}"


def in_brackets(texts: Iterable[str]) -> str:
    """A list of texts, `[a, b]`."""
    return "[" + ", ".join(map(yaml_text, texts)) + "]"


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
