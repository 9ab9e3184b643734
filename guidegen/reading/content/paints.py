"""Ranges, paints and house mixes by their tables."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from guidegen.model.paint import COLOURLESS, Kind, LetDown, Mix, Paint, Range
from guidegen.reading.types.base import SHORT_TEXT, Fields, Label, OneOf, Text, Type, is_empty, list_of
from guidegen.reading.types.keys import Key, Record, RecordOf, record_of
from guidegen.reading.types.maps import named_entries
from guidegen.reading.types.names import PAINT_NAME, PARTS
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.types.values import Colour, Decimal, Money, Pots, Ratio, Volume, YesNo
from guidegen.reading.yaml.nodes import MapNode, Node

TEXT = Text()
COLOUR = Colour()
VOLUME = Volume()
MONEY = Money()
STRENGTH = Decimal(example="1.5")
ALIASES = list_of(SHORT_TEXT, "a list of names")

# In one file. Every pot has a page, and is compared with all others; three thousand paints are all ranges of a shop.
MOST_PAINTS = 4_000
MOST_MIXES = 2_000

# Two words that painters use for kinds of the table.
KINDS: Mapping[str, Kind] = MappingProxyType(
    {kind.value: kind for kind in Kind} | {"undercoat": Kind.PRIMER, "shade": Kind.WASH}
)
KIND = OneOf(words=KINDS, expected="a kind such as paint or wash", example="wash")


def _word(*words: str) -> OneOf[str]:
    return OneOf(words={word: word for word in words})


RANGE = Record(
    noun="range",
    about="A maker's line of paints; what it says holds for its paints that don't say otherwise.",
    keys=(
        Key(name="size", type=VOLUME, about="How much is in a pot."),
        Key(name="price", type=MONEY, about="What a pot costs, in the site's currency."),
        Key(name="thinner", type=SHORT_TEXT, about="What thins it.", example="water"),
        Key(
            name="drop",
            type=Volume(expected="the size of a drop such as 0.05 ml", example="0.05", bare=True),
            about="How many ml a drop has.",
            default="0.05",
        ),
        Key(name="note", type=TEXT, about="Anything else.", example="shake well"),
    ),
)


def _range(fields: Fields, context: ParseContext) -> Range:
    """A range without its name, which stands before the colon."""
    del context
    return Range(name="", **fields.values, span=fields.span, places=fields.places)


@dataclass(frozen=True, slots=True, kw_only=True)
class RangesOf(Type[tuple[Range, ...]]):
    """Ranges by name; one with nothing after its colon is a range that says nothing more."""

    expected: str = "names of ranges, each with what holds for it"
    example: str = "{Reedbank Acrylics: {size: 17 ml, price: 2.80}}"
    record: RecordOf[Range]

    def read(self, node: Node, key: str, context: ParseContext) -> tuple[Range, ...] | None:
        """The ranges in the order written; a range's span is its name's."""
        if not isinstance(node, MapNode):
            self.refuse(node, key, context)
            return None
        ranges = []
        for name, entry in named_entries(node, key, context):
            span = context.span(entry.key)
            if is_empty(entry.value):
                message = f"Nothing stands after {name}, so nothing more is known of this range."
                context.say(
                    "empty-value", message, span, "Write {size: 17 ml} or the like after it, or take it out."
                )
            found = None if is_empty(entry.value) else self.record.read(entry.value, name, context)
            ranges.append(
                replace(found, name=name, span=span)
                if found is not None
                else Range(name=name, span=span, places={})
            )
        return tuple(ranges)


LET_DOWN = Record(
    noun="let-down",
    about="The paint let down with white, as measured, which makes its mixes come out truer.",
    keys=(
        Key(
            name="colour",
            type=COLOUR,
            about="The colour of the two together.",
            required=True,
            also=("color",),
            example="e0c9a0",
        ),
        Key(name="parts", type=Ratio(), about="Parts of this paint to parts of white.", required=True),
        Key(name="white", type=PAINT_NAME, about="Which white.", default="pure white", example="Gull"),
    ),
)


def _let_down(fields: Fields, context: ParseContext) -> LetDown | None:
    del context
    values = fields.values
    if not {"colour", "parts"} <= values.keys():
        return None
    paint, white = values["parts"]
    return LetDown(
        colour=values["colour"],
        paint_parts=paint,
        white_parts=white,
        white=values.get("white"),
        span=fields.span,
    )


PAINT = Record(
    noun="paint",
    about="A pot of paint.",
    keys=(
        Key(
            name="name",
            type=SHORT_TEXT,
            about="Its name on the label.",
            required=True,
            example="Oilskin Ochre",
        ),
        Key(
            name="range",
            type=SHORT_TEXT,
            about="The maker's line it belongs to.",
            default="the site's, else none",
            example="Reedbank Acrylics",
        ),
        Key(name="code", type=SHORT_TEXT, about="The maker's number.", example="RB05"),
        Key(
            name="edition",
            type=SHORT_TEXT,
            about="Tells reformulated pots of one name apart.",
            example="the old lids",
        ),
        Key(name="aliases", type=ALIASES, about="Other names for it.", example="[Watch Yellow]"),
        Key(name="kind", type=KIND, about="What is in the pot.", default="paint"),
        Key(
            name="colour",
            type=COLOUR,
            about="Its colour when dry; not needed for medium, thinner and varnish.",
            also=("color",),
        ),
        Key(name="finish", type=_word("matt", "satin", "gloss"), about="How it shines when dry."),
        Key(
            name="covers",
            type=_word("well", "fair", "poor"),
            about="How well one coat hides what is under it.",
        ),
        Key(
            name="binder", type=_word("acrylic", "enamel", "oil", "lacquer"), about="What holds it together."
        ),
        Key(name="comes_as", type=_word("pot", "can", "airbrush"), about="What it comes in."),
        Key(name="size", type=VOLUME, about="How much is in a pot.", default="the range's"),
        Key(name="price", type=MONEY, about="What a pot costs.", default="the range's"),
        Key(name="owned", type=Pots(), about="How many pots stand on the shelf.", default="0"),
        Key(name="discontinued", type=YesNo(), about="Whether it is no longer sold.", default="no"),
        Key(name="twin_of", type=PAINT_NAME, about="The pot that matches a can.", example="Slate Undercoat"),
        Key(name="note", type=TEXT, about="Anything else.", example="separates; shake it well"),
        Key(
            name="hazards",
            type=list_of(
                Label(expected="a code from the label", example="H222"), "a list of codes from the label"
            ),
            about="Hazard codes from the label.",
            example="[H222, H229]",
        ),
        Key(
            name="strength",
            type=STRENGTH,
            about="How strongly it colours a mixture, or how strong a film of it is.",
            default="1",
        ),
        Key(
            name="let_down",
            type=record_of(LET_DOWN, _let_down),
            about="Its colour let down with white, as measured.",
            example="{colour: e0c9a0, parts: 1:9}",
        ),
    ),
)


def _paint(fields: Fields, context: ParseContext) -> Paint | None:
    values = fields.values
    if not values.get("name"):
        return None
    if values.get("kind", Kind.PAINT) in COLOURLESS:
        values.pop("colour", None)
    elif "colour" not in fields.places and not fields.lost & {"colour", "kind"}:
        context.say(
            "missing-key",
            f"The paint “{values['name']}” has no colour.",
            fields.span,
            'Add colour: with six digits in quotes, as in "#b8862f"; only mediums, thinners and varnishes have none.',
        )
    values["range"] = values.get("range") or None
    return Paint(**values, span=fields.span, places=fields.places)


MIX = Record(
    noun="mix",
    about="A house mix: paints in parts, under a name of its own.",
    keys=(
        Key(name="name", type=SHORT_TEXT, about="What it is called.", required=True, example="Wet slate"),
        Key(name="parts", type=PARTS, about="What is in it; other mixes may be.", required=True),
        Key(
            name="kind", type=KIND, about="What it is.", default="wash if any part is, else glaze, else paint"
        ),
        Key(
            name="colour",
            type=COLOUR,
            about="Its colour, as measured.",
            default="an estimate",
            also=("color",),
        ),
        Key(name="strength", type=STRENGTH, about="How strongly it colours, if its parts don't tell."),
        Key(name="aliases", type=ALIASES, about="Other names for it.", example="[Jetty grey]"),
        Key(name="note", type=TEXT, about="Anything else.", example="stir it again each time"),
        Key(name="credit", type=TEXT, about="Whose mix it is.", example="the eel seller"),
    ),
)


def _mix(fields: Fields, context: ParseContext) -> Mix | None:
    del context
    values = fields.values
    if not values.get("name"):
        return None
    values.setdefault("parts", ())
    return Mix(**values, span=fields.span, places=fields.places)


PALETTE = Record(
    noun="palette",
    about="Ranges, paints and house mixes.",
    beside=(PAINT, MIX),
    keys=(
        Key(
            name="ranges",
            type=RangesOf(record=record_of(RANGE, _range)),
            about="What holds for all paints of a range.",
        ),
        Key(
            name="paints",
            type=list_of(
                record_of(PAINT, _paint),
                "a list of paints, each beginning with - name:",
                lone=False,
                most=MOST_PAINTS,
            ),
            about="The paints.",
            example="[{name: Oilskin Ochre, colour: b8862f}]",
        ),
        Key(
            name="mixes",
            type=list_of(
                record_of(MIX, _mix),
                "a list of mixes, each beginning with - name:",
                lone=False,
                most=MOST_MIXES,
            ),
            about="The house mixes.",
            example="[{name: Wet slate, parts: {Slate: 2, Oilskin Ochre: 1}}]",
        ),
    ),
)
