"""What a plan's units are called: by their guide, and by their number too where another unit has the same guide."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from guidegen.computing.plan.units import UnitScheme
from guidegen.words.language import Language


def unit_names(units: Sequence[UnitScheme], language: Language) -> dict[int, str]:
    """A name for each unit, by its number in the plan."""
    titles = Counter(unit.guide.title for unit in units)
    return {
        unit.unit: unit.guide.title
        if titles[unit.guide.title] == 1
        else language.t("plan.unit-named", guide=unit.guide.title, n=unit.unit)
        for unit in units
    }
