"""The search for circles of garbage, put off while many records are made that have none."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def uncollected() -> Iterator[None]:
    """No search meanwhile: it goes through all that is alive, and takes a quarter of the time of reading."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def lasting() -> None:
    """What is alive by now stays until the end, so no search goes through it any more."""
    gc.freeze()
