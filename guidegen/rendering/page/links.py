"""What the page shows of areas: how each looks, how it builds up, and what goes where."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from guidegen.rendering.theme.chips import Chip


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """Words that lead somewhere; `current` is where the reader is."""

    text: str
    href: str
    current: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ReliefView:
    """An area's raised edges, flats and recesses; `edges_shine` and `shine` where they are metal."""

    edges: str
    flats: str
    recesses: str
    edges_shine: bool = False
    shine: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DaubView:
    """An area after a step."""

    relief: ReliefView
    step: Link
    technique: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DaubRow:
    """How one area builds up."""

    area: str
    daubs: tuple[DaubView, ...]
    ladder: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class CellUse:
    """A step in a cell of what goes where."""

    n: int
    step: Link
    chips: tuple[Chip, ...]
    names: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MatrixRow:
    """An area, what goes on it by each technique, and how it ends up, if that is known."""

    area: str
    cells: tuple[tuple[CellUse, ...], ...]
    ends: ReliefView | None
    left: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Matrix:
    """What goes where: areas by techniques."""

    techniques: tuple[str, ...]
    rows: tuple[MatrixRow, ...]
