"""Waiting for events: how long, and until what. No test is about speed, so only one that hangs meets an end to waiting."""

from __future__ import annotations

import socket
import time
from collections.abc import Callable

# Seconds, far more than anything takes even where it gets a fiftieth of a core.
PATIENCE = 600.0


def until(happened: Callable[[], bool], what: Callable[[], object] = lambda: "it never happened") -> None:
    """Wait for something that another thread or process does; AssertionError with `what` where it never comes."""
    end = time.monotonic() + PATIENCE
    while not happened():
        assert time.monotonic() < end, what()
        time.sleep(0.02)


def free_port() -> int:
    """A port of the loopback address that nobody listens at. Whoever takes it goes on to the next if it is taken by then."""
    with socket.socket() as line:
        line.bind(("127.0.0.1", 0))
        return int(line.getsockname()[1])
