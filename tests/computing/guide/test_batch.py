"""The clock of a batch: worked examples by hand, stops, stretches, and what an empty guide gives."""

from __future__ import annotations

from guidegen.base.source import Span
from guidegen.base.units import HOUR, MINUTE
from guidegen.computing.guide.batch import (
    Pass,
    Stretch,
    Times,
    as_data,
    guide_times,
    no_wait,
    pass_bars,
    passes_of,
    times,
)
from guidegen.computing.guide.scheme import Scheme, scheme_of
from guidegen.model.guide import Dry, Guide, Step, Stop
from guidegen.model.names import Name
from guidegen.model.paint import Palette

PLACE = Span.of_file("guides/ferry-watch.md")


def batch(*rows: tuple[float, float, float], areas: tuple[tuple[int, ...], ...] = ()) -> tuple[Pass, ...]:
    """Passes of (once, each, dry) in minutes; with areas, each holds only its own."""
    return tuple(
        Pass(
            n=n,
            once=round(once * MINUTE),
            each=round(each * MINUTE),
            dry=round(dry * MINUTE),
            areas=areas[n - 1] if areas else (0,),
            holds_area=bool(areas),
        )
        for n, (once, each, dry) in enumerate(rows, 1)
    )


def in_minutes(result: Times) -> tuple[float, ...]:
    return tuple(ms / MINUTE for ms in (result.hands_on, result.waiting, result.last_stroke, result.total))


def scheme(*entries: Step | Stop) -> Scheme:
    return scheme_of(
        Guide(slug="ferry-watch", file=PLACE.file, title="Ferry watch", entries=entries, span=PLACE),
        Palette(),
    )


def step(title: str, once: float, each: float, dry: float, areas: str = "", **more: bool | int | str) -> Step:
    return Step(
        title=title,
        once=round(once * MINUTE),
        each=round(each * MINUTE),
        dry=Dry(air=round(dry * MINUTE)),
        areas=tuple(Name(text=area, span=PLACE) for area in areas.split()),
        span=PLACE,
        **more,
    )


# Worked by hand on paper, clock by clock; the figures stand in the first example's rows.
UNDERCOAT_WASH_VARNISH = batch((5, 2, 30), (0, 3, 10), (2, 1, 0))


def test_one_figure_waits_for_everything():
    assert in_minutes(times(UNDERCOAT_WASH_VARNISH, 1)) == (13, 38, 51, 51)


def test_ten_figures_fill_most_of_the_drying():
    assert in_minutes(times(UNDERCOAT_WASH_VARNISH, 10)) == (67, 12, 79, 79)


def test_sixteen_figures_never_wait():
    assert no_wait(UNDERCOAT_WASH_VARNISH) == 16
    assert times(UNDERCOAT_WASH_VARNISH, 16).waiting == 0
    assert times(UNDERCOAT_WASH_VARNISH, 15).waiting > 0


def test_the_last_drying_counts_in_the_total_alone():
    result = times(batch((0, 4, 0), (0, 6, 45)), 2)
    assert in_minutes(result) == (20, 0, 20, 65)


def test_an_earlier_drying_can_be_the_last_to_end():
    """A slow area is still drying when a quick one that was painted later has long been dry."""
    result = times(batch((0, 10, 600), (0, 5, 1), areas=((0,), (1,))), 1)
    assert in_minutes(result) == (15, 0, 15, 610)


def test_an_area_holds_only_those_who_come_back_to_it():
    """Coat 0-10 dry at 40, hood 10-15 meanwhile, coat again waits 15-40."""
    rows = ((0, 10, 30), (0, 5, 0), (0, 10, 0))
    assert in_minutes(times(batch(*rows, areas=((0,), (1,), (0,))), 1)) == (25, 25, 50, 50)
    assert in_minutes(times(batch(*rows), 1)) == (25, 30, 55, 55)


def test_a_step_over_everything_waits_for_each_area():
    rows = ((0, 1, 20), (0, 1, 40), (0, 1, 0))
    assert in_minutes(times(batch(*rows, areas=((0,), (1,), (0, 1))), 1)) == (3, 40, 43, 43)


def test_a_held_figure_also_holds_its_areas():
    passes = (*batch((0, 5, 30)), *batch((0, 5, 0), areas=((3,),)))
    assert in_minutes(times(passes, 1)) == (10, 30, 40, 40)


def test_what_is_done_once_shortens_the_wait():
    """Setting up for the second step goes on while the first dries."""
    assert in_minutes(times(batch((0, 5, 30), (20, 5, 0)), 1)) == (30, 10, 40, 40)


def test_nothing_takes_no_time():
    assert times((), 10) == Times(figures=10, hands_on=0, waiting=0, last_stroke=0, total=0)
    assert times(UNDERCOAT_WASH_VARNISH, 0) == Times(figures=0, hands_on=0, waiting=0, last_stroke=0, total=0)
    assert no_wait(()) == 1
    assert pass_bars((), 3) == pass_bars(UNDERCOAT_WASH_VARNISH, 0) == ()


def test_no_batch_is_large_enough_where_nothing_is_done_meanwhile():
    """Steps that take no time never fill a drying, however many figures there are."""
    assert no_wait(batch((0, 0, 10), (0, 0, 0))) is None


def test_a_batch_over_five_hundred_is_no_advice():
    assert no_wait(batch((0, 1, 499), (0, 1, 0))) == 500
    assert no_wait(batch((0, 1, 500), (0, 1, 0))) is None


def test_bars_lie_end_to_end_and_name_the_longest_gap():
    """Ten figures: the undercoat ends at 25, its first is dry at 37, so 12 minutes before the wash stay empty."""
    bars = pass_bars(UNDERCOAT_WASH_VARNISH, 10)
    assert [(bar.start / MINUTE, bar.end / MINUTE, bar.dry_until / MINUTE) for bar in bars] == [
        (0, 25, 55),
        (25, 67, 77),
        (67, 79, 79),
    ]
    wash = bars[1]
    assert (wash.gaps, wash.waited, wash.longest, wash.longest_at) == (
        1,
        12 * MINUTE,
        12 * MINUTE,
        25 * MINUTE,
    )
    assert bars[2].gaps == bars[2].waited == 0


def test_a_quick_step_after_a_slow_one_waits_at_every_figure():
    """Dry at 17, 22, 27, 32; wanted at 20, 21, 23, 28: gaps of 1, 4 and 4, the first of the longest at 23."""
    bars = pass_bars(batch((0, 5, 12), (0, 1, 0)), 4)
    assert bars[1].gaps == 3
    assert bars[1].waited == (1 + 4 + 4) * MINUTE
    assert (bars[1].longest, bars[1].longest_at) == (4 * MINUTE, 23 * MINUTE)


def test_coats_are_passes_and_what_is_done_once_comes_with_the_first():
    found = passes_of(scheme(step("Coats", 10, 4, 15, "coat", coats=3, holds_area=True)))
    assert [(p.n, p.coat, p.once, p.each, p.dry) for p in found] == [
        (1, 1, 10 * MINUTE, 4 * MINUTE, 15 * MINUTE),
        (1, 2, 0, 4 * MINUTE, 15 * MINUTE),
        (1, 3, 0, 4 * MINUTE, 15 * MINUTE),
    ]
    assert all(p.holds_area and p.coats == 3 for p in found)


def test_a_step_over_all_looks_at_every_area():
    found = passes_of(
        scheme(step("Coats", 0, 1, 0, "coat"), step("Hoods", 0, 1, 0, "hood"), step("Wash", 0, 1, 0))
    )
    assert [p.areas for p in found] == [(0,), (1,), (0, 1)]


def test_sprays_are_told_apart():
    found = passes_of(
        scheme(step("Prime", 0, 1, 0, technique="spray"), step("Coats", 0, 1, 0, technique="base coat"))
    )
    assert [p.airborne for p in found] == [True, False]


def test_each_stop_has_the_times_up_to_it():
    guide = scheme(
        Stop(name="Nothing yet", span=PLACE),
        step("Prime", 5, 2, 30),
        step("Wash", 0, 3, 10),
        Stop(name="Fit to stand on the jetty", span=PLACE),
        step("Varnish", 2, 1, 0),
        Stop(name="Done", span=PLACE),
    )
    found = guide_times(guide, 10)
    assert in_minutes(found.whole) == (67, 12, 79, 79)
    assert found.no_wait == 16
    assert [(stop.name, stop.after, in_minutes(stop.times), stop.no_wait) for stop in found.stops] == [
        ("Nothing yet", 0, (0, 0, 0, 0), 1),
        ("Fit to stand on the jetty", 2, (55, 12, 67, 77), 16),
        ("Done", 3, (67, 12, 79, 79), 16),
    ]


def test_stretches_lie_between_stops_and_rests_and_start_dry():
    """The 30 minutes after the undercoat rest overnight, so only the wash's 10 count: with 2 once, the last of N comes after N + 1."""
    guide = scheme(
        step("Prime", 5, 2, 30, rest=True),
        step("Wash", 0, 3, 10),
        step("Highlights", 2, 1, 0),
        Stop(name="Fit to stand on the jetty", span=PLACE),
        step("Varnish", 0, 1, 60, rest=True),
        Stop(name="Done", span=PLACE),
    )
    assert guide_times(guide, 1).stretches == (
        Stretch(first=1, last=1, no_wait=1),
        Stretch(first=2, last=3, no_wait=9),
        Stretch(first=4, last=4, no_wait=1),
    )


def test_a_guide_without_steps_has_no_stretch():
    found = guide_times(scheme(Stop(name="Nothing", span=PLACE)), 4)
    assert found.stretches == ()
    assert in_minutes(found.whole) == (0, 0, 0, 0)


def test_durations_of_years_stay_exact():
    year = 365 * 24 * HOUR
    assert times(batch((0, 0, year / MINUTE), (0, 1 / MINUTE, 0)), 3).total == year + 3


def test_the_browser_is_given_what_it_needs():
    assert as_data(batch((1, 2, 3), areas=((0, 2),))) == [
        {"n": 1, "coat": 1, "once": 60_000, "each": 120_000, "dry": 180_000, "on": [0, 2], "area": True}
    ]
