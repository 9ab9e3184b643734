"""Builds into a folder of its own, watches the content, and builds again; the last good site stays up meanwhile."""

from __future__ import annotations

import gc
import html
import os
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from watchdog.events import FileSystemEvent, FileSystemEventHandler

from guidegen.base.diagnostic import Diagnostic, has_errors
from guidegen.base.errors import GuidegenError
from guidegen.base.garbage import lasting, uncollected
from guidegen.build import Built, Order, build, keep, remembered
from guidegen.memory import Memory
from guidegen.reading.discover import Found
from guidegen.rendering.environment import own_templates
from guidegen.rendering.urls import UNSEEN
from guidegen.retouch import retouch
from guidegen.serving import PANEL_STYLE, WAIT_SCRIPT, News, PreviewServer
from guidegen.writing.release import is_page

# Editors save in several movements (a swap file, a rename); what follows within this many seconds is one change.
SETTLES = 0.05
# After an edit, this many seconds of peace before everything is looked at and built.
CALM = 0.8
# That gives way to the next edit, unless it was put off for so many seconds.
LONGEST_BEHIND = 15.0
# How often a preview at rest looks whether it was told to end, in seconds.
GLANCE = 0.5
# Ports that are tried one after another where the wanted one is taken.
PORTS_TRIED = 20

# What editors leave beside a file while it is open: never content, so no reason to build.
_SWAP_ENDINGS = ("~", ".swp", ".swx", ".swo", ".tmp", ".part", ".bak")


@dataclass(frozen=True, slots=True, kw_only=True)
class Watched:
    """What the preview tells its terminal: each build's outcome, or the failure that kept it from one."""

    built: Built | None
    failure: GuidegenError | None = None


class Preview:
    """One preview: a server, a watcher, and a loop that builds whenever something has changed.

    After an edit the guides concerned come first, by themselves. Once there is a moment's peace everything is looked
    at and built, which also finds what no watcher told of.
    """

    def __init__(self, order: Order, port: int, tell: Callable[[Watched], None]) -> None:
        """Start to listen; nothing is built before `run`. Raises GuidegenError where no port is to be had."""
        self._order = order
        self._tell = tell
        self._news = News()
        self._changes = Changes(Path(os.path.realpath(order.content)))
        self._ended = False
        self._memory = Memory()
        self._last: tuple[Diagnostic, ...] | None = None
        self._said: set[str | None] = set()
        order.out.mkdir(parents=True, exist_ok=True)
        self._server = _listening(order.out, port, self._news)

    @property
    def address(self) -> str:
        """Where to point a browser."""
        return self._server.address

    def run(self) -> None:
        """Build, serve and watch until `end` is called or the user interrupts."""
        from watchdog.observers import Observer

        watcher = Observer()
        watcher.schedule(Listener(self._changes), str(self._changes.root), recursive=True)
        watcher.start()
        serving = threading.Thread(target=self._server.serve_forever, name="preview", daemon=True)
        serving.start()
        try:
            self._memory = remembered(self._order)
            self._whole()
            keep(self._order, self._memory)
            self._follow()
        finally:
            watcher.stop()
            self._server.shutdown()
            self._server.server_close()
            watcher.join()

    def end(self) -> None:
        """Let `run` come to its end. A signal's handler may call it: it waits for no lock."""
        self._ended = True

    def _follow(self) -> None:
        behind_since: float | None = None
        while not self._ended:
            heard = self._changes.wait(GLANCE if behind_since is None else CALM)
            if not heard and behind_since is None:
                continue
            paths = self._changes.taken() if heard else None
            if paths is not None and self._retouched(paths):
                behind_since = behind_since or time.monotonic()
                continue
            long_ago = behind_since is not None and time.monotonic() - behind_since > LONGEST_BEHIND
            if self._whole(giving_way=not (heard or long_ago)):
                behind_since = None

    def _retouched(self, paths: frozenset[str]) -> bool:
        """Whether it was enough to look at files that were written to."""
        with uncollected():
            return self._told(lambda: retouch(self._order, self._memory, paths))

    def _whole(self, *, giving_way: bool = False) -> bool:
        """Look at everything; whether that came to its end, and did not give way to what changed meanwhile."""
        order = self._order
        if giving_way and (hand := self._memory.at_hand) is not None:
            order = replace(order, progress=lambda *_: self._give_way(hand.found))
        try:
            self._told(lambda: build(order, self._memory))
        except _GaveWayError:
            return False
        finally:
            # What is remembered stays for good, so the collector need not go through a thousand guides each time.
            gc.collect()
            lasting()
        return True

    def _give_way(self, known: Found) -> None:
        """Leave a build off for the next edit, unless it has found what no watcher told of."""
        hand = self._memory.at_hand
        if self._changes.wait(0) and hand is not None and hand.found == known:
            raise _GaveWayError

    def _told(self, work: Callable[[], Built | None]) -> bool:
        """Whether the work was done; pages and terminal hear of it if there is anything new."""
        try:
            built = work()
        except GuidegenError as failure:
            self._last = None
            self._news.tell(_panel_of(failure.message, failure.help_line))
            self._tell(Watched(built=None, failure=failure))
            return False
        if built is None:
            return False
        wrote = built.counts is not None and (built.exchanged or built.counts.removed)
        if wrote or self._last != built.diagnostics:
            self._news.tell(panel(built.diagnostics), _pages_of(built))
            self._tell(Watched(built=replace(built, note=None) if built.note in self._said else built))
            self._said.add(built.note)
        self._last = built.diagnostics
        return True


class _GaveWayError(Exception):
    """A build was left off, with nothing put in place, since there is something newer to do."""


def _pages_of(built: Built) -> tuple[str, ...] | None:
    """The pages that a build changed, where it changed nothing that other pages show; else None."""
    seen = tuple(path for path in built.exchanged if path not in UNSEEN)
    alone = built.counts is not None and not built.counts.removed and all(map(is_page, seen))
    return seen if alone else None


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
        self._heard.clear()
        while self._heard.wait(SETTLES):
            self._heard.clear()
        with self._noting:
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


def _listening(root: Path, port: int, news: News) -> PreviewServer:
    folder = own_templates() / "preview"
    own = {
        WAIT_SCRIPT: (folder / "wait.js").read_bytes(),
        PANEL_STYLE: (folder / "panel.css").read_bytes(),
    }
    for candidate in range(port, port + PORTS_TRIED):
        try:
            return PreviewServer(root, candidate, news, own)
        except OSError:
            continue
    raise GuidegenError(
        f"No port from {port} to {port + PORTS_TRIED - 1} is free on this machine.",
        "Name another with --port.",
    )


def panel(diagnostics: tuple[Diagnostic, ...]) -> str:
    """The errors as HTML for the panel, empty where there are none."""
    if not has_errors(diagnostics):
        return ""
    from guidegen.reporting.text import as_text

    errors = [diagnostic for diagnostic in diagnostics if has_errors([diagnostic])]
    return _panel_of("The page is as it was before this:", as_text(errors, shown=lambda file: file))


def _panel_of(heading: str, text: str) -> str:
    return f"<h2>{html.escape(heading)}</h2><pre>{html.escape(text)}</pre>"
