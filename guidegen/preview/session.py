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

from guidegen.base.diagnostic import Diagnostic, has_errors
from guidegen.base.errors import GuidegenError, MachineError
from guidegen.base.garbage import lasting, uncollected
from guidegen.base.own_files import own_templates
from guidegen.base.stopping import was_asked
from guidegen.building.build import Built, Order, build, keep, remembered
from guidegen.building.crash import failure_of
from guidegen.building.memory import Memory
from guidegen.building.retouch import retouch
from guidegen.preview.reload import News
from guidegen.preview.server import PANEL_STYLE, WAIT_SCRIPT, PreviewServer
from guidegen.preview.watching import Changes, Watch
from guidegen.reading.content.discover import Found, discover
from guidegen.rendering.page.urls import UNSEEN, home_from_anywhere
from guidegen.writing.artifact import is_page

# After an edit, this many seconds of peace before everything is looked at and built.
CALM = 0.8
# That gives way to the next edit, unless it was put off for so many seconds.
LONGEST_BEHIND = 15.0
# How often a preview at rest looks whether it was told to end, in seconds.
GLANCE = 0.5
# Ports that are tried one after another where the wanted one is taken.
PORTS_TRIED = 20


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
        self._watch = Watch(self._changes)
        self._ended = False
        self._memory = Memory()
        self._last: tuple[Diagnostic, ...] | None = None
        self._said: set[str | None] = set()
        self._said_last = ""
        if not order.content.is_dir():
            discover(order.content)  # which says so
        try:
            order.out.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise MachineError(
                f"“{order.out}” cannot be made: {error.strerror}.", "Name another folder with --out."
            ) from error
        self._server = _listening(order.out, port, self._news)

    @property
    def address(self) -> str:
        """Where to point a browser."""
        return self._server.address

    def run(self) -> None:
        """Build, serve and watch until `end` is called or the user interrupts."""
        self._watch.look()
        serving = threading.Thread(target=self._server.serve_forever, name="preview", daemon=True)
        serving.start()
        try:
            self._memory = remembered(self._order)
            self._whole()
            keep(self._order, self._memory)
            self._follow()
        finally:
            self._watch.end()
            self._server.shutdown()
            self._server.server_close()

    def end(self) -> None:
        """Let `run` come to its end. A signal's handler may call it: it waits for no lock."""
        self._ended = True

    def _follow(self) -> None:
        behind_since: float | None = None
        while not self._ended:
            heard = self._changes.wait(GLANCE if behind_since is None else CALM)
            self._watch.look()
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
            return self._failed(failure)
        except _GaveWayError:
            raise
        except Exception as error:  # noqa: BLE001  a crash of ours is said to be ours
            if was_asked():
                raise KeyboardInterrupt from None
            self._memory = Memory()
            # The site that is shown stays, and so does the preview: with the next edit it may go well.
            return self._failed(failure_of(error))
        if built is None:
            return False
        self._said_last = ""
        wrote = built.counts is not None and (built.exchanged or built.counts.removed)
        if wrote or self._last != built.diagnostics:
            self._news.tell(panel(built.diagnostics), _pages_of(built))
            self._tell(Watched(built=replace(built, note=None) if built.note in self._said else built))
            self._said.add(built.note)
        self._last = built.diagnostics
        hand = self._memory.at_hand
        self._server.lost_home = home_from_anywhere(hand.context.site.url) if hand is not None else ""
        return True

    def _failed(self, failure: GuidegenError) -> bool:
        if self._said_last != failure.message:
            self._tell(Watched(built=None, failure=failure))
        self._last, self._said_last = None, failure.message
        self._news.tell(_panel_of(failure.message, failure.help_line))
        return False


class _GaveWayError(Exception):
    """A build was left off, with nothing put in place, since there is something newer to do."""


def _pages_of(built: Built) -> tuple[str, ...] | None:
    """The pages that a build changed, where it changed nothing that other pages show; else None."""
    seen = tuple(path for path in built.exchanged if path not in UNSEEN)
    alone = built.counts is not None and not built.counts.removed and all(map(is_page, seen))
    return seen if alone else None


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
