"""A file's size, times and inode, by which an unchanged file is known without reading it."""

from __future__ import annotations

import os
import stat
from typing import NamedTuple

# A file changed within one tick of its file system's clock after it was looked at may look as it did. The coarsest
# clock in use ticks every two seconds (FAT: Microsoft, "File Times").
TICK_NS = 2_000_000_000

_NUMBERED = os.name != "nt"


class Stamp(NamedTuple):
    """Bytes, time of the last writing and of the last change in nanoseconds, and the file's number on its disk.

    `mtime_ns` is what any program may set, as those do that unpack archives; `ctime_ns` is the system's own, and every
    writing, renaming, linking and change of permissions moves it on (POSIX.1-2017, "File Times Update"). So a stamp
    that differs only means that the file has to be read, and one that is the same means that it need not be.

    What can still go unseen: two changes within one tick of the clock (see `settled`), a clock that was set back to
    the very nanosecond, and, where the system keeps no time of the last change, an edit of as many bytes whose time was
    put back. Windows is such a system: its `ctime_ns` is the time of creation, and folders are listed there without
    the files' numbers, so none counts.
    """

    size: int
    mtime_ns: int
    ctime_ns: int
    inode: int

    @classmethod
    def of(cls, status: os.stat_result) -> Stamp:
        return cls(status.st_size, status.st_mtime_ns, status.st_ctime_ns, status.st_ino if _NUMBERED else 0)

    def settled(self, looked_at: int) -> bool:
        """Whether every change after `looked_at` (nanoseconds) alters the stamp: the file is a tick of the clock older."""
        return self.mtime_ns < looked_at - TICK_NS


def kind_of(mode: int) -> str:
    """What a file is that is no ordinary one, as it is called in a sentence, from its `st_mode`."""
    kinds = ((stat.S_ISDIR, "a folder"), (stat.S_ISFIFO, "a pipe"), (stat.S_ISSOCK, "a socket"))
    return next((called for is_one, called in kinds if is_one(mode)), "a device")
