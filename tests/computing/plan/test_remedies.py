"""What would mend a late plan, worked by hand, and that each answer does."""

from __future__ import annotations

import datetime as dt
from typing import Any

from support.plans import evening, guide_of, plan_of, step, stop, unit

from guidegen.computing.plan.remedies import EarlierStop, FewerFigures, MoreSittings, Remedies, remedies
from guidegen.computing.plan.schedule import schedule
from guidegen.computing.plan.units import unit_schemes
from guidegen.model.guide import Guide
from guidegen.model.paint import Palette
from guidegen.model.plan import Plan

# Monday and Wednesday evenings of an hour; the deadline is that week's Friday.
WEEK: dict[str, Any] = {
    "week": {0: evening(20, 21), 2: evening(20, 21)},
    "deadline": dt.date(2026, 4, 10),
}


def mended(plan: Plan, *guides: Guide) -> Remedies | None:
    units = unit_schemes(plan, {guide.slug: guide for guide in guides}, Palette())
    return remedies(plan, units, schedule(plan, units))


COATS = guide_of(
    "ferry-watch",
    step("Coats", 0, 10, 0),
    stop("Fit to stand on the jetty"),
    step("Hoods", 0, 5, 0),
    stop("Fit to look at"),
    step("Eyes", 0, 5, 0),
)


def test_a_plan_in_time_needs_no_mending():
    assert mended(plan_of(unit(COATS, 6), **WEEK), COATS) is None
    assert mended(plan_of(unit(COATS, 60)), COATS) is None


def test_two_hours_hold_six_figures_eight_up_to_the_second_stop_or_more_evenings():
    """Twenty minutes a figure: 8 need 160 of 120 minutes. To the second stop they need 120; one hour more is enough."""
    assert mended(plan_of(unit(COATS, 8), **WEEK), COATS) == Remedies(
        figures=(FewerFigures(unit=1, guide="ferry-watch", figures=6, of=8),),
        stops=(EarlierStop(unit=1, guide="ferry-watch", stop="Fit to look at"),),
        sittings=MoreSittings(dates=(dt.date(2026, 4, 7),), hours=(1200, 1260)),
    )


def test_the_latest_stop_that_will_do_is_named():
    """Twelve figures: 180 minutes to the second stop, 120 to the first."""
    found = mended(plan_of(unit(COATS, 12), **WEEK), COATS)
    assert found is not None
    assert found.stops == (EarlierStop(unit=1, guide="ferry-watch", stop="Fit to stand on the jetty"),)
    assert found.sittings == MoreSittings(
        dates=(dt.date(2026, 4, 7), dt.date(2026, 4, 9)), hours=(1200, 1260)
    )


def test_each_unit_is_asked_by_itself_and_may_be_left_out():
    """120 minutes of the watch and 30 of the boat: 4 figures fewer make no room for the boat, 2 do."""
    boat = guide_of("patience", step("Hull", 0, 30, 0))
    found = mended(plan_of(unit(COATS, 6), unit(boat, 1), **WEEK), COATS, boat)
    assert found is not None
    assert found.figures == (
        FewerFigures(unit=1, guide="ferry-watch", figures=4, of=6),
        FewerFigures(unit=2, guide="patience", figures=0, of=1),
    )


def test_days_ruled_out_are_not_filled():
    plan = plan_of(
        unit(COATS, 8),
        dated={dt.date(2026, 4, 7): ()},
        skip=frozenset({dt.date(2026, 4, 9)}),
        **WEEK,
    )
    found = mended(plan, COATS)
    assert found is not None
    assert found.sittings == MoreSittings(dates=(dt.date(2026, 4, 10),), hours=(1200, 1260))


def test_a_late_evening_helps_where_the_drying_takes_days():
    """Gel on Monday dries until Thursday evening; Tuesday would not help, Friday does."""
    gel = guide_of("patience", step("Gel", 0, 10, 72 * 60), step("Oars", 0, 10, 0))
    found = mended(plan_of(unit(gel, 1), **WEEK), gel)
    assert found == Remedies(
        figures=(),
        stops=(),
        sittings=MoreSittings(dates=(dt.date(2026, 4, 10),), hours=(1200, 1260)),
    )


def test_nothing_helps_where_even_the_drying_is_too_long():
    gel = guide_of("patience", step("Gel", 0, 10, 14 * 24 * 60))
    assert mended(plan_of(unit(gel, 1), **WEEK), gel) == Remedies(figures=(), stops=(), sittings=None)


def test_fewer_figures_keep_their_batches():
    """Batches of three, 10 once and 10 each: Monday 1-4 until 21:00, Wednesday 5 and 6, then 7 and 8 until 21:00."""
    slow = guide_of("ferry-watch", step("Coats", 10, 10, 0))
    found = mended(plan_of(unit(slow, 10, batch=3), **WEEK), slow)
    assert found is not None
    assert found.figures == (FewerFigures(unit=1, guide="ferry-watch", figures=8, of=10),)


def test_a_spray_that_never_fits_can_only_be_stopped_before():
    sprayed = guide_of(
        "ferry-watch",
        step("Coats", 0, 5, 0),
        stop("Unsealed"),
        step("Seal", 5, 10, 0, technique="spray varnish"),
    )
    found = mended(plan_of(unit(sprayed, 2), spraying={}, **WEEK), sprayed)
    assert found == Remedies(
        figures=(), stops=(EarlierStop(unit=1, guide="ferry-watch", stop="Unsealed"),), sittings=None
    )


def test_a_very_large_plan_is_not_searched_for_ever():
    long = guide_of("ferry-watch", *(step(f"Layer {n}", 0, 1, 300) for n in range(60)))
    plan = plan_of(unit(long, 400), week=dict.fromkeys(range(7), ((0, 1440),)), deadline=dt.date(2026, 4, 20))
    found = mended(plan, long)
    assert found is not None
