"""Encoded photos and other costly results, kept between builds in the user's cache folder, by key."""

from __future__ import annotations

import hashlib
import os
import stat
import sys
import tempfile
import threading
import time
from collections import OrderedDict
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

from guidegen.writing.atomic import PART, write_atomically
from guidegen.writing.lock import shared, taken_alone
from guidegen.writing.plain import open_plain, read_plain

# Grows when a file in the cache is laid out otherwise; older folders are left to be cleaned by their owners.
VERSION = 2
NAME = f"guidegen-{VERSION}"

# Begins each file: the SHA-256 of its key and of what follows, so that one that is spoilt, or another's, is made anew.
_HEAD = 32
# What cannot be written anywhere is held in memory up to so many bytes: all sizes of a few dozen photos.
AT_HAND = 64_000_000
# Seconds: the time of a file's last use is written at most once a day, since each write costs time.
_MARKED = 86_400
# The share of the limit that `trim` leaves in use, so that not every build has to trim.
_KEPT_SHARE = 0.9
# A file with the limit that the last `trim` kept to: while nothing is added, that need not be done again.
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
    """A folder among the temporary files that is this user's alone: anybody can make one of that name first.

    Where there is no place for such files, it is one that nobody can make.
    """
    user = os.getuid() if sys.platform != "win32" else "user"
    with suppress(OSError):
        folder = Path(tempfile.gettempdir()) / f"{NAME}-{user}"
        folder.mkdir(mode=0o700, exist_ok=True)
        found = folder.lstat()
        ours = sys.platform == "win32" or (found.st_uid == user and not found.st_mode & 0o077)
        if stat.S_ISDIR(found.st_mode) and ours:
            return folder
    try:
        return Path(tempfile.mkdtemp(prefix=f"{NAME}-"))
    except OSError:
        return Path(os.devnull, NAME)


def unkept(folder: Path, error: OSError) -> str:
    """The note on a cache that something could not be written to, which only costs the next build time."""
    where = error.filename2 or error.filename
    named = f": “{where}”" if where and not str(where).endswith(PART) and str(where) != str(folder) else ""
    reason = error.strerror or type(error).__name__
    return f"The cache in “{folder}” cannot be written to ({reason}{named}), so not all is kept for the next build."


class Cache:
    """Bytes by key. Safe for several threads and several builds at once: every file appears whole or not at all.

    Whatever is the matter with the folder only costs the time to make things again: what cannot be put there is kept
    in a temporary folder until the build ends, or else the latest of it in memory, and `note` says so.
    """

    def __init__(self, folder: Path, limit: int | None = None) -> None:
        """`limit` in bytes, None for none; it is kept to by `trim`."""
        self.folder = folder
        self.note: str | None = None
        self._limit = limit
        self._added = False
        self._spare: tempfile.TemporaryDirectory[str] | None = None
        self._making_spare = threading.Lock()
        # Places with something in them that can neither be read nor removed.
        self._useless: set[str] = set()
        self._at_hand: OrderedDict[str, bytes] = OrderedDict()
        self._holding = threading.Lock()

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
        there = (place for place in self._places(key) if place not in self._useless)
        return any(_size(place) >= _HEAD for place in there) or key in self._at_hand

    def get(self, key: str) -> bytes | None:
        """What is kept under the key; None for nothing, and for what cannot be used, which is removed if it can be."""
        for place in self._places(key):
            try:
                with open_plain(Path(place)) as file:
                    head, data = file.read(_HEAD), file.read()
            except FileNotFoundError:
                continue
            except OSError:
                self._useless.add(place)
                continue
            if head == _seal(key, data):
                _mark_used(place)
                return data
            try:
                Path(place).unlink()
            except FileNotFoundError:
                continue
            except OSError:
                self._useless.add(place)
        return self._at_hand.get(key)

    def put(self, key: str, data: bytes) -> None:
        """Keep bytes under a key, for later builds if the folder lets it, else for this one."""
        try:
            self._write(self._place(self.folder, key), key, data)
            self._added = True
        except OSError as error:
            self.note = self.note or unkept(self.folder, error)
            try:
                self._write(self._place(self._spare_folder(), key), key, data)
            except OSError:
                self._hold(key, data)

    def _write(self, place: str, key: str, data: bytes) -> None:
        file = Path(place)
        file.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        write_atomically(file, _seal(key, data) + data)
        self._useless.discard(place)

    def _hold(self, key: str, data: bytes) -> None:
        with self._holding:
            self._at_hand[key] = data
            while len(self._at_hand) > 1 and sum(map(len, self._at_hand.values())) > AT_HAND:
                self._at_hand.popitem(last=False)

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
        trouble: OSError | None = None
        for used, size, place in files:
            left_over = place.endswith(PART) and time.time_ns() - used > _MARKED * 1_000_000_000
            if total > target or left_over:
                try:
                    Path(place).unlink(missing_ok=True)
                    total -= size
                except OSError as error:
                    trouble = error
        if trouble is not None and total > self._limit:
            reason = trouble.strerror or type(trouble).__name__
            self.note = (
                self.note or f"The cache in “{self.folder}” cannot be kept within its limit ({reason})."
            )
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
                            if not stat.S_ISDIR(found.st_mode):
                                yield found.st_mtime_ns, found.st_size, entry.path

    def _places(self, key: str) -> Iterator[str]:
        yield self._place(self.folder, key)
        if self._spare is not None:
            yield self._place(Path(self._spare.name), key)

    @staticmethod
    def _place(folder: Path, key: str) -> str:
        # Text, not a Path: a site asks this of fifty thousand keys.
        return f"{folder}{os.sep}{hashlib.sha256(key.encode()).hexdigest()[:2]}{os.sep}{key}"


def _seal(key: str, data: bytes) -> bytes:
    return hashlib.sha256(key.encode() + b"\0" + data).digest()


def _size(place: str) -> int:
    """Bytes of an ordinary file, -1 for anything else."""
    try:
        found = os.stat(place)  # noqa: PTH116 - a Path for each of so many takes longer than the look
    except OSError:
        return -1
    return found.st_size if stat.S_ISREG(found.st_mode) else -1


def _number_in(file: Path) -> int | None:
    try:
        return int(read_plain(file))
    except (OSError, ValueError):
        return None


def _mark_used(place: str) -> None:
    with suppress(OSError):
        if time.time() - Path(place).stat().st_mtime > _MARKED:
            os.utime(place)
