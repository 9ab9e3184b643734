"""Everything that is worked out of one plan, gathered for its page, its calendar and the command."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.computing.guide.materials import PaintNeed, paint_needs, shopping
from guidegen.computing.plan.jobs import Schedule
from guidegen.computing.plan.remedies import Remedies, remedies
from guidegen.computing.plan.schedule import schedule
from guidegen.computing.plan.units import UnitScheme, unit_schemes
from guidegen.model.guide import Guide
from guidegen.model.paint import Palette
from guidegen.model.plan import Plan


@dataclass(frozen=True, slots=True, kw_only=True)
class Project:
    """A plan with its units, its sittings, what would mend it if it is late, and the paint for what is left."""

    plan: Plan
    units: tuple[UnitScheme, ...]
    schedule: Schedule
    remedies: Remedies | None
    needs: tuple[PaintNeed, ...]


def project_of(plan: Plan, guides: Iterable[Guide], palette: Palette) -> Project:
    """Work a plan out; units whose guide or stop isn't there are left out, checking has told of them."""
    units = unit_schemes(plan, {guide.slug: guide for guide in guides}, palette)
    computed = schedule(plan, units)
    return Project(
        plan=plan,
        units=units,
        schedule=computed,
        remedies=remedies(plan, units, computed),
        needs=shopping(
            paint_needs(scheme, palette, figures) for unit in units for scheme, figures in unit.schemes
        ),
    )
