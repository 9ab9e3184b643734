"""A figure chart: a drawing whose shapes say which area of the figure they are."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from guidegen.base.source import Span


class AreaPart(StrEnum):
    """Which part of an area a shape stands for; a highlight colours the edges, a wash most of all the recesses."""

    FLATS = "flats"
    RECESSES = "recess"
    EDGES = "edge"


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """Neighbouring shapes of one area, or of none: the line work. `markup` is clean SVG without ids.

    `only` is the choice and option of a variant that the piece belongs to, None for all.
    """

    markup: str
    area: str = ""
    relief: AreaPart = AreaPart.FLATS
    only: tuple[str, str] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """A drawing in the order it is painted. `ground` fills areas that have no colour yet."""

    title: str
    view_box: tuple[float, float, float, float]
    ground: str
    pieces: tuple[Piece, ...]
    span: Span

    @property
    def areas(self) -> tuple[str, ...]:
        """The areas in the order drawn."""
        return tuple(dict.fromkeys(piece.area for piece in self.pieces if piece.area))
