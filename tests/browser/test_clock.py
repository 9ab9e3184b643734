"""The clock in the browser gives the very numbers that Python gives, for batches of every sort."""

from __future__ import annotations

import json
import random
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from support.paths import TEMPLATES

from guidegen.base.units import DAY, LONGEST, MINUTE
from guidegen.computing.guide.batch import Pass, as_data, pass_bars, times

if TYPE_CHECKING:
    from playwright.sync_api import Page

CLOCK = TEMPLATES / "scripts" / "clock.js"
MANY = 1_500


def batches() -> list[tuple[tuple[Pass, ...], int]]:
    """Pass lists and counts of a fixed seed, and the extremes: none, one, five hundred, years of drying."""
    draw = random.Random(20260406)
    found: list[tuple[tuple[Pass, ...], int]] = [((), 0), ((), 1)]
    for _ in range(MANY):
        whole = draw.random() < 0.6
        unit = MINUTE if whole else 1
        longest = draw.choice((20, 90, 600)) * MINUTE // unit
        passes = tuple(
            Pass(
                n=n,
                coat=draw.randint(1, 2),
                areas=tuple(sorted(draw.sample(range(5), draw.randint(1, 5)))),
                once=draw.choice((0, draw.randint(0, 8 * MINUTE // unit))) * unit,
                each=draw.choice((0, draw.randint(0, 9 * MINUTE // unit))) * unit,
                dry=draw.choice((0, draw.randint(0, longest))) * unit,
                holds_area=draw.random() < 0.5,
            )
            for n in range(1, draw.randint(1, 9))
        )
        found.append((passes, draw.choice((0, 1, 2, 3, 7, 10, 16, 30))))
    long = tuple(
        Pass(n=n, areas=(0, 1), once=DAY, each=DAY + n, dry=LONGEST - n, holds_area=n % 2 == 0)
        for n in range(1, 41)
    )
    edge = [
        (tuple(Pass(n=n, areas=(0,), each=MINUTE, dry=minutes * MINUTE) for n in (1, 2)), 2)
        for minutes in (498, 499, 500)
    ]
    return [*found, *edge, (long, 1), (long, 500), *((found[at][0], 500) for at in range(2, 12))]


def python_says(passes: tuple[Pass, ...], figures: int) -> dict[str, Any]:
    def camel(record: dict[str, int]) -> dict[str, int]:
        return {
            "".join((w.title() if at else w) for at, w in enumerate(key.split("_"))): value
            for key, value in record.items()
        }

    return {
        "times": camel(asdict(times(passes, figures))),
        "timeline": [camel(asdict(bar)) for bar in pass_bars(passes, figures)],
    }


def test_no_pair_of_numbers_differs(page: Page):
    cases = batches()
    page.add_script_tag(path=CLOCK)
    browser_says = page.evaluate(
        """text => JSON.stringify(JSON.parse(text).map(([passes, figures]) => ({
            times: guidegenClock.times(passes, figures),
            timeline: guidegenClock.timeline(passes, figures),
        })))""",
        json.dumps([[as_data(passes), figures] for passes, figures in cases]),
    )
    answers = json.loads(browser_says)
    assert len(answers) == len(cases)
    for (passes, figures), answer in zip(cases, answers, strict=True):
        assert answer == python_says(passes, figures), (passes, figures)
    # The comparison is worth something only where batches wait.
    assert sum(answer["times"]["waiting"] > 0 for answer in answers) > MANY // 4
