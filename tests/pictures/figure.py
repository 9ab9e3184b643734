"""A figure as pieces laid over one another, each with its outline, folds, lights and inked lines."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

import ink
import numpy as np


@dataclass(frozen=True, kw_only=True)
class Piece:
    """One shape of an area.

    `fold` and `light` are strokes and patches for recesses and edges, `line` strokes of ink. `rim` and `shade` are
    how far light and shadow reach in from the edge, `swell` how far in it rounds off when it is lit as a solid.
    `group` names the pieces that move together, `only` the variant that it belongs to.
    """

    area: str
    outline: ink.Line
    fold: tuple[str, ...] = ()
    light: tuple[str, ...] = ()
    line: tuple[str, ...] = ()
    rim: float = 3.0
    shade: float = 5.0
    swell: float = 14.0
    border: float = 2.8
    group: str = ""
    only: str = ""


@dataclass
class Figure:
    """A drawing: its size in its own units, what it shows, and its pieces from back to front."""

    name: str
    width: int
    height: int
    title: str
    desc: str
    pieces: list[Piece] = field(default_factory=list)

    def piece(self, area: str, outline: str, **rest: object) -> None:
        """Lay one more piece on top; strokes come as a tuple, or as one text with semicolons between them."""
        for key in ("fold", "light", "line"):
            strokes = rest.get(key)
            if isinstance(strokes, str):
                rest[key] = tuple(text.strip() for text in strokes.split(";"))
        self.pieces.append(Piece(area=area, outline=ink.Line.of(outline), **rest))  # type: ignore[arg-type]

    @property
    def window(self) -> ink.Window:
        """The whole drawing."""
        return 0, 0, self.width, self.height


@dataclass(frozen=True)
class Cut:
    """A piece's whole, recesses, edges and inked lines as masks, and the window they fill."""

    window: ink.Window
    whole: np.ndarray
    low: np.ndarray
    high: np.ndarray
    ink: np.ndarray


def cut(piece: Piece, fine: float = ink.FINE, margin: int = 6) -> Cut:
    """Cut a piece out, with recesses and edges kept within its outline and apart from each other."""
    outline = piece.outline.flat(closed=True)
    left, top = np.floor(outline.min(axis=0)).astype(int) - margin
    right, bottom = np.ceil(outline.max(axis=0)).astype(int) + margin
    window = (int(left), int(top), int(right), int(bottom))
    whole = ink.mask([outline], window, fine)
    low = ink.mask([ink.stroke(text) for text in piece.fold], window, fine)
    high = ink.mask([ink.stroke(text) for text in piece.light], window, fine)
    if piece.shade:
        low |= ink.rim(whole, -piece.shade * fine * 0.75, -piece.shade * fine)
    if piece.rim:
        high |= ink.rim(whole, piece.rim * fine * 0.8, piece.rim * fine)
    low &= whole
    lines = ink.mask([ink.stroke(text) for text in piece.line], window, fine)
    return Cut(window, whole, low, high & whole & ~low, lines)


def turn(degrees: float, x: float, y: float, *, right: float = 0, down: float = 0) -> np.ndarray:
    """The 2 × 3 matrix that turns clockwise about a place, then moves."""
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    return np.array([[c, -s, x - c * x + s * y + right], [s, c, y - s * x - c * y + down]])


def posed(figure: Figure, moves: Mapping[str, np.ndarray], *, without: Iterable[str] = ()) -> Figure:
    """The figure with some groups of pieces moved and some areas left off."""
    left_off = set(without)
    pieces = []
    for piece in figure.pieces:
        if piece.area in left_off:
            continue
        matrix = moves.get(piece.group)
        if matrix is not None:
            strokes = {
                key: tuple(ink.moved(text, matrix) for text in getattr(piece, key))
                for key in ("fold", "light", "line")
            }
            piece = replace(piece, outline=piece.outline.turned(matrix), **strokes)  # noqa: PLW2901
        pieces.append(piece)
    return Figure(figure.name, figure.width, figure.height, figure.title, figure.desc, pieces)
