"""Recordings, notes and tables of our town become the guides that they tell."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.draft_scores import Score, score
from support.recordings import drafted, recordings, truth_of


@pytest.mark.parametrize("file", recordings("tuned"), ids=lambda file: file.name)
def test_what_the_reading_was_tuned_on_is_understood(file: Path):
    result = score(drafted(file), truth_of(file))
    assert result.row == (1.0, 1.0, 1.0, 1.0, 1.0), "\n".join(result.wrong)


def test_what_was_only_scored_is_understood_as_well_as_measured():
    """Bounds below what `tests/bench/drafts.py` measures: a change that understands less is seen."""
    total = Score()
    for file in recordings("scored"):
        total = total + score(drafted(file), truth_of(file))
    found, true, technique, at, details = total.row
    assert found >= 0.96
    assert true >= 0.98
    assert technique >= 0.98
    assert at >= 0.98
    assert details >= 0.94


def test_a_score_sees_what_is_missing():
    """The simplest wrong drafts: one step less, one more, another technique, another time."""
    file = next(one for one in recordings("tuned") if one.name == "ferry-watch.vtt")
    truth = truth_of(file)
    less, more, late = drafted(file), drafted(file), drafted(file)
    del less.entries[0]
    more.entries.append(drafted(file).steps[0])
    for step in late.steps:
        step.technique, step.at = "stain", 0
    assert score(less, truth).row[0] < 1
    assert score(more, truth).row[1] < 1
    assert max(score(late, truth).row[2:4]) < 0.3
