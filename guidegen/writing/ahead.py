"""Files of a site that are made before their turn: they wait on the disk, so that memory does not grow with them."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import IO, Self

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
            self._file.seek(self._end)
            self._file.write(data)
            self._file.flush()
        except OSError:  # a disk that has no room will say so when the site is written
            return lambda: data
        file, begin, size = self._file, self._end, len(data)
        self._end += size

        def back() -> bytes:
            file.seek(begin)
            return file.read(size)

        return back


def _nameless(folder: Path) -> IO[bytes]:
    try:
        return tempfile.TemporaryFile(dir=folder)
    except OSError:
        return tempfile.TemporaryFile()
