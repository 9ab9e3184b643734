"""Everything that is worked out of one plan, gathered for its page, its calendar and the command."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.computing.evenings import Evenings, evenings
from guidegen.computing.materials import PaintNeed, paint_needs, shopping
from guidegen.computing.mending import Mending, mending
from guidegen.computing.roster import UnitScheme, unit_schemes
from guidegen.model.guide import Guide
from guidegen.model.paint import Palette
from guidegen.model.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Project:
    """A plan with its units, its sittings, what would mend it if it is late, and the paint for all of it."""

    plan: Plan
    units: tuple[UnitScheme, ...]
    evenings: Evenings
    mending: Mending | None
    needs: tuple[PaintNeed, ...]


def project_of(plan: Plan, guides: Iterable[Guide], palette: Palette) -> Project:
    """Work a plan out; units whose guide or stop isn't there are left out, checking has told of them."""
    units = unit_schemes(plan, {guide.slug: guide for guide in guides}, palette)
    worked = evenings(plan, units)
    return Project(
        plan=plan,
        units=units,
        evenings=worked,
        mending=mending(plan, units, worked),
        needs=shopping(paint_needs(unit.scheme, palette, unit.figures) for unit in units),
    )
