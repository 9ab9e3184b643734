"""The one way in which writing opens what it reads: only ordinary files, since a pipe would be waited for without end."""

from __future__ import annotations

import errno
import os
import stat
from io import BufferedReader
from pathlib import Path

from guidegen.base.stamp import kind_of


def open_plain(path: Path) -> BufferedReader:
    """Open an ordinary file, or one that a link leads to. Raises OSError, also for what is none."""
    # Looked at first, for opening a device may set it going.
    _check(path.stat(), path)
    # Not waiting, should it have become a pipe meanwhile.
    opened = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
    try:
        _check(os.fstat(opened), path)
        return os.fdopen(opened, "rb")
    except BaseException:
        os.close(opened)
        raise


def read_plain(path: Path) -> bytes:
    """All that is in an ordinary file. Raises OSError, also for what is none."""
    with open_plain(path) as file:
        return file.read()


def _check(status: os.stat_result, path: Path) -> None:
    if not stat.S_ISREG(status.st_mode):
        raise OSError(errno.EINVAL, f"it is {kind_of(status.st_mode)} and no ordinary file", str(path))
