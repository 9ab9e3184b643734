"""Times fitted from what batches took, by hand and beside SciPy's non-negative least squares."""

from __future__ import annotations

import datetime as dt
import random

import pytest
from support.plans import guide_of, name, step

from guidegen.base.units import MINUTE
from guidegen.computing.guide.measured_times import (
    Measurement,
    fitted,
    measured_times,
    measurement,
    minutes,
)
from guidegen.model.guide import Guide, PaintedBatch, Step

DAY = dt.date(2026, 3, 14)


def batch(figures: int, minutes: dict[str, float], **more: object) -> PaintedBatch:
    spent = {title: round(one * MINUTE) for title, one in minutes.items()}
    return PaintedBatch(date=DAY, figures=figures, minutes=spent, **more)  # type: ignore[arg-type]


def guide(*made: PaintedBatch) -> Guide:
    return guide_of(
        "ferry-watch",
        step("Coats", 5, 4, 0, coats=2),
        step("Hood", 0, 3, 0, only={"headgear": "hood"}),
        choose={"headgear": ("hood", "straw hat")},
        made=made,
    )


@pytest.mark.parametrize(
    ("sessions", "once", "expected"),
    [
        ([(10, 50), (20, 90)], 0, (10, 4)),
        # Of one size alone: once as written, the rest to each, and never under 0.
        ([(10, 50), (10, 54)], 12, (12, 4)),
        ([(10, 5)], 12, (12, 0)),
        # The plain solution has a once of -10; through 0 each is (10·30 + 20·70) / 500.
        ([(10, 30), (20, 70)], 0, (0, 3.4)),
        # It gets shorter the more there are: the mean, and nothing for each.
        ([(10, 60), (20, 40)], 0, (50, 0)),
    ],
)
def test_by_hand(sessions: list[tuple[int, float]], once: float, expected: tuple[float, float]):
    found = fitted([(strokes, round(spent * MINUTE)) for strokes, spent in sessions], round(once * MINUTE))
    assert tuple(one / MINUTE for one in found) == expected


def test_as_scipy_fits_them():
    """scipy.optimize.nnls (docs.scipy.org), an active-set solver after Lawson & Hanson."""
    nnls = pytest.importorskip("scipy.optimize").nnls
    draw = random.Random(1)
    cases = {"inside": 0, "edge": 0}
    for _ in range(300):
        count = draw.randint(2, 8)
        sessions = [(draw.randint(1, 60), draw.randint(1, 90) * MINUTE) for _ in range(count)]
        if len({strokes for strokes, _ in sessions}) < 2:
            continue
        found = fitted(sessions, 0)
        (once, each), _ = nnls(
            [[1.0, strokes] for strokes, _ in sessions], [float(spent) for _, spent in sessions]
        )
        assert found == pytest.approx((once, each), abs=1)
        cases["inside" if min(found) else "edge"] += 1
    assert min(cases.values()) > 30


def test_a_step_counts_its_own_figures_and_coats():
    """Coats: 8 and 16 strokes in 20 and 36 minutes, so 4 and 2. Hoods: 6 of 8 in 12 minutes, then all 4 in 8."""
    mixed = batch(8, {"coats": 36, "Hood": 12}, mixed={"Headgear": {"hood": 6, "straw hat": 2}})
    hats = batch(4, {"Hood": 99}, choose={"headgear": name("straw hat")})
    coats, hood = measured_times(guide(mixed, batch(4, {"Coats": 20, "Hood": 8}), hats))
    assert (coats.measured_once, coats.measured_each, coats.sessions) == (4 * MINUTE, 2 * MINUTE, 2)
    assert (hood.measured_once, hood.measured_each, hood.sessions) == (0, 2 * MINUTE, 2)
    assert (coats.once, coats.each) == (5 * MINUTE, 4 * MINUTE)


def test_a_step_that_nobody_timed_has_no_measured_time():
    coats, _ = measured_times(guide(batch(4, {})))
    assert (coats.measured_once, coats.measured_each, coats.sessions) == (None, None, 0)


def test_written_times_are_measured_where_they_are_what_was_measured():
    """Coats as fitted above, 5 and 4 to 4 and 2; hoods are most of the time where coats are short."""
    made = (batch(8, {"coats": 36}), batch(4, {"Coats": 20}), batch(9, {}))

    def told(*steps: object) -> Measurement | None:
        return measurement(guide_of("ferry-watch", *steps, made=made))  # type: ignore[arg-type]

    coats, rough = step("Coats", 4, 2, 0, coats=2), step("Coats", 5, 2, 0, coats=2)
    assert told(coats, step("Hood", 0, 3, 0)) == Measurement(evenings=1, figures=12)
    assert told(rough, step("Hood", 0, 3, 0)) is None
    # Eight minutes are timed, as once is spent with the first coat alone; eight are not, or nine.
    assert told(coats, step("Hood", 0, 8, 0)) == Measurement(evenings=1, figures=12)
    assert told(coats, step("Hood", 0, 9, 0)) is None
    assert measurement(guide()) is None


def test_to_write_is_rounded_and_never_nothing_for_a_figure():
    def to_write(written: Step, *sessions: tuple[int, float]) -> tuple[int, int] | None:
        made = tuple(batch(figures, {"Coats": spent}) for figures, spent in sessions)
        return measured_times(guide_of("ferry-watch", written, made=made))[0].to_write

    each, once = step("Coats", 0, 1, 0), step("Coats", 5, 0, 0)
    assert to_write(each, (30, 31)) == (0, 60_000)
    assert to_write(each, (30, 32)) == (0, 65_000)
    assert to_write(each, (10, 60), (20, 40)) is None
    assert to_write(once, (10, 60), (20, 40)) == (50 * MINUTE, 0)
    assert to_write(each) is None


@pytest.mark.parametrize(
    ("ms", "text"), [(2 * MINUTE, "2"), (90_000, "1.5"), (411_429, "6.8571"), (0, "0"), (None, "None")]
)
def test_data_has_whole_minutes_as_whole_numbers(ms: int | None, text: str):
    assert repr(minutes(ms)) == text
