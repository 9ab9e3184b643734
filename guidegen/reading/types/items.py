"""Materials and tools, as guides and steps name them."""

from __future__ import annotations

from dataclasses import dataclass

from guidegen.model.names import Item
from guidegen.reading.types.base import SHORT_TEXT, TEXT, Fields, Type, list_of
from guidegen.reading.types.keys import Key, Record, record_of
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.yaml.nodes import MapNode, Node

ITEM = Record(
    noun="material or tool",
    about="Something needed besides paint.",
    keys=(
        Key("name", SHORT_TEXT, "What it is.", required=True, example="gloss gel"),
        Key("for", TEXT, "What it is needed for.", field="purpose", example="puddles"),
        Key("amount", SHORT_TEXT, "How much of it.", example="5 ml"),
        Key(
            "cautions",
            list_of(TEXT, "a text, or a list of texts", commas=True),
            "What to beware of when using it.",
            example="[air the room]",
        ),
    ),
)


def _item(fields: Fields) -> Item | None:
    return (
        Item(**fields.values, span=fields.span, places=fields.places) if fields.values.get("name") else None
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemOf(Type[Item]):
    """A material or a tool: its name alone, or with what it is for."""

    expected: str = "a name, or {name, for, amount, cautions}"
    example: str = "size 2 brush"
    record: Record = ITEM

    def read(self, node: Node, key: str, context: ParseContext) -> Item | None:
        if isinstance(node, MapNode):
            return _ITEM_RECORD.read(node, key, context)
        name = SHORT_TEXT.read(node, key, context)
        return Item(name=name, span=context.span(node), places={}) if name else None


_ITEM_RECORD = record_of(ITEM, _item)
ITEMS = list_of(ItemOf(), "a list of names, or of {name, for, amount, cautions}", commas=True)
