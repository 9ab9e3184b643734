"""What may lie where a file is looked for, and is none."""

from __future__ import annotations

import os
import signal
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

ODD = ("folder", "full folder", "pipe", "socket", "device", "dangling link", "link loop")
# Far longer than anything takes: only what waits for a pipe meets it.
PATIENCE = 120


def make_odd(place: Path, kind: str) -> None:
    """Put something of a strange kind at a place where nothing is."""
    match kind:
        case "folder":
            place.mkdir()
        case "full folder":
            place.mkdir()
            (place / "inside").write_bytes(b"somebody's")
        case "pipe":
            os.mkfifo(place)
        case "socket":
            here = Path.cwd()
            # A socket's address has to be short.
            os.chdir(place.parent)
            try:
                with socket.socket(socket.AF_UNIX) as listening:
                    listening.bind(place.name)
            finally:
                os.chdir(here)
        case "device":
            place.symlink_to("/dev/zero")
        case "dangling link":
            place.symlink_to(place.with_name("nowhere"))
        case "link loop":
            place.symlink_to(place)
        case _:
            raise ValueError(kind)


@contextmanager
def patience() -> Iterator[None]:
    """Ends what waits for what never comes."""

    def over(_number: int, _frame: object) -> None:
        raise AssertionError("it waits")

    before = signal.signal(signal.SIGALRM, over)
    signal.alarm(PATIENCE)
    try:
        yield
    finally:
        signal.alarm(0)
        signal.signal(signal.SIGALRM, before)
