"""A guide as data for other programs: `guide.json` beside its page."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from json.encoder import encode_basestring
from typing import Any

from guidegen.computing.colour.blend import Blend, BlendPart, blend_of
from guidegen.computing.guide.batch import Times
from guidegen.computing.guide.computed_guide import BlendUse, ComputedGuide
from guidegen.computing.guide.materials import PaintNeed, Supply, round_drops, round_ml
from guidegen.computing.guide.measured_times import measurement, minutes
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.computing.guide.substitutes import Substitute
from guidegen.model.paint import COLOURLESS, Palette
from guidegen.rendering.exports.guide_written import written_data
from guidegen.rendering.page.caution_words import caution_words
from guidegen.rendering.page.site_context import SiteContext
from guidegen.words.language import Language


def guide_json(computed: ComputedGuide, context: SiteContext) -> bytes:
    """The file's bytes: what was computed, and all else that the guide's page shows."""
    data = guide_data(computed, context.palette_tools.palette, context.language)
    return f"{indented(data | written_data(computed, context.pictures, context.site))}\n".encode()


def indented(value: object, before: str = "\n") -> str:
    """As `json.dumps` writes it with an indent of 1, which takes that three times as long. Keys are text.

    `before` stands before each line of what holds the value.
    """
    inside = before + " "
    if isinstance(value, dict) and value:
        rows = [f"{_encoded(key)}: {indented(one, inside)}" for key, one in value.items()]
        return f"{{{inside}{f',{inside}'.join(rows)}{before}}}"
    if isinstance(value, list | tuple) and value:
        return f"[{inside}{f',{inside}'.join([indented(one, inside) for one in value])}{before}]"
    return _encoded(value)


def _encoded(value: object) -> str:
    """A text, a number, a truth or an empty list: as `json.dumps` has it, which takes several times as long for most."""
    if isinstance(value, str):
        return encode_basestring(value)
    if isinstance(value, int) and not isinstance(value, bool):
        return int.__repr__(value)
    return _ENCODE(value)


_ENCODE = json.JSONEncoder(ensure_ascii=False).encode


def guide_data(computed: ComputedGuide, palette: Palette, language: Language) -> dict[str, Any]:
    """The computed guide, ready for JSON: minutes and differences to four decimals.

    Steps count from 1 after inserts; those outside the variant are left out, and stops do not count. Only the words of
    cautions are in `language`. `times` is `measured` where the written times are what batches under `made` took.
    """
    times = computed.times
    return {
        "title": computed.guide.title,
        "slug": computed.guide.slug,
        "times": "measured" if measurement(computed.guide) else "written",
        "time": _times(times.whole, times.no_wait),
        "stops": [{"name": stop.name} | _times(stop.times, stop.no_wait) for stop in times.stops],
        "stretches": [
            {"from": stretch.first, "to": stretch.last, "no_wait_figures": stretch.no_wait}
            for stretch in times.stretches
        ],
        "paints": [_paint(need, computed) for need in computed.needs],
        "mixes": [_mix(use, palette) for use in computed.blends],
        "steps": [_step(row) for row in computed.scheme.steps],
        "materials": _supplies(computed.materials),
        "tools": _supplies(computed.tools),
        "cautions": [
            {"code": caution.code, "text": caution_words(caution, language)} for caution in computed.cautions
        ],
        "areas": {
            area: [
                {
                    "n": state.n,
                    "edges": state.relief.edges,
                    "flats": state.relief.flats,
                    "recesses": state.relief.recesses,
                }
                for state in states
            ]
            for area, states in computed.states.items()
        },
    }


def _times(times: Times, no_wait: int | None) -> dict[str, Any]:
    return {
        "figures": times.figures,
        "hands_on_min": minutes(times.hands_on),
        "waiting_min": minutes(times.waiting),
        "brush_down_min": minutes(times.last_stroke),
        "total_min": minutes(times.total),
        "no_wait_figures": no_wait,
    }


def _paint(need: PaintNeed, computed: ComputedGuide) -> dict[str, Any]:
    paint = need.paint
    data: dict[str, Any] = {
        "name": paint.name,
        "range": paint.range,
        "kind": paint.kind.value,
        "colour": None if paint.kind in COLOURLESS else paint.colour,
        "steps": list(need.steps),
        "ml": round_ml(need.ml),
        "drops": round_drops(need.drops),
        "owned": need.owned,
        "buy": need.buy,
        "closest": [
            {"name": match.paint.name, "range": match.paint.range, "de00": round(match.de00, 4)}
            for match in computed.closest.get(paint.full_name, ())
        ],
    }
    if paint.full_name in computed.substitutes:
        data["stand_in"] = _stand_in(computed.substitutes[paint.full_name])
    return data


def _stand_in(found: Substitute | None) -> dict[str, Any] | None:
    if found is None:
        return None
    return {
        "kind": found.way.value,
        "parts": _parts(found.blend.parts),
        "colour": found.colour,
        "de00": found.de00,
        "estimate": found.estimate,
    }


def _mix(use: BlendUse, palette: Palette) -> dict[str, Any]:
    blend = blend_of(use.mix.parts, palette) if use.mix is not None else use.blend
    return {
        "name": None if use.mix is None else use.mix.name,
        "parts": _parts(blend.parts if blend is not None else ()),
        "colour": use.prediction.colour,
        "estimate": use.prediction.estimate,
    }


def _parts(parts: Sequence[BlendPart]) -> dict[str, float]:
    """Parts by name, by full name where two pots of a mixture share one; a pot named twice adds up."""
    pots: dict[str, set[str]] = {}
    for part in parts:
        pots.setdefault(part.pot.name, set()).add(part.pot.full_name)
    amounts: dict[str, float] = {}
    for part in parts:
        name = part.pot.name if len(pots[part.pot.name]) == 1 else part.pot.full_name
        amounts[name] = round(amounts.get(name, 0.0) + part.amount, 6)
    return {name: int(amount) if amount.is_integer() else amount for name, amount in amounts.items()}


def _step(row: SchemeStep) -> dict[str, Any]:
    step = row.step
    return {
        "n": row.n,
        "step": step.title,
        "technique": step.technique or None,
        "areas": list(row.areas),
        "paints": _names(row.brushed),
        "coats": step.coats,
        "once_min": minutes(step.once),
        "each_min": minutes(step.each),
        "dry_min": minutes(step.dry.air),
    }


def _names(brushed: Iterable[Blend]) -> list[str]:
    return list(dict.fromkeys(part.pot.name for blend in brushed for part in blend.parts))


def _supplies(supplies: Iterable[Supply]) -> list[dict[str, str | None]]:
    return [{"name": supply.name, "for": supply.purpose or None} for supply in supplies]
