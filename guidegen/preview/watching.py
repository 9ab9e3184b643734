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
    """Which files below a folder were written to since that was last asked."""

    def __init__(self, root: Path) -> None:
        """None so far."""
        self.root = root
        self._paths: set[str] = set()
        self._all_known = True
        self._noting = threading.Lock()
        self._heard = threading.Event()

    def note(self, path: str | None) -> None:
        """A file may have changed, by its path relative to the folder; None where nobody knows which."""
        with self._noting:
            if path is None:
                self._all_known = False
            else:
                self._paths.add(path)
            self._heard.set()

    def wait(self, seconds: float) -> bool:
        """Whether something changed in that time."""
        return self._heard.wait(seconds)

    def taken(self) -> frozenset[str] | None:
        """What has changed, once nothing more has for a moment; None where that is not known."""
        until = time.monotonic() + LONGEST_UNSETTLED
        self._heard.clear()
        while self._heard.wait(SETTLES) and time.monotonic() < until:
            self._heard.clear()
        with self._noting:
            # What is noted from here on is heard of again.
            self._heard.clear()
            known, paths = self._all_known, frozenset(self._paths)
            self._all_known = True
            self._paths.clear()
        return paths if known else None


class Listener(FileSystemEventHandler):
    """Hears of every change below content; looking at a file is none."""

    def __init__(self, changes: Changes) -> None:
        self._changes = changes

    def dispatch(self, event: FileSystemEvent) -> None:
        """Called by the watcher for each event."""
        if event.event_type in {"opened", "closed_no_write"}:
            return
        if event.is_directory:
            # What has changed in it is told of by itself.
            if event.event_type != "modified":
                self._changes.note(None)
            return
        for path in filter(None, (event.src_path, event.dest_path)):
            place = Path(str(path))
            if not place.name.endswith(_SWAP_ENDINGS) and not place.name.startswith((".", "#")):
                inside = place.is_relative_to(self._changes.root)
                self._changes.note(place.relative_to(self._changes.root).as_posix() if inside else None)


class Watch:
    """Listens at a folder. The system's own watch ends with the folder, so each look sees whether it is the same still."""

    def __init__(self, changes: Changes) -> None:
        """Deaf until the first look."""
        self._changes = changes
        self._folder: tuple[int, int] | None = None
        self._looked = False
        self._observer: BaseObserver | None = None

    def look(self) -> None:
        """Begin to listen; where the folder went away or is another one, say so, and listen at that."""
        found = _identity(self._changes.root)
        if found == self._folder:
            return
        self.end()
        if found is not None:
            self._listen()
        if self._looked:
            self._changes.note(None)
        self._folder, self._looked = found, True

    def end(self) -> None:
        """Listen no longer."""
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
            observer.schedule(Listener(self._changes), str(self._changes.root), recursive=True)
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
    try:
        found = folder.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino
