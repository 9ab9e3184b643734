"""The rules in the order they run, and running them.

To add one: give it a slug in base/codes.py, write a function that yields diagnostics, put it in the tuple it belongs
to, and add a case that triggers it and one that does not under tests/cases/messages.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from guidegen.base.diagnostic import Diagnostic
from guidegen.checking import advice, areas, measured, order, paints, palettes, plans, sense, techniques
from guidegen.checking.bounds import too_much_of_a_guide, too_much_of_a_plan
from guidegen.checking.case import GuideCase, case_of
from guidegen.checking.meant import steps_are_known, without_meant
from guidegen.checking.plans import PlanCase
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.model.guide import Guide, Insert, Shared
from guidegen.model.paint import Palette

GuideRule = Callable[[GuideCase], Iterator[Diagnostic]]
PlanRule = Callable[[PlanCase], Iterator[Diagnostic]]
PaletteRule = Callable[[Palette], Iterator[Diagnostic]]

PALETTE_RULES: tuple[PaletteRule, ...] = (palettes.known_hazards, palettes.ranges_are_spelt)

GUIDE_RULES: tuple[GuideRule, ...] = (
    paints.known_paints,
    paints.paint_is_said,
    paints.discontinued,
    sense.known_choices,
    sense.known_guides,
    sense.times_are_said,
    sense.stops_come_later,
    techniques.known_techniques,
    sense.washes_dry,
    sense.sealed,
    areas.chart_has_areas,
    areas.areas_of_chart,
    areas.areas_are_painted,
    steps_are_known,
    sense.made_is_known,
    areas.areas_are_spelt,
    areas.areas_are_covered,
    order.in_order,
    advice.light_and_dark,
    advice.dark_ground,
    measured.times_differ,
)

# What is told by these of a guide goes by all of its steps, so it waits until each can be read.
OF_THE_WHOLE_GUIDE = frozenset(
    {"unpainted-area", "area-near-another", "area-never-covered", "steps-out-of-order", "unsealed"}
)

# A shared list that no guide inserts: what its steps say by themselves.
LIST_RULES: tuple[GuideRule, ...] = (
    paints.known_paints,
    paints.paint_is_said,
    sense.times_are_said,
    techniques.known_techniques,
)

PLAN_RULES: tuple[PlanRule, ...] = (plans.units_are_known, plans.dates_in_order, plans.there_is_time)


def check_palette(palette: Palette) -> tuple[Diagnostic, ...]:
    """What is to be said about a palette that could be read."""
    return tuple(diagnostic for rule in PALETTE_RULES for diagnostic in rule(palette))


def check_guide(case: GuideCase) -> tuple[Diagnostic, ...]:
    """What is to be said about a guide that could be read, but for the advice that is meant."""
    return tuple(without_meant((one for rule in GUIDE_RULES for one in rule(case)), case.guide))


def check_list(shared: Shared, palette_tools: PaletteTools) -> tuple[Diagnostic, ...]:
    """What is to be said about a shared list that no guide inserts; guides tell of those they do."""
    steps = tuple(entry for entry in shared.entries if not isinstance(entry, Insert))
    guide = Guide(slug=shared.name, file=shared.span.file, title=shared.name, entries=steps, span=shared.span)
    too_much = tuple(too_much_of_a_guide(guide))
    if too_much:
        return too_much
    case = case_of(guide, palette_tools)
    return tuple(diagnostic for rule in LIST_RULES for diagnostic in rule(case))


def check_plan(case: PlanCase) -> tuple[Diagnostic, ...]:
    """What is to be said about a plan that could be read."""
    too_much = tuple(too_much_of_a_plan(case))
    return too_much or tuple(diagnostic for rule in PLAN_RULES for diagnostic in rule(case))
