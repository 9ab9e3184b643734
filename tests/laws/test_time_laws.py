"""What holds for the clock of any batch, and what SimPy and OR-tools say of it."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings
from hypothesis import strategies as st
from support.simulation import simulated_batch
from support.strategies import passes

from guidegen.base.units import MINUTE
from guidegen.computing.guide.batch import LARGEST_BATCH, Pass, no_wait, pass_bars, times

figures = st.integers(1, 12)


@given(passes(), figures)
def test_simpy_gives_the_same_times(batch: tuple[Pass, ...], count: int):
    """SimPy (simpy.readthedocs.io), discrete-event simulation: every number equal to the millisecond."""
    assert times(batch, count) == simulated_batch(batch, count)


@given(passes(), figures)
def test_work_and_waiting_fill_the_clock(batch: tuple[Pass, ...], count: int):
    found = times(batch, count)
    assert found.hands_on == sum(p.once + count * p.each for p in batch)
    assert found.last_stroke == found.hands_on + found.waiting
    assert found.total >= found.last_stroke


@given(passes(), figures)
def test_bars_add_up(batch: tuple[Pass, ...], count: int):
    bars = pass_bars(batch, count)
    assert [(bar.n, bar.coat) for bar in bars] == [(p.n, p.coat) for p in batch]
    at = 0
    for bar, p in zip(bars, batch, strict=True):
        assert bar.start == at
        assert bar.end == bar.start + bar.hands_on + bar.waited
        assert bar.longest <= bar.waited <= bar.gaps * bar.longest
        assert (bar.gaps > 0) == (bar.waited > 0)
        assert bar.longest == 0 or bar.start <= bar.longest_at <= bar.end - bar.longest
        assert bar.dry_until == bar.end + p.dry
        at = bar.end


@given(passes())
def test_no_wait_is_what_trying_every_batch_finds(batch: tuple[Pass, ...]):
    tried = next((n for n in range(1, 41) if times(batch, n).waiting == 0), None)
    found = no_wait(batch)
    if found is None:
        assert times(batch, LARGEST_BATCH).waiting > 0
        assert tried is None
    else:
        assert tried == (found if found <= 40 else None)
        assert times(batch, found).waiting == 0
        assert found == 1 or times(batch, found - 1).waiting > 0


@given(passes(), st.integers(0, 20))
def test_a_batch_larger_than_one_that_never_waits_does_not_wait_either(batch: tuple[Pass, ...], more: int):
    smallest = no_wait(batch)
    if smallest is not None and smallest <= 60:
        assert times(batch, smallest + more).waiting == 0


@given(passes(), figures, st.integers(1, 60), st.data())
def test_more_drying_is_never_quicker(batch: tuple[Pass, ...], count: int, more: int, data: st.DataObject):
    slower = [replace(p, dry=p.dry + data.draw(st.sampled_from((0, more * MINUTE)))) for p in batch]
    before, after = times(batch, count), times(slower, count)
    assert after.last_stroke >= before.last_stroke
    assert after.total >= before.total


@given(passes(), figures)
def test_holding_the_figure_is_never_quicker_than_holding_areas(batch: tuple[Pass, ...], count: int):
    areas = [replace(p, holds_area=True) for p in batch]
    whole = [replace(p, holds_area=False) for p in batch]
    assert (
        times(areas, count).last_stroke <= times(batch, count).last_stroke <= times(whole, count).last_stroke
    )


@given(passes(), figures)
def test_twice_the_figures_take_twice_the_strokes(batch: tuple[Pass, ...], count: int):
    once = sum(p.once for p in batch)
    assert times(batch, 2 * count).hands_on - once == 2 * (times(batch, count).hands_on - once)


@given(passes(), figures, st.integers(0, 7))
def test_stopping_earlier_changes_nothing_before_the_stop(batch: tuple[Pass, ...], count: int, stop: int):
    assert pass_bars(batch[:stop], count) == pass_bars(batch, count)[:stop]


@given(passes(most=5), st.integers(1, 4))
@settings(max_examples=25)
def test_no_other_schedule_in_this_order_puts_the_brush_down_earlier(batch: tuple[Pass, ...], count: int):
    """OR-tools' CP-SAT (developers.google.com/optimization), the order of steps and figures fixed.

    Every beginning is free, so that waiting early to save waiting late is allowed; none does better.
    """
    from ortools.sat.python import cp_model

    model = cp_model.CpModel()
    end = times(batch, count).last_stroke
    at = 0
    strokes: list[tuple[Pass, int, object]] = []
    for p in batch:
        at = at + p.once
        for figure in range(count):
            start = model.new_int_var(0, end, "")
            model.add(start >= at)
            for wet, other, began in strokes:
                meets = not wet.holds_area or set(wet.areas) & set(p.areas)
                if other == figure and meets:
                    model.add(start >= began + wet.each + wet.dry)
            strokes.append((p, figure, start))
            at = start + p.each
    model.minimize(at)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    assert round(solver.objective_value) == end
