"""The figure chart coloured after each step: shapes once a page, then a small picture a step that uses them.

Flats fill an area's shape; recesses and raised edges fill their own shapes where the drawing has them, else a band
along the foot and the head of the area's shape, cut out of it by itself. Metals get a sheen across, gloss a shine at
the top. Colours are exactly those of `computing.guide.area_states`.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby
from operator import itemgetter
from typing import NamedTuple

from markupsafe import Markup, escape

from guidegen.base.suggest import folded
from guidegen.computing.guide.area_states import GLOSS, AreaState
from guidegen.model.chart import AreaPart, Chart, Piece

# How far the bands of recesses and edges reach into a shape that has none of its own, as a part of the height.
BAND = 0.012

_SHEEN = (
    '<linearGradient id="{id}-sheen" x1="0" y1="0" x2="1" y2="1">'
    '<stop offset=".3" stop-color="#fff" stop-opacity="0"/><stop offset=".45" stop-color="#fff" stop-opacity=".45"/>'
    '<stop offset=".55" stop-color="#fff" stop-opacity="0"/><stop offset=".8" stop-color="#000" stop-opacity=".25"/>'
    "</linearGradient>"
)
_SHINE = (
    '<linearGradient id="{id}-shine" x1="0" y1="0" x2="0" y2="1">'
    '<stop offset="0" stop-color="#fff" stop-opacity=".35"/><stop offset=".3" stop-color="#fff" stop-opacity="0"/>'
    "</linearGradient>"
)


class _Look(NamedTuple):
    """All of an area's state that a picture shows."""

    edges: str | None
    flats: str | None
    recesses: str | None
    metal: bool
    metal_edges: bool
    glossy: bool

    @classmethod
    def of(cls, state: AreaState) -> _Look:
        """What a picture shows of a state."""
        relief = state.relief
        glossy = state.finish == GLOSS
        return cls(relief.edges, relief.flats, relief.recesses, state.metal, state.metal_edges, glossy)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A chart for one choice of variants. `id` begins every id that it gives in a page.

    `banded` has the areas without recesses and edges of their own drawing, so that these are bands of its shapes.
    `drawn` remembers the pieces by number and look, since most of them are in the next picture as well.
    """

    chart: Chart
    pieces: tuple[Piece, ...]
    banded: frozenset[str] = field(repr=False)
    id: str = "fig"
    drawn: dict[tuple[int, _Look | None], str] = field(default_factory=dict, repr=False, compare=False)


def drawing_of(chart: Chart, choice: Mapping[str, str], name: str = "fig") -> Drawing:
    """The chart without the layers of other variants."""
    chosen = {folded(key): folded(option) for key, option in choice.items()}
    kept = tuple(
        piece
        for piece in chart.pieces
        if piece.only is None or chosen.get(folded(piece.only[0]), "") == folded(piece.only[1])
    )
    drawn = {piece.area for piece in kept if piece.relief is not AreaPart.FLATS}
    banded = frozenset(piece.area for piece in kept if piece.area and piece.area not in drawn)
    return Drawing(chart=chart, pieces=kept, banded=banded, id=name)


def shapes(drawing: Drawing) -> Markup:
    """The shapes, to be put once into a page that shows the drawing."""
    head = '<svg class="shapes" width="0" height="0" aria-hidden="true" focusable="false">'
    return Markup(f"{head}{_shape_defs(drawing)}</svg>")  # noqa: S704 - see _shape_defs


def _shape_defs(drawing: Drawing) -> str:
    """Each piece by an id of its own; safe as it is, since reading a chart lets plain shapes through only."""
    parts = [_SHEEN.format(id=drawing.id), _SHINE.format(id=drawing.id)]
    for number, piece in enumerate(drawing.pieces):
        name = f"{drawing.id}{number}"
        parts.append(_named(piece.markup, name))
        if piece.area in drawing.banded:
            parts.append(f'<clipPath id="{name}c">{piece.markup}</clipPath>')
    return f"<defs>{''.join(parts)}</defs>"


def _named(markup: str, name: str) -> str:
    """Shapes under an id. One shape alone bears it itself: a page has more than a thousand copies, each laid out."""
    if markup.count("<") == 1 and " " in markup:
        return markup.replace(" ", f' id="{name}" ', 1)
    return f'<g id="{name}">{markup}</g>'


def picture(drawing: Drawing, inner: str, *, key: str, title: str, description: str) -> Markup:
    """The drawing as it stands; `inner` is `body_of` with any `outlines`, `key` what its title, its description and the
    drawing itself are found by.
    """
    body = f'<g id="{key}-g">{inner}</g>'
    words = f'<title id="{key}-t">{escape(title)}</title><desc id="{key}-d">{escape(description)}</desc>'
    # The rest is made of numbers, colours and names of ours.
    return Markup(  # noqa: S704
        f'<svg class="figure" viewBox="{_box(drawing)}" role="img" aria-labelledby="{key}-t {key}-d">{words}{body}</svg>'
    )


def small(drawing: Drawing, inner: str) -> Markup:
    """A drawing that words beside it tell of: `inner` is `body_of`, or `again` where the page has that already."""
    return Markup(f'<svg class="figure" viewBox="{_box(drawing)}" aria-hidden="true">{inner}</svg>')  # noqa: S704


def again(key: str) -> str:
    """The picture of that key once more."""
    return f'<use href="#{key}-g"/>'


def outlines(drawing: Drawing, areas: Collection[str]) -> str:
    """A line around the areas that are to stand out, dark on white, so that it shows on any colour.

    The widths go by the size of the drawing. Safe as it is, as `body_of` is.
    """
    chosen = {folded(area) for area in areas}
    wide = max(drawing.chart.view_box[2:]) / 110
    uses = [
        f'<use href="#{drawing.id}{number}"/>'
        for number, piece in enumerate(drawing.pieces)
        if piece.area and folded(piece.area) in chosen and piece.relief is AreaPart.FLATS
    ]
    if not uses:
        return ""
    line = "".join(uses)
    return (
        f'<g class="marks" fill="none"><g stroke="#fff" stroke-width="{wide * 2:.3g}">{line}</g>'
        f'<g stroke="#a5371b" stroke-width="{wide:.3g}">{line}</g></g>'
    )


def _box(drawing: Drawing) -> str:
    return " ".join(f"{number:g}" for number in drawing.chart.view_box)


def standalone(drawing: Drawing, states: Mapping[str, AreaState], title: str) -> bytes:
    """The drawing as a file of its own, for cards and for others to take along."""
    box = _box(drawing)
    width, height = drawing.chart.view_box[2:]
    head = Markup(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" width="{width}" height="{height}"><title>{title}</title>'
    ).format(box=box, width=f"{width:g}", height=f"{height:g}", title=title)
    return f"{head}{_shape_defs(drawing)}{body_of(drawing, states)}</svg>\n".encode()


def body_of(drawing: Drawing, states: Mapping[str, AreaState], *, marked: bool = False) -> str:
    """The shapes, coloured by the state of each area: safe as it is, as the shapes are.

    `marked` has them say their area, for what can be pointed at.
    """
    looks = {folded(area): _Look.of(state) for area, state in states.items()}
    parts = []
    for number, piece in enumerate(drawing.pieces):
        look = looks.get(folded(piece.area)) if piece.area else None
        drawn = drawing.drawn.get((number, look))
        if drawn is None:
            drawn = drawing.drawn[number, look] = _piece(f"#{drawing.id}{number}", piece, look, drawing)
        parts.append((piece.area, drawn))
    if not marked:
        return "".join(drawn for _, drawn in parts)
    return "".join(
        _of_area(area, (drawn for _, drawn in some)) for area, some in groupby(parts, itemgetter(0))
    )


def _of_area(area: str | None, drawn: Iterable[str]) -> str:
    shown = "".join(drawn)
    return f'<g data-area="{escape(folded(area))}">{shown}</g>' if area else shown


def _piece(link: str, piece: Piece, look: _Look | None, drawing: Drawing) -> str:
    if not piece.area:
        return f'<use href="{link}"/>'
    if look is None or look.flats is None:
        edges = look.edges if look is not None and piece.relief is AreaPart.EDGES else None
        return f'<use href="{link}" fill="{edges or drawing.chart.ground}"/>'
    flats = look.flats
    colours = {
        AreaPart.FLATS: flats,
        AreaPart.RECESSES: look.recesses or flats,
        AreaPart.EDGES: look.edges or flats,
    }
    metal = look.metal_edges if piece.relief is AreaPart.EDGES else look.metal
    parts = [f'<use href="{link}" fill="{colours[piece.relief]}"/>']
    if piece.area in drawing.banded and len(set(colours.values())) > 1:
        parts = _bands(link, colours, drawing)
    if metal:
        parts.append(f'<use href="{link}" fill="url(#{drawing.id}-sheen)"/>')
    elif look.glossy and piece.relief is AreaPart.FLATS:
        parts.append(f'<use href="{link}" fill="url(#{drawing.id}-shine)"/>')
    return "".join(parts)


def _bands(link: str, colours: Mapping[AreaPart, str], drawing: Drawing) -> list[str]:
    """Recesses all over, then the shape moved up in the edges' colour, then the flats where both moves overlap."""
    move = f"{drawing.chart.view_box[3] * BAND:.4g}"
    twice = f"{drawing.chart.view_box[3] * BAND * 2:.4g}"
    clip = f"url({link}c)"
    raised = f'<use href="{link}" fill="{colours[AreaPart.EDGES]}"/>'
    flat = f'<use href="{link}" transform="translate(0 {twice})" fill="{colours[AreaPart.FLATS]}"/>'
    moved = f'<g transform="translate(0 -{move})">{raised}<g clip-path="{clip}">{flat}</g></g>'
    return [
        f'<use href="{link}" fill="{colours[AreaPart.RECESSES]}"/>',
        f'<g clip-path="{clip}">{moved}</g>',
    ]


def states_after(states: Mapping[str, Sequence[AreaState]], n: int) -> dict[str, AreaState]:
    """Each area as it is after step `n`; areas that nothing has touched by then are left out."""
    found = {}
    for area, those in states.items():
        reached = bisect_right(those, n, key=lambda state: state.n)
        if reached:
            found[area] = those[reached - 1]
    return found
