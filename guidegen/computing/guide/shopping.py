"""Shopping lists: what several guides need together, what it costs, and tables for a spreadsheet."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.base.csv_cells import money, number, safe_cell, table
from guidegen.computing.guide.materials import PaintNeed, Supply, round_drops, round_ml
from guidegen.model.paint import Paint

PAINT_COLUMNS = (
    "what", "name", "edition", "range", "code", "kind", "colour", "ml", "drops", "owned", "buy", "size ml",
    "price", "cost", "currency", "steps", "for", "amount",
)  # fmt: skip


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
