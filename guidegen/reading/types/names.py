"""Types of names of paints and areas: parts of a mixture, what a step paints with, substitutes."""

from __future__ import annotations

import re
from dataclasses import dataclass

from guidegen.base.source import Span
from guidegen.base.suggest import folded
from guidegen.model.guide import Instead, PaintChoice, PaintUse
from guidegen.model.names import Name, Part
from guidegen.reading.types.amounts import Measure, go_together, measure_of
from guidegen.reading.types.base import TEXT, Fields, Label, Type, is_empty, list_of, words_of
from guidegen.reading.types.keys import Key, Record, record_of
from guidegen.reading.types.maps import named_entries
from guidegen.reading.types.mix_words import written_part
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.types.values import Amount
from guidegen.reading.yaml.nodes import Entry, ListNode, MapNode, Node, Scalar
from guidegen.reading.yaml.quoting import shortened

AMOUNT = Amount()
PAINT_NAME = Label(expected="a paint's name", example="Oilskin Ochre")
AREA_NAME = Label(expected="an area", example="coat")


@dataclass(frozen=True, slots=True, kw_only=True)
class PartsOf(Type[tuple[Part, ...]]):
    """Names with how many parts of each; as one text they are taken apart once the palette is known."""

    expected: str = "names with their parts"
    example: str = "{Oilskin Ochre: 2, Ropewalk: 1}"

    def read(self, node: Node, key: str, context: ParseContext) -> tuple[Part, ...] | None:
        """The parts, in the order written; one whose amount could not be read counts as one."""
        if isinstance(node, ListNode):
            node = _as_one_group(node)
        if isinstance(node, Scalar) and not is_empty(node):
            name = PAINT_NAME.read(node, key, context)
            return None if name is None else (Part(name=name, amount=1.0),)
        if not isinstance(node, MapNode) or not node.entries:
            self.refuse(node, key, context)
            return None
        parts = []
        counted: list[tuple[Measure, Entry]] = []
        for text, entry in named_entries(_with_colons(node), key, context):
            if not entry.colon:
                _tell_no_parts(text, context.span(entry.key), context)
                continue
            name = Name(text=text, span=context.span(entry.key))
            amount = AMOUNT.read(entry.value, text, context)
            if amount is not None:
                counted.append((measure_of(words_of(entry.value) or "") or Measure(*amount), entry))
            parts.append(
                Part(name=name, amount=amount[0] if amount else 1.0, touch=bool(amount and amount[1]))
            )
        _tell_odd_measure(counted, context)
        return tuple(parts)


def _as_one_group(node: ListNode) -> Node:
    """`[A: 2, B: 1]` as `{A: 2, B: 1}`; any other list as it is."""
    if not any(isinstance(item, MapNode) for item in node.items):
        return node
    entries: list[Entry] = []
    for item in node.items:
        if isinstance(item, MapNode):
            entries += item.entries
        elif isinstance(item, Scalar):
            entries.append(Entry(item, Scalar("", item.end, item.end), colon=False))
        else:
            return node
    return MapNode(tuple(entries), node.start, node.end, flow=True)


def _with_colons(node: MapNode) -> MapNode:
    """`{A:2}`, which YAML takes for one word, as `{A: 2}`."""
    return node._replace(entries=tuple(_with_colon(entry) for entry in node.entries))


def _with_colon(entry: Entry) -> Entry:
    found = re.fullmatch(r"(.*\S):(\S.*)", entry.key.value, re.DOTALL) if not entry.colon else None
    if found is None or entry.key.style or measure_of(found[2]) is None:
        return entry
    key, value = (
        Scalar(found[at], entry.key.start + found.start(at), entry.key.start + found.end(at)) for at in (1, 2)
    )
    return Entry(key, value)


def _tell_odd_measure(counted: list[tuple[Measure, Entry]], context: ParseContext) -> None:
    """bad-value where some amounts are in per cent or drops and others are not, at the first that differs."""
    if go_together(measure for measure, _ in counted):
        return
    first = counted[0][0]
    odd = next(entry for measure, entry in counted if measure.unit != first.unit)
    context.say(
        "bad-value",
        "Some of these amounts are in per cent or drops, and others are not.",
        context.span(odd.value),
        "Write a drop where that is meant; else give all of them in parts, in per cent or in drops.",
    )


def _tell_no_parts(text: str, span: Span, context: ParseContext) -> None:
    """bad-value for a name in braces with no colon after it, its parts at its end or nowhere."""
    found = re.fullmatch(r"(.*\S)\s+([0-9.]+)", text)
    counted = written_part(text)
    context.say(
        "bad-value",
        f"“{shortened(text)}” stands here without a colon and its parts.",
        span,
        f"Write {shortened(found[1])}: {found[2]}."
        if found
        else f"Write {shortened(counted.name)}: {counted.measure.number:g}."
        if counted.said
        else f"Write {shortened(text)}: 1, or put paints that are not mixed in brackets: [{shortened(text)}, …].",
    )


PARTS = PartsOf()


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintChoiceOf(Type[PaintChoice]):
    """A name, a list of names, names in parts, none, or as before."""

    expected: str = "a paint, a list of paints, or paints in parts"
    example: str = "Oilskin Ochre"

    def read(self, node: Node, key: str, context: ParseContext) -> PaintChoice | None:
        span = context.span(node)
        if isinstance(node, ListNode):
            node = _as_one_group(node)
        if isinstance(node, MapNode):
            parts = PARTS.read(node, key, context)
            return PaintChoice(use=PaintUse.MIXED, parts=parts, span=span) if parts else None
        if isinstance(node, Scalar):
            word = " ".join(node.value.split()).casefold()
            if word in {"none", "as before"}:
                return PaintChoice(use=PaintUse.NONE if word == "none" else PaintUse.AS_BEFORE, span=span)
        elif not node.items:
            self.refuse(node, key, context, "Name the paints in it, or write paint: none.")
            return None
        items = node.items if isinstance(node, ListNode) else (node,)
        names = [PAINT_NAME.read(item, key, context) for item in items]
        parts = tuple(Part(name=name, amount=1.0) for name in names if name is not None and name.text)
        return PaintChoice(use=PaintUse.SIDE_BY_SIDE, parts=parts, span=span) if parts else None


@dataclass(frozen=True, slots=True, kw_only=True)
class SubstitutePaint(Type[tuple[Part, ...]]):
    """One name, or names in parts."""

    expected: str = "a paint, or paints in parts"
    example: str = "Brass Lamp"

    def read(self, node: Node, key: str, context: ParseContext) -> tuple[Part, ...] | None:
        if isinstance(node, MapNode | ListNode):
            return PARTS.read(node, key, context)
        name = PAINT_NAME.read(node, key, context)
        return (Part(name=name, amount=1.0),) if name is not None else None


SUBSTITUTE_PAINT = SubstitutePaint()

INSTEAD = Record(
    noun="substitute",
    about="A substitute of the author's own for what the step paints with.",
    keys=(
        Key(
            "paint",
            SUBSTITUTE_PAINT,
            "The paint to take instead, or several in parts.",
            required=True,
            field="parts",
        ),
        Key(
            "note",
            TEXT,
            "What is different about it, in a few words.",
            example="warmer and a little darker",
        ),
    ),
)


def _instead(fields: Fields) -> Instead | None:
    return Instead(**fields.values, span=fields.span) if fields.values.get("parts") else None


_INSTEAD_RECORD = record_of(INSTEAD, _instead)


@dataclass(frozen=True, slots=True, kw_only=True)
class InsteadOf(Type[Instead]):
    """A name, names in parts, or either with a note; a group with the key `paint` is the last."""

    expected: str = "a paint, paints in parts, or {paint, note}"
    example: str = "Brass Lamp"
    record: Record = INSTEAD

    def read(self, node: Node, key: str, context: ParseContext) -> Instead | None:
        if isinstance(node, MapNode) and any(entry.key.value in {"paint", "note"} for entry in node.entries):
            return _INSTEAD_RECORD.read(node, key, context)
        parts = SUBSTITUTE_PAINT.read(node, key, context)
        return Instead(parts=parts, span=context.span(node)) if parts else None


# What says `all`, folded: that word, what the pages call it in each language, and what people write.
WHOLE_FIGURE = frozenset(
    map(
        folded,
        (
            *(
                "all",
                "everything",
                "everywhere",
                "whole figure",
                "the whole figure",
                "whole model",
                "the whole model",
            ),
            *("alles", "allem", "überall", "ganze Figur", "die ganze Figur"),
        ),
    )
)


@dataclass(frozen=True, slots=True, kw_only=True)
class AreasOf(Type[tuple[Name, ...]]):
    """An area, a list of them, or all, which is read as none in particular."""

    expected: str = "an area, a list of areas, or all"
    example: str = "[coat, hat]"

    def read(self, node: Node, key: str, context: ParseContext) -> tuple[Name, ...] | None:
        """The areas, each once, as first written; empty for all."""
        names = _AREA_LIST.read(node, key, context)
        if names is None or any(folded(name.text) in WHOLE_FIGURE for name in names):
            return None if names is None else ()
        once: dict[str, Name] = {}
        for name in names:
            once.setdefault(folded(name.text), name)
        return tuple(once.values())


_AREA_LIST = list_of(AREA_NAME, "an area, a list of areas, or all")
