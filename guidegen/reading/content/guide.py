"""A guide: its front matter by the table, its inserts put in, its text divided among the steps."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.listing import EMPTY, Listing
from guidegen.base.source import Source
from guidegen.model.guide import Body, Guide, GuideKind, PaintedBatch, Step, StepDefaults, Stop, UsedPaint
from guidegen.model.site import Defaults
from guidegen.reading.content.meant import MEANT
from guidegen.reading.content.reference import REFERENCES
from guidegen.reading.content.shared import SharedLists, expanded
from guidegen.reading.content.step_defaults import STEP_DEFAULT_KEYS, step_defaults, with_defaults
from guidegen.reading.content.steps import STEP, STEPS, ChoicesOf, choices_meant
from guidegen.reading.types.base import (
    NAME_TEXT,
    PERSON,
    SHORT_TEXT,
    TEXT,
    Fields,
    Label,
    OneOf,
    PeopleOf,
    Type,
    list_of,
    words_of,
)
from guidegen.reading.types.items import ITEMS
from guidegen.reading.types.keys import Key, Record, RecordOf, read_record, record_of
from guidegen.reading.types.maps import MapOf
from guidegen.reading.types.names import AREA_NAME
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.types.photos import CoverOf
from guidegen.reading.types.sizes import Base, ScaleOf, Surface
from guidegen.reading.types.standards import Language, Url
from guidegen.reading.types.times import Date, Minutes
from guidegen.reading.types.values import AtATime, Colour, Whole, YesNo
from guidegen.reading.yaml.front_matter import GUIDE_FILE
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, Scalar

FIGURES = Whole(example="10")
BATCH = AtATime()
SCALE = ScaleOf()
BASE = Base()
MINUTES = Minutes()
CHOSEN = MapOf(
    value=Label(expected="an option", example="hood"),
    expected="choices with the option taken",
    example="{headgear: hood}",
)
MIXED = MapOf(
    value=MapOf(
        value=Whole(low=0, example="7"),
        expected="options with how many figures take each",
        example="{hood: 7, straw hat: 5}",
    ),
    expected="one choice with how many figures take each option",
    example="{headgear: {hood: 7, straw hat: 5}}",
)
GUIDE_NAME = Label(expected="a guide's address", example="ferry-watch")

USED = Record(
    noun="pot that was used",
    about="A pot as it was when a batch was painted.",
    keys=(
        Key("paint", NAME_TEXT, "Its range and name.", required=True, example="Oilskin Ochre"),
        Key("edition", NAME_TEXT, "Which edition it was.", example="the old lids"),
        Key("colour", Colour(), "Its colour then.", also=("color",)),
    ),
)


def _used(fields: Fields) -> UsedPaint | None:
    return UsedPaint(**fields.values) if fields.values.get("paint") else None


MADE = Record(
    noun="batch",
    about="A batch painted by this guide.",
    keys=(
        Key("date", Date(), "When it was done.", required=True),
        Key("figures", FIGURES, "How many figures it had.", required=True),
        Key(
            "minutes",
            MapOf(
                value=MINUTES,
                expected="titles of steps with the minutes that they took",
                example="{Coats: 52}",
            ),
            "How long steps took, hands on.",
            example='{"Coats": 52}',
        ),
        Key(
            "choose",
            CHOSEN,
            "The variant that was painted.",
            default="the first",
        ),
        Key("mixed", MIXED, "How many figures took each option of one choice.", default="all alike"),
        Key("by", PERSON, "Who painted it: a key of the site's people, or a name.", default="the author"),
        Key(
            "used",
            list_of(record_of(USED, _used), "a list of {paint, edition, colour}"),
            "Which pots it was painted with, as guidegen made writes them down.",
            example="[{paint: Oilskin Ochre, colour: b8862f}]",
        ),
        Key("note", TEXT, "What was different.", example="darker folds this time"),
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class MadeOf(RecordOf[PaintedBatch]):
    """A batch; one that is written in words is shown as it has to be typed."""

    def read(self, node: Node, key: str, context: ParseContext) -> PaintedBatch | None:
        text = words_of(node) if isinstance(node, Scalar) else None
        date, number = (
            re.search(form, text or "") for form in (r"\d{4}-\d\d?-\d\d?", r"(?<![\d-])\d{1,4}(?![\d-])")
        )
        if text is None or date is None:
            return RecordOf.read(self, node, key, context)
        figures = number[0] if number else "10"
        self.refuse(node, key, context, f"Write {key}: [{{date: {date[0]}, figures: {figures}}}].")
        return None


def _made(fields: Fields) -> PaintedBatch | None:
    known = {"date", "figures"} <= fields.values.keys()
    return PaintedBatch(**fields.values, places=fields.places) if known else None


@dataclass(frozen=True, slots=True, kw_only=True)
class OptionsOf(Type[tuple[str, ...]]):
    """The options of one choice, at least one; the first is the default."""

    expected: str = "a list of options"
    example: str = "[hood, straw hat]"

    def read(self, node: Node, key: str, context: ParseContext) -> tuple[str, ...] | None:
        options = _OPTION_LIST.read(node, key, context)
        if not options:
            if isinstance(node, ListNode) and not node.items:
                self.refuse(node, key, context, "Write at least one option.")
            return None
        return tuple(dict.fromkeys(options))


_OPTION_LIST = list_of(NAME_TEXT, "a list of options")

# `batch` and `range` are for plans and palettes, which belong to no guide.
GUIDE_DEFAULTS = Record(
    noun="set of a guide's defaults",
    about="What the guide and its steps take where they say nothing, before what the site has.",
    keys=(
        *STEP_DEFAULT_KEYS,
        Key("figures", FIGURES, "The batch that the times are shown for.", default="the site's, else 1"),
        Key("scale", SCALE, "The scale of the figures.", default="the site's, else 1:56"),
        Key("base", BASE, "How wide the round base of one figure is.", default="the site's, else none"),
    ),
)


def _guide_defaults(fields: Fields) -> dict[str, Any]:
    """The values that stand in for the guide's own, and under `for_steps` those for its steps."""
    for_steps = step_defaults(fields)
    return fields.values | {"for_steps": for_steps}


GUIDE = Record(
    noun="guide",
    about="How some figures are painted, step by step.",
    beside=(STEP,),
    keys=(
        Key(
            "title",
            SHORT_TEXT,
            "What the guide is called.",
            required=True,
            example="Ferry watch in wet oilskins",
            instead_of=("name",),
        ),
        Key(
            "summary",
            TEXT,
            "One or two sentences for lists and search engines.",
            example="Ten watchmen of the night ferry, done over two evenings.",
            instead_of=("description", "intro"),
        ),
        Key(
            "author",
            PeopleOf(),
            "Who painted and wrote it: a key of the site's people or a name, or several.",
            default="the site's author",
            field="authors",
            example="the Tuesday painters",
        ),
        Key("credit", TEXT, "Whom else to thank.", example="the lamp boys, for the mix"),
        Key(
            "licence",
            TEXT,
            "On what terms others may use it.",
            also=("license",),
            example="free to copy and to change",
        ),
        Key("video", Url(), "The address of a video of it."),
        Key("language", Language(), "The language it is written in.", default="the site's language"),
        Key(
            "kind",
            OneOf(words={kind.value: kind for kind in GuideKind}),
            "What it is: figures painted, or a handbook’s page of words, without figures, times and bench.",
            default="painting",
            example="handbook",
        ),
        Key("date", Date(), "When it was written."),
        Key("published", Date(), "When it came onto the site, where that was later.", default="the date"),
        Key("updated", Date(), "When it was last changed in a way that readers should hear of."),
        Key(
            "tags",
            list_of(NAME_TEXT, "a list of tags"),
            "Words to find it by.",
            example="[ferry watch, batch]",
            instead_of=("keywords",),
        ),
        Key(
            "see", list_of(GUIDE_NAME, "a list of guides"), "Other guides to look at.", example="[lamp-boys]"
        ),
        Key(
            "was",
            list_of(GUIDE_NAME, "a list of old addresses"),
            "Addresses that it had before; a page there leads here.",
            example="[jetty-watch]",
        ),
        Key(
            "defaults",
            record_of(GUIDE_DEFAULTS, _guide_defaults),
            "What its steps take where they say nothing.",
            default="the site's",
            example="{technique: base coat, dry: 15 min, brush: size 2}",
        ),
        Key("draft", YesNo(), "Whether only the preview shows it.", default="no"),
        Key("scale", SCALE, "The scale of the figures.", default="1:56, and the page says so"),
        Key("base", BASE, "How wide the round base of one figure is.", default="the site's, else none"),
        Key("surface", Surface(), "What there is to paint on mounts, boats and walls."),
        Key("figures", FIGURES, "The batch that the times are shown for.", default="1"),
        Key(
            "batch", BATCH, "How many figures plans paint at a time, or all.", default="the site's, else all"
        ),
        Key(
            "cover",
            CoverOf(),
            "The picture that stands for the guide.",
            instead_of=("photo", "picture", "image"),
        ),
        Key(
            "figure",
            Label(expected="the name of a starter chart"),
            "A starter chart, where no figure.svg lies beside the guide.",
            example="watchman",
        ),
        Key(
            "materials",
            ITEMS,
            "What the whole guide needs besides paint.",
            example="[cork, {name: gloss gel, for: puddles}]",
        ),
        Key("tools", ITEMS, "Which tools the whole guide needs.", example="[size 2 brush, worn flat brush]"),
        Key(
            "reference",
            REFERENCES,
            "Pictures that the scheme follows.",
            example="[{file: sketch.jpg, alt: A watchman in pencil}]",
        ),
        Key(
            "made",
            list_of(
                MadeOf(record=MADE, build=_made, expected="a batch with its date and figures"),
                "a list of {date, figures, note}",
                commas=True,
            ),
            "Batches painted so far.",
            example="[{date: 2026-03-14, figures: 10}]",
        ),
        Key(
            "leave",
            list_of(AREA_NAME, "an area, or a list of areas"),
            "Areas that stay as undercoat on purpose.",
            example="[straps]",
        ),
        Key(
            "meant",
            MEANT,
            "Advice that is intended, by the word at its end, and is given no more; by step where it is for one.",
            example="{Seal: [steps-out-of-order]}",
        ),
        Key(
            "choose",
            ChoicesOf(value=OptionsOf()),
            "Variants of the scheme.",
        ),
        Key(
            "steps",
            STEPS,
            "What is done, in order.",
            required=True,
            example="[{step: Prime, technique: spray, paint: Slate Undercoat, each: 20 s}]",
        ),
    ),
)


def read_guide(
    source: Source,
    *,
    slug: str,
    listing: Listing = EMPTY,
    defaults: Defaults | None = None,
    shared: SharedLists | None = None,
    chart: str | None = None,
    people: Mapping[str, str] = MappingProxyType({}),
) -> tuple[Guide | None, tuple[Diagnostic, ...]]:
    """A guide from its file, a pure function of what it is given.

    What cannot be read is told and stays at its default, so that every other check still runs: a step's paint is then None
    with a place in `places`, while a paint left out has no place. None comes back only where nothing can be read: no front
    matter, or one that is broken. `chart` is the path of the figure.svg beside it, `people` leads from the folded keys of
    the site's people to their names.
    """
    context = ParseContext(source, listing)
    if (parts := context.front_matter(GUIDE_FILE)) is None:
        return None, tuple(context.diagnostics)
    root, text = parts
    context.choices, context.people = _choices(root, source), people
    fields = read_record(GUIDE, root, "", context)
    if fields is None:
        return None, tuple(context.diagnostics)
    values, for_steps = _with_defaults(fields.values, defaults or Defaults())
    written, inserts = expanded(values.pop("steps", ()), shared or {}, context)
    entries = with_defaults(written, *for_steps)
    guide = Guide(
        **values,
        slug=slug,
        file=source.file,
        entries=entries,
        inserts=inserts,
        body=_body(context, text, entries),
        chart=chart,
        span=fields.span,
        places=fields.places,
    )
    return guide, tuple(context.diagnostics)


def _choices(root: Node, source: Source) -> dict[str, tuple[str, ...]]:
    """What the guide lets its readers choose, for what is told of its steps; nothing is told of it here."""
    entries = root.entries if isinstance(root, MapNode) else ()
    chosen = next((entry.value for entry in entries if entry.key.value.strip() == "choose"), None)
    return choices_meant(chosen, source) if chosen is not None else {}


def _with_defaults(
    values: dict[str, Any], site: Defaults
) -> tuple[dict[str, Any], tuple[StepDefaults, StepDefaults]]:
    """A guide's values with its own defaults and the site's, and the defaults of steps, its own first."""
    own: dict[str, Any] = values.pop("defaults", {})
    for_steps = own.pop("for_steps", StepDefaults())
    plain = {
        "title": "",
        "figures": site.figures,
        "scale": site.scale,
        "batch": site.batch,
        "base": site.base,
    }
    whole = {**plain, **own, **values}
    whole["base"] = whole["base"] or None
    whole["batch"] = whole["batch"] or None
    whole["author"] = ", ".join(whole.get("authors", ()))
    return whole, (for_steps, site.steps)


def _body(context: ParseContext, start: int, entries: Iterable[Step | Stop]) -> Body:
    """The guide's text; its reader is only loaded where there is one."""
    if not context.source.text[start:].strip():
        return Body()
    from guidegen.reading.markdown.body import read_body

    return read_body(context, start, tuple(entry.title for entry in entries if isinstance(entry, Step)))
