"""Files of a site that are made before their turn: they wait on the disk, so that memory does not grow with them."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import IO, Self

from guidegen.base.errors import MachineError
from guidegen.writing.manifest import read_manifest


class Ahead:
    """Keeps the bytes of files that the site lacks. A killed build leaves nothing: the file they are in has no name."""

    def __init__(self, out: Path, folder: Path) -> None:
        """For the site in `out`; `folder` is where they wait, if it can be written to."""
        self._site = read_manifest(out).files
        self._folder = folder
        self._file: IO[bytes] | None = None
        self._end = 0

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        if self._file is not None:
            self._file.close()

    def lacks(self, path: str, key: str) -> bool:
        """Whether a file of that key is not in the site, so that its bytes will be asked for."""
        there = self._site.get(path)
        return there is None or there.key != key

    def keep(self, data: bytes) -> Callable[[], bytes]:
        """What gives the bytes back."""
        try:
            if self._file is None:
                self._file = _nameless(self._folder)
            _write(self._file, self._end, data)
        except (
            OSError
        ):  # then memory has to do; should the site's disk have no room, that is said when it is written
            return lambda: data
        file, begin = self._file, self._end
        self._end += len(data)
        return lambda: _read(file, begin, len(data), self._folder)


# Nothing is held back by the file: what a full disk does not take would come up again wherever it is used next.
def _nameless(folder: Path) -> IO[bytes]:
    try:
        return tempfile.TemporaryFile(dir=folder, buffering=0)
    except OSError:
        return tempfile.TemporaryFile(buffering=0)


def _write(file: IO[bytes], at: int, data: bytes) -> None:
    file.seek(at)
    left = memoryview(data)
    while left:
        left = left[file.write(left) :]


def _read(file: IO[bytes], at: int, size: int, folder: Path) -> bytes:
    parts = []
    try:
        file.seek(at)
        while size and (part := file.read(size)):
            parts.append(part)
            size -= len(part)
    except OSError as error:
        raise MachineError(
            f"What waited in “{folder}” for the site to be written cannot be read again: {error.strerror}.",
            "Look to that disk, or name another folder with --cache, and build again.",
        ) from error
    return b"".join(parts)
