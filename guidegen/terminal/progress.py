"""Bars for long work, on a terminal only."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import TextIO

WORDS = {"photos": "Developing photos", "guides": "Working guides out", "pages": "Making pages"}
# The least time from one drawing of the bars to the next, in seconds.
PACE = 0.1


@contextmanager
def progress_bars(stream: TextIO) -> Iterator[Callable[[str, int, int], None]]:
    """A function that takes (stage, done, of), and shows bars on a terminal; in a pipe it does nothing."""
    if not stream.isatty():
        yield lambda _stage, _done, _of: None
        return
    from rich.console import Console
    from rich.progress import BarColumn, MofNCompleteColumn, Progress, TaskID, TextColumn

    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn())
    # Drawn as work is told of, and not by a thread: workers can only be forks where there is none.
    with Progress(*columns, console=Console(file=stream), transient=True, auto_refresh=False) as bars:
        known: dict[str, TaskID] = {}
        drawn = 0.0

        def tell(stage: str, done: int, of: int) -> None:
            nonlocal drawn
            if stage not in known:
                known[stage] = bars.add_task(WORDS.get(stage, stage), total=of)
            bars.update(known[stage], completed=done, total=of)
            now = time.monotonic()
            if done == of or now - drawn >= PACE:
                bars.refresh()
                drawn = now

        yield tell
