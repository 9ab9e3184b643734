"""What a scheme uses up: paint in ml and drops and what of it to buy, materials, tools."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from guidegen.base.suggest import folded
from guidegen.computing.colour.blend import blend_of, ingredients
from guidegen.computing.guide.scheme import Scheme, SchemeStep
from guidegen.computing.guide.surface import Surface, surface_of
from guidegen.model.names import Item
from guidegen.model.paint import Kind, Paint, Palette

# 1 cm² under 1 µm is 1e-4 cm³, and 1 cm³ is 1 ml.
ML_PER_SQUARE_CM_AND_MICRON = 1e-4

# Fewer drops than this on a palette dry up before they are used: common practice, no source.
LEAST_POUR = 2

# Past this nobody counts drops: 200 of the usual size.
MOST_IN_DROPS = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintNeed:
    """What a batch needs of one paint. `ml` is an estimate of what leaves the pot, None where there is no film.

    `owned` and `buy` are in pots; `cost` is of what is to buy, None without a price. `steps` are numbered as in the
    scheme, and empty where several guides are summed. `spared` is whether one can paint without it: up to the first
    stop it is only in steps that are optional, or that name a substitute of which there are pots.
    """

    paint: Paint
    steps: tuple[int, ...]
    ml: float | None
    drops: float | None
    owned: int
    buy: int
    cost: float | None
    spared: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Supply:
    """A material or tool with everything said about it. `steps` are those that name it, none for the guide's own."""

    name: str
    purpose: str = ""
    amount: str = ""
    cautions: tuple[str, ...] = ()
    steps: tuple[int, ...] = ()


def film_volume(area: float, film: float) -> float:
    """Millilitres of a wet film of `film` µm over `area` cm²."""
    return area * film * ML_PER_SQUARE_CM_AND_MICRON


def step_volume(step: SchemeStep, surface: Surface, figures: int) -> float | None:
    """Millilitres of paint, thinner left out, that a step takes for a batch; None for what lays no film."""
    each = step.step.amount
    if each is None:
        area = surface.under(step.technique, step.step.share)
        if area is None or step.technique.wet is None:
            return None
        each = film_volume(area, step.technique.wet) * step.technique.loss
    thin = step.step.thin
    return figures * step.step.coats * each * (thin.paint_share if thin else 1.0)


@dataclass(slots=True)
class _Tally:
    paint: Paint
    steps: list[int] = field(default_factory=list)
    ml: float | None = None
    spared: bool = True

    def add(self, ml: float | None) -> None:
        if ml is not None:
            self.ml = ml + (self.ml or 0.0)


def paint_needs(scheme: Scheme, palette: Palette, figures: int) -> tuple[PaintNeed, ...]:
    """What a batch needs of every palette paint, in the order of first use; mixes are broken down to their paints.

    Paints that a step uses side by side share its amount evenly. Steps without a film count only where the paint
    has no other step.
    """
    surface = surface_of(scheme.guide)
    tallies: dict[int, _Tally] = {}
    last = next((stop.after for stop in scheme.stops if stop.after), len(scheme.steps))
    for step in scheme.steps:
        spared = step.n > last or step.step.optional or _has_substitute(step, palette)
        volume = step_volume(step, surface, figures)
        for blend in step.brushed:
            for part in ingredients(blend, palette):
                tally = tallies.setdefault(id(part.paint), _Tally(part.paint))
                if step.n not in tally.steps:
                    tally.steps.append(step.n)
                tally.spared = tally.spared and spared
                tally.add(None if volume is None else volume / len(step.brushed) * part.share)
    return tuple(
        replace(_need(tally.paint, tuple(tally.steps), tally.ml), spared=tally.spared)
        for tally in tallies.values()
    )


def _has_substitute(step: SchemeStep, palette: Palette) -> bool:
    """Whether there are pots of all that one of the author's own substitutes is made of."""
    blends = (blend_of(other.parts, palette) for other in step.step.instead)
    return any(
        blend is not None and all(part.paint.owned for part in ingredients(blend, palette))
        for blend in blends
    )


def shopping(needs_by_unit: Iterable[Sequence[PaintNeed]]) -> tuple[PaintNeed, ...]:
    """The needs of several guides or units summed first, and what to buy worked out on the sum."""
    tallies: dict[str, _Tally] = {}
    for needs in needs_by_unit:
        for need in needs:
            tallies.setdefault(need.paint.full_name, _Tally(need.paint)).add(need.ml)
    return tuple(_need(tally.paint, (), tally.ml) for tally in tallies.values())


def _need(paint: Paint, steps: tuple[int, ...], ml: float | None) -> PaintNeed:
    buy = pots_to_buy(ml, paint.size, paint.owned)
    return PaintNeed(
        paint=paint,
        steps=steps,
        ml=ml,
        drops=None if ml is None or paint.drop <= 0 else ml / paint.drop,
        owned=paint.owned,
        buy=buy,
        cost=None if paint.price is None else round(buy * paint.price, 2),
    )


def pots_to_buy(ml: float | None, size: float | None, owned: int) -> int:
    """Pots to buy for `ml` where a pot holds `size` ml; where either is unknown, one if none is owned.

    Rounding to 1e-9 first keeps the last bit of a sum from asking for a whole pot more.
    """
    if ml is None or not size:
        return 0 if owned else 1
    return max(0, math.ceil(round(ml / size, 9)) - owned)


def round_ml(ml: float | None) -> float | None:
    """As files show it: four decimals, a tenth of a microlitre."""
    return None if ml is None else round(ml, 4)


def round_drops(drops: float | None) -> float | None:
    """As files show it: two decimals."""
    return None if drops is None else round(drops, 2)


def comes_in_drops(paint: Paint) -> bool:
    """Whether a pot is poured out drop by drop; a can, a paste and a powder are not."""
    return paint.comes_as != "can" and paint.kind not in {Kind.PASTE, Kind.PIGMENT}


def supplies(scheme: Scheme) -> tuple[tuple[Supply, ...], tuple[Supply, ...]]:
    """Materials and tools of the guide and of its steps, each once, in the order first named."""
    steps = scheme.steps
    return (
        _merged(scheme.guide.materials, [(step.n, step.step.materials) for step in steps]),
        _merged(scheme.guide.tools, [(step.n, step.step.tools) for step in steps]),
    )


def _merged(own: Iterable[Item], by_step: Iterable[tuple[int, Iterable[Item]]]) -> tuple[Supply, ...]:
    merged: dict[str, Supply] = {}
    named = [*((item, ()) for item in own), *((item, (n,)) for n, items in by_step for item in items)]
    for item, steps in named:
        old = merged.setdefault(folded(item.name), Supply(name=item.name))
        merged[folded(item.name)] = replace(
            old,
            purpose=_joined(old.purpose, item.purpose),
            amount=_joined(old.amount, item.amount),
            cautions=tuple(dict.fromkeys((*old.cautions, *item.cautions))),
            steps=tuple(dict.fromkeys((*old.steps, *steps))),
        )
    return tuple(merged.values())


def _joined(old: str, new: str) -> str:
    return "; ".join(dict.fromkeys(filter(None, (*old.split("; "), new))))
