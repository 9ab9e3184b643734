"""A file of the author's own, written anew in its place: whole at every moment, and by nobody it was not open to."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterable
from pathlib import Path

from guidegen.writing.atomic import Disk, write_atomically


def may_be_rewritten(file: Path) -> bool:
    """Whether a file is one of its own: not reached by a link, without a second name, and open to be written."""
    try:
        status = file.lstat()
    except OSError:
        return False
    return (
        stat.S_ISREG(status.st_mode)
        and status.st_nlink == 1
        and os.path.realpath(file) == str(file)
        and os.access(file, os.W_OK)
    )


def rewrite(file: Path, data: bytes) -> None:
    """Put other bytes in the place of a file that may be rewritten. Raises OSError, and then leaves it as it is."""
    write_atomically(file, data, durable=True, disk=_SamePermissions(stat.S_IMODE(file.stat().st_mode)))


class _SamePermissions(Disk):
    """Gives what is written the permissions of the file that it replaces."""

    def __init__(self, mode: int) -> None:
        self.mode = mode

    def write(self, path: Path, chunks: Iterable[bytes], *, durable: bool = False) -> os.stat_result:
        """Write a new file with these permissions."""
        super().write(path, chunks, durable=durable)
        path.chmod(self.mode)
        return path.stat()
