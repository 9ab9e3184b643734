"""Questions on a terminal: an answer that makes no sense is asked for again."""

from __future__ import annotations

import pytest

from guidegen.reading.types.values import MOST_FIGURES
from guidegen.terminal import asking


def test_figures_are_asked_for_until_there_are_as_many_as_may_be(monkeypatch: pytest.MonkeyPatch):
    answers = iter(["0", "many", f"{MOST_FIGURES + 1}", "0000000011999999", "9" * 5_000, "12"])
    monkeypatch.setattr("builtins.input", lambda _prompt: next(answers))
    assert asking.figures(default=1) == 12
    assert next(answers, None) is None
