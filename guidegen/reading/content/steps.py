"""Steps, stops and inserts, as written in a guide and in shared lists."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from guidegen.base.source import Source
from guidegen.base.suggest import folded
from guidegen.model.guide import Dry, Insert, Step, Stop
from guidegen.model.names import Name
from guidegen.reading.types.base import (
    NAME_TEXT,
    SHORT_TEXT,
    TEXT,
    Fields,
    Label,
    ListOf,
    OneOf,
    Type,
    list_of,
    words_of,
)
from guidegen.reading.types.items import ITEMS
from guidegen.reading.types.keys import Key, Record, read_record, record_of
from guidegen.reading.types.maps import MapOf
from guidegen.reading.types.names import AREA_NAME, AreasOf, InsteadOf, PaintChoiceOf
from guidegen.reading.types.parse_context import ParseContext, near
from guidegen.reading.types.photos import PHOTOS, WrittenPhoto, with_alt
from guidegen.reading.types.stray_lines import joined, with_title
from guidegen.reading.types.times import Duration, TimePerFigure, VideoTime
from guidegen.reading.types.values import MOST_COATS, Share, ThinOf, Volume, Whole, YesNo
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node
from guidegen.reading.yaml.quoting import shortened

DURATION = Duration()
DRYING = Duration(longest=True)
YES_NO = YesNo()

DRY = Record(
    noun="drying time",
    about="How long a coat dries, in the air and with warm air.",
    keys=(
        Key("air", DRYING, "Drying in the air; this is the time that counts.", default="0", example="30 min"),
        Key("warm", DRYING, "Drying with warm air, as a hint.", example="5 min"),
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class DryOf(Type[Dry]):
    """A time, or one in the air and one with warm air."""

    expected: str = "a time such as 30 min, or {air, warm}"
    example: str = "30 min"
    code: str = "bad-duration"
    record: Record = DRY

    def read(self, node: Node, key: str, context: ParseContext) -> Dry | None:
        if isinstance(node, MapNode):
            return _DRY_RECORD.read(node, key, context)
        air = DRYING.read(node, key, context)
        return Dry(air=air) if air is not None else None


_DRY_RECORD = record_of(DRY, lambda fields: Dry(**fields.values))

STOP = Record(
    noun="stop",
    about="A place to call it done.",
    keys=(
        Key(
            "stop",
            NAME_TEXT,
            "What the figures are fit for here.",
            required=True,
            field="name",
            example="Fit to field",
        ),
    ),
)
INSERT = Record(
    noun="insert",
    about="The steps of a file in the shared folder go here.",
    keys=(
        Key(
            "insert",
            Label(expected="the name of a file in the shared folder", example="jetty-base"),
            "The file's name without its ending.",
            required=True,
            field="name",
        ),
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoicesOf(MapOf[tuple[str, ...]]):
    """Choices with their options; what helps is made of the options that stand there without a choice."""

    expected: str = "choices with their options"
    example: str = "{headgear: [hood, straw hat]}"

    def read(self, node: Node, key: str, context: ParseContext) -> dict[str, tuple[str, ...]] | None:
        """The choices; where only options are listed, the one choice that the steps seem to mean."""
        if isinstance(node, MapNode):
            return MapOf.read(self, node, key, context)
        meant = choices_meant(node, context.source)
        words = "; ".join(f"{name}: [{shortened(', '.join(options))}]" for name, options in meant.items())
        self.refuse(node, key, context, f"Write {key}: {{{words}}}." if words else "")
        return meant or None


def choices_meant(node: Node, source: Source) -> dict[str, tuple[str, ...]]:
    """The choices of `choose`, also where it only lists the options of one, which is called as in the steps' only."""
    if isinstance(node, MapNode):
        return {
            words_of(entry.key) or "": tuple(filter(None, map(words_of, entry.value.items)))
            for entry in node.entries
            if isinstance(entry.value, ListNode)
        }
    if isinstance(node, ListNode):
        options = tuple(filter(None, map(words_of, node.items)))
    else:
        options = tuple(word.strip() for word in (words_of(node) or "").split(",") if word.strip())
    named = re.search(r"\bonly:\s*\{\s*([^\s:{}][^:{}\n]*):", source.text)
    return {named[1].strip() if named else "variant": options} if options else {}


@dataclass(frozen=True, slots=True, kw_only=True)
class OnlyOf(MapOf[Name]):
    """Choices with the option that a step belongs to; what helps is made of the guide's own choices."""

    def read(self, node: Node, key: str, context: ParseContext) -> dict[str, Name] | None:
        if isinstance(node, MapNode) and any(entry.colon for entry in node.entries):
            return MapOf.read(self, node, key, context)
        said = node.entries[0].key if isinstance(node, MapNode) and node.entries else node
        text = folded(words_of(said) or "")
        own = [(name, option) for name, options in context.choices.items() for option in options]
        alike = sorted(own, key=lambda one: (folded(one[1]) != text, text not in folded(one[1])))
        name, option = alike[0] if alike else ("", "")
        self.refuse(
            node,
            key,
            context,
            f"Write {key}: {{{name}: {option}}}."
            if name
            else f"Give the guide choose: and write its choice before the option, {key}: {{…: {shortened(words_of(said) or '…')}}}.",
        )
        return None


STEP = Record(
    noun="step",
    about="One thing done to the whole batch, one figure after the other.",
    beside=(STOP, INSERT),
    keys=(
        Key(
            "step",
            SHORT_TEXT,
            "Its title.",
            required=True,
            field="title",
            example="Coats",
            instead_of=("title", "name"),
        ),
        Key(
            "id",
            NAME_TEXT,
            "What its place on the page is named by, and its tick kept under: the old title of one that has a new one.",
            default="its title",
            example="coats",
        ),
        Key(
            "technique",
            NAME_TEXT,
            "How the paint is laid: base coat, wash, dry brush and the like.",
            default="base coat's figures",
            example="base coat",
            instead_of=("method", "how"),
        ),
        Key(
            "area",
            AreasOf(),
            "What is painted: an area, several, or all.",
            default="all",
            field="areas",
            instead_of=("areas", "part", "where"),
        ),
        Key(
            "paint",
            PaintChoiceOf(),
            "What it is painted with; none where no paint is used, as before to tidy up.",
            required=True,
            diagnosed_by_rules=True,
            instead_of=("paints", "colour", "color", "mix", "mixture", "blend"),
        ),
        Key("once", DURATION, "Hands-on time once for the batch: mixing, masking.", default="0"),
        Key(
            "each",
            TimePerFigure(),
            "Hands-on time for each figure and coat.",
            default="0",
            example="4 min",
            instead_of=("time", "times", "duration", "minutes"),
        ),
        Key(
            "dry",
            DryOf(),
            "How long a coat dries, while nobody works on it.",
            default="0",
            instead_of=("drying", "dries", "dry_time", "drying_time", "wait"),
        ),
        Key(
            "holds",
            OneOf(words={"figure": False, "area": True}),
            "What must wait while it dries: the whole figure, or only the area.",
            default="figure",
            field="holds_area",
            example="area",
        ),
        Key("rest", YES_NO, "Whether the work can lie overnight after it.", default="no"),
        Key(
            "coats",
            Whole(high=MOST_COATS),
            "How many coats, each over the whole batch.",
            default="1",
            example="2",
            instead_of=("layers",),
        ),
        Key(
            "brush",
            SHORT_TEXT,
            "Which brush.",
            example="size 2",
            instead_of=("size", "brush size", "brush_size"),
        ),
        Key(
            "thin",
            ThinOf(),
            "How the paint is thinned: parts of paint to thinner, or words.",
            instead_of=("thinning", "thinned", "dilution", "water"),
        ),
        Key(
            "share",
            Share(),
            "The part of the surface that gets paint, for the amount.",
            default="the technique's",
        ),
        Key(
            "amount",
            Volume(expected="an amount such as 0.2 ml", example="0.2 ml"),
            "Paint for each figure and coat, instead of the estimate.",
            default="an estimate",
        ),
        Key(
            "instead",
            list_of(InsteadOf(), "a list of substitutes"),
            "Substitutes of your own for what it is painted with.",
            example="[{paint: Brass Lamp, note: warmer}]",
            instead_of=("substitute", "substitutes", "or"),
        ),
        Key(
            "photo",
            PHOTOS,
            "A photo of the step, or several.",
            field="photos",
            example="{file: coats.jpg, alt: Ochre on the oilskins}",
            instead_of=("photos", "picture", "image", "foto"),
        ),
        Key("alt", TEXT, "What a photo given by its file alone shows.", example="Ochre on the oilskins"),
        Key("at", VideoTime(), "Where it is in the video."),
        Key(
            "mind",
            TEXT,
            "Where to slow down.",
            example="the collar, where a slip shows",
            instead_of=("tip", "tips", "note", "notes", "hint", "careful", "warning", "comment", "remark"),
        ),
        Key(
            "look_for", TEXT, "What it looks like when it is right.", example="an even yellow without streaks"
        ),
        Key("if_wrong", TEXT, "How to repair it.", example="let it dry, then go over it once more"),
        Key("spots", TEXT, "Where exactly the paint goes.", example="under the arms and along the hem"),
        Key(
            "stray",
            list_of(AREA_NAME, "an area, or a list of areas"),
            "Areas where a slip does no harm.",
            example="[hands]",
        ),
        Key("optional", YES_NO, "Whether it can be left out.", default="no"),
        Key(
            "only",
            OnlyOf(
                value=Label(expected="an option", example="hood"),
                expected="a choice and its option",
                example="{headgear: hood}",
            ),
            "The variant that it belongs to.",
            default="every variant",
            instead_of=("variant", "for", "option"),
        ),
        Key("materials", ITEMS, "What this step needs besides paint.", example="[gloss gel]"),
        Key("tools", ITEMS, "Which tools this step needs.", example="[old brush]"),
    ),
)


def none_taken(values: dict[str, Any]) -> dict[str, Any]:
    """The values with `brush: none` and `thin: none` as what they say, so that no default takes their place."""
    none: dict[str, Any] = {}
    if str(values.get("brush", "")).casefold() == "none":
        none["brush"] = ""
    if (thin := values.get("thin")) is not None and thin.text.casefold() == "none":
        none["thin"] = None
    return values | none


def _step(fields: Fields) -> Step:
    values = none_taken(fields.values)
    alt = values.pop("alt", "")
    drafts: tuple[WrittenPhoto, ...] = values.pop("photos", ())
    photos = tuple(with_alt(draft, alt, fields.context) for draft in drafts)
    values.setdefault("title", "")
    return Step(**values, photos=photos, unread=fields.lost, span=fields.span, places=fields.places)


def _stop(fields: Fields) -> Stop | None:
    return Stop(**fields.values, span=fields.span) if "name" in fields.values else None


def _insert(fields: Fields) -> Insert | None:
    name: Name | None = fields.values.get("name")
    return Insert(name=name) if name is not None else None


_ENTRIES: dict[str, tuple[Record, Any]] = {
    "step": (STEP, _step),
    "stop": (STOP, _stop),
    "insert": (INSERT, _insert),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryOf(Type[Step | Stop | Insert]):
    """A step, a stop or an insert, by which of these keys it has; without any it is read as a step."""

    expected: str = "a step, a stop or an insert"
    records: tuple[Record, ...] = (STEP, STOP, INSERT)

    def read(self, node: Node, key: str, context: ParseContext) -> Step | Stop | Insert | None:
        if not isinstance(node, MapNode):
            self.refuse(node, key, context, "Begin it with step: and its title.")
            return None
        words = {entry.key.value.strip() for entry in node.entries}
        kind = next((word for word in _ENTRIES if word in words), None) or next(
            (best for word in sorted(words) if (best := near(word, tuple(_ENTRIES)))), "step"
        )
        if words.isdisjoint(_ENTRIES) and kind == "step":
            node = with_title(node, STEP, context)
        record, build = _ENTRIES[kind]
        fields = read_record(record, node, key, context)
        entry: Step | Stop | Insert | None = build(fields) if fields is not None else None
        return entry


@dataclass(frozen=True, slots=True, kw_only=True)
class StepsOf(ListOf[Step | Stop | Insert]):
    """The steps; a dash before one more key of the step above is told, and passed over."""

    def read(self, node: Node, key: str, context: ParseContext) -> tuple[Step | Stop | Insert, ...] | None:
        if isinstance(node, ListNode):
            node = node._replace(items=tuple(joined(node.items, STEP, context)))
        return super(StepsOf, self).read(node, key, context)


STEPS = StepsOf(
    item=EntryOf(),
    expected="a list of steps, each beginning with - step:",
    lone=False,
    most=None,
    example="",
)
