"""site.yaml: what holds for the whole site."""

from __future__ import annotations

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source
from guidegen.model.site import FORMAT, Defaults, Site
from guidegen.reading.addresses import Currency, Language, Timezone, Token, Url
from guidegen.reading.guide import BASE, FIGURES, SCALE
from guidegen.reading.keys import Key, MapOf, Record, read_record, record_of
from guidegen.reading.sheet import Sheet
from guidegen.reading.typed import SHORT_TEXT, Fields, OneOf
from guidegen.reading.yaml_nodes import tree_of

DEFAULTS = Record(
    noun="set of defaults",
    about="What guides, plans and paints take where they say nothing.",
    keys=(
        Key(name="figures", type=FIGURES, about="The batch that times are shown for.", default="1"),
        Key(name="scale", type=SCALE, about="The scale of the figures.", default="1:56"),
        Key(name="base", type=BASE, about="How wide the round base of one figure is.", default="none"),
        Key(
            name="batch",
            type=FIGURES,
            about="How many figures of a unit are painted at a time.",
            default="all",
        ),
        Key(name="range", type=SHORT_TEXT, about="The range of paints that name none.", default="none"),
    ),
)


def _defaults(fields: Fields, sheet: Sheet) -> Defaults:
    del sheet
    values = fields.values
    values["base"] = values.get("base") or None
    values["range"] = values.get("range") or None
    return Defaults(**values)


SITE = Record(
    noun="site",
    about="What holds for the whole site.",
    keys=(
        Key(name="title", type=SHORT_TEXT, about="What the site is called.", default="Painting guides"),
        Key(name="author", type=SHORT_TEXT, about="Who paints and writes here."),
        Key(
            name="url",
            type=Url(home=True),
            about="Where the site will be found, with its path if it has one.",
        ),
        Key(name="language", type=Language(), about="The language the guides are written in.", default="en"),
        Key(name="timezone", type=Timezone(), about="Where the sittings of plans take place.", default="UTC"),
        Key(name="currency", type=Currency(), about="What prices are in.", default="EUR"),
        Key(
            name="format",
            type=OneOf(
                words={str(FORMAT): FORMAT}, expected="1, the only form of content so far", example="1"
            ),
            about="The version of these rules that the content is written by.",
            default="1",
        ),
        Key(
            name="tokens",
            type=MapOf(value=Token(), expected="names of design tokens with their values"),
            about="Design tokens to change: colours, fonts, lengths of the site's style.",
        ),
        Key(
            name="defaults",
            type=record_of(DEFAULTS, _defaults),
            about="What guides, plans and paints take where they say nothing.",
        ),
    ),
)


def read_site(source: Source) -> tuple[Site, tuple[Diagnostic, ...]]:
    """The site's settings; what cannot be read is told and stays at its default."""
    sheet = Sheet(source)
    tree = tree_of(source)
    sheet.diagnostics += tree.diagnostics
    fields = read_record(SITE, tree.root, "", sheet) if tree.root is not None else None
    if fields is None:
        return Site(places={}), tuple(sheet.diagnostics)
    values = {key: value for key, value in fields.values.items() if value != ""}
    return Site(**values, span=fields.span, places=fields.places), tuple(sheet.diagnostics)
