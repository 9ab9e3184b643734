"""Advice that an author says is meant, so that it is given no more: `meant` of a guide and of the site."""

from __future__ import annotations

from dataclasses import dataclass

from guidegen.base.codes import CODES, Severity
from guidegen.base.slips import only_meant
from guidegen.model.guide import Meant
from guidegen.model.names import Name
from guidegen.reading.types.base import MOST_ENTRIES, Complaint, Type, Words, list_of
from guidegen.reading.types.maps import named_entries
from guidegen.reading.types.parse_context import ParseContext, near
from guidegen.reading.yaml.nodes import MapNode, Node

# What can be meant: all that stops nothing.
ADVICE = tuple(code for code, row in CODES.items() if row.severity is not Severity.ERROR)


@dataclass(frozen=True, slots=True, kw_only=True)
class AdviceOf(Words[str]):
    """The slug at the end of a piece of advice or a warning."""

    expected: str = "the word at the end of a piece of advice"
    example: str = "steps-out-of-order"

    def of(self, text: str) -> str | Complaint:
        word = text.casefold()
        if word in ADVICE:
            return word
        if word in CODES:
            return Complaint("Mend it and take this out.", f"“{word}” is an error, which cannot be meant.")
        best = near(text, ADVICE)
        return Complaint(
            f"Write {best}." if best else "Copy the word from the end of the message.",
            meant=only_meant(text, ADVICE, ours=True) if best else None,
        )


ADVICE_LIST = list_of(AdviceOf(), "a list of such words")


@dataclass(frozen=True, slots=True, kw_only=True)
class MeantOf(Type[tuple[Meant, ...]]):
    """Words of advice for the whole guide, or by the title of the step that they are about."""

    expected: str = "a list of words of advice, or {step: list}"
    example: str = "[steps-out-of-order]"

    def read(self, node: Node, key: str, context: ParseContext) -> tuple[Meant, ...] | None:
        if not isinstance(node, MapNode):
            slugs = ADVICE_LIST.read(node, key, context)
            return None if slugs is None else tuple(Meant(code=slug) for slug in slugs)
        found: list[Meant] = []
        for title, entry in list(named_entries(node, key, context))[:MOST_ENTRIES]:
            step = Name(text=title, span=context.span(entry.key))
            slugs = ADVICE_LIST.read(entry.value, title, context) or ()
            found += (Meant(code=slug, step=step) for slug in slugs)
        return tuple(found)


MEANT = MeantOf()
