"""A guide's paints as a script, for its pages when their reader has other paints: what lies where, over what, how much of it.

It comes only where somebody has told of pots of their own. What is in it is data alone.
"""

from __future__ import annotations

import posixpath
from typing import Any

from guidegen.base.suggest import folded
from guidegen.computing.colour.blend import Blend, blend_of
from guidegen.computing.guide.area_states import GLOSS
from guidegen.computing.guide.colour_families import area_parts
from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.computing.guide.scheme import SchemeStep
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


def paints_script(computed: ComputedGuide, context: SiteContext) -> bytes:
    """The script of one page. Blends and areas are told once and meant by their numbers."""
    scheme = computed.scheme
    blends: dict[Blend, int] = {}

    def number(blend: Blend) -> int:
        return blends.setdefault(blend, len(blends))

    def parts(blend: Blend) -> list[tuple[str, float]]:
        return [(part.pot.full_name, part.amount) for part in blend.parts]

    def step(row: SchemeStep, anchor: str) -> dict[str, Any]:
        instead = (blend_of(other.parts, context.palette_tools.palette) for other in row.step.instead)
        thin = row.step.thin
        data: dict[str, Any] = {
            "place": anchor,
            "role": row.technique.role.value,
            "technique": row.technique.name,
            "on": [scheme.areas.index(area) for area in row.areas],
            "brushed": [number(blend) for blend in row.brushed],
            "laid": [number(row.laid[area]) if area in row.laid else -1 for area in row.areas],
            "instead": [parts(blend) for blend in instead if blend is not None],
            "optional": row.step.optional,
            "coats": row.step.coats,
            "share": 1.0 if thin is None else round(thin.paint_share, 6),
        }
        return {key: value for key, value in data.items() if value}

    steps = [step(row, anchor) for row, anchor in zip(scheme.steps, step_anchors(computed), strict=True)]
    weights = area_parts(scheme)
    chart = context.charts.get(computed.guide.slug)
    drawing = drawing_of(chart, scheme.choice) if chart is not None and chart.areas else None
    names = [folded(area) for area in scheme.areas]
    data = {
        "slug": computed.guide.slug,
        "title": computed.guide.title,
        "figures": computed.figures,
        "areas": [area_label(area, context.language) for area in scheme.areas],
        "parts": [round(weights[area], 4) for area in scheme.areas],
        "blends": [parts(blend) for blend in blends],
        "colours": [context.chips.of(blend).fill for blend in blends],
        "steps": steps,
        "stops": [(stop.name, stop.after) for stop in scheme.stops],
        "needs": [
            (need.paint.full_name, None if need.ml is None else round(need.ml, 6)) for need in computed.needs
        ],
        "states": [
            [
                (
                    state.n,
                    state.relief.edges,
                    state.relief.flats,
                    state.relief.recesses,
                    int(state.finish == GLOSS),
                )
                for state in computed.states.get(area, ())
            ]
            for area in scheme.areas
        ],
        "pieces": [
            names.index(folded(piece.area)) if piece.area and folded(piece.area) in names else -1
            for piece in (drawing.pieces if drawing is not None else ())
        ],
    }
    return f"guidegenPaints({script_json(data)});\n".encode(errors="replace")
