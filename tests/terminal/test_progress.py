"""The bars of long work: drawn where there is a terminal, by the work itself and by no thread."""

from __future__ import annotations

import io
import threading

from guidegen.terminal.progress import progress_bars


class Screen(io.StringIO):
    def isatty(self) -> bool:
        return True


def test_bars_are_drawn_without_a_thread():
    screen = Screen()
    before = threading.active_count()
    with progress_bars(screen) as tell:
        for done in range(1, 31):
            tell("photos", done, 30)
        assert threading.active_count() == before
        assert "Developing photos" in screen.getvalue()
        assert "30/30" in screen.getvalue()


def test_a_pipe_gets_nothing():
    pipe = io.StringIO()
    with progress_bars(pipe) as tell:
        tell("photos", 1, 1)
    assert pipe.getvalue() == ""
