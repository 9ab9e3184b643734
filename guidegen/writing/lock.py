"""One build at a time in a site. The lock is the operating system's: whatever ends the build ends the lock."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from guidegen.base.errors import MachineError

# Only where a folder itself cannot be locked: Windows, and some network disks.
LOCK = ".guidegen-lock"

# Open locks. A child that is forked while a build runs has them too, and would keep them if the build were killed.
_held: set[int] = set()


def _let_go_in_child() -> None:
    for lock in _held:
        with suppress(OSError):
            os.close(lock)
    _held.clear()


if hasattr(os, "register_at_fork"):
    os.register_at_fork(after_in_child=_let_go_in_child)


class _TakenError(Exception):
    """Somebody else has the lock."""


@contextmanager
def locked(out: Path) -> Iterator[None]:
    """Hold the site's lock; the folder is there already. Works in a folder that cannot be written, too.

    Raises MachineError at once if another build holds it.
    """
    try:
        lock = _take(out)
    except _TakenError:
        raise MachineError(
            f"Another guidegen is writing to “{out}” just now.",
            "Wait until it is done, or build elsewhere with --out.",
        ) from None
    with _open(lock):
        yield


@contextmanager
def shared(folder: Path) -> Iterator[None]:
    """Hold a folder together with others; waits for nobody who holds it shared. Raises OSError."""
    with _open(_take_shared(folder)):
        yield


@contextmanager
def taken_alone(folder: Path) -> Iterator[bool]:
    """Whether nobody else holds the folder, not even shared; if so, nobody can until the end. Raises OSError."""
    try:
        lock = _take(folder)
    except _TakenError:
        yield False
        return
    with _open(lock):
        yield True


@contextmanager
def _open(lock: int) -> Iterator[None]:
    _held.add(lock)
    try:
        yield
    finally:
        # A process forked meanwhile has let go of its copy.
        _held.discard(lock)
        os.close(lock)


if sys.platform == "win32":

    def _take(out: Path) -> int:
        import msvcrt

        # O_TEMPORARY: the system removes the file when the last that has it open is gone, however it went.
        try:
            lock = os.open(out / LOCK, os.O_RDWR | os.O_CREAT | os.O_TEMPORARY)
        except PermissionError:
            raise _TakenError from None
        try:
            msvcrt.locking(lock, msvcrt.LK_NBLCK, 1)
        except OSError:
            os.close(lock)
            raise _TakenError from None
        return lock

    def _take_shared(folder: Path) -> int:
        # Windows has no shared lock to be had from here: builds at the same time may then encode a photo again.
        return os.open(folder / f"{LOCK}-shared", os.O_RDWR | os.O_CREAT | os.O_TEMPORARY)

else:

    def _take(out: Path) -> int:
        try:
            return _flocked(os.open(out, os.O_RDONLY | os.O_DIRECTORY))
        except OSError:
            # A disk that does not lock folders; the file stays, and says nothing while nobody holds it.
            return _flocked(os.open(out / LOCK, os.O_RDWR | os.O_CREAT | os.O_NOFOLLOW, 0o666))

    def _take_shared(folder: Path) -> int:
        import fcntl

        lock = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
        try:
            fcntl.flock(lock, fcntl.LOCK_SH)
        except OSError:
            os.close(lock)
            raise
        return lock

    def _flocked(lock: int) -> int:
        import fcntl

        try:
            fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            os.close(lock)
            raise _TakenError from None
        except OSError:
            os.close(lock)
            raise
        return lock
