"""What a plan's units are called: by their guide, and by their number too where another unit has the same guide."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from guidegen.computing.roster import UnitScheme


def unit_names(units: Sequence[UnitScheme]) -> dict[int, str]:
    """A name for each unit, by its number in the plan."""
    titles = Counter(unit.guide.title for unit in units)
    return {
        unit.unit: unit.guide.title
        if titles[unit.guide.title] == 1
        else f"{unit.guide.title} (unit {unit.unit})"
        for unit in units
    }
