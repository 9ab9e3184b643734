"""Hears what changes in the content folder, whatever becomes of the folder itself."""

from __future__ import annotations

import logging
import threading
import time
import warnings
from pathlib import Path

from watchdog.events import FileSystemEvent, FileSystemEventHandler
from watchdog.observers.api import BaseObserver

# Editors save in several movements (a swap file, a rename); what follows within this many seconds is one change.
SETTLES = 0.05
# Where changes come without a pause, no longer than this many seconds.
LONGEST_UNSETTLED = 1.0

# What editors leave beside a file while it is open: never content, so no reason to build.
_SWAP_ENDINGS = ("~", ".swp", ".swx", ".swo", ".tmp", ".part", ".bak")


class Changes:
    """Whether anything in the content folder may have changed since it was last built from."""

    def __init__(self) -> None:
        """Nothing so far."""
        self._heard = threading.Event()

    def note(self) -> None:
        """Something may have changed."""
        self._heard.set()

    def wait(self, seconds: float) -> bool:
        """Whether something changes in that time, or has before it."""
        return self._heard.wait(seconds)

    def settle(self) -> None:
        """Wait until nothing more has changed for a moment; what changes from then on is heard of again."""
        until = time.monotonic() + LONGEST_UNSETTLED
        self._heard.clear()
        while self._heard.wait(SETTLES) and time.monotonic() < until:
            self._heard.clear()
        self._heard.clear()


class Listener(FileSystemEventHandler):
    """Notes every change below content; that a file was opened is none."""

    def __init__(self, changes: Changes) -> None:
        self._changes = changes

    def dispatch(self, event: FileSystemEvent) -> None:
        """Called by the watcher for each event."""
        if event.event_type in {"opened", "closed_no_write"}:
            return
        if event.is_directory:
            # What has changed in a folder is told of by itself.
            changed = event.event_type != "modified"
        else:
            names = [Path(str(path)).name for path in (event.src_path, event.dest_path) if path]
            changed = any(
                not name.endswith(_SWAP_ENDINGS) and not name.startswith((".", "#")) for name in names
            )
        if changed:
            self._changes.note()


class Watch:
    """Watches a folder. The system's own watch ends with the folder, so `look` has to be called again and again."""

    def __init__(self, root: Path, changes: Changes) -> None:
        """Nothing is heard before the first look."""
        self._root = root
        self._changes = changes
        self._folder: tuple[int, int] | None = None
        self._looked = False
        self._observer: BaseObserver | None = None

    def look(self) -> None:
        """Begin to watch; where the folder went away or is another one by now, note a change, and watch that one."""
        found = _identity(self._root)
        if found == self._folder:
            return
        self.end()
        if found is not None:
            self._listen()
        if self._looked:
            self._changes.note()
        self._folder, self._looked = found, True

    def end(self) -> None:
        """Watch no longer."""
        if self._observer is not None:
            self._observer.stop()
            self._observer.join()
            self._observer = None

    def _listen(self) -> None:
        from watchdog.observers import Observer
        from watchdog.observers.polling import PollingObserver

        _quieten_watchdog()
        for make in (Observer, PollingObserver):
            observer = make()
            observer.schedule(Listener(self._changes), str(self._root), recursive=True)
            try:
                observer.start()
            except OSError:
                # The system watches no more folders for this user, or this one went away again.
                continue
            self._observer = observer
            return


def _quieten_watchdog() -> None:
    """Keep the author's terminal free of what watchdog tells about itself, none of which loses a change.

    It warns when it comes to a folder twice, as it does where one goes and is made again before it has looked, and
    logs an error when it is ended while it waits.
    """
    warnings.filterwarnings("ignore", "Callback with id", RuntimeWarning)
    logger = logging.getLogger("watchdog")
    if not logger.handlers:
        logger.addHandler(logging.NullHandler())


def _identity(folder: Path) -> tuple[int, int] | None:
    """What tells a folder from another of its name; None where there is none."""
    try:
        found = folder.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino
