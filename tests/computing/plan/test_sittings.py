"""Timetables laid out in time: midnight, dates and days, overlaps, days left out, spraying hours, bounds."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from support.plans import evening, plan_of

from guidegen.base.units import DAY, HOUR, MINUTE
from guidegen.computing.plan.sittings import HORIZON_DAYS, longest_window, slots, usual_hours
from guidegen.model.plan import Plan, Timetable

MONDAY = dt.date(2026, 4, 6)


def hours(plan: Plan, days: int = 7) -> list[tuple[str, float, float]]:
    """The date, and hours from its midnight, of each sitting."""
    return [
        (
            slot.date.isoformat(),
            (slot.start - (slot.date - plan.start).days * DAY) / HOUR,
            (slot.end - (slot.date - plan.start).days * DAY) / HOUR,
        )
        for slot in slots(plan, days)
    ]


def test_the_week_repeats():
    assert hours(plan_of(week={0: evening(20, 22)}), 15) == [
        ("2026-04-06", 20, 22),
        ("2026-04-13", 20, 22),
        ("2026-04-20", 20, 22),
    ]


def test_a_date_beats_its_day_and_a_skipped_date_beats_both():
    plan = plan_of(
        week={0: evening(20, 22), 1: evening(20, 22), 2: evening(20, 22)},
        dated={
            MONDAY: evening(9, 10),
            MONDAY + dt.timedelta(days=1): (),
            MONDAY + dt.timedelta(days=2): evening(9, 10),
        },
        skip=frozenset({MONDAY + dt.timedelta(days=2)}),
    )
    assert hours(plan) == [("2026-04-06", 9, 10)]


def test_a_sitting_over_midnight_belongs_to_the_evening_it_begins_on():
    plan = plan_of(week={0: ((1320, 1560),)}, skip=frozenset({MONDAY + dt.timedelta(days=1)}))
    assert hours(plan) == [("2026-04-06", 22, 26)]


def test_several_sittings_a_day_come_in_order():
    assert hours(plan_of(week={5: (*evening(14, 16), *evening(10, 12))})) == [
        ("2026-04-11", 10, 12),
        ("2026-04-11", 14, 16),
    ]


def test_sittings_of_a_day_that_overlap_are_one_and_those_that_touch_are_two():
    assert hours(plan_of(week={0: (*evening(18, 20), *evening(19, 21))})) == [("2026-04-06", 18, 21)]
    assert hours(plan_of(week={0: (*evening(18, 22), *evening(19, 21))})) == [("2026-04-06", 18, 22)]
    assert hours(plan_of(week={0: (*evening(18, 20), *evening(20, 21))})) == [
        ("2026-04-06", 18, 20),
        ("2026-04-06", 20, 21),
    ]


def test_a_sitting_begins_when_the_one_from_the_evening_before_ends():
    plan = plan_of(week={0: ((1320, 1560),), 1: (*evening(1, 3), *evening(20, 21))})
    assert hours(plan) == [("2026-04-06", 22, 26), ("2026-04-07", 2, 3), ("2026-04-07", 20, 21)]
    swallowed = plan_of(week={0: ((1320, 1560),), 1: evening(1, 2)})
    assert hours(swallowed) == [("2026-04-06", 22, 26)]


def test_overlaps_that_never_end_do_not_make_an_endless_sitting():
    """23 hours from midnight and 23 hours from 22:00, every day."""
    found = hours(plan_of(week=dict.fromkeys(range(7), ((0, 1380), (1320, 2700)))), 3)
    assert found == [("2026-04-06", 0, 45), ("2026-04-07", 21, 45), ("2026-04-08", 21, 45)]


def test_spraying_hours_are_those_within_the_sitting():
    plan = plan_of(
        week={0: ((1320, 1560),)},
        spraying={0: (*evening(6, 7), *evening(21, 23)), 1: evening(1, 9), 6: ((1380, 1500),)},
    )
    (slot,) = slots(plan, 7)
    assert slot.spraying == ((22 * HOUR, 23 * HOUR), (25 * HOUR, 26 * HOUR))


def test_spraying_hours_of_the_evening_before_reach_past_midnight():
    plan = plan_of(week={1: evening(0, 3)}, spraying={0: ((1380, 1500),)})
    (slot,) = slots(plan, 7)
    assert slot.spraying == ((DAY, DAY + HOUR),)


def test_every_sitting_will_do_for_sprays_unless_hours_are_given():
    (slot,) = slots(plan_of(), 7)
    assert slot.spraying == ((slot.start, slot.end),)
    (slot,) = slots(plan_of(spraying={}), 7)
    assert slot.spraying == ()


def test_the_longest_sitting_counts_the_week_and_dates_to_come():
    plan = plan_of(
        week={0: evening(20, 22), 1: ((1200, 1230), (1220, 1350))},
        dated={dt.date(2026, 4, 3): evening(8, 20), dt.date(2026, 4, 13): evening(9, 12)},
        spraying={0: ((1200, 1230), (1230, 1245)), 3: evening(6, 20)},
    )
    assert longest_window(plan) == 3 * HOUR
    assert longest_window(plan, airborne=True) == 45 * MINUTE
    assert longest_window(replace(plan, skip=frozenset({dt.date(2026, 4, 13)}))) == 150 * MINUTE


def test_an_evening_off_can_make_the_next_morning_longer():
    """Tuesdays last until 02:00, so that Wednesdays from 01:00 to 05:00 have three hours; once there is no Tuesday."""
    week = {1: ((1380, 1560),), 2: evening(1, 5)}
    assert longest_window(plan_of(week=week)) == 3 * HOUR
    assert longest_window(plan_of(week=week, dated={dt.date(2026, 4, 14): ()})) == 4 * HOUR


def test_spraying_hours_of_a_date_count_for_the_sitting_that_reaches_into_it():
    plan = plan_of(week={0: ((1380, 1560),)}, spraying={})
    tuesday = Timetable(dated={dt.date(2026, 4, 14): evening(0, 3)})
    assert longest_window(replace(plan, spraying=tuesday), airborne=True) == 2 * HOUR


def test_no_time_at_all_is_nought():
    assert longest_window(plan_of(week={})) == 0
    assert longest_window(plan_of(spraying={}), airborne=True) == 0
    assert longest_window(plan_of(week={}, dated={dt.date(2026, 4, 1): evening(20, 22)})) == 0


def test_the_first_and_the_last_days_of_the_calendar_do_no_harm():
    assert (
        len(hours(plan_of(start=dt.date.min, week={d: evening(20, 22) for d in range(7)}, spraying={}))) == 7
    )
    last = plan_of(start=dt.date.max, dated={dt.date.max: evening(20, 22)})
    assert list(slots(last)) == []
    assert longest_window(last) == 0


def test_a_century_is_the_horizon():
    found = [slot.date for slot in slots(plan_of(week={0: evening(20, 22)}))]
    assert (found[-1] - MONDAY).days <= HORIZON_DAYS
    assert len(found) == -(-HORIZON_DAYS // 7)


def test_usual_hours_are_the_most_frequent():
    plan = plan_of(week={0: evening(20, 22), 1: evening(20, 22), 5: evening(9, 12)})
    assert usual_hours(plan, 7) == (1200, 1320)
    assert usual_hours(plan_of(week={0: evening(20, 22), 5: evening(9, 12)}), 7) == (540, 720)
    assert usual_hours(plan_of(week={}), 7) is None
