"""Ranges, paints and house mixes by their tables."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from guidegen.model.paint import COLOURLESS, Kind, LetDown, Mix, Paint, Range
from guidegen.reading.paint_lists.cells import CHOICES
from guidegen.reading.types.base import (
    NAME_TEXT,
    SHORT_TEXT,
    TEXT,
    Fields,
    Label,
    OneOf,
    Type,
    is_empty,
    list_of,
)
from guidegen.reading.types.keys import Key, Record, RecordOf, record_of
from guidegen.reading.types.maps import named_entries
from guidegen.reading.types.names import PAINT_NAME, PARTS
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.types.times import DATE
from guidegen.reading.types.values import Colour, Decimal, Money, Pots, Ratio, Volume, YesNo
from guidegen.reading.yaml.nodes import MapNode, Node

COLOUR = Colour()
VOLUME = Volume()
MONEY = Money()
STRENGTH = Decimal(example="1.5")
ALIASES = list_of(NAME_TEXT, "a list of names")

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
        Key("size", VOLUME, "How much is in a pot."),
        Key("price", MONEY, "What a pot costs, in the site's currency."),
        Key("thinner", SHORT_TEXT, "What thins it.", example="water"),
        Key(
            "drop",
            Volume(expected="the size of a drop such as 0.05 ml", example="0.05", bare=True),
            "How many ml a drop has.",
            default="0.05",
        ),
        Key("note", TEXT, "Anything else.", example="shake well"),
    ),
)


def _range(fields: Fields) -> Range:
    """A range without its name, which stands before the colon."""
    return Range(name="", **fields.values, span=fields.span, places=fields.places)


@dataclass(frozen=True, slots=True, kw_only=True)
class RangesOf(Type[tuple[Range, ...]]):
    """Ranges by name; one with nothing after its colon is a range that says nothing more."""

    expected: str = "names of ranges, each with what holds for it"
    example: str = "{Reedbank Acrylics: {size: 17 ml, price: 2.80}}"
    record: RecordOf[Range]

    def read(self, node: Node, key: str, context: ParseContext) -> tuple[Range, ...] | None:
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
            "colour",
            COLOUR,
            "The colour of the two together.",
            required=True,
            also=("color",),
            example="e0c9a0",
        ),
        Key("parts", Ratio(), "Parts of this paint to parts of white.", required=True),
        Key("white", PAINT_NAME, "Which white.", default="pure white", example="Gull"),
    ),
)


def _let_down(fields: Fields) -> LetDown | None:
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
        Key("name", NAME_TEXT, "Its name on the label.", required=True, example="Oilskin Ochre"),
        Key(
            "range",
            NAME_TEXT,
            "The maker's line it belongs to.",
            default="the site's, else none",
            example="Reedbank Acrylics",
            instead_of=("brand", "maker", "manufacturer", "line", "series"),
        ),
        Key(
            "code",
            NAME_TEXT,
            "The maker's number.",
            example="RB05",
            instead_of=("number", "no", "ref", "sku"),
        ),
        Key("edition", NAME_TEXT, "Tells reformulated pots of one name apart.", example="the old lids"),
        Key("usual", YesNo(), "Whether a bare name means this edition of several.", default="no"),
        Key(
            "aliases",
            ALIASES,
            "Other names for it.",
            example="[Watch Yellow]",
            instead_of=("alias", "also", "aka", "other names"),
        ),
        Key(
            "was",
            ALIASES,
            "Names that it had before: they still lead to it, and so do its old pages.",
            example="[Oilskin Yellow]",
        ),
        Key("kind", KIND, "What is in the pot.", default="paint", instead_of=("type", "category")),
        Key(
            "colour",
            COLOUR,
            "Its colour when dry; not needed for medium, thinner and varnish.",
            also=("color",),
            instead_of=("hex", "rgb", "hex_code", "hexcode", "shade", "swatch"),
        ),
        Key(
            "colour_from",
            _word("maker", "measured", "photo", "eye"),
            "Where its colour comes from: the maker, a measuring instrument, a photo of a card, or by eye.",
            default="the maker",
            also=("color_from",),
        ),
        Key("finish", _word(*CHOICES["finish"]), "How it shines when dry."),
        Key("covers", _word(*CHOICES["covers"]), "How well one coat hides what is under it."),
        Key("binder", _word(*CHOICES["binder"]), "What holds it together."),
        Key("comes_as", _word(*CHOICES["comes_as"]), "What it comes in."),
        Key(
            "size",
            VOLUME,
            "How much is in a pot.",
            default="the range's",
            instead_of=("volume", "ml", "content"),
        ),
        Key("price", MONEY, "What a pot costs.", default="the range's", instead_of=("cost",)),
        Key(
            "owned",
            Pots(),
            "How many pots stand on the shelf.",
            default="0",
            instead_of=("have", "stock", "pots", "count", "quantity"),
        ),
        Key("discontinued", YesNo(), "Whether it is no longer sold.", default="no"),
        Key("twin_of", PAINT_NAME, "The pot that matches a can.", example="Slate Undercoat"),
        Key("note", TEXT, "Anything else.", example="separates; shake it well"),
        Key(
            "hazards",
            list_of(
                Label(expected="a code from the label", example="H222"), "a list of codes from the label"
            ),
            "Hazard codes from the label.",
            example="[H222, H229]",
        ),
        Key(
            "strength",
            STRENGTH,
            "How strongly it colours a mixture, or how strong a film of it is.",
            default="1",
        ),
        Key(
            "let_down",
            record_of(LET_DOWN, _let_down),
            "Its colour let down with white, as measured.",
            example="{colour: e0c9a0, parts: 1:9}",
        ),
    ),
)


def _paint(fields: Fields) -> Paint | None:
    values = fields.values
    if not values.get("name"):
        return None
    if values.get("kind", Kind.PAINT) in COLOURLESS:
        values.pop("colour", None)
    elif not {"colour"} & (fields.places.keys() | fields.empty) and not fields.lost & {"colour", "kind"}:
        fields.context.say(
            "colour-not-known",
            f"The paint “{values['name']}” has no colour, so its chip is empty and nothing can be worked out of it.",
            fields.span,
            'Add colour: with six digits in quotes, as in "#b8862f", when you know it.',
        )
    values["range"] = values.get("range") or None
    return Paint(**values, span=fields.span, places=fields.places)


MIX = Record(
    noun="mix",
    about="A house mix: paints in parts, under a name of its own.",
    keys=(
        Key("name", NAME_TEXT, "What it is called.", required=True, example="Wet slate"),
        Key(
            "parts",
            PARTS,
            "What is in it; other mixes may be.",
            required=True,
            instead_of=("recipe", "ingredients", "mix", "paints", "of"),
        ),
        Key("kind", KIND, "What it is.", default="wash if any part is, else glaze, else paint"),
        Key("colour", COLOUR, "Its colour, as measured.", default="an estimate", also=("color",)),
        Key("strength", STRENGTH, "How strongly it colours, if its parts don't tell."),
        Key("aliases", ALIASES, "Other names for it.", example="[Jetty grey]"),
        Key("note", TEXT, "Anything else.", example="stir it again each time"),
        Key("credit", TEXT, "Whose mix it is.", example="the eel seller"),
        Key("owned", Pots(), "How many pots of it stand bottled on the shelf.", default="0"),
        Key("size", VOLUME, "How much is in a bottled pot."),
        Key("mixed", DATE, "When it was bottled.", example="2026-03-14"),
    ),
)


def _mix(fields: Fields) -> Mix | None:
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
        Key("ranges", RangesOf(record=record_of(RANGE, _range)), "What holds for all paints of a range."),
        Key(
            "paints",
            list_of(
                record_of(PAINT, _paint),
                "a list of paints, each beginning with - name:",
                lone=False,
                most=MOST_PAINTS,
            ),
            "The paints.",
            example="[{name: Oilskin Ochre, colour: b8862f}]",
        ),
        Key(
            "mixes",
            list_of(
                record_of(MIX, _mix),
                "a list of mixes, each beginning with - name:",
                lone=False,
                most=MOST_MIXES,
            ),
            "The house mixes.",
            example="[{name: Wet slate, parts: {Slate: 2, Oilskin Ochre: 1}}]",
        ),
    ),
)
