"""Shopping lists: what several guides need together, what it costs, and tables for a spreadsheet."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from guidegen.computing.materials import PaintNeed, Supply, round_drops, round_ml
from guidegen.model.paint import Paint

# What spreadsheets part cells by, each by its own setting; and what makes them run a cell instead of showing it:
# OWASP, "CSV Injection".
SEPARATORS = ",;\t|"
FORMULA_STARTS = "=+\\-@\t\r＝＋－＠"

# Where a cell begins under one separator or another, before blanks and quotes that may be taken away.
_BEGINS = rf"(?:\A|(?<=[{SEPARATORS}\r\n]))"
_FORMULA = rf"(?=[ \"']*[{FORMULA_STARTS}])"
_UNSAFE = re.compile(_BEGINS + _FORMULA)
_MADE_SAFE = re.compile(f"{_BEGINS}'{_FORMULA}")
# Everything but numbers stands in quotes.
_NUMBER = re.compile("[0-9.]*")

PAINT_COLUMNS = (
    "what",
    "name",
    "edition",
    "range",
    "code",
    "kind",
    "colour",
    "ml",
    "drops",
    "owned",
    "buy",
    "size ml",
    "price",
    "cost",
    "currency",
    "steps",
    "for",
    "amount",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Total:
    """What a list comes to: pots, their cost as far as prices are known, and the paints to buy that have none."""

    pots: int
    cost: float
    unpriced: tuple[Paint, ...]


def to_buy(needs: Iterable[PaintNeed]) -> tuple[PaintNeed, ...]:
    """Only what the shelf lacks."""
    return tuple(need for need in needs if need.buy)


def total(needs: Iterable[PaintNeed]) -> Total:
    """Add up what is to buy."""
    lacking = to_buy(needs)
    return Total(
        pots=sum(need.buy for need in lacking),
        cost=round(math.fsum(need.cost for need in lacking if need.cost is not None), 2),
        unpriced=tuple(need.paint for need in lacking if need.cost is None),
    )


def safe_cell(text: str) -> str:
    """Text that no spreadsheet takes for a formula, whatever it parts cells by: an apostrophe goes before each."""
    return _UNSAFE.sub("'", text)


def plain_cell(text: str) -> str:
    """What `safe_cell` was given."""
    return _MADE_SAFE.sub("", text)


def table(columns: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Rows of text under our own headings as CSV after RFC 4180: commas, quotes around text and doubled within, CRLF."""
    return "".join(",".join(cells) + "\r\n" for cells in (columns, *(map(_quoted, row) for row in rows)))


def _quoted(cell: str) -> str:
    return cell if _NUMBER.fullmatch(cell) else '"' + cell.replace('"', '""') + '"'


def shopping_csv(needs: Iterable[PaintNeed], currency: str) -> str:
    """A shopping list as CSV, a paint a row."""
    return materials_csv(needs, (), (), currency)


def materials_csv(
    needs: Iterable[PaintNeed], materials: Iterable[Supply], tools: Iterable[Supply], currency: str
) -> str:
    """All a guide uses as CSV: its paints, then materials and tools."""
    rows = [_paint_row(need, currency) for need in needs]
    rows += [_supply_row("material", supply) for supply in materials]
    rows += [_supply_row("tool", supply) for supply in tools]
    return table(PAINT_COLUMNS, rows)


def _paint_row(need: PaintNeed, currency: str) -> list[str]:
    paint = need.paint
    cells = {
        "what": "paint",
        "name": safe_cell(paint.name),
        "edition": safe_cell(paint.edition),
        "range": safe_cell(paint.range or ""),
        "code": safe_cell(paint.code),
        "kind": paint.kind.value,
        "colour": paint.colour or "",
        "ml": number(round_ml(need.ml)),
        "drops": number(round_drops(need.drops)),
        "owned": str(need.owned),
        "buy": str(need.buy),
        "size ml": number(paint.size),
        "price": money(paint.price),
        "cost": money(need.cost),
        "currency": safe_cell(currency),
        "steps": " ".join(map(str, need.steps)),
    }
    return [cells.get(column, "") for column in PAINT_COLUMNS]


def _supply_row(what: str, supply: Supply) -> list[str]:
    cells = {
        "what": what,
        "name": safe_cell(supply.name),
        "steps": " ".join(map(str, supply.steps)),
        "for": safe_cell(supply.purpose),
        "amount": safe_cell(supply.amount),
    }
    return [cells.get(column, "") for column in PAINT_COLUMNS]


def number(value: float | None) -> str:
    """A number as a cell, without an exponent and without noughts at its end; empty for None."""
    if value is None:
        return ""
    return f"{value:.4f}".rstrip("0").rstrip(".")


def money(value: float | None) -> str:
    """A sum of money as a cell, two decimals; empty for None."""
    return "" if value is None else f"{value:.2f}"
