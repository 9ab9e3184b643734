"""Files that are either wholly there or not at all: written beside their place, then moved into it.

A kill between any two operations leaves the old file or the new one, never half of one. A power cut is another
matter: only what is asked to be durable is flushed first. Flushing every file of a site would cost minutes on a
slow disk, and buy little: what a power cut spoils no longer has the size or the hash that the manifest states, so
the next build writes it again. The manifest itself is durable, since it alone says which files are ours.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from guidegen.writing.plain import read_plain

CHUNK = 1 << 20
# Ends the name of a file that is being written; nobody takes it for a page.
PART = ".part"


class Disk:
    """The few things that writing does to a disk, each in one place. Every one raises OSError."""

    def write(self, path: Path, chunks: Iterable[bytes], *, durable: bool = False) -> os.stat_result:
        """Write a new file with the permissions of any new file, and return what the system knows of it."""
        # Exclusive, so that nothing is ever written through a link that somebody else put there.
        with path.open("xb") as file:
            for chunk in chunks:
                file.write(chunk)
            file.flush()
            if durable:
                os.fsync(file.fileno())
        # After closing: some systems set the time of the last change only then.
        return path.stat()

    def replace(self, source: Path, target: Path) -> None:
        """Move a file into its place, over whatever file lies there, in one stroke."""
        source.replace(target)

    def remove(self, path: Path) -> None:
        """Remove a file or a link, never what a link points to."""
        path.unlink()

    def make_folder(self, path: Path) -> None:
        """Make one folder."""
        path.mkdir()

    def remove_folder(self, path: Path) -> None:
        """Remove an empty folder."""
        path.rmdir()


def write_atomically(target: Path, *data: bytes, durable: bool = False, disk: Disk | None = None) -> bool:
    """Put a file of these pieces in place whole, unless the same bytes lie there already; whether it was written.

    Raises OSError, and then leaves the old file and no temporary one.
    """
    disk = disk or Disk()
    if _holds(target, data):
        return False
    beside = part_of(target)
    try:
        disk.write(beside, data, durable=durable)
        disk.replace(beside, target)
    except BaseException:
        with suppress(OSError):
            disk.remove(beside)
        raise
    return True


def part_of(target: Path) -> Path:
    """A new name beside a target, of this process alone, for what will be moved into its place."""
    return target.with_name(f".{target.name}.{os.getpid()}-{os.urandom(4).hex()}{PART}")


def _holds(path: Path, data: tuple[bytes, ...]) -> bool:
    try:
        return path.stat().st_size == sum(map(len, data)) and read_plain(path) == b"".join(data)
    except OSError:
        return False
