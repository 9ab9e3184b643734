"""Small plans worked by hand, stroke by stroke: what is painted when, and what the sums say."""

from __future__ import annotations

import datetime as dt

from support.plans import computed, evening, guide_of, plan_of, step, to_do, unit

from guidegen.base.units import MINUTE

moment = dt.datetime.fromisoformat

THREE = guide_of("ferry-watch", step("Prime", 5, 2, 30), step("Wash", 0, 3, 10), step("Varnish", 2, 1, 0))


def test_one_batch_waits_for_its_drying():
    """Prime 20:00-20:11, dry 20:37 to 20:41; wash 20:37-20:46, dry 20:50, 20:53, 20:56.

    Varnish with its 2 minutes from 20:50; at 20:54 figure 3 is still wet.
    """
    found = computed(plan_of(unit(THREE, 3)), THREE)
    assert to_do(found) == [
        [
            (1, 1, "Prime", (1, 3), "20:00", "20:11"),
            (1, 1, "Wash", (1, 3), "20:37", "20:46"),
            (1, 1, "Varnish", (1, 2), "20:50", "20:54"),
            (1, 1, "Varnish", (3, 3), "20:56", "20:57"),
        ]
    ]
    assert found.finish == moment("2026-04-06T20:57")
    assert [job.once / MINUTE for job in found.sittings[0].jobs] == [5, 0, 2, 0]
    assert (found.hands_on / MINUTE, found.seated / MINUTE) == (25, 57)


def test_batches_interleave_and_figures_count_through_the_unit():
    """Batch 2 is primed while batch 1 dries; its wash waits until 20:46, batch 1's varnish until 20:50."""
    found = computed(plan_of(unit(THREE, 3, batch=2), week={0: evening(20, 21)}), THREE)
    assert to_do(found) == [
        [
            (1, 1, "Prime", (1, 2), "20:00", "20:09"),
            (1, 2, "Prime", (3, 3), "20:09", "20:16"),
            (1, 1, "Wash", (1, 2), "20:37", "20:43"),
            (1, 2, "Wash", (3, 3), "20:46", "20:49"),
            (1, 1, "Varnish", (1, 2), "20:50", "20:54"),
        ],
        [(1, 2, "Varnish", (3, 3), "20:00", "20:03")],
    ]
    assert found.finish == moment("2026-04-13T20:03")


def test_the_second_unit_fills_the_drying_of_the_first():
    short = guide_of("eel-seller", step("Coats", 1, 4, 0))
    found = computed(plan_of(unit(THREE, 1), unit(short, 2)), THREE, short)
    assert to_do(found)[0] == [
        (1, 1, "Prime", (1, 1), "20:00", "20:07"),
        (2, 1, "Coats", (1, 2), "20:07", "20:16"),
        (1, 1, "Wash", (1, 1), "20:37", "20:40"),
        (1, 1, "Varnish", (1, 1), "20:50", "20:53"),
    ]


def test_a_run_goes_through_its_batch_though_a_lower_unit_is_dry_by_then():
    """Unit 1 is dry at 20:12; unit 2's coats, 6 and twice 10 minutes, go on until 20:28."""
    first = guide_of("ferry-watch", step("Prime", 0, 2, 10), step("Wash", 0, 3, 0))
    second = guide_of("eel-seller", step("Coats", 6, 10, 0))
    found = computed(plan_of(unit(first, 1), unit(second, 2)), first, second)
    assert to_do(found)[0] == [
        (1, 1, "Prime", (1, 1), "20:00", "20:02"),
        (2, 1, "Coats", (1, 2), "20:02", "20:28"),
        (1, 1, "Wash", (1, 1), "20:28", "20:31"),
    ]
    assert [job.once / MINUTE for job in found.sittings[0].jobs] == [0, 6, 0]


def test_once_is_spent_again_in_the_next_sitting():
    long = guide_of("ferry-watch", step("Coats", 10, 20, 0))
    found = computed(plan_of(unit(long, 4), week={0: evening(20, 21), 1: evening(20, 21)}), long)
    assert to_do(found) == [
        [(1, 1, "Coats", (1, 2), "20:00", "20:50")],
        [(1, 1, "Coats", (3, 4), "20:00", "20:50")],
    ]


def test_what_does_not_fit_any_more_makes_room_for_what_does():
    """At 20:50 unit 1's 20 minutes don't fit; unit 2's once and first figure, 1 + 4, do, a third figure not."""
    long = guide_of("ferry-watch", step("Coats", 10, 20, 0))
    short = guide_of("eel-seller", step("Hoods", 1, 4, 0))
    week = {0: evening(20, 21), 2: evening(20, 21)}
    found = computed(plan_of(unit(long, 3), unit(short, 3), week=week), long, short)
    assert to_do(found) == [
        [
            (1, 1, "Coats", (1, 2), "20:00", "20:50"),
            (2, 1, "Hoods", (1, 2), "20:50", "20:59"),
        ],
        [
            (1, 1, "Coats", (3, 3), "20:00", "20:30"),
            (2, 1, "Hoods", (3, 3), "20:30", "20:35"),
        ],
    ]


def test_a_stroke_may_end_with_the_sitting_but_not_after():
    fits = guide_of("ferry-watch", step("Coats", 0, 30, 0))
    assert len(computed(plan_of(unit(fits, 2), week={0: evening(20, 21)}), fits).sittings) == 1
    over = guide_of("ferry-watch", step("Coats", 0.1, 30, 0))
    assert len(computed(plan_of(unit(over, 2), week={0: evening(20, 21)}), over).sittings) == 2


def test_drying_goes_on_between_sittings_and_empty_sittings_are_left_out():
    """Dry 36 hours from Monday 20:10: Wednesday 08:10, so that Tuesday evening has nothing to do."""
    slow = guide_of("ferry-watch", step("Gel", 0, 10, 36 * 60), step("Wash", 0, 10, 30))
    found = computed(plan_of(unit(slow, 1), week={d: evening(20, 22) for d in range(7)}), slow)
    assert [sitting.date.isoformat() for sitting in found.sittings] == ["2026-04-06", "2026-04-08"]
    assert found.sittings[1].jobs[0].start == moment("2026-04-08T20:00")
    assert found.finish == moment("2026-04-08T20:40")
    assert found.seated / MINUTE == 120 + 120 + 10


def test_a_step_waits_until_all_the_batch_had_the_one_before():
    """Figure 1's coat is dry at 20:05, but the hoods begin when figure 2 has its coat, in the next sitting."""
    guide = guide_of("ferry-watch", step("Coats", 0, 5, 0), step("Hoods", 0, 1, 0))
    found = computed(plan_of(unit(guide, 2), week={0: ((1200, 1209),), 1: ((1200, 1209),)}), guide)
    assert to_do(found) == [
        [(1, 1, "Coats", (1, 1), "20:00", "20:05")],
        [(1, 1, "Coats", (2, 2), "20:00", "20:05"), (1, 1, "Hoods", (1, 2), "20:05", "20:07")],
    ]


def test_each_coat_is_a_job_of_its_own():
    guide = guide_of("ferry-watch", step("Coats", 5, 5, 8, coats=2))
    found = computed(plan_of(unit(guide, 2)), guide)
    assert to_do(found) == [
        [(1, 1, "Coats", (1, 2), "20:00", "20:15"), (1, 1, "Coats", (1, 2), "20:18", "20:28")]
    ]
    assert [(job.coat, job.once / MINUTE) for job in found.sittings[0].jobs] == [(1, 5), (2, 0)]


def test_a_pause_breaks_a_job():
    """Painted 5 apart and then 1 each: the second wash waits for 20:20, the first began at 20:15."""
    guide = guide_of("ferry-watch", step("Coats", 0, 5, 10), step("Wash", 0, 1, 0))
    found = computed(plan_of(unit(guide, 2)), guide)
    assert to_do(found)[0][1:] == [
        (1, 1, "Wash", (1, 1), "20:15", "20:16"),
        (1, 1, "Wash", (2, 2), "20:20", "20:21"),
    ]


def test_an_area_holds_only_itself():
    guide = guide_of(
        "ferry-watch",
        step("Coats", 0, 5, 60, "coat", holds_area=True),
        step("Hoods", 0, 5, 60, "hood", holds_area=True),
        step("Folds", 0, 5, 0, "coat", holds_area=True),
    )
    found = computed(plan_of(unit(guide, 1)), guide)
    assert [row[2:] for row in to_do(found)[0]] == [
        ("Coats", (1, 1), "20:00", "20:05"),
        ("Hoods", (1, 1), "20:05", "20:10"),
        ("Folds", (1, 1), "21:05", "21:10"),
    ]
    assert found.finish == moment("2026-04-06T21:10")


def test_a_step_without_time_starts_its_drying():
    """The evening ends at 21:00 with the last coat; leaving it for ten hours takes nobody's time."""
    guide = guide_of("ferry-watch", step("Coats", 0, 60, 0), step("Leave", 0, 0, 600), step("Wash", 0, 5, 0))
    found = computed(plan_of(unit(guide, 1), week={0: evening(20, 21), 1: ((360, 480),)}), guide)
    assert [row[2:] for sitting in to_do(found) for row in sitting] == [
        ("Coats", (1, 1), "20:00", "21:00"),
        ("Leave", (1, 1), "21:00", "21:00"),
        ("Wash", (1, 1), "07:00", "07:05"),
    ]


def test_a_step_without_time_may_still_be_done_as_the_evening_ends():
    """Dry at 21:00 sharp, when the sitting ends: the leaving begins there and not a week later."""
    guide = guide_of("ferry-watch", step("Coats", 0, 30, 30), step("Leave", 0, 0, 600))
    found = computed(plan_of(unit(guide, 1), week={0: evening(20, 21)}), guide)
    assert found.finish == moment("2026-04-07T07:00")


def test_midnight_after_the_deadline_is_too_late_to_be_dry():
    guide = guide_of("ferry-watch", step("Coats", 0, 30, 3.5 * 60))
    found = computed(plan_of(unit(guide, 1), deadline=dt.date(2026, 4, 6)), guide)
    assert found.finish == moment("2026-04-07T00:00")
    assert (found.slack_days, found.short_hours, found.ready) == (-1, 0, 0)


def test_sprays_wait_for_their_hours_while_others_go_on():
    """Spraying 20:30-21:00: the brush work of unit 2 comes first, and the spray is set up for two of 12 and 10 minutes."""
    sprayed = guide_of("ferry-watch", step("Prime", 2, 10, 0, technique="spray"))
    brushed = guide_of("eel-seller", step("Coats", 0, 10, 0))
    plan = plan_of(
        unit(sprayed, 3),
        unit(brushed, 3),
        week={0: evening(20, 22), 1: evening(20, 22)},
        spraying={0: ((1230, 1260),), 1: ((1230, 1260),)},
    )
    assert to_do(computed(plan, sprayed, brushed)) == [
        [
            (2, 1, "Coats", (1, 3), "20:00", "20:30"),
            (1, 1, "Prime", (1, 2), "20:30", "20:52"),
        ],
        [(1, 1, "Prime", (3, 3), "20:30", "20:42")],
    ]


def test_spraying_hours_that_touch_are_one():
    sprayed = guide_of("ferry-watch", step("Prime", 0, 40, 0, technique="airbrush"))
    plan = plan_of(unit(sprayed, 1), spraying={0: ((1200, 1230), (1230, 1260))})
    assert to_do(computed(plan, sprayed)) == [[(1, 1, "Prime", (1, 1), "20:00", "20:40")]]
