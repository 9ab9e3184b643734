"""The timeline: painting to scale, waits with their cause, drying beside what is painted meanwhile."""

from __future__ import annotations

import re

from guidegen.base.units import DAY, MINUTE
from guidegen.computing.guide.batch import Pass, pass_bars
from guidegen.rendering.guide.timeline import (
    ALL_STEPS,
    BREATH,
    LANES,
    LARGEST_SCALE,
    LEAST,
    LONGEST_STEP,
    PAUSE,
    draw_timeline,
)

OCHRE = "#b8862f"


def minutes(n: int, once: float, each: float = 0, dry: float = 0, coat: int = 1, **more) -> Pass:
    return Pass(
        n=n,
        coat=coat,
        areas=more.pop("areas", (0,)),
        once=round(once * MINUTE),
        each=round(each * MINUTE),
        dry=round(dry * MINUTE),
        **more,
    )


def drawn(passes: list[Pass], figures: int = 1):
    return draw_timeline(pass_bars(passes, figures), {p.n: (OCHRE,) for p in passes})


def test_painting_is_to_scale() -> None:
    line = drawn([minutes(1, 10), minutes(2, 25)])
    assert [line.steps[n].row.height for n in (1, 2)] == [10 * LARGEST_SCALE, 25 * LARGEST_SCALE]


def test_a_wait_is_a_gap_of_one_height_and_names_its_cause() -> None:
    for dry in (30, 60 * 48):
        line = drawn([minutes(1, 0, 5, dry=dry), minutes(2, 0, 5)])
        wait = line.steps[2].wait
        assert wait is not None
        assert (wait.length, wait.dries) == (dry * MINUTE, 1)
        assert line.steps[2].pause is not None
        assert line.steps[2].pause.height == PAUSE
        assert (line.steps[2].start, line.steps[2].end) == ((5 + dry) * MINUTE, (10 + dry) * MINUTE)


def test_the_cause_is_what_still_dries_and_not_what_was_painted_last() -> None:
    passes = [
        minutes(1, 5, dry=60, areas=(0,), holds_area=True),
        minutes(2, 5, dry=1, areas=(1,), holds_area=True),
        minutes(3, 5, areas=(0, 1)),
    ]
    wait = drawn(passes).steps[3].wait
    assert wait is not None
    assert wait.dries == 1


def test_coats_stand_in_one_row_with_a_breath_between() -> None:
    passes = [minutes(1, 0, 10, dry=20, coat=1), minutes(1, 0, 10, dry=20, coat=2)]
    step = drawn(passes).steps[1]
    assert step.wait is None
    assert step.row.height == 2 * 10 * LARGEST_SCALE + BREATH
    assert step.dry == 60 * MINUTE


def test_many_steps_or_a_long_one_are_brought_down_to_a_readable_height() -> None:
    long = drawn([minutes(1, 600), minutes(2, 1)])
    assert long.steps[1].row.height == LONGEST_STEP
    assert long.steps[2].row.height == LEAST
    many = drawn([minutes(n, 30) for n in range(1, 101)])
    assert sum(many.steps[n].row.height for n in range(1, 101)) <= ALL_STEPS + 100


def test_drying_runs_beside_what_is_painted_meanwhile() -> None:
    passes = [
        minutes(1, 10, dry=40, areas=(0,), holds_area=True),
        minutes(2, 20, areas=(1,)),
        minutes(3, 5, areas=(2,)),
    ]
    line = drawn(passes)
    assert "linearGradient" not in line.steps[1].row.drawing
    assert "linearGradient" in line.steps[2].row.drawing
    strengths = [
        float(s) for s in re.findall(r'fill-opacity="([\d.]+)"', "".join(line.after[n] for n in (1, 2, 3)))
    ]
    assert strengths == [0.8, 0.4, 0.3]


def test_lanes_run_out_quietly() -> None:
    passes = [minutes(n, 1, dry=600, areas=(n,), holds_area=True) for n in range(LANES + 3)]
    line = drawn(passes)
    assert line.after[LANES + 2].count("fill-opacity") == LANES


def test_two_days_of_drying_end_the_guide_and_nothing_else_breaks() -> None:
    line = drawn([minutes(1, 5, dry=2 * DAY / MINUTE)])
    assert line.ending.height > 0
    assert drawn([]).ending.drawing == ""
    assert drawn([minutes(1, 5)]).ending.drawing == ""


def test_gradients_have_names_of_their_own() -> None:
    passes = [
        minutes(n, 3, dry=25, areas=(n % 4,), holds_area=True, coat=c) for n in range(1, 30) for c in (1, 2)
    ]
    line = drawn(passes, figures=3)
    html = "".join(
        [
            *(step.row.drawing for step in line.steps.values()),
            *(s.pause.drawing for s in line.steps.values() if s.pause),
        ]
    )
    names = re.findall(r'id="([^"]+)"', html)
    assert len(names) > 20
    assert len(names) == len(set(names))
    assert set(re.findall(r"url\(#([^)]+)\)", html)) == set(names)
