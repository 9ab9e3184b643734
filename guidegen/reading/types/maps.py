"""Groups of keys that have names of the author's own, and reading their names."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TypeVar

from guidegen.base.suggest import folded
from guidegen.model.names import Name
from guidegen.reading.types.base import Type, is_empty, without_quotes, words_of
from guidegen.reading.types.key_messages import tell_double, tell_empty
from guidegen.reading.types.keys import entries_of
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.yaml.nodes import Entry, MapNode, Node, Scalar
from guidegen.reading.yaml.quoting import shortened

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class MapOf(Type[dict[str, T]]):
    """Names of the author's own, each with a value; names alike but for case, accents and blanks are one."""

    value: Type[T]

    def read(self, node: Node, key: str, context: ParseContext) -> dict[str, T] | None:
        if not isinstance(node, MapNode):
            self.refuse(node, key, context)
            return None
        values: dict[str, T] = {}
        for name, entry in named_entries(node, key, context):
            if is_empty(entry.value):
                tell_empty(shortened(name), entry, context)
                continue
            value = self.value.read(entry.value, name, context)
            if value is not None:
                values[name] = _placed(value, entry, context)
        return values


def _placed(value: T, entry: Entry, context: ParseContext) -> T:
    """A value that is a name with the place of its key, which can be as wrong as the name itself."""
    return replace(value, key=context.span(entry.key)) if isinstance(value, Name) else value


def named_entries(node: MapNode, key: str, context: ParseContext) -> Iterator[tuple[str, Entry]]:
    """The entries of a group with names of the author's own; a name given twice, or none, is told and passed over."""
    seen: dict[str, Scalar] = {}
    for entry in entries_of(node):
        name = without_quotes(entry.key, words_of(entry.key) or "")
        if not name or len(name) > 200:
            context.say(
                "bad-value",
                f"A name is missing before the colon under {key}."
                if not name
                else f"A name under {key} is too long.",
                context.span(entry.key if name else node),
                "Write the name before the colon; 200 characters at most.",
            )
            continue
        if folded(name) in seen:
            tell_double(entry.key, seen[folded(name)], context)
            continue
        seen[folded(name)] = entry.key
        yield name, entry
