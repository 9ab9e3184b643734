"""Plans with pots, worked by hand: changing over, a can for all, curing, test figures, mixed batches, going on."""

from __future__ import annotations

import datetime as dt
from itertools import groupby
from typing import Any

import pytest
from support.plans import computed, evening, guide_of, name, painted, plan_of, shelf, step, stop, to_do, unit

from guidegen.base.units import MINUTE
from guidegen.computing.plan.jobs import Schedule
from guidegen.computing.plan.project import project_of
from guidegen.model.paint import Kind
from guidegen.model.plan import Changes

moment = dt.datetime.fromisoformat

POTS = shelf(
    Ochre=Kind.PAINT,
    Slate=Kind.PRIMER,
    Brass=Kind.METALLIC,
    Bilge=Kind.WASH,
    Seal=Kind.VARNISH,
    Umber=Kind.OIL,
)
EVERY_DAY = {day: evening(20, 22) for day in range(7)}


def rows(found: Schedule, sitting: int = 0) -> list[tuple[str, tuple[int, int], str, str]]:
    """Step, figures, from, to of a sitting's jobs."""
    return [row[2:] for row in to_do(found)[sitting]]


def test_each_kind_of_pot_costs_its_own_change_and_the_first_job_none():
    guide = guide_of(
        "ferry-watch",
        step("Coats", 0, 10, 0, paint=painted("Ochre")),
        step("Straps", 0, 10, 0, paint=painted("Slate")),
        step("Lamp", 0, 10, 0, paint=painted("Brass")),
        step("Light", 0, 10, 0, paint=painted("Ochre", "Slate", mixed=True)),
        step("Fog", 0, 10, 0, paint=painted("Slate"), technique="airbrush"),
    )
    found = computed(plan_of(unit(guide, 1)), guide, palette=POTS)
    assert rows(found) == [
        ("Coats", (1, 1), "20:00", "20:10"),
        ("Straps", (1, 1), "20:12", "20:22"),
        ("Lamp", (1, 1), "20:27", "20:37"),
        ("Light", (1, 1), "20:42", "20:52"),
        ("Fog", (1, 1), "20:57", "21:07"),
    ]
    assert (found.changes, found.changing / MINUTE) == (4, 17)
    assert [job.change / MINUTE for job in found.sittings[0].jobs] == [0, 2, 5, 5, 5]


def test_an_open_pot_is_no_change_across_coats_steps_batches_and_units():
    watch = guide_of(
        "ferry-watch",
        step("Coats", 0, 5, 0, paint=painted("Ochre"), coats=2),
        step("Hoods", 0, 5, 0, paint=painted("Ochre")),
    )
    other = guide_of("eel-seller", step("Baskets", 0, 5, 0, paint=painted("Ochre")))
    found = computed(plan_of(unit(watch, 2, batch=1), unit(other, 1)), watch, other, palette=POTS)
    assert (found.changes, found.seated / MINUTE) == (0, 35)


def test_one_time_may_stand_for_every_change():
    guide = guide_of(
        "ferry-watch",
        step("Coats", 0, 10, 0, paint=painted("Ochre")),
        step("Lamp", 0, 10, 0, paint=painted("Brass")),
    )
    change = Changes(paint=MINUTE, mix=MINUTE, metal=MINUTE, airbrush=MINUTE)
    found = computed(plan_of(unit(guide, 1), change=change), guide, palette=POTS)
    assert rows(found)[1] == ("Lamp", (1, 1), "20:11", "20:21")


def test_a_run_waits_for_a_figure_as_long_as_a_change_takes():
    """Coats until 20:12, dry at 20:10 and 20:16; with 3 minutes a hood the second waits 1: no other pot for that."""
    watch = guide_of(
        "ferry-watch",
        step("Coats", 0, 6, 4, paint=painted("Ochre")),
        step("Hoods", 0, 3, 0, paint=painted("Ochre")),
    )
    other = guide_of("eel-seller", step("Baskets", 0, 30, 0, paint=painted("Slate")))
    found = computed(plan_of(unit(watch, 2), unit(other, 1)), watch, other, palette=POTS)
    titles = [title for title, _ in groupby(row[0] for row in rows(found))]
    assert sorted(titles) == ["Baskets", "Coats", "Hoods"]
    assert (found.changes, found.seated / MINUTE) == (1, 51)


def test_a_wash_is_not_begun_where_the_evening_ends_in_the_middle():
    guide = guide_of(
        "ferry-watch",
        step("Coats", 0, 15, 0, paint=painted("Ochre")),
        step("Darken", 0, 6, 0, technique="wash", paint=painted("Bilge")),
    )
    found = computed(plan_of(unit(guide, 3), week={0: evening(20, 21)}), guide, palette=POTS)
    assert [rows(found, 0), rows(found, 1)] == [
        [("Coats", (1, 3), "20:00", "20:45")],
        [("Darken", (1, 3), "20:00", "20:18")],
    ]


def test_a_can_is_set_up_once_a_sitting_for_all_who_use_it():
    guide = guide_of("ferry-watch", step("Prime", 10, 1, 0, technique="spray", paint=painted("Slate")))
    other = guide_of("eel-seller", step("Ground", 10, 1, 0, technique="spray", paint=painted("Slate")))
    found = computed(plan_of(unit(guide, 4, batch=2), unit(other, 2)), guide, other, palette=POTS)
    assert [job.once / MINUTE for job in found.sittings[0].jobs] == [10, 0, 0]
    assert found.hands_on / MINUTE == 16


def test_a_sitting_is_set_up_and_cleared():
    guide = guide_of("ferry-watch", step("Coats", 0, 20, 0))
    plan = plan_of(unit(guide, 3), week={0: evening(20, 21)}, set_up=10 * MINUTE, clean_up=10 * MINUTE)
    found = computed(plan, guide)
    assert rows(found) == [("Coats", (1, 2), "20:10", "20:50")]
    assert (found.sittings[0].start, found.sittings[0].end) == (
        moment("2026-04-06T20:00"),
        moment("2026-04-06T21:00"),
    )


def test_acrylic_paint_cures_before_a_can_and_an_oil_wash_but_not_before_more_of_it():
    guide = guide_of(
        "ferry-watch",
        step("Coats", 0, 10, 20, "coat", paint=painted("Ochre")),
        step("Straps", 0, 10, 20, "straps", paint=painted("Slate")),
        step("Seal", 0, 10, 0, technique="spray varnish", paint=painted("Seal")),
    )
    plan = plan_of(unit(guide, 1), week=EVERY_DAY)
    found = computed(plan, guide, palette=POTS)
    assert rows(found, 0)[1] == ("Straps", (1, 1), "20:30", "20:40")
    # Cured at 20:40 the day after.
    assert rows(found, 1) == [("Seal", (1, 1), "20:40", "20:50")]
    uncured = computed(plan_of(unit(guide, 1), week=EVERY_DAY, cure=0), guide, palette=POTS)
    assert rows(uncured, 0)[2] == ("Seal", (1, 1), "21:00", "21:10")


def test_curing_is_of_the_area_that_is_touched():
    guide = guide_of(
        "ferry-watch",
        step("Coats", 0, 10, 0, "coat", paint=painted("Ochre")),
        step("Rust", 0, 10, 0, "hull", technique="oil wash", paint=painted("Umber")),
    )
    found = computed(plan_of(unit(guide, 1)), guide, palette=POTS)
    assert rows(found)[1] == ("Rust", (1, 1), "20:12", "20:22")


def test_a_test_figure_goes_to_the_end_before_the_others_begin():
    guide = guide_of("ferry-watch", step("Coats", 0, 5, 30), step("Hoods", 0, 5, 0))
    found = computed(plan_of(unit(guide, 4, trial=1, batch=2)), guide)
    assert to_do(found)[0][:3] == [
        (1, 1, "Coats", (1, 1), "20:00", "20:05"),
        (1, 1, "Hoods", (1, 1), "20:35", "20:40"),
        (1, 2, "Coats", (2, 3), "20:40", "20:50"),
    ]


def test_mixed_batches_share_the_common_steps_and_take_their_own_apart():
    guide = guide_of(
        "heron-riders",
        step("Coats", 0, 2, 0),
        step("Hood", 0, 3, 0, only={"headgear": "hood"}),
        step("Straw", 0, 4, 0, only={"headgear": "straw hat"}),
        step("Seal", 0, 1, 0),
        choose={"headgear": ("hood", "straw hat")},
    )
    found = computed(plan_of(unit(guide, 5, mixed={"headgear": {"hood": 3, "straw hat": 2}})), guide)
    assert rows(found) == [
        ("Coats", (1, 5), "20:00", "20:10"),
        ("Hood", (1, 3), "20:10", "20:19"),
        ("Straw", (4, 5), "20:19", "20:27"),
        ("Seal", (1, 5), "20:27", "20:32"),
    ]
    assert (found.figures, found.hands_on / MINUTE) == (5, 32)


STEPS = guide_of(
    "ferry-watch",
    step("Prime", 0, 1, 30),
    step("Coats", 0, 2, 30),
    stop("Fit to field"),
    step("Tufts", 0, 3, 0, optional=True),
    step("Seal", 0, 4, 0),
)


def test_what_is_done_is_dry_and_is_not_painted_again():
    found = computed(plan_of(unit(STEPS, 2, done={0: name("coats")})), STEPS)
    assert rows(found) == [("Tufts", (1, 2), "20:00", "20:06"), ("Seal", (1, 2), "20:06", "20:14")]


def test_each_batch_may_be_as_far_as_it_is_and_a_stop_will_do():
    done = {1: name("Fit to field"), 2: name("Prime")}
    found = computed(plan_of(unit(STEPS, 2, batch=1, done=done)), STEPS)
    assert {row[1:3] for row in to_do(found)[0]} == {
        (1, "Tufts"),
        (1, "Seal"),
        (2, "Coats"),
        (2, "Tufts"),
        (2, "Seal"),
    }


def test_what_is_done_may_be_a_step_or_stop_that_the_unit_has_not_got():
    """Left out, of another variant, after its stop: all before it is painted, and nothing of that comes again."""
    without = unit(STEPS, 2, done={0: name("Tufts")}, without=(name("optional"),))
    assert rows(computed(plan_of(without), STEPS)) == [("Seal", (1, 2), "20:00", "20:08")]
    guide = guide_of(
        "heron-riders",
        step("Prime", 0, 1, 0),
        step("Hood", 0, 1, 0, only={"headgear": "hood"}),
        step("Hat", 0, 1, 0, only={"headgear": "hat"}),
        stop("Fit to field"),
        step("Seal", 0, 1, 0),
        choose={"headgear": ("hood", "hat")},
    )
    for done, to, left in (
        ("Hat", None, ["Seal"]),
        ("Hood", None, ["Seal"]),
        ("Seal", "Fit to field", []),
    ):
        found = computed(plan_of(unit(guide, 1, to=to, done={0: name(done)})), guide)
        assert [job.title for sitting in found.sittings for job in sitting.jobs] == left, done


def test_what_is_to_buy_is_for_what_is_left_to_paint():
    """Of five figures, two in the first batch: hoods are 1 and 2, hats 3 to 5."""
    guide = guide_of(
        "heron-riders",
        step("Prime", 0, 1, 0, paint=painted("Slate")),
        step("Hood", 0, 1, 0, paint=painted("Umber"), only={"headgear": "hood"}),
        step("Hat", 0, 1, 0, paint=painted("Ochre"), only={"headgear": "hat"}),
        step("Seal", 0, 1, 0, paint=painted("Seal")),
        choose={"headgear": ("hood", "hat")},
    )

    def bought(**more: Any) -> dict[str, float]:
        needs = project_of(plan_of(unit(guide, 5, batch=2, **more)), [guide], POTS).needs
        return {need.paint.name: need.ml or 0.0 for need in needs}

    mixed = {"headgear": {"hood": 2, "hat": 3}}
    whole = bought(mixed=mixed)
    left = bought(mixed=mixed, done={1: name("Hood"), 2: name("Prime"), 3: name("Hat")})
    assert set(left) == {"Ochre", "Seal"}
    assert left["Seal"] == pytest.approx(whole["Seal"])
    assert left["Ochre"] == pytest.approx(whole["Ochre"] * 2 / 3)
    assert bought(done={0: name("Seal")}) == {}


def test_steps_can_be_left_out_by_name_or_all_that_are_optional():
    for without in ("tufts", "optional"):
        found = computed(plan_of(unit(STEPS, 1, without=(name(without),))), STEPS)
        assert [row[0] for row in rows(found)] == ["Prime", "Coats", "Seal"]


def test_a_plan_goes_on_from_a_moment():
    plan = plan_of(unit(STEPS, 1), week=EVERY_DAY, since=moment("2026-04-07T20:30"))
    found = computed(plan, STEPS)
    assert found.sittings[0].start == moment("2026-04-07T20:30")
    assert rows(found)[0] == ("Prime", (1, 1), "20:30", "20:31")
