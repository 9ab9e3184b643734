"""`times` from outside: what it prints and its data."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.small_palette import data, run

from guidegen.commands import times

GUIDE = """\
---
title: Ferry watch
made:
  - {date: 2026-03-14, figures: 10, minutes: {Coats: 50}}
  - {date: 2026-04-14, figures: 20, minutes: {coats: 1 h 30 min}}
steps:
  - {step: Coats, paint: Ropewalk, once: 2 min, each: 3 min}
  - {step: Hoods, paint: Ropewalk, each: 1 min}
---
"""


@pytest.fixture
def watch(content: Path) -> Path:
    (content / "guides").mkdir()
    (content / "guides" / "ferry-watch.md").write_text(GUIDE, encoding="utf-8")
    return content


def test_the_data_by_hand(watch: Path):
    """50 and 90 minutes for 10 and 20 figures: 10 once and 4 each."""
    assert data(times.command, watch, "Ferry watch") == {
        "steps": [
            {
                "step": "Coats",
                "once_min": 2,
                "each_min": 3,
                "measured_once_min": 10,
                "measured_each_min": 4,
                "sessions": 2,
            },
            {
                "step": "Hoods",
                "once_min": 0,
                "each_min": 1,
                "measured_once_min": None,
                "measured_each_min": None,
                "sessions": 0,
            },
        ]
    }


def test_in_words(watch: Path):
    result = run(times.command, watch, "ferry-watch")
    assert result.exit_code == 0
    lines = [line.split("   ") for line in result.stdout.splitlines()]
    assert [cell.strip() for cell in lines[1] if cell.strip()] == [
        "Coats",
        "once 2 min, each 3 min",
        "once 10 min, each 4 min",
        "2",
    ]
    assert "not timed yet" in result.stdout


def test_a_guide_that_is_not_there_ends_with_one(watch: Path):
    result = run(times.command, watch, "fery-watch")
    assert result.exit_code == 1
    assert "There is no guide “fery-watch”." in result.stderr


def test_minutes_of_a_step_that_is_not_there_are_told(watch: Path):
    file = watch / "guides" / "ferry-watch.md"
    file.write_text(GUIDE.replace("{Coats: 50}", "{Goats: 50}"), encoding="utf-8")
    result = run(times.command, watch, "ferry-watch")
    assert result.exit_code == 1
    assert "unknown-step" in result.stderr
