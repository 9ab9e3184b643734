"""Which boxes a card has: for each paint what can be learnt of it from a photo."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from hashlib import sha256

from guidegen.computing.colour.spaces import lab_of
from guidegen.model.card import FILM_COATS, Box, BoxKind, Card
from guidegen.model.paint import COLOURLESS, FILMS, Ambiguous, Kind, Mix, Paint, Palette

# A paint that glows gives back more light than falls on it, of colours that were not in it.
_FLUORESCENT = re.compile(r"fluoresc|fluor\b|neon\b|day-?glo|leuchtfarbe|fluoresz", re.IGNORECASE)

# From memory: lighter than this and with less colour, a paint is a white to let others down with.
_WHITE_LIGHTNESS, _WHITE_CHROMA = 90.0, 8.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """Boxes, and the paints that get none, each with the reason as a phrase; `no_white` where tints wanted a white."""

    boxes: tuple[Box, ...]
    left_out: tuple[tuple[str, str], ...]
    no_white: bool = False


def chosen(palette: Palette, paints: Iterable[Paint], *, tint: bool, film: bool) -> Chosen:
    """Boxes for paints in their order: covering ones in full, with `tint` let down with white beside; films with `film`."""
    boxes: list[Box] = []
    left_out: list[tuple[str, str]] = []
    usual = white_of(palette)
    for paint in paints:
        name = palette.label(paint)
        reason = _unfit(paint, film=film)
        if reason:
            left_out.append((name, reason))
        else:
            boxes += _boxes_of(paint, name, palette, usual, tint=tint)
    numbered = tuple(
        Box(n=n, paint=box.paint, kind=box.kind, white=box.white, coats=box.coats)
        for n, box in enumerate(boxes, start=1)
    )
    kinds = {box.kind for box in numbered}
    # A white alone is let down with nothing.
    no_white = tint and usual is None and BoxKind.FULL in kinds and BoxKind.TINT not in kinds
    return Chosen(boxes=numbered, left_out=tuple(left_out), no_white=no_white)


def card_of(boxes: tuple[Box, ...], paper: str) -> Card:
    """The card with these boxes; its id is a digest of what is in them."""
    said = "\n".join([paper, *(f"{b.n}\t{b.paint}\t{b.kind}\t{b.white}\t{b.coats}" for b in boxes)])
    return Card(id=sha256(said.encode()).hexdigest()[:6], paper=paper, boxes=boxes)


def white_of(palette: Palette) -> Paint | None:
    """The white that tints are let down with: one of one's own first, then the lightest."""
    whites = [
        (paint.owned > 0, -chroma, lightness, paint)
        for paint in palette.paints
        if paint.colour is not None and paint.kind is Kind.PAINT
        for lightness, chroma in [_lightness_and_chroma(paint.colour)]
        if lightness > _WHITE_LIGHTNESS and chroma < _WHITE_CHROMA
    ]
    return max(whites, key=lambda white: white[:3])[3] if whites else None


def _lightness_and_chroma(colour: str) -> tuple[float, float]:
    lightness, a, b = lab_of([colour])[0].tolist()
    return lightness, (a * a + b * b) ** 0.5


def _unfit(paint: Paint, *, film: bool) -> str:
    """Why a paint gets no box, '' for one that does."""
    if paint.kind in COLOURLESS:
        return "it has no colour of its own"
    if paint.kind is Kind.METALLIC:
        return "a metal mirrors whatever stands around it, so a photo says nothing of it"
    if paint.kind in (Kind.PIGMENT, Kind.PASTE):
        return "it makes no even film"
    if any(_FLUORESCENT.search(text) for text in (paint.name, paint.note, *paint.aliases)):
        return "a fluorescent colour is lighter than a photo can tell"
    if paint.kind in FILMS and not film:
        return "a film needs two boxes of its own: --with film"
    return ""


def _boxes_of(paint: Paint, name: str, palette: Palette, usual: Paint | None, *, tint: bool) -> Iterator[Box]:
    if paint.kind in FILMS:
        for coats in FILM_COATS:
            yield Box(n=0, paint=name, kind=BoxKind.FILM, coats=coats)
        return
    yield Box(n=0, paint=name, kind=BoxKind.FULL)
    if tint:
        white = _own_white(paint, palette) or usual
        if white is not None and white is not paint:
            yield Box(n=0, paint=name, kind=BoxKind.TINT, white=palette.label(white))


def _own_white(paint: Paint, palette: Palette) -> Paint | None:
    """The white that the palette lets the paint down with."""
    if paint.let_down is None or paint.let_down.white is None:
        return None
    found = palette.find(paint.let_down.white.text)
    return found if not isinstance(found, Ambiguous | Mix) else None
