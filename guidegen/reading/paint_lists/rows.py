"""Paints on their way in or out of a palette file: plain values, and what was wrong with the text they came from."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.base.suggest import folded
from guidegen.model.paint import COLOURLESS, Kind, Paint
from guidegen.reading.types.parse_context import LONGEST_NAME


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintRow:
    """A paint as a palette file says it; empty text, None and 0 are left out there. `size` in ml, `owned` in pots."""

    name: str
    range: str = ""
    code: str = ""
    edition: str = ""
    aliases: tuple[str, ...] = ()
    kind: Kind = Kind.PAINT
    colour: str | None = None
    finish: str = ""
    covers: str = ""
    binder: str = ""
    comes_as: str = ""
    size: float | None = None
    price: float | None = None
    owned: int = 0
    discontinued: bool = False
    hazards: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """What could not be taken over, and from which line (counted from 1)."""

    line: int
    message: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PaletteText:
    """What was read out of a text: its title if it has one, the paints in order, the problems by line."""

    title: str = ""
    paints: tuple[PaintRow, ...] = ()
    problems: tuple[Problem, ...] = ()


def row_of(paint: Paint) -> PaintRow:
    """A palette's paint as plain values."""
    return PaintRow(
        name=paint.name,
        range=paint.range or "",
        code=paint.code,
        edition=paint.edition,
        aliases=paint.aliases,
        kind=paint.kind,
        colour=paint.colour,
        finish=paint.finish,
        covers=paint.covers,
        binder=paint.binder,
        comes_as=paint.comes_as,
        size=paint.size,
        price=paint.price,
        owned=paint.owned,
        discontinued=paint.discontinued,
        hazards=tuple(code.text for code in paint.hazards),
        note=paint.note,
    )


def tidy(text: str) -> str:
    """One line of text that any file can hold: white space runs become a space, what cannot be printed goes."""
    return " ".join("".join(c if c.isprintable() or c.isspace() else " " for c in text).split())


def settled(title: str, numbered: Iterable[tuple[int, PaintRow]], problems: Iterable[Problem]) -> PaletteText:
    """The paints without those that come twice, each with its colour or one problem about it."""
    kept: dict[tuple[str, str, str], PaintRow] = {}
    found = list(problems)
    reported = {problem.line for problem in found if problem.message.startswith("The colour of")}
    for line, row in numbered:
        key = (folded(row.range), folded(row.name), folded(row.edition))
        label = f"{row.range} / {row.name}" if row.range else row.name
        if max(len(row.name), len(row.range), len(row.code), len(row.edition)) > LONGEST_NAME:
            found.append(
                Problem(
                    line,
                    f"“{label[:40]}…” has more than {LONGEST_NAME} letters in a name, so it was left out.",
                )
            )
            continue
        if key in kept:
            found.append(Problem(line, f"“{label}” comes a second time; the first is kept."))
            continue
        kept[key] = row
        if row.colour is None and row.kind not in COLOURLESS and line not in reported:
            found.append(Problem(line, f"“{label}” has no colour; add it in the palette."))
    return PaletteText(title=title, paints=tuple(kept.values()), problems=tuple(sorted(found)))
