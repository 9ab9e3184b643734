"""What the sums of a plan say, worked by hand: finish, slack, missing hours, units, stops and batches."""

from __future__ import annotations

import datetime as dt
from typing import Any

from support.plans import JETTY, computed, evening, guide_of, plan_of, step, stop, to_do, unit

from guidegen.computing.plan.jobs import Stuck
from guidegen.computing.plan.units import cut, split, unit_schemes
from guidegen.model.paint import Palette

moment = dt.datetime.fromisoformat


def test_a_spray_that_never_fits_is_said_to_be_stuck():
    sprayed = guide_of(
        "ferry-watch", step("Coats", 0, 5, 0), step("Seal", 5, 10, 0, technique="spray varnish")
    )
    plan = plan_of(unit(sprayed, 2), deadline=dt.date(2026, 4, 8), spraying={0: ((1200, 1210),)})
    found = computed(plan, sprayed)
    assert found.finish is None
    assert found.slack_days is None
    assert found.stuck == (Stuck(unit=1, guide="ferry-watch", batch=1, n=2, title="Seal", airborne=True),)
    assert found.ready == 0
    assert found.short_hours * 60 == 5 + 2 * 10


def test_slack_counts_days_from_the_last_drying_to_the_deadline():
    guide = guide_of("ferry-watch", step("Coats", 0, 5, 6 * 60))
    for deadline, slack in ((5, -2), (7, 0), (12, 5)):
        found = computed(plan_of(unit(guide, 1), deadline=dt.date(2026, 4, deadline)), guide)
        assert found.finish == moment("2026-04-07T02:05")
        assert found.slack_days == slack
    assert computed(plan_of(unit(guide, 1)), guide).slack_days is None


def test_short_hours_are_those_after_the_deadlines_last_midnight():
    """A sitting 23:00-01:00 on the deadline, one stroke of 40 minutes from 23:40 to 00:20, one more of 40."""
    guide = guide_of("ferry-watch", step("Coats", 0, 40, 0))
    found = computed(plan_of(unit(guide, 3), week={0: ((1380, 1500),)}, deadline=dt.date(2026, 4, 6)), guide)
    assert to_do(found) == [[(1, 1, "Coats", (1, 3), "23:00", "01:00")]]
    assert found.short_hours == 1
    assert found.slack_days == -1
    assert (found.ready, found.figures) == (1, 3)
    assert computed(plan_of(unit(guide, 3)), guide).short_hours == 0


def test_hours_of_the_plan_begin_on_its_first_day():
    guide = guide_of("ferry-watch", step("Coats", 0, 30, 0))
    plan = plan_of(unit(guide, 1), start=dt.date(2026, 4, 7), week={0: ((1380, 1500),)})
    assert computed(plan, guide).sittings[0].start == moment("2026-04-13T23:00")


def test_nothing_to_paint_never_finishes_and_is_not_late():
    empty = guide_of("ferry-watch")
    found = computed(plan_of(unit(empty, 5), deadline=dt.date(2026, 4, 7)), empty)
    assert (found.sittings, found.finish, found.stuck, found.short_hours) == ((), None, (), 0)
    assert (found.figures, found.ready) == (0, 0)


def test_a_unit_ends_with_its_stop_and_takes_its_choice():
    guide = guide_of(
        "heron-riders",
        step("Coats", 0, 5, 0),
        step("Hoods", 0, 5, 0, only={"headgear": "hood"}),
        step("Straw", 0, 6, 0, only={"headgear": "straw hat"}),
        stop("Fit to stand on the jetty"),
        step("Eyes", 0, 9, 0),
        choose={"headgear": ("hood", "straw hat")},
    )
    plan = plan_of(
        unit(guide, 1, to="fit to stand ON the jetty", choose={"Headgear": "straw hat"}),
        unit(guide, 1),
    )
    assert [(job.unit, job.title, job.n) for job in computed(plan, guide).sittings[0].jobs] == [
        (1, "Coats", 1),
        (1, "Straw", 2),
        (2, "Coats", 1),
        (2, "Hoods", 2),
        (2, "Eyes", 3),
    ]


def test_units_without_a_guide_or_with_an_unknown_stop_are_left_out():
    guide = guide_of("ferry-watch", step("Coats", 0, 5, 0))
    plan = plan_of(unit(guide, 1, to="Nowhere"), unit(guide_of("gone"), 1), unit(guide, 2))
    found = unit_schemes(plan, {guide.slug: guide}, Palette())
    assert [(row.unit, row.batches) for row in found] == [(3, (2,))]


def test_a_cut_scheme_keeps_the_stops_up_to_its_own():
    guide = guide_of("ferry-watch", step("A", 0, 1, 0), stop("One"), step("B", 0, 1, 0), stop("Two"))
    plan = plan_of(unit(guide, 1))
    (whole,) = unit_schemes(plan, {guide.slug: guide}, Palette())
    scheme = cut(whole.scheme, "one")
    assert scheme is not None
    assert [row.step.title for row in scheme.steps] == ["A"]
    assert [halt.name for halt in scheme.stops] == ["One"]


def test_batches_take_so_many_and_the_last_the_rest():
    assert split(24, 10) == (10, 10, 4)
    assert split(24, None) == (24,)
    assert split(3, 10) == (3,)
    assert split(0, None) == ()


def test_a_unit_that_says_no_batch_has_its_guides():
    heron = guide_of("heron", step("Feathers", 0, 1, 0), batch=4)
    plan = plan_of(unit(heron, 10), unit(heron, 10, 5), unit(heron, 10, 0))
    assert [one.batches for one in unit_schemes(plan, {"heron": heron}, Palette())] == [
        (4, 4, 2),
        (5, 5),
        (10,),
    ]


def test_everything_together_by_hand() -> None:
    """Two units, two evenings, a date that beats its day: the jetty's plan in the small, worked on paper."""
    plan: dict[str, Any] = {
        "week": {0: evening(20, 21), 2: evening(20, 22)},
        "dated": {dt.date(2026, 4, 8): ((1140, 1170),), dt.date(2026, 4, 10): evening(20, 21)},
        "deadline": dt.date(2026, 4, 9),
    }
    watch = guide_of(
        "ferry-watch", step("Prime", 5, 2, 30, technique="spray"), step("Coats", 0, 8, 15, coats=2)
    )
    found = computed(plan_of(unit(watch, 2), unit(JETTY, 1), **plan), watch, JETTY)
    # Monday: prime 20:00-20:09; the jetty's paste 20:09-20:24 dries for 8 hours; the first is dry at 20:37, coats
    # 20:37-20:53; the second coat is dry enough at 21:00, when the sitting is over.
    # Wednesday 19:00-19:30 by its date: second coat 19:00-19:16, the jetty's wash 19:16-19:26.
    assert to_do(found) == [
        [
            (1, 1, "Prime", (1, 2), "20:00", "20:09"),
            (2, 1, "Paste", (1, 1), "20:09", "20:24"),
            (1, 1, "Coats", (1, 2), "20:37", "20:53"),
        ],
        [
            (1, 1, "Coats", (1, 2), "19:00", "19:16"),
            (2, 1, "Wash", (1, 1), "19:16", "19:26"),
        ],
    ]
    assert found.finish == moment("2026-04-08T20:06")
    assert (found.slack_days, found.short_hours, found.ready) == (1, 0, 3)
