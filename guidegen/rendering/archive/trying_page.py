"""The page where colours are tried on a figure before anything is painted, and the scripts that it asks for.

From the disk a page can load no data but scripts: the pots come as one when the page opens, a figure when it is chosen.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from guidegen.base.paths import slug
from guidegen.base.source import Source
from guidegen.base.suggest import folded
from guidegen.computing.colour.blend import Blend, BlendPart
from guidegen.computing.colour.clusters import CELLS, MOST_COLOURS, ROUNDS
from guidegen.computing.colour.spaces import lab_of
from guidegen.computing.guide.area_states import finish_of
from guidegen.computing.guide.colour_families import Family, family_of
from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.computing.guide.dark_ground import COATS_THAT_HIDE, COVERS_BADLY, DARK_GROUND
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.model.chart import Chart
from guidegen.model.guide import Scale
from guidegen.model.paint import Kind, Mix, Paint
from guidegen.model.technique import TECHNIQUES
from guidegen.reading.content.chart import read_chart
from guidegen.reading.content.discover import starter_chart, starter_charts
from guidegen.reading.types.sizes import SIZES
from guidegen.rendering.guide.chart_pictures import Drawing, drawing_of, standalone
from guidegen.rendering.guide.figures import FILE
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.own_pots import pots_store
from guidegen.rendering.page.page import Export
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import TRYING, TRYING_POTS, guide_file, relative, trying_file
from guidegen.words.language import Language, PhraseKey

# Beside a guide's page: its figure and its steps, to start from.
GUIDE_SCRIPT = "try.js"

# A guide's figure is shown up to so many; of more guides a list has the titles.
MOST_FIGURES = 24

# How many of a guide's colours it is compared with a scheme by, those that cover most.
MOST_COVERS = 6

# The ways of painting that are offered, in the order of a job.
WAYS = ("brush undercoat", "base coat", "wash", "glaze", "dry brush", "highlight", "brush varnish")

# How a pot of a kind is painted with as a rule.
USUAL_WAYS = {
    Kind.PAINT: "base coat",
    Kind.PRIMER: "brush undercoat",
    Kind.WASH: "wash",
    Kind.STAIN: "wash",
    Kind.GLAZE: "glaze",
    Kind.INK: "glaze",
    Kind.VARNISH: "brush varnish",
}

# What lies on a base or is rubbed in is no coat of an area.
_NO_COAT = frozenset({Kind.PASTE, Kind.PIGMENT})

# How tall figures are in mm by their scale; of one that is not among the sizes, as that of a middling size.
MIDDLING = 28
_TALL = {float(ratio): size for size, ratio in SIZES.items()}

# Phrases that the script says.
_WORDS = ("try.", "technique.name.", "colour.", "unit.")


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureLink:
    """A figure to try colours on: its picture, the script that brings it, and its guide's page, '' for a starter chart.

    `name` is what schemes know it by; a guide's begins with its folder, since a starter chart may have the same name.
    """

    name: str
    title: str
    picture: str
    script: str
    href: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class TryingView:
    """`pots` and `colour` are links to scripts, `store` the key that schemes are kept under, `words` what is said, as JSON."""

    figures: tuple[FigureLink, ...]
    ways: tuple[tuple[str, str], ...]
    families: tuple[tuple[int, str], ...]
    pots: str
    colour: str
    tools: str
    style: str
    store: str
    mine: str
    words: str


def trying_view(ordered: Sequence[Summary], context: SiteContext) -> TryingView:
    """The page, with the starter charts and the newest guides that have a figure."""
    language = context.language
    starters = tuple(
        FigureLink(
            name=name,
            title=_title(name, chart, language),
            picture=relative(trying_file(f"{name}.svg"), TRYING),
            script=relative(trying_file(f"{name}.js"), TRYING),
        )
        for name, chart in _starters()
    )
    drawn = [guide for guide in ordered if guide.drawn][:MOST_FIGURES]
    guides = tuple(
        FigureLink(
            name=f"guides/{guide.slug}",
            title=guide.title,
            picture=relative(guide_file(guide.slug, FILE), TRYING),
            script=relative(guide_file(guide.slug, GUIDE_SCRIPT), TRYING),
            href=relative(guide_file(guide.slug), TRYING),
        )
        for guide in drawn
    )
    words = {key: said for key, said in language.phrases.items() if key.startswith(_WORDS)}
    return TryingView(
        figures=starters + guides,
        ways=tuple((way, language.t(f"technique.name.{way}")) for way in WAYS),
        families=tuple((n, language.t(f"colour.{family}")) for n, family in enumerate(Family)),
        pots=relative(TRYING_POTS, TRYING),
        colour=relative(context.assets.colour, TRYING),
        tools=relative(context.assets.trying_tools, TRYING),
        style=relative(context.assets.trying_style, TRYING),
        store=f"{pots_store(context)}:trying",
        mine=f"{pots_store(context)}:pots",
        words=script_json({"phrases": words, "signs": [language.decimal, language.group]}),
    )


def trying_files(ordered: Sequence[Summary], context: SiteContext) -> Iterator[Export]:
    """The scripts and pictures of the page that are no guide's own."""
    language, scale = context.language, context.site.defaults.scale
    for name, chart in _starters():
        title = _title(name, chart, language)
        drawing = drawing_of(chart, {})
        yield Export(path=trying_file(f"{name}.svg"), data=standalone(drawing, {}, title))
        yield Export(
            path=trying_file(f"{name}.js"), data=_script("Figure", _figure(name, title, drawing, scale))
        )
    palette = context.palette_tools.palette
    pots = [_pot(pot, context.palette_tools) for pot in palette.pots]
    guides = [
        (guide.slug, guide.title, [(one.colour, one.part) for one in guide.covers[:MOST_COVERS]])
        for guide in ordered
        if guide.drawn
    ]
    ways = {row.name: (row.role.value, row.dry) for row in TECHNIQUES.values()}
    families = [n for n, family in enumerate(Family) if family in COVERS_BADLY]
    weak = {"families": families, "dark": DARK_GROUND, "coats": COATS_THAT_HIDE}
    usual = {kind.value: way for kind, way in USUAL_WAYS.items()}
    known = [pot for pot in pots if pot]
    unseen = [pot.full_name for pot, shown in zip(palette.pots, pots, strict=True) if not shown]
    clusters = {"cells": CELLS, "most": MOST_COLOURS, "rounds": ROUNDS}
    data = {
        "pots": known,
        "unseen": unseen,
        "ways": ways,
        "usual": usual,
        "guides": guides,
        "weak": weak,
        "clusters": clusters,
    }
    yield Export(path=TRYING_POTS, data=_script("Trying", data))


def guide_trying_file(computed: ComputedGuide, context: SiteContext) -> Export | None:
    """A guide's figure and what is done to it step by step, to start from; None without a figure."""
    guide = computed.guide
    chart = context.charts.get(guide.slug)
    if chart is None or not chart.areas:
        return None
    drawing = drawing_of(chart, computed.scheme.choice)
    areas = _areas(drawing)
    data = _figure(f"guides/{guide.slug}", guide.title, drawing, guide.scale)
    data["guide"] = guide.slug
    if guide.chart is None and guide.figure is not None:
        data["figure"] = slug(guide.figure.text)
    data["steps"] = [
        step for row in computed.scheme.steps for step in _steps(row, areas, context.palette_tools)
    ]
    return Export(path=guide_file(guide.slug, GUIDE_SCRIPT), data=_script("Figure", data))


def _steps(row: SchemeStep, drawn: Sequence[str], tools: PaletteTools) -> Iterator[dict[str, object]]:
    """A step as one for each blend that it lays on what is drawn; coats and thinning go along."""
    thin, named = row.step.thin, {folded(area): area for area in drawn}
    for blend in dict.fromkeys(row.laid.values()):
        areas = [
            named[folded(area)] for area in row.areas if row.laid.get(area) == blend and folded(area) in named
        ]
        pot = blend.pot
        if not areas:
            continue
        yield {
            "title": row.step.title,
            "way": row.technique.name,
            "areas": areas,
            "pot": pot.full_name if pot is not None and _pot(pot, tools) else _mixed(blend, tools),
            "share": thin.paint_share if thin is not None else 1.0,
            "coats": row.step.coats,
        }


def _mixed(blend: Blend, tools: PaletteTools) -> dict[str, object]:
    mixer = tools.mixer
    parts = " + ".join(f"{part.amount:g} {part.pot.name}" for part in blend.parts)
    return {
        "name": parts,
        "label": parts,
        "parts": [(part.pot.full_name, part.amount) for part in blend.parts],
        "kind": (Kind.METALLIC if mixer.has_metal(blend) else mixer.kind(blend)).value,
        "colour": mixer.predict(blend).colour,
        "strength": mixer.film_strength(blend),
        "finish": finish_of(blend, mixer),
    }


def _pot(pot: Paint | Mix, tools: PaletteTools) -> dict[str, object] | None:
    """A pot with what its colour does on a figure; None for what has neither colour nor finish."""
    blend = Blend((BlendPart(pot, 1.0),))
    mixer = tools.mixer
    metal, kind = mixer.has_metal(blend), mixer.kind(blend)
    colour, finish = mixer.predict(blend).colour, finish_of(blend, mixer)
    coloured = mixer.has_colour(blend)
    if kind in _NO_COAT or (coloured and colour is None) or (not coloured and kind is not Kind.VARNISH):
        return None
    data: dict[str, object] = {"name": pot.full_name, "label": pot.name, "kind": kind.value, "colour": colour}
    if coloured and colour is not None:
        light, a, b = lab_of([colour])[0].tolist()
        data["family"] = [*Family].index(Family.METALS if metal else family_of(light, a, b))
        data["light"] = round(light, 1)
        data["strength"] = mixer.film_strength(blend)
    data["metal"], data["finish"] = metal, finish
    if isinstance(pot, Paint):
        data |= {"owned": pot.owned, "binder": pot.binder, "comes_as": pot.comes_as}
        data["label"] = f"{pot.name} ({pot.edition})" if pot.edition else tools.palette.label(pot)
    # A number that is 0 stays: it is the first family, or black.
    return {key: value for key, value in data.items() if value is not False and value != ""}


def _areas(drawing: Drawing) -> tuple[str, ...]:
    """The areas in the order drawn, without those of other variants alone."""
    return tuple(dict.fromkeys(piece.area for piece in drawing.pieces if piece.area))


def _figure(name: str, title: str, drawing: Drawing, scale: Scale) -> dict[str, object]:
    """A drawing as the page draws it, and how tall what it shows is in mm."""
    return {
        "name": name,
        "title": title,
        "box": drawing.chart.view_box,
        "ground": drawing.chart.ground,
        "tall": _TALL.get(scale.ratio, MIDDLING * SIZES[MIDDLING] / scale.ratio),
        "areas": _areas(drawing),
        "pieces": [(piece.area, piece.relief.value, piece.markup) for piece in drawing.pieces],
    }


@cache
def _starters() -> tuple[tuple[str, Chart], ...]:
    """The charts that come along, by name; they change with the program alone."""
    found = []
    for name in starter_charts():
        source = starter_chart(name)
        chart = read_chart(source)[0] if isinstance(source, Source) else None
        if chart is not None:
            found.append((name, chart))
    return tuple(found)


def _title(name: str, chart: Chart, language: Language) -> str:
    key = PhraseKey(f"chart.{name}")
    return language.t(key) if key in language.phrases else chart.title


def _script(name: str, data: object) -> bytes:
    return f"guidegen{name}({script_json(data)});\n".encode(errors="replace")
