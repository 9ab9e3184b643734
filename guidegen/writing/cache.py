"""Encoded photos and other costly results, kept between builds in the user's cache folder, by key."""

from __future__ import annotations

import hashlib
import os
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from guidegen.writing.atomic import write_atomically

# Grows when a file in the cache is laid out otherwise; older folders are left to be cleaned by their owners.
VERSION = 1
NAME = f"guidegen-{VERSION}"

# Begins each file: the SHA-256 of what follows, so that a spoilt file is seen and made anew.
_HEAD = 32
# A file used again is marked so at most once a day; more would cost more than it tells.
_MARKED = 86_400
# What is left when the cache was too full, so that it is not cleared at every build.
_KEPT_SHARE = 0.9


def cache_folder(environ: dict[str, str] | None = None) -> Path:
    """The user's cache folder for guidegen: where the platform has such things, else among temporary files."""
    env = dict(os.environ) if environ is None else environ
    if env.get("XDG_CACHE_HOME"):
        return Path(env["XDG_CACHE_HOME"]) / NAME
    if sys.platform == "win32" and env.get("LOCALAPPDATA"):
        return Path(env["LOCALAPPDATA"]) / NAME
    try:
        home = Path.home()
    except RuntimeError:
        home = None
    if home is None or not home.is_dir():
        return Path(tempfile.gettempdir()) / f"{NAME}-{os.getuid() if hasattr(os, 'getuid') else 'user'}"
    return home / ("Library/Caches" if sys.platform == "darwin" else ".cache") / NAME


class Cache:
    """Bytes by key. Safe for several threads and several builds at once: every file appears whole or not at all.

    A folder that cannot be written to only costs the time to make things again: what was put is then kept in a
    temporary folder until the build ends.
    """

    def __init__(self, folder: Path, limit: int | None = None) -> None:
        """`limit` in bytes, None for none; it is kept to by `trim`."""
        self.folder = folder
        self._limit = limit
        self._spare: tempfile.TemporaryDirectory[str] | None = None

    @classmethod
    @contextmanager
    def opened(cls, folder: Path, limit: int | None = None) -> Iterator[Cache]:
        """A cache for one build, brought back within its limit at the end."""
        cache = cls(folder, limit)
        try:
            yield cache
        finally:
            cache.trim()
            if cache._spare is not None:
                cache._spare.cleanup()

    def has(self, key: str) -> bool:
        """Whether something is kept under the key."""
        return any(place.is_file() for place in self._places(key))

    def get(self, key: str) -> bytes | None:
        """What is kept under the key; None for nothing, and for a file that was spoilt, which is removed."""
        for place in self._places(key):
            try:
                data = place.read_bytes()
            except OSError:
                continue
            if hashlib.sha256(data[_HEAD:]).digest() == data[:_HEAD]:
                _mark_used(place)
                return data[_HEAD:]
            with suppress(OSError):
                place.unlink()
        return None

    def put(self, key: str, data: bytes) -> None:
        """Keep bytes under a key."""
        kept = hashlib.sha256(data).digest() + data
        try:
            self._write(self._place(self.folder, key), kept)
        except OSError:
            if self._spare is None:
                self._spare = tempfile.TemporaryDirectory(prefix="guidegen-", ignore_cleanup_errors=True)
            self._write(self._place(Path(self._spare.name), key), kept)

    def trim(self) -> None:
        """Remove what was not used for longest until the cache is within its limit again."""
        if self._limit is None:
            return
        files = []
        for place in self.folder.glob("??/*"):
            with suppress(OSError):
                found = place.stat()
                files.append((found.st_mtime_ns, found.st_size, place))
        total = sum(size for _, size, _ in files)
        if total <= self._limit:
            return
        for _, size, place in sorted(files):
            if total <= self._limit * _KEPT_SHARE:
                break
            with suppress(OSError):
                place.unlink()
                total -= size

    def _places(self, key: str) -> Iterator[Path]:
        yield self._place(self.folder, key)
        if self._spare is not None:
            yield self._place(Path(self._spare.name), key)

    @staticmethod
    def _place(folder: Path, key: str) -> Path:
        return folder / hashlib.sha256(key.encode()).hexdigest()[:2] / key

    @staticmethod
    def _write(place: Path, data: bytes) -> None:
        place.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        write_atomically(place, data)


def _mark_used(place: Path) -> None:
    with suppress(OSError):
        import time

        if time.time() - place.stat().st_mtime > _MARKED:
            os.utime(place)
