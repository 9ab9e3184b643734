"""New files of a site, written whole into a folder of their own in it before any is put in place.

So a full disk, or a page that cannot be made, is met while the site is still untouched, and the time in which old
and new pages stand side by side is that of moving files. The folder lies in the site to be on the same disk.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple, Protocol

from guidegen.base.errors import OutputRefusedError
from guidegen.base.stamp import Stamp
from guidegen.writing.artifact import Data
from guidegen.writing.atomic import CHUNK, Disk
from guidegen.writing.site_folder import STAGING
from guidegen.writing.trouble import reading_trouble


class Staged(NamedTuple):
    """A file that waits to be put in place, with the hash of its content and how it looks."""

    place: Path
    sha256: str
    look: Stamp


class _Digest(Protocol):
    def update(self, data: bytes, /) -> None: ...


class Staging:
    """The folder of files that wait; it is only there while it is needed."""

    def __init__(self, out: Path, disk: Disk) -> None:
        """Of the site in `out`."""
        self._folder = out / STAGING
        self._disk = disk
        self._count = 0

    def put(self, data: Data, *, durable: bool = False) -> Staged:
        """Write the next file. Raises OSError from the site's disk, MachineError where a file to copy is at fault."""
        if not self._count:
            self._disk.make_folder(self._folder)
        self._count += 1
        place = self._folder / str(self._count)
        digest = hashlib.sha256()
        found = self._disk.write(place, _chunks(data, digest), durable=durable)
        return Staged(place, digest.hexdigest(), Stamp.of(found))

    def clear(self) -> None:
        """Remove the folder and what is left in it, also from a build that was killed.

        Raises OSError, and OutputRefusedError for what no build of ours has left there.
        """
        if self._folder.is_symlink():
            self._disk.remove(self._folder)
        elif self._folder.exists():
            if not self._folder.is_dir():
                raise _foreign(self._folder, "no folder")
            there = sorted(self._folder.iterdir())
            for left in there:
                if left.is_dir() and not left.is_symlink():
                    raise _foreign(left, "a folder")
            for left in there:
                self._disk.remove(left)
            self._disk.remove_folder(self._folder)
        self._count = 0


def _foreign(place: Path, what: str) -> OutputRefusedError:
    return OutputRefusedError(
        f"“{place}” is {what}, which guidegen did not put there and which is in its way.",
        "Move it elsewhere, or build to another folder with --out.",
    )


def _chunks(data: Data, digest: _Digest) -> Iterator[bytes]:
    if isinstance(data, bytes):
        digest.update(data)
        yield data
        return
    try:
        with data.open("rb") as file:
            while chunk := file.read(CHUNK):
                digest.update(chunk)
                # The site's own disk fails outside of this try: a generator is not told what its reader meets.
                yield chunk
    except OSError as error:
        raise reading_trouble(error, data) from error


def size_and_hash(data: Data) -> tuple[int, str]:
    """Bytes and SHA-256 of what is to be written. Raises MachineError where a file to copy is at fault."""
    digest = hashlib.sha256()
    size = sum(len(chunk) for chunk in _chunks(data, digest))
    return size, digest.hexdigest()
