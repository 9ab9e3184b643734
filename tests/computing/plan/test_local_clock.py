"""Plans in nights on which clocks are changed: the minutes of a sitting are those that pass.

Clocks in Amsterdam go from 02:00 to 03:00 on 29 March 2026, and from 03:00 to 02:00 on 25 October (Directive
2000/84/EC); those in Havana skip the hour after midnight of 8 March, those in Apia all of 30 December 2011 (IANA).
"""

from __future__ import annotations

import datetime as dt

import pytest
from support.plans import computed, guide_of, plan_of, step, to_do, unit

from guidegen.base.units import DAY, HOUR, MINUTE
from guidegen.computing.plan.local_clock import clock_of

SUNDAY = dt.date(2026, 3, 29)
AMSTERDAM = "Europe/Amsterdam"


def test_a_sitting_has_the_minutes_that_pass():
    """Ten minutes each from one to four o'clock: six, then at three o'clock six more, and the others a week later."""
    heron = guide_of("heron", step("Feathers", 0, 10, 0))
    plan = plan_of(unit(heron, 14), start=SUNDAY, week={6: ((60, 240),)}, timezone=AMSTERDAM)
    found = computed(plan, heron)
    assert to_do(found) == [
        [(1, 1, "Feathers", (1, 12), "01:00", "04:00")],
        [(1, 1, "Feathers", (13, 14), "01:00", "01:20")],
    ]
    assert [sitting.hands_on for sitting in found.sittings] == [2 * HOUR, 20 * MINUTE]
    assert found.seated == 2 * HOUR + 20 * MINUTE


def test_paint_dries_while_time_passes_and_nobody_waits_for_the_skipped_hour():
    """One coat ends at 01:55 and is dry fifteen minutes later, which is ten past three."""
    heron = guide_of("heron", step("Feathers", 0, 55, 15), step("Beak", 0, 10, 0))
    plan = plan_of(unit(heron, 1), start=SUNDAY, week={6: ((60, 240),)}, timezone=AMSTERDAM)
    found = computed(plan, heron)
    assert [one[-3:] for one in to_do(found)[0]] == [((1, 1), "01:00", "01:55"), ((1, 1), "03:10", "03:20")]
    assert [job.pause for job in found.sittings[0].jobs] == [0, 15 * MINUTE]


def test_what_dries_over_the_night_is_dry_an_hour_later_by_the_clock():
    heron = guide_of("heron", step("Feathers", 0, 60, 12 * 60), step("Beak", 0, 10, 0))
    plan = plan_of(
        unit(heron, 1), start=dt.date(2026, 3, 28), week={5: ((1200, 1320),), 6: ((480, 720),)}, timezone=AMSTERDAM
    )  # fmt: skip
    assert to_do(computed(plan, heron))[1] == [(1, 1, "Beak", (1, 1), "10:00", "10:10")]


@pytest.mark.parametrize(
    ("hours", "held"),
    [
        (((120, 180),), "2026-04-05 02:00–03:00"),  # all of it is skipped
        (((130, 200),), "2026-03-29 03:00–03:20"),
        (((90, 150),), "2026-03-29 01:30–02:00"),
        (((90, 120), (180, 210)), "2026-03-29 01:30–02:00"),
    ],
)
def test_sittings_around_the_hour(hours: tuple[tuple[int, int], ...], held: str):
    heron = guide_of("heron", step("Feathers", 0, 10, 0))
    plan = plan_of(unit(heron, 1), start=SUNDAY, week={6: hours}, timezone=AMSTERDAM)
    [sitting] = computed(plan, heron).sittings
    assert f"{sitting.start:%Y-%m-%d %H:%M}–{sitting.end:%H:%M}" == held


def test_spraying_hours_are_those_of_the_clock_too():
    varnish = guide_of("heron", step("Varnish", 0, 10, 0, technique="spray"))
    plan = plan_of(
        unit(varnish, 6), start=SUNDAY, week={6: ((60, 300),)}, spraying={6: ((110, 200),)}, timezone=AMSTERDAM
    )  # fmt: skip
    assert to_do(computed(plan, varnish))[0] == [(1, 1, "Varnish", (1, 3), "01:50", "03:20")]


def test_a_deadline_lasts_until_its_midnight_and_from_is_of_the_clock():
    """Eleven at night on the day is in time though the day had but 23 hours."""
    heron = guide_of("heron", step("Feathers", 0, 10, 0))
    plan = plan_of(
        unit(heron, 1), start=SUNDAY, deadline=SUNDAY, week={6: ((600, 1430),)}, timezone=AMSTERDAM,
        since=dt.datetime.fromisoformat("2026-03-29T23:20"),
    )  # fmt: skip
    found = computed(plan, heron)
    assert to_do(found)[0] == [(1, 1, "Feathers", (1, 1), "23:20", "23:30")]
    assert (found.slack_days, found.short_hours, found.ready) == (0, 0, 1)


def test_an_hour_that_comes_twice_counts_once():
    heron = guide_of("heron", step("Feathers", 0, 10, 0))
    sunday = dt.date(2026, 10, 25)
    plan = plan_of(unit(heron, 30), start=sunday, week={6: ((60, 240),)}, timezone=AMSTERDAM)
    assert to_do(computed(plan, heron))[0] == [(1, 1, "Feathers", (1, 18), "01:00", "04:00")]


@pytest.mark.parametrize(
    ("zone", "start", "begin", "length"),
    [
        (AMSTERDAM, dt.date(2026, 3, 1), 28 * DAY + 2 * HOUR, HOUR),
        ("America/Havana", dt.date(2026, 3, 7), DAY, HOUR),
        ("Pacific/Apia", dt.date(2011, 12, 29), DAY, DAY),
        ("Australia/Lord_Howe", dt.date(2026, 10, 3), DAY + 2 * HOUR, HOUR // 2),
    ],
)
def test_the_clock_both_ways(zone: str, start: dt.date, begin: int, length: int):
    clock = clock_of(zone, start)
    for shown in range(0, begin + 2 * DAY, 15 * MINUTE):
        inside = begin < shown < begin + length
        passed = clock.passed(shown)
        assert passed == (shown if shown <= begin else max(begin, shown - length))
        assert clock.shown(passed) == (begin + length if inside or shown == begin else shown)
        assert clock.shown(passed, until=True) == (begin if inside or shown == begin + length else shown)


def test_a_century_of_springs():
    """Every year skips one more hour, and the evenings stay where they are."""
    clock = clock_of(AMSTERDAM, dt.date(2026, 1, 1))
    evening = (dt.date(2096, 6, 1) - dt.date(2026, 1, 1)).days * DAY + 20 * HOUR
    assert evening - clock.passed(evening) == 71 * HOUR
    assert clock.moment(clock.passed(evening)) == dt.datetime.fromisoformat("2096-06-01T20:00")
    assert clock_of("UTC", dt.date(2026, 1, 1)).passed(evening) == evening
    assert clock_of("Never/Heard", dt.date(2026, 1, 1)).passed(evening) == evening
