"""The archive's pots as a script, for pages that know the pots of their reader: from the disk a page can load no other data.

It comes only where somebody has told of pots of their own, or is about to. What is in it is data alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from guidegen.computing.colour.blend import Blend, BlendPart, find_pot
from guidegen.computing.colour.spaces import lab_of
from guidegen.computing.colour.stand_in import binder_of
from guidegen.computing.guide.colour_families import Family, family_of
from guidegen.model.paint import COLOURLESS, Kind, Mix, Paint
from guidegen.reading.paint_lists.cells import HEADINGS
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.site_context import SiteContext
from guidegen.words.language import Phrase

# What a page takes for granted of a pot where the script says nothing.
USUAL = {"kind": "paint", "binder": "acrylic", "strength": 1.0, "drop": 0.05}


def palette_script(context: SiteContext) -> bytes:
    """Every paint and house mix with all that a page asks of it, and the words of pages that know the reader's pots."""
    language, palette = context.language, context.palette_tools.palette
    data = {
        "paints": [_paint(paint, context) for paint in palette.paints],
        "mixes": [_mix(mix, context) for mix in palette.mixes],
        "families": [*(language.t(f"family.{name}") for name in Family), language.t("colours.plain")],
        "headings": HEADINGS,
        "words": _words(language.phrases),
        "signs": [language.decimal, language.group],
    }
    return f"guidegenPalette({script_json(data)});\n".encode(errors="replace")


def _words(phrases: Mapping[str, Phrase]) -> dict[str, Phrase]:
    """The phrases of pages that know the reader's pots: by the beginnings of their keys, and a few more."""
    begins = ("mine.", "kind.", "binder.", "close.", "amount.")
    shared = ("shelf.buy", "shelf.lacks", "pot.owned", "figures.n")
    return {key: said for key, said in phrases.items() if key.startswith(begins) or key in shared}


def _paint(paint: Paint, context: SiteContext) -> dict[str, Any]:
    colour = None if paint.kind in COLOURLESS else paint.colour
    data: dict[str, Any] = {
        "name": paint.full_name,
        "label": f"{paint.name} ({paint.edition})" if paint.edition else paint.name,
        "bare": paint.name,
        "range": paint.range or "",
        "edition": paint.edition,
        "code": paint.code,
        "aliases": paint.aliases,
        "kind": paint.kind.value,
        "colour": colour,
        "binder": binder_of(paint),
        "comes_as": paint.comes_as,
        "strength": paint.strength,
        "let_down": _let_down(paint, context),
        "size": paint.size,
        "drop": paint.drop,
        "owned": paint.owned,
        "discontinued": paint.discontinued,
        "page": context.pots[paint.full_name],
        **_family(colour, paint.kind),
    }
    return _told(data)


def _mix(mix: Mix, context: SiteContext) -> dict[str, Any]:
    mixer = context.palette_tools.mixer
    blend = Blend((BlendPart(mix, 1.0),))
    found, kind = mixer.predict(blend), mixer.kind(blend)
    data: dict[str, Any] = {
        "name": mix.full_name,
        "label": mix.name,
        "bare": mix.name,
        "aliases": mix.aliases,
        "kind": (Kind.METALLIC if mixer.has_metal(blend) else kind).value,
        "colour": found.colour,
        "estimate": found.estimate,
        "strength": mixer.film_strength(blend),
        "parts": [(one.paint.full_name, round(one.share, 6)) for one in mixer.ingredients(blend)],
        "page": context.pots[mix.full_name],
        **_family(found.colour, kind),
    }
    return _told(data)


def _told(data: Mapping[str, Any]) -> dict[str, Any]:
    """The values without those that a page takes for granted: nothing, and USUAL."""
    return {key: value for key, value in data.items() if value not in ("", 0, ()) and value != USUAL.get(key)}


def _family(colour: str | None, kind: Kind) -> dict[str, object]:
    """The family by its number, past the last one for what has no colour, and the lightness within it."""
    if colour is None:
        return {"family": len(Family)}
    light, a, b = lab_of([colour]).tolist()[0]
    family = Family.METALS if kind is Kind.METALLIC else family_of(light, a, b)
    return {"family": [*Family].index(family), "light": round(light, 1)}


def _let_down(paint: Paint, context: SiteContext) -> dict[str, object] | None:
    measured = paint.let_down
    if measured is None:
        return None
    named = find_pot(context.palette_tools.palette, measured.white) if measured.white is not None else None
    white = None
    if isinstance(named, Paint) and named.kind not in COLOURLESS:
        white = named.colour or "unknown"
    return {
        "colour": measured.colour,
        "paint_parts": measured.paint_parts,
        "white_parts": measured.white_parts,
        "white": white,
    }
