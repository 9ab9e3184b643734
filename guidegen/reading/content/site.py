"""site.yaml: what holds for the whole site."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.paths import slug
from guidegen.base.source import Source, Span
from guidegen.model.site import FIRST_FORMAT, FORMAT, Defaults, Gone, Person, Site
from guidegen.reading.content.guide import BASE, BATCH, FIGURES, SCALE
from guidegen.reading.content.meant import ADVICE_LIST
from guidegen.reading.content.step_defaults import STEP_DEFAULT_KEYS, step_defaults
from guidegen.reading.content.steps import DRYING
from guidegen.reading.types.base import NAME_TEXT, SHORT_TEXT, TEXT, Complaint, Fields, Type, Words, words_of
from guidegen.reading.types.keys import Key, Record, read_record, record_of
from guidegen.reading.types.maps import MapOf
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.types.standards import Currency, Language, TagAddress, Timezone, Token, Url
from guidegen.reading.types.times import Date
from guidegen.reading.yaml.nodes import MapNode, Node


@dataclass(frozen=True, slots=True, kw_only=True)
class FormatOf(Words[int]):
    """The rules the content is written by: those of today, or earlier ones, which are still read."""

    expected: str = f"a whole number up to {FORMAT}"
    example: str = str(FORMAT)

    def of(self, text: str) -> int | Complaint:
        number = int(text) if re.fullmatch("[0-9]{1,6}", text) else 0
        return number or Complaint(f"Write {FORMAT}.")


DEFAULTS = Record(
    noun="set of defaults",
    about="What guides, steps, plans and paints take where they say nothing.",
    keys=(
        Key("figures", FIGURES, "The batch that times are shown for.", default="1"),
        Key("scale", SCALE, "The scale of the figures.", default="1:56"),
        Key("base", BASE, "How wide the round base of one figure is.", default="none"),
        Key("batch", BATCH, "How many figures of a unit are painted at a time.", default="all"),
        Key(
            "range",
            NAME_TEXT,
            "The range of paints that name none.",
            default="none",
            example="Reedbank Acrylics",
        ),
        *STEP_DEFAULT_KEYS,
    ),
)


def _defaults(fields: Fields) -> Defaults:
    values = fields.values
    steps = step_defaults(fields)
    values["base"] = values.get("base") or None
    values["batch"] = values.get("batch") or None
    values["range"] = values.get("range") or None
    return Defaults(**values, steps=steps)


PERSON_RECORD = Record(
    noun="person",
    about="Somebody who paints or writes here.",
    keys=(
        Key("name", SHORT_TEXT, "The name as it is shown.", required=True, example="Odda of the lock"),
        Key("link", Url(), "A page of their own elsewhere."),
    ),
)


def _person(fields: Fields) -> Person | None:
    return Person(**fields.values) if fields.values.get("name") else None


GONE_RECORD = Record(
    noun="guide that is no more",
    about="What stands where a guide was.",
    keys=(
        Key("words", TEXT, "Why it is gone, or where it went.", required=True, example="Hob took it back"),
        Key("date", Date(), "The day on which it went, for the feed."),
    ),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class GoneOf(Type[Gone]):
    """A guide that is no more: words in its place, or the words with the day on which it went."""

    expected: str = "words, or {words, date}"
    example: str = "Hob took it back"
    record: Record = GONE_RECORD

    def read(self, node: Node, key: str, context: ParseContext) -> Gone | None:
        if isinstance(node, MapNode):
            return _GONE.read(node, key, context)
        words = TEXT.read(node, key, context)
        return Gone(words=words) if words else None


_GONE = record_of(GONE_RECORD, lambda fields: Gone(**fields.values) if fields.values.get("words") else None)

SITE = Record(
    noun="site",
    about="What holds for the whole site.",
    keys=(
        Key(
            "title",
            SHORT_TEXT,
            "What the site is called.",
            default="Painting guides",
            example="The Night Jetty Archive",
        ),
        Key(
            "summary",
            TEXT,
            "One sentence on the home page: what this site is.",
            example="How the night ferry’s watch is painted, figure by figure.",
        ),
        Key("author", SHORT_TEXT, "Who paints and writes here.", example="the Tuesday painters"),
        Key(
            "people",
            MapOf(
                value=record_of(PERSON_RECORD, _person),
                expected="keys of people with their names",
                example="{odda: {name: Odda of the lock}}",
            ),
            "Who paints and writes here, each by a key that guides name them by; each gets a page.",
        ),
        Key(
            "licence",
            TEXT,
            "On what terms others may use what says nothing of its own.",
            also=("license",),
            example="free to copy and to change",
        ),
        Key(
            "contact",
            SHORT_TEXT,
            "Whom to write to: an address of mail or web, or words.",
            example="jetty@club.example",
        ),
        Key(
            "url",
            Url(home=True),
            "Where the site will be found, with its path if it has one.",
            example="https://paints.example/club",
        ),
        Key(
            "feed_id",
            TagAddress(),
            "A name for the feed that stays when url changes (RFC 4151).",
            default="made of url",
        ),
        Key(
            "gone",
            MapOf(
                value=GoneOf(),
                expected="addresses of guides with words",
                example="{eel-pie: Hob took it back}",
            ),
            "What stands where a guide was that is no more, by its address.",
        ),
        Key("language", Language(), "The language the guides are written in.", default="en"),
        Key("timezone", Timezone(), "Where the sittings of plans take place.", default="UTC"),
        Key("currency", Currency(), "What prices are in.", default="EUR"),
        Key(
            "format",
            FormatOf(),
            "The version of these rules that the content is written by.",
            default=str(FIRST_FORMAT),
        ),
        Key(
            "tokens",
            MapOf(value=Token(), expected="names of design tokens with their values"),
            "Design tokens to change: colours, fonts, lengths of the site's style.",
            example='{accent: "#7a5c2e"}',
        ),
        Key(
            "defaults",
            record_of(DEFAULTS, _defaults),
            "What guides, steps, plans and paints take where they say nothing.",
            example="{figures: 5, scale: 1:56, technique: base coat}",
        ),
        Key(
            "meant",
            ADVICE_LIST,
            "Advice that is intended in the whole site, by the word at its end, and is given no more.",
            example="[steps-out-of-order]",
        ),
        Key(
            "cure",
            DRYING,
            "How long water-based paint lies in plans before a can, solvent or tape touches it.",
            default="24 h; 0 for none",
            example="24 h",
        ),
    ),
)


def read_site(source: Source) -> tuple[Site, tuple[Diagnostic, ...]]:
    """The site's settings; what cannot be read is told and stays at its default.

    Of content made for later rules only this is told: by ours nobody can judge the rest.
    """
    context = ParseContext(source)
    tree = context.tree()
    fields = read_record(SITE, tree.root, "", context) if tree.root is not None else None
    if fields is None:
        return Site(places={}), tuple(context.diagnostics)
    later = fields.values.get("format", FORMAT)
    if later > FORMAT:
        diagnostic = Diagnostic(
            code="bad-value",
            message=f"This content has format {later}: it was made for a later guidegen.",
            span=fields.places["format"],
            help=f"Install a later guidegen; this one reads content up to format {FORMAT}.",
        )
        return Site(format=later, span=fields.span, places=fields.places), (diagnostic,)
    values = {key: value for key, value in fields.values.items() if value != ""}
    values["gone"] = {slug(name): gone for name, gone in values.get("gone", {}).items()}
    values["people"] = _with_keys(values.get("people", {}), fields, context)
    places = fields.places | _token_places(tree.root, context)
    return Site(**values, span=fields.span, places=places), tuple(context.diagnostics)


def _with_keys(people: Mapping[str, Person], fields: Fields, context: ParseContext) -> tuple[Person, ...]:
    """The people with their keys; bad-value for two whose pages would share an address."""
    kept: dict[str, Person] = {}
    for key, person in people.items():
        first = kept.setdefault(slug(key), replace(person, key=key))
        if first.key != key:
            context.say(
                "bad-value",
                f"The keys “{key}” and “{first.key}” would give two people one page.",
                fields.places["people"],
                "Give one of them another key.",
            )
    return tuple(kept.values())


def _token_places(root: Node | None, context: ParseContext) -> dict[str, Span]:
    """Where the name of each token stands, by `tokens: NAME`, and its value, by `tokens: NAME =`."""
    places: dict[str, Span] = {}
    entries = root.entries if isinstance(root, MapNode) else ()
    for entry in entries:
        if entry.key.value.strip() == "tokens" and isinstance(entry.value, MapNode):
            for token in entry.value.entries:
                name = words_of(token.key) or ""
                places.setdefault(f"tokens: {name}", context.span(token.key))
                places.setdefault(f"tokens: {name} =", context.span(token.value))
    return places
