"""A plan's units with their guides: what is painted, up to which stop, in which batches."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from guidegen.base.suggest import folded
from guidegen.computing.guide.scheme import Scheme, scheme_of
from guidegen.model.guide import Guide
from guidegen.model.paint import Palette
from guidegen.model.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitScheme:
    """A unit to paint, from 1: its guide's steps up to its stop, and how many figures each batch has."""

    unit: int
    guide: Guide
    scheme: Scheme
    batches: tuple[int, ...]

    @property
    def figures(self) -> int:
        """All figures of the unit."""
        return sum(self.batches)


def unit_schemes(plan: Plan, guides: Mapping[str, Guide], palette: Palette) -> tuple[UnitScheme, ...]:
    """The plan's units with their guides by slug; one whose guide or stop isn't there is left out."""
    by_address = {folded(slug): guide for slug, guide in guides.items()}
    found = []
    for number, unit in enumerate(plan.units, 1):
        guide = by_address.get(folded(unit.guide.text))
        if guide is None:
            continue
        names = {folded(name): name for name in guide.choose}
        chosen = {folded(name): option.text for name, option in unit.choose.items()}
        choice = {names[key]: option for key, option in chosen.items() if key in names}
        scheme = cut(scheme_of(guide, palette, choice), unit.to.text if unit.to else None)
        if scheme is not None:
            batches = split(unit.figures, unit.batch)
            found.append(UnitScheme(unit=number, guide=guide, scheme=scheme, batches=batches))
    return tuple(found)


def cut(scheme: Scheme, stop: str | None) -> Scheme | None:
    """The scheme up to a stop and with it, as a whole for no stop; None if it has no such stop."""
    if stop is None:
        return scheme
    halt = next((halt for halt in scheme.stops if folded(halt.name) == folded(stop)), None)
    if halt is None:
        return None
    kept = tuple(other for other in scheme.stops if other.after <= halt.after)
    return replace(scheme, steps=scheme.until(halt), stops=kept)


def split(figures: int, batch: int | None) -> tuple[int, ...]:
    """How many figures each batch has: `batch` at a time, the rest in the last; all at once for None."""
    size = max(1, figures if batch is None else batch)
    return tuple(min(size, figures - start) for start in range(0, figures, size))
