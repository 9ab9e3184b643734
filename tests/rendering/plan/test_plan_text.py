"""A plan in words, and as data: what a painter reads at the terminal, and what other programs read."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from support.plans import PLACE, evening, guide_of, plan_of, step, stop, unit

from guidegen.computing.guide.materials import PaintNeed
from guidegen.computing.plan.project import Project, project_of
from guidegen.model.guide import Guide
from guidegen.model.paint import Paint, Palette
from guidegen.model.plan import Plan
from guidegen.rendering.plan.plan_json import plan_data
from guidegen.rendering.plan.plan_text import plan_text

WATCH = guide_of(
    "ferry-watch",
    step("Coats", 5, 10, 15, coats=2),
    stop("Fit to stand on the jetty"),
    step("Eyes", 0, 5, 0),
)


def need(name: str, ml: float | None, buy: int, price: float | None, owned: int = 0) -> PaintNeed:
    return PaintNeed(
        paint=Paint(name=name, range="Reedbank Acrylics", price=price, owned=owned, span=PLACE),
        steps=(),
        ml=ml,
        drops=None,
        owned=owned,
        buy=buy,
        cost=None if price is None else buy * price,
    )


NEEDS = [
    need("Oilskin Ochre", 12.34567, 1, 2.8),
    need("Ropewalk", 2, 0, 2.8, owned=1),
    need("Silt", None, 2, None),
]


def project(plan: Plan, *guides: Guide, needs: list[PaintNeed] | None = None) -> Project:
    return replace(project_of(plan, guides, Palette()), needs=tuple(needs or ()))


def words(plan: Plan, *guides: Guide, needs: list[PaintNeed] | None = None) -> str:
    return plan_text(project(plan, *guides, needs=needs), "EUR")


def test_a_late_plan_says_what_is_missing_and_what_would_mend_it():
    """Six figures need 5 + 60, 60 and 30 minutes and one more setting up; two evenings have an hour each."""
    plan = plan_of(
        unit(WATCH, 6), week={0: evening(20, 21), 2: evening(20, 21)}, deadline=dt.date(2026, 4, 10)
    )
    assert words(plan, WATCH, needs=NEEDS) == (
        "Regatta\n"
        "\n"
        "Monday, 6 April 2026, 20:00 to 21:00\n"
        "  20:00   Coats, coat 1 of 2   figures 1–5   ferry-watch\n"
        "  20:55   Brush down, 55 min of painting\n"
        "\n"
        "Wednesday, 8 April 2026, 20:00 to 21:00\n"
        "  20:00   Coats, coat 1 of 2   figure 6      ferry-watch\n"
        "  20:15   Coats, coat 2 of 2   figures 1–4   ferry-watch\n"
        "  20:55   Brush down, 55 min of painting\n"
        "\n"
        "Monday, 13 April 2026, 20:00 to 21:00\n"
        "  20:00   Coats, coat 2 of 2   figures 5–6   ferry-watch\n"
        "  20:20   Eyes                 figures 1–6   ferry-watch\n"
        "  20:50   Brush down, 50 min of painting\n"
        "\n"
        "Too late by 3 days.\n"
        "The last figure is dry on Monday, 13 April 2026 at 20:50.\n"
        "50 min of painting falls after the deadline, Friday, 10 April 2026.\n"
        "Done and dry by then: 0 of 6 figures.\n"
        "2 h 40 min of painting in 3 sittings.\n"
        "Each of these alone would mend it:\n"
        "  - Paint 4 of ferry-watch instead of 6.\n"
        "  - Sit down once more, 20:00 to 21:00, for instance on Tue 7 April.\n"
        "\n"
        "To buy\n"
        "  Reedbank Acrylics / Oilskin Ochre   1 pot    12 ml    2.80 EUR\n"
        "  Reedbank Acrylics / Silt            2 pots   by eye   no price\n"
        "  Together 3 pots, 2.80 EUR.\n"
        "  1 paint has no price, so it costs more than that.\n"
        "  Amounts are estimates for all that is left to paint, brush and palette losses counted in.\n"
    )


def test_a_plan_in_time_says_how_many_days_are_to_spare():
    plan = plan_of(unit(WATCH, 1))
    dry = "The last figure is dry on Monday, 6 April 2026 at 21:00.\n"
    assert f"\nDone on Monday, 6 April 2026.\n{dry}" in words(plan, WATCH)
    for day, spare in (
        (6, "on the very day of the deadline"),
        (7, "with 1 day to spare"),
        (9, "with 3 days to spare"),
    ):
        found = words(replace(plan, deadline=dt.date(2026, 4, day)), WATCH)
        assert f"\nIn time, {spare}.\n{dry}" in found


def test_drying_alone_can_be_late():
    gel = guide_of("patience", step("Gel", 0, 10, 72 * 60))
    found = words(plan_of(unit(gel, 1), deadline=dt.date(2026, 4, 7)), gel)
    late = "All painting is done by the deadline, Tuesday, 7 April 2026; only drying falls after it.\n"
    assert f"{late}Done and dry by then: 0 of 1 figure.\n" in found
    assert (
        "Neither fewer figures of one unit, nor one earlier stop, nor the free days would mend it alone.\n"
        in found
    )


def test_what_never_fits_is_said_once_for_all_batches():
    sprayed = guide_of("patience", step("Seal", 5, 10, 0, technique="spray varnish"))
    found = words(plan_of(unit(sprayed, 4, batch=1), spraying={}), sprayed)
    room = "no spraying hours in a sitting still to come have room for it"
    assert found.count(f"It is never finished.\npatience stays at step 1, “Seal”: {room}.\n") == 1
    assert found.count("“Seal”") == 1


def test_units_of_one_guide_are_told_apart():
    found = words(plan_of(unit(WATCH, 1), unit(WATCH, 1)), WATCH)
    assert "figure 1   ferry-watch (unit 1)\n" in found
    assert "figure 1   ferry-watch (unit 2)\n" in found


def test_nothing_to_paint_and_nothing_to_buy_are_said():
    assert words(plan_of()) == "Regatta\n\nThere is nothing to paint.\n"
    plan = plan_of(unit(WATCH, 1))
    assert words(plan, WATCH, needs=[NEEDS[1]]).endswith(
        "To buy\n  Nothing: the author’s shelf has every paint.\n"
    )


def test_the_data_is_all_there_in_its_places():
    plan = plan_of(unit(WATCH, 1), deadline=dt.date(2026, 4, 9))
    assert plan_data(project(plan, WATCH, needs=NEEDS)) == {
        "title": "Regatta",
        "finish": "2026-04-06T21:00:00",
        "deadline": "2026-04-09",
        "slack_days": 3,
        "short_hours": 0,
        "changes": 0,
        "change_min": 0,
        "sittings": [
            {
                "date": "2026-04-06",
                "start": "2026-04-06T20:00:00",
                "end": "2026-04-06T22:00:00",
                "jobs": [
                    {
                        "unit": 1,
                        "guide": "ferry-watch",
                        "batch": 1,
                        "step": title,
                        "figures": [1, 1],
                        "start": f"2026-04-06T{start}:00",
                        "end": f"2026-04-06T{end}:00",
                    }
                    for title, start, end in (
                        ("Coats", "20:00", "20:15"),
                        ("Coats", "20:30", "20:40"),
                        ("Eyes", "20:55", "21:00"),
                    )
                ],
            }
        ],
        "shopping": [
            {"name": "Oilskin Ochre", "range": "Reedbank Acrylics", "ml": 12.3457, "pots": 1, "cost": 2.8},
            {"name": "Ropewalk", "range": "Reedbank Acrylics", "ml": 2, "pots": 0, "cost": 0},
            {"name": "Silt", "range": "Reedbank Acrylics", "ml": None, "pots": 2, "cost": None},
        ],
    }


def test_data_without_a_deadline_and_between_seconds():
    odd = guide_of("patience", step("Oars", 0, 0.0101, 0))
    plan = plan_of(unit(odd, 1))
    found = plan_data(project(plan, odd))
    assert (found["deadline"], found["slack_days"], found["short_hours"]) == (None, None, 0)
    assert found["finish"] == "2026-04-06T20:00:01"
