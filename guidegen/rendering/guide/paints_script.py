"""A guide's paints as a script, for its pages when their reader has other paints: what lies where, over what, how much of it.

It comes only where somebody has told of pots of their own. What is in it is data alone.
"""

from __future__ import annotations

import posixpath
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from guidegen.base.suggest import folded
from guidegen.computing.colour.blend import Blend, blend_of
from guidegen.computing.guide.area_states import GLOSS, AreaState
from guidegen.computing.guide.colour_families import area_parts
from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.computing.guide.materials import PaintNeed
from guidegen.computing.guide.scheme import Scheme, SchemeStep
from guidegen.computing.guide.undercoat import undercoat_of
from guidegen.model.technique import Role
from guidegen.rendering.guide.chart_pictures import drawing_of
from guidegen.rendering.guide.scheme_views import area_label
from guidegen.rendering.guide.summary import step_anchors
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.site_context import SiteContext


def paints_script_file(page: str) -> str:
    """Where the script of a guide's page and of its bench lies, beside both."""
    folder, name = posixpath.split(page)
    stem = name.removesuffix(".html")
    return f"{folder}/paints.js" if stem == "index" else f"{folder}/paints-{stem}.js"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sets:
    """The paints of a scheme, what is painted with them, and which of them must stay apart.

    `data` is all that a page needs to find stand-ins for them, as JSON can hold it; it means blends by their `numbers`.
    """

    numbers: dict[Blend, int]
    data: dict[str, Any]


def sets_of(scheme: Scheme, needs: Iterable[PaintNeed], context: SiteContext) -> Sets:
    """Those of a scheme; `needs` are its paints."""
    numbers: dict[Blend, int] = {}
    for row in scheme.steps:
        for blend in (*row.brushed, *row.laid.values()):
            numbers.setdefault(blend, len(numbers))
    colours = {blend: context.chips.of(blend).fill for blend in numbers}
    instead: dict[str, list[list[tuple[str, float]]]] = {}
    for row in scheme.steps:
        pot = row.brushed[0].pot if len(row.brushed) == 1 else None
        others = (blend_of(other.parts, context.palette_tools.palette) for other in row.step.instead)
        for other in others:
            if pot is not None and other is not None:
                instead.setdefault(pot.full_name, []).append(_parts(other))
    data = {
        "slug": scheme.guide.slug,
        "title": scheme.guide.title,
        "areas": [area_label(area, context.language) for area in scheme.areas],
        "blends": [_parts(blend) for blend in numbers],
        "colours": [*colours.values()],
        "tones": [
            [numbers[blend] for blend in _tones(area, scheme) if colours[blend]] for area in scheme.areas
        ],
        "instead": instead,
        "undercoat": undercoat_of(scheme, context.palette_tools.mixer),
        "steps": [
            _told({"brushed": [numbers[b] for b in row.brushed], "optional": row.step.optional})
            for row in scheme.steps
        ],
        "stops": [(stop.name, stop.after) for stop in scheme.stops],
        "needs": [(need.paint.full_name, None if need.ml is None else round(need.ml, 6)) for need in needs],
    }
    return Sets(numbers=numbers, data=data)


def _parts(blend: Blend) -> list[tuple[str, float]]:
    return [(part.pot.full_name, part.amount) for part in blend.parts]


def _tones(area: str, scheme: Scheme) -> Iterable[Blend]:
    """What is laid on an area by itself, without what covers the whole figure under everything."""
    whole = max(2, len(scheme.areas))
    return dict.fromkeys(
        row.laid[area]
        for row in scheme.steps
        if row.technique.role in (Role.COVER, Role.EDGES)
        and "undercoat" not in row.technique.name
        and len(row.areas) < whole
        and area in row.laid
    )


def _told(data: dict[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in data.items() if value}


def paints_script(computed: ComputedGuide, context: SiteContext) -> bytes:
    """The script of one page. Blends and areas are told once and meant by their numbers."""
    scheme = computed.scheme
    sets = sets_of(scheme, computed.needs, context)

    def step(row: SchemeStep, anchor: str) -> dict[str, Any]:
        thin = row.step.thin
        return _told(
            {
                "place": anchor,
                "role": row.technique.role.value,
                "technique": row.technique.name,
                "on": [scheme.areas.index(area) for area in row.areas],
                "laid": [sets.numbers[row.laid[area]] if area in row.laid else -1 for area in row.areas],
                "coats": row.step.coats,
                "share": 1.0 if thin is None else round(thin.paint_share, 6),
            }
        )

    steps = [step(row, anchor) for row, anchor in zip(scheme.steps, step_anchors(computed), strict=True)]
    weights = area_parts(scheme)
    data = sets.data | {
        "figures": computed.figures,
        "parts": [round(weights[area], 4) for area in scheme.areas],
        "steps": [told | own for told, own in zip(sets.data["steps"], steps, strict=True)],
        "states": [[*map(_state, computed.states.get(area, ()))] for area in scheme.areas],
        "pieces": _pieces(computed, context),
    }
    return f"guidegenPaints({script_json(data)});\n".encode(errors="replace")


def _state(state: AreaState) -> tuple[int, str | None, str | None, str | None, int]:
    relief = state.relief
    return state.n, relief.edges, relief.flats, relief.recesses, int(state.finish == GLOSS)


def _pieces(computed: ComputedGuide, context: SiteContext) -> list[int]:
    """The number of the area that each piece of the chart shows, -1 for one that no step paints."""
    chart = context.charts.get(computed.guide.slug)
    if chart is None or not chart.areas:
        return []
    names = {folded(area): at for at, area in enumerate(computed.scheme.areas)}
    pieces = drawing_of(chart, computed.scheme.choice).pieces
    return [names.get(folded(piece.area), -1) if piece.area else -1 for piece in pieces]
