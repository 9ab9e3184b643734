"""The bench on one page of paper: how small its type has to be for every step to fit."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.rendering.guide.guide_view import CautionView, StepView

# What one page leaves for the steps, in mm: A4 less its margins is 190 × 277, Letter 196 × 259, and the head of the
# sheet takes the rest. The smaller of each counts.
WIDTH = 190.0
HEIGHT = 220.0


@dataclass(frozen=True, slots=True, kw_only=True)
class TypeSize:
    """A size of type: columns of steps, millimetres for a line and, on the average, for a letter; and what each row has
    beside its lines. `name` is the class that the style knows it by.
    """

    name: str
    columns: int
    line: float
    letter: float
    room: float


# As templates/style/sheet.css sets them, the roomiest first; letters of a condensed face, common fonts measured.
TYPE_SIZES = (
    TypeSize(name="roomy", columns=1, line=4.7, letter=1.9, room=3.4),
    TypeSize(name="paired", columns=2, line=4.3, letter=1.8, room=2.6),
    TypeSize(name="close", columns=1, line=3.9, letter=1.6, room=1.8),
    TypeSize(name="halved", columns=2, line=3.6, letter=1.5, room=1.7),
    TypeSize(name="small-type", columns=2, line=3.1, letter=1.3, room=1.3),
    TypeSize(name="least", columns=3, line=2.55, letter=1.08, room=1.0),
)

# Those that are read at arm's length: for less nothing is put below the steps.
ROOMY = frozenset({"roomy", "paired", "close", "halved"})


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetRow:
    """How many letters stand in a step's row: what is done, and with which paints, brush and drying. `dabs` is the number
    of chips with a ring; `stops` the lines that follow.
    """

    what: int
    paint: int
    rest: int
    dabs: int
    stops: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetView:
    """The sheet's class, and the words of its head; `filled` is whether there is room below the steps for mixtures,
    times and the drawing.
    """

    size: str
    filled: bool
    facts: tuple[str, ...]
    cautions: tuple[str, ...]


# What stands below the steps where there is room: lines of a small type, at least as tall as the drawing.
FOOT_LINE, FOOT_LEAST = 3.8, 40.0


def foot_height(lines: int) -> float:
    """How tall the part below the steps is, mm, with as many lines in its longest column."""
    return max(FOOT_LEAST, (lines + 2) * FOOT_LINE)


def size_for(rows: Sequence[SheetRow], room: float = HEIGHT) -> str:
    """The roomiest setting in which the rows fit into the room, mm, of one page, the smallest where none does."""
    for setting in TYPE_SIZES:
        heights = [_height(row, setting) for row in rows]
        # A column can't be filled to the last millimetre: its last row may be the one that no longer fits.
        spare = max(heights, default=0.0) if setting.columns > 1 else 0.0
        if math.fsum(heights) / setting.columns + spare <= room:
            return setting.name
    return TYPE_SIZES[-1].name


def _height(row: SheetRow, setting: TypeSize) -> float:
    width = WIDTH / setting.columns
    if setting.columns == 1:
        # The columns of the style's grid, less the gaps between them.
        lines = max(
            _lines(row.what, 0.3 * width, setting),
            _lines(row.paint, 0.28 * width, setting),
            _lines(row.rest, 0.2 * width, setting),
        )
    else:
        lines = _lines(row.what, width - 12, setting) + _lines(row.paint + row.rest, width - 12, setting)
    dabs = max(0, row.dabs - 1) * 0.35
    return (lines + dabs + row.stops) * setting.line + setting.room


def _lines(letters: int, width: float, setting: TypeSize) -> int:
    return math.ceil(letters * setting.letter / width)


def row_of(step: StepView, where: str, thin: str, brush: str, dry: str, stops: int) -> SheetRow:
    """The row of a step, `where` being the words for its areas."""
    pots = (each for blend in step.blends for pot in blend.pots for each in (pot, *pot.parts))
    paints = sum(len(pot.name) + len(pot.amount) + 3 for pot in pots)
    return SheetRow(
        what=len(step.title)
        + len(step.technique.text)
        + len(where)
        + sum(len(link.text) for link in step.labels),
        paint=paints + 9 * len(step.blends) + len(thin) + (12 if step.says else 0),
        rest=len(brush) + len(dry) + 4,
        dabs=len(step.blends),
        stops=stops,
    )


def subjects_of(cautions: Sequence[CautionView]) -> tuple[str, ...]:
    """What is to be minded, each once, with the codes of the labels."""
    said: dict[str, dict[str, None]] = {}
    for caution in cautions:
        codes = said.setdefault(caution.subject, {})
        codes.update((code, None) for code, _ in caution.statements if code)
    return tuple(" ".join((subject, *codes)) for subject, codes in said.items())
