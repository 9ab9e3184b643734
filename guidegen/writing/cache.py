"""Encoded photos and other costly results, kept between builds in the user's cache folder, by key."""

from __future__ import annotations

import hashlib
import os
import stat
import sys
import tempfile
import threading
import time
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

from guidegen.base.errors import MachineError
from guidegen.writing.atomic import PART, write_atomically
from guidegen.writing.lock import shared, taken_alone

# Grows when a file in the cache is laid out otherwise; older folders are left to be cleaned by their owners.
VERSION = 1
NAME = f"guidegen-{VERSION}"

# Begins each file: the SHA-256 of what follows, so that a spoilt file is seen and made anew.
_HEAD = 32
# A file used again is marked so at most once a day; more would cost more than it tells.
_MARKED = 86_400
# What is left when the cache was too full, so that it is not cleared at every build.
_KEPT_SHARE = 0.9
# Says which limit was last kept to. Until something is added that need not be looked at again.
_KEPT_TO = "kept-to"


def cache_folder(environ: Mapping[str, str] | None = None) -> Path:
    """The user's cache folder for guidegen: where the platform has such things, else among temporary files."""
    env = os.environ if environ is None else environ
    # A relative path there is to be ignored: XDG Base Directory Specification.
    named = Path(env.get("XDG_CACHE_HOME", ""))
    if named.is_absolute():
        return named / NAME
    if sys.platform == "win32" and env.get("LOCALAPPDATA"):
        return Path(env["LOCALAPPDATA"]) / NAME
    try:
        home = Path(env.get("HOME") or env.get("USERPROFILE") or "~").expanduser()
    except RuntimeError:
        return _temporary_folder()
    if not home.is_absolute() or not home.is_dir():
        return _temporary_folder()
    return home / ("Library/Caches" if sys.platform == "darwin" else ".cache") / NAME


def is_there(folder: Path) -> bool:
    """Whether a cache folder was made already."""
    return folder.is_dir()


def _temporary_folder() -> Path:
    """A folder among the temporary files that is this user's alone: anybody can make one of that name first."""
    user = os.getuid() if sys.platform != "win32" else "user"
    folder = Path(tempfile.gettempdir()) / f"{NAME}-{user}"
    with suppress(OSError):
        folder.mkdir(mode=0o700, exist_ok=True)
        found = folder.lstat()
        ours = sys.platform == "win32" or (found.st_uid == user and not found.st_mode & 0o077)
        if stat.S_ISDIR(found.st_mode) and ours:
            return folder
    return Path(tempfile.mkdtemp(prefix=f"{NAME}-"))


class Cache:
    """Bytes by key. Safe for several threads and several builds at once: every file appears whole or not at all.

    A folder that cannot be written to only costs the time to make things again: what was put is then kept in a
    temporary folder until the build ends, and `note` says so.
    """

    def __init__(self, folder: Path, limit: int | None = None) -> None:
        """`limit` in bytes, None for none; it is kept to by `trim`."""
        self.folder = folder
        self.note: str | None = None
        self._limit = limit
        self._added = False
        self._spare: tempfile.TemporaryDirectory[str] | None = None
        self._making_spare = threading.Lock()

    @classmethod
    @contextmanager
    def opened(cls, folder: Path, limit: int | None = None) -> Iterator[Cache]:
        """A cache for one build, brought back within its limit at the end.

        Builds at the same time share it, and the last of them to end trims it, so that none loses what it counts on.
        """
        cache = cls(folder, limit)
        with ExitStack() as held:
            with suppress(OSError):
                folder.mkdir(parents=True, exist_ok=True, mode=0o700)
                held.enter_context(shared(folder))
            try:
                yield cache
            finally:
                held.close()
                cache._end()

    def _end(self) -> None:
        with suppress(OSError), taken_alone(self.folder) as alone:
            if alone:
                self.trim()
        if self._spare is not None:
            self._spare.cleanup()

    def has(self, key: str) -> bool:
        """Whether something is kept under the key. A file that a power cut left empty is nothing."""
        return any(_size(place) >= _HEAD for place in self._places(key))

    def get(self, key: str) -> bytes | None:
        """What is kept under the key; None for nothing, and for a file that was spoilt, which is removed."""
        for place in self._places(key):
            try:
                with Path(place).open("rb") as file:
                    head, data = file.read(_HEAD), file.read()
            except OSError:
                continue
            if hashlib.sha256(data).digest() == head:
                _mark_used(place)
                return data
            with suppress(OSError):
                Path(place).unlink()
        return None

    def put(self, key: str, data: bytes) -> None:
        """Keep bytes under a key. Raises MachineError if even the temporary files have no room."""
        kept = hashlib.sha256(data).digest() + data
        try:
            _write(self._place(self.folder, key), kept)
            self._added = True
        except OSError as error:
            reason = error.strerror or type(error).__name__
            self.note = f"The cache in “{self.folder}” cannot be written to ({reason}), so nothing is kept for the next build."
            try:
                _write(self._place(self._spare_folder(), key), kept)
            except OSError as second:
                raise MachineError(
                    f"Neither the cache in “{self.folder}” nor the folder for temporary files can be written to: {second.strerror}.",
                    "Make room on the disk, or name another cache with --cache.",
                ) from second

    def _spare_folder(self) -> Path:
        with self._making_spare:
            if self._spare is None:
                self._spare = tempfile.TemporaryDirectory(prefix="guidegen-", ignore_cleanup_errors=True)
            return Path(self._spare.name)

    def trim(self) -> None:
        """Remove what was not used for longest until the cache is within its limit again.

        That looks at every file, so it is left out where nothing was added since the limit was last kept to.
        """
        marker = self.folder / _KEPT_TO
        if self._limit is None or (not self._added and _number_in(marker) == self._limit):
            return
        files = sorted(self._files())
        total = sum(size for _, size, _ in files)
        target = self._limit if total <= self._limit else self._limit * _KEPT_SHARE
        for used, size, place in files:
            left_over = place.endswith(PART) and time.time_ns() - used > _MARKED * 1_000_000_000
            if total > target or left_over:
                with suppress(OSError):
                    Path(place).unlink()
                    total -= size
        self._added = False
        with suppress(OSError):
            write_atomically(marker, str(self._limit).encode())

    def _files(self) -> Iterator[tuple[int, int, str]]:
        """Time of last use, bytes and place of every file."""
        with suppress(OSError), os.scandir(self.folder) as drawers:
            for drawer in drawers:
                if len(drawer.name) != 2 or not drawer.is_dir(follow_symlinks=False):
                    continue
                with suppress(OSError), os.scandir(drawer) as entries:
                    for entry in entries:
                        with suppress(OSError):
                            found = entry.stat(follow_symlinks=False)
                            yield found.st_mtime_ns, found.st_size, entry.path

    def _places(self, key: str) -> Iterator[str]:
        yield self._place(self.folder, key)
        if self._spare is not None:
            yield self._place(Path(self._spare.name), key)

    @staticmethod
    def _place(folder: Path, key: str) -> str:
        # Text, not a Path: a site asks this of fifty thousand keys.
        return f"{folder}{os.sep}{hashlib.sha256(key.encode()).hexdigest()[:2]}{os.sep}{key}"


def _write(place: str, data: bytes) -> None:
    file = Path(place)
    file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    write_atomically(file, data)


def _size(place: str) -> int:
    try:
        return os.stat(place).st_size  # noqa: PTH116 - a Path for each of so many takes longer than the look
    except OSError:
        return -1


def _number_in(file: Path) -> int | None:
    try:
        return int(file.read_bytes())
    except (OSError, ValueError):
        return None


def _mark_used(place: str) -> None:
    with suppress(OSError):
        if time.time() - Path(place).stat().st_mtime > _MARKED:
            os.utime(place)
