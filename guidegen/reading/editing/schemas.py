"""What editors can check while an author types: the tables of keys as JSON Schema (draft 2020-12, json-schema.org).

An editor reads a plain value by YAML 1.2's core schema (yaml.org, section 10.3), so a number or a yes may reach it as
such; what our own reading takes as text is let through in those forms. It is never stricter than our reading: what
stands in a text, as a time does, `guidegen check` judges.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from typing import Any

from guidegen.model.site import FORMAT
from guidegen.reading.content.guide import MadeOf, OptionsOf
from guidegen.reading.content.meant import ADVICE, ADVICE_LIST, AdviceOf, MeantOf
from guidegen.reading.content.paints import RangesOf
from guidegen.reading.content.plan_values import ChangeOf, DoneOf, Moment
from guidegen.reading.content.site import FormatOf, GoneOf
from guidegen.reading.content.steps import INSERT, STEP, STOP, ChoicesOf, DryOf, EntryOf, OnlyOf, StepsOf
from guidegen.reading.types.amounts import LEAST_PARTS, MOST_PARTS
from guidegen.reading.types.base import Label, ListOf, NameText, OneOf, PeopleOf, PersonName, Text, Type
from guidegen.reading.types.items import ItemOf
from guidegen.reading.types.keys import Key, Record, RecordOf
from guidegen.reading.types.maps import MapOf
from guidegen.reading.types.names import AreasOf, InsteadOf, PaintChoiceOf, PartsOf, SubstitutePaint
from guidegen.reading.types.photos import CoverOf, PhotoFile, PhotoOf
from guidegen.reading.types.sizes import Base, ScaleOf, Surface
from guidegen.reading.types.standards import Currency, Language, TagAddress, Timezone, Token, Url
from guidegen.reading.types.times import (
    Date,
    Duration,
    HoursOf,
    Minutes,
    TimePerFigure,
    TimetableOf,
    VideoTime,
)
from guidegen.reading.types.values import (
    MOST_FIGURES,
    Amount,
    AtATime,
    Colour,
    Decimal,
    Money,
    Pots,
    Ratio,
    Share,
    ThinOf,
    Volume,
    Whole,
    YesNo,
)

Schema = dict[str, Any]

DRAFT = "https://json-schema.org/draft/2020-12/schema"

_TEXT: Schema = {"type": "string"}
_ANY_TEXT: Schema = {"type": ["string", "number", "boolean"]}


def schema_of(record: Record, *, title: str = "", words: Mapping[str, Iterable[str]] | None = None) -> Schema:
    """The schema of a file that is one record. `words` are known values of a key that takes others as well."""
    builder = _SchemaMaker(words or {})
    body = builder.record(record)
    head: Schema = {
        "$schema": DRAFT,
        "title": title or record.noun.capitalize(),
        "$comment": "Made by guidegen for editors, and made anew by guidegen start --editor-help.",
    }
    return head | body | ({"$defs": builder.shared} if builder.shared else {})


class _SchemaMaker:
    """Makes schemas of types; a record that several keys take is written once, under $defs."""

    def __init__(self, words: Mapping[str, Iterable[str]]) -> None:
        self.words = words
        self.shared: dict[str, Schema] = {}

    def record(self, record: Record) -> Schema:
        """An object with the table's keys and no others."""
        properties: dict[str, Schema] = {}
        rules: list[Schema] = []
        required = []
        for row in record.keys:
            value = self._row(record, row)
            properties |= dict.fromkeys((row.name, *row.also), value)
            if row.also:
                spelled = [{"required": [word]} for word in (row.name, *row.also)]
                rules.append(
                    {"oneOf": spelled} if row.required else {"not": {"required": [row.name, *row.also]}}
                )
            elif row.required:
                required.append(row.name)
        schema: Schema = {
            "description": record.about,
            "type": "object",
            "properties": properties,
            "additionalProperties": False,
        }
        return schema | ({"required": required} if required else {}) | ({"allOf": rules} if rules else {})

    def _row(self, record: Record, row: Key) -> Schema:
        schema: Schema = {"description": row.teaches} | self.of(row.type)
        if row.required and schema.get("type") == "array":
            schema["minItems"] = 1
        known = tuple(self.words.get(f"{record.noun}: {row.name}", ()))
        return schema | ({"examples": list(known)} if known else {})

    def named(self, record: Record) -> Schema:
        """A reference to a record under $defs."""
        name = record.noun.replace(" ", "-")
        if name not in self.shared:
            self.shared[name] = self.record(record)
        return {"$ref": f"#/$defs/{name}"}

    def of(self, of: Type[Any]) -> Schema:
        return _MAKERS[type(of)](self, of)

    def list_of(self, of: ListOf[Any]) -> Schema:
        """A list, or one value where that will do."""
        item = self.of(of.item)
        several = {"type": "array", "items": item}
        return {"anyOf": [item, several]} if of.lone else several

    def parts(self, _: Type[Any]) -> Schema:
        """Names with their parts; `{A:2}` reaches an editor as a key with nothing behind it."""
        amount = _either({"type": "number", "minimum": LEAST_PARTS, "maximum": MOST_PARTS}, _TEXT)
        glued = {"type": "null"}
        return {
            "type": "object",
            "minProperties": 1,
            "patternProperties": {r":\s*\S": _either(amount, glued)},
            "additionalProperties": amount,
        }

    def mixture(self, of: Type[Any]) -> Schema:
        """Parts in braces, as a list of single ones, or as one text."""
        parts = self.parts(of)
        return _either(parts, _TEXT, {"type": "array", "items": parts, "minItems": 1})

    def substitute(self, of: InsteadOf) -> Schema:
        """A paint, parts, or a group with the key paint."""
        parts = self.parts(of)
        is_group = {"anyOf": [{"required": ["paint"]}, {"required": ["note"]}]}
        group = {"if": is_group, "then": self.named(of.record), "else": parts}
        return {"anyOf": [_ANY_TEXT, {"type": "object"} | group]}

    def entry(self, _: EntryOf) -> Schema:
        """A step, a stop or an insert, by which of these words it has; without any it is a step."""
        step, stop, insert = (self.named(record) for record in (STEP, STOP, INSERT))
        rest = {"if": {"required": ["insert"]}, "then": insert, "else": step}
        rest = {"if": {"required": ["stop"]}, "then": stop, "else": rest}
        return {"type": "object", "if": {"required": ["step"]}, "then": step, "else": rest}


def _either(*schemas: Schema) -> Schema:
    return {"anyOf": list(schemas)}


def _in_any_case(words: Iterable[str]) -> Schema:
    """One of the words, blanks around it aside."""
    spelled = "|".join(
        "".join(f"[{c.upper()}{c.lower()}]" if c.isalpha() else re.escape(c) for c in word) for word in words
    )
    return {"type": "string", "pattern": rf"^\s*({spelled})\s*$"}


def _one_of(words: Iterable[str]) -> Schema:
    """The words for an editor to offer, and the same in any case."""
    listed = list(words)
    return _either({"enum": listed}, _in_any_case(listed))


def _whole(low: int, high: int) -> Schema:
    return _either({"type": "integer", "minimum": low, "maximum": high}, _TEXT)


_YES_NO = _either(
    {"enum": ["yes", "no"]},
    {"type": "boolean"},
    {"enum": [0, 1]},
    _in_any_case(("yes", "no", "true", "false", "on", "off", "1", "0")),
)
_DURATION = _either({"type": "number", "minimum": 0}, _TEXT)
_HOURS = _either(_TEXT, {"type": "array", "items": _TEXT})
_AREAS = _either(_ANY_TEXT, {"type": "array", "items": _ANY_TEXT})
_Maker = Callable[[_SchemaMaker, Any], Schema]


def _always(schema: Schema) -> _Maker:
    return lambda _builder, _of: schema


def _or_group(*alone: Schema) -> Callable[[_SchemaMaker, Any], Schema]:
    return lambda builder, of: _either(*alone, builder.named(of.record))


# A schema for every class of type that a table can have; one that is missing is found by the tests.
_MAKERS: Mapping[type, _Maker] = {
    **dict.fromkeys((Text, NameText, PersonName, Label, ThinOf, PhotoFile, Token), _always(_ANY_TEXT)),
    **dict.fromkeys(
        (
            Base,
            Currency,
            Date,
            HoursOf,
            Moment,
            Ratio,
            ScaleOf,
            Share,
            Surface,
            TagAddress,
            Timezone,
            Url,
            VideoTime,
        ),
        _always(_TEXT),
    ),
    OneOf: lambda _builder, of: _one_of(of.words),
    FormatOf: _always(_whole(1, FORMAT)),
    Whole: lambda _builder, of: _whole(of.low, of.high),
    AtATime: _always(_whole(1, MOST_FIGURES)),
    Pots: lambda _builder, _of: _either(_whole(0, 10_000), _YES_NO),
    YesNo: _always(_YES_NO),
    Decimal: lambda _builder, of: _either(
        {"type": "number", "exclusiveMinimum": 0, "maximum": of.high}, _TEXT
    ),
    Money: _always(_either({"type": "number", "minimum": 0}, _TEXT)),
    Colour: _always({"type": ["string", "number"]}),
    Volume: lambda _builder, of: _either(_TEXT, *[{"type": "number", "exclusiveMinimum": 0}] * of.bare),
    Amount: lambda builder, of: builder.parts(of)["additionalProperties"],
    **dict.fromkeys((Duration, Minutes, TimePerFigure), _always(_DURATION)),
    TimetableOf: _always({"type": "object", "additionalProperties": _HOURS}),
    Language: _always({"type": ["string", "boolean"]}),
    **dict.fromkeys((ListOf, PeopleOf, StepsOf), _SchemaMaker.list_of),
    **dict.fromkeys(
        (MapOf, OnlyOf, ChoicesOf),
        lambda builder, of: {"type": "object", "additionalProperties": builder.of(of.value)},
    ),
    **dict.fromkeys((RecordOf, MadeOf), lambda builder, of: builder.named(of.record)),
    **dict.fromkeys((ItemOf, PhotoOf, CoverOf, GoneOf), _or_group(_ANY_TEXT)),
    **dict.fromkeys((ChangeOf, DryOf), _or_group(*_DURATION["anyOf"])),
    DoneOf: _always(_either(_ANY_TEXT, {"type": "object", "additionalProperties": _ANY_TEXT})),
    OptionsOf: _always(_either(_ANY_TEXT, {"type": "array", "items": _ANY_TEXT, "minItems": 1})),
    AreasOf: _always(_AREAS),
    AdviceOf: _always(_one_of(ADVICE)),
    MeantOf: lambda builder, _of: _either(
        builder.of(ADVICE_LIST), {"type": "object", "additionalProperties": builder.of(ADVICE_LIST)}
    ),
    PartsOf: _SchemaMaker.mixture,
    PaintChoiceOf: lambda builder, of: _either(
        _ANY_TEXT, {"type": "array", "items": _ANY_TEXT, "minItems": 1}, builder.mixture(of)
    ),
    SubstitutePaint: lambda builder, of: _either(_ANY_TEXT, builder.mixture(of)),
    InsteadOf: _SchemaMaker.substitute,
    EntryOf: _SchemaMaker.entry,
    RangesOf: lambda builder, of: {
        "type": "object",
        "additionalProperties": builder.named(of.record.record),
    },
}
