"""A figure as a chart, cut like a lino block: one ink shape under everything, flat shapes of each area upon it.

No two areas overlap, and the ink between them is what shows of the shape beneath, so any colouring keeps its lines.
"""

from __future__ import annotations

from xml.sax.saxutils import escape

import ink
import numpy as np
from figure import Cut, Figure, Piece, cut
from scipy import ndimage

INK = "#1b1f24"
FLATS, RECESSES, EDGES = "#b4afa3", "#8a867c", "#d3cfc4"

# How far the ink stands out around the whole figure, in the drawing's units.
CONTOUR = 3.4

BASE, LOW, HIGH = 0, 1, 2


class Block:
    """A layer as cells: which area each cell belongs to (0 is ink or nothing), and which part of it."""

    def __init__(self, figure: Figure, pieces: list[Piece]) -> None:
        """Cut the pieces one over the other."""
        self.window = figure.window
        cells = (figure.height * ink.FINE, figure.width * ink.FINE)
        self.owner = np.zeros(cells, dtype=np.uint8)
        self.part = np.zeros(cells, dtype=np.uint8)
        self.covered = np.zeros(cells, dtype=bool)
        self.areas = list(dict.fromkeys(piece.area for piece in pieces))
        for piece in pieces:
            self._lay(piece, cut(piece))

    def _lay(self, piece: Piece, shape: Cut) -> None:
        here, there = _overlap(shape.window, self.window)
        half = piece.border / 2 * ink.FINE
        whole = shape.whole
        grown = ndimage.distance_transform_edt(~whole) <= half
        inner = (ndimage.distance_transform_edt(whole) > half) & ~shape.ink
        owner, part = self.owner[there], self.part[there]
        owner[grown[here]] = 0
        owner[inner[here]] = self.areas.index(piece.area) + 1
        part[inner[here]] = BASE
        part[(inner & shape.low)[here]] = LOW
        part[(inner & shape.high)[here]] = HIGH
        self.covered[there] |= whole[here]

    def backing(self) -> list[ink.Line]:
        """The ink under everything."""
        away = ndimage.distance_transform_edt(~self.covered) / ink.FINE
        return ink.traced(away <= CONTOUR, self.window, slack=0.4)

    def area(self, name: str) -> list[ink.Line]:
        """The whole of an area."""
        return ink.traced(self.owner == self.areas.index(name) + 1, self.window, slack=0.4, smallest=2.5)

    def within(self, name: str, part: int) -> list[ink.Line]:
        """The recesses or edges of an area, grown a hair into the ink so that no rim of flats shows."""
        shape = (self.owner == self.areas.index(name) + 1) & (self.part == part)
        grown = ndimage.binary_dilation(shape, iterations=2) & ((self.owner == 0) | shape)
        return ink.traced(grown, self.window)


def _overlap(window: ink.Window, whole: ink.Window) -> tuple[tuple[slice, slice], tuple[slice, slice]]:
    """The cells of a window that lie in the whole, counted from the window's corner and from the whole's."""
    left, top = max(window[0], whole[0]), max(window[1], whole[1])
    right, bottom = min(window[2], whole[2]), min(window[3], whole[3])

    def cells(x: int, y: int) -> tuple[slice, slice]:
        f = ink.FINE
        return slice((top - y) * f, (bottom - y) * f), slice((left - x) * f, (right - x) * f)

    return cells(window[0], window[1]), cells(whole[0], whole[1])


def chart(figure: Figure) -> str:
    """The chart's text: the common layer, then one group for each variant that lies over it."""
    rows = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {figure.width} {figure.height}" fill="{FLATS}">',
        f"<title>{escape(figure.title)}</title>",
        f"<desc>{escape(figure.desc)}</desc>",
        *_layer(Block(figure, [piece for piece in figure.pieces if not piece.only])),
    ]
    for variant in dict.fromkeys(piece.only for piece in figure.pieces if piece.only):
        pieces = [piece for piece in figure.pieces if piece.only == variant]
        rows += [f'<g data-only="{variant}">', *_layer(Block(figure, pieces)), "</g>"]
    return "\n".join([*rows, "</svg>", ""])


def _layer(block: Block) -> list[str]:
    rows = [f'<path fill="{INK}" d="{ink.path(block.backing(), curved=False)}"/>']
    for area in block.areas:
        rows.append(f'<path data-area="{area}" d="{ink.path(block.area(area), curved=False)}"/>')
        for part, word, colour in ((LOW, "recess", RECESSES), (HIGH, "edge", EDGES)):
            lines = block.within(area, part)
            if lines:
                way = ink.path(lines, curved=False)
                rows.append(f'<path data-area="{area}" data-part="{word}" fill="{colour}" d="{way}"/>')
    return rows
