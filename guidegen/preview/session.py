"""Builds into a folder of its own, watches the content, and builds again; the last good site stays up meanwhile."""

from __future__ import annotations

import gc
import html
import os
import threading
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

from guidegen.base.diagnostic import Diagnostic, has_errors
from guidegen.base.errors import GuidegenError, MachineError
from guidegen.base.garbage import uncollected
from guidegen.base.own_files import own_templates
from guidegen.base.stopping import was_asked
from guidegen.building.build import Built, Order, build
from guidegen.building.crash import failure_of
from guidegen.building.memory import Memory, load_memory, save_memory
from guidegen.preview.reload import News
from guidegen.preview.server import PANEL_STYLE, WAIT_SCRIPT, PreviewServer
from guidegen.preview.watching import Changes, Watch
from guidegen.reading.content.discover import discover
from guidegen.rendering.page.urls import UNSEEN, home_from_anywhere
from guidegen.writing.artifact import is_page
from guidegen.writing.cache import cache_folder

# How often a preview at rest looks whether it was told to end, in seconds.
GLANCE = 0.5
# Ports that are tried one after another where the wanted one is taken.
PORTS_TRIED = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Watched:
    """What the preview tells its terminal of a build: what came of it, or else why it failed."""

    built: Built | None
    failure: GuidegenError | None = None


class Preview:
    """One preview: a server, a watcher, and a loop that builds whenever something has changed."""

    def __init__(self, order: Order, port: int, tell: Callable[[Watched], None]) -> None:
        """Start to listen; nothing is built before `run`. Raises GuidegenError where no port is to be had."""
        self._order = order
        self._tell = tell
        self._news = News()
        self._changes = Changes()
        self._watch = Watch(Path(os.path.realpath(order.content)), self._changes)
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
            cache = self._order.cache or cache_folder()
            self._memory = load_memory(cache, self._order.content)
            self._build()
            save_memory(cache, self._order.content, self._memory)
            self._follow()
        finally:
            self._watch.end()
            self._server.shutdown()
            self._server.server_close()

    def end(self) -> None:
        """Make `run` return. A signal's handler may call it: it waits for no lock."""
        self._ended = True

    def _follow(self) -> None:
        while not self._ended:
            heard = self._changes.wait(GLANCE)
            self._watch.look()
            if heard:
                self._changes.settle()
                self._build()

    def _build(self) -> None:
        """Build; pages and terminal hear of it if there is anything new."""
        try:
            with uncollected():
                built = build(self._order, self._memory)
        except GuidegenError as failure:
            self._failed(failure)
            return
        except Exception as error:  # noqa: BLE001  a crash of ours is said to be ours
            if was_asked():
                raise KeyboardInterrupt from None
            self._memory = Memory()
            # The site that is shown stays, and so does the preview: with the next edit it may go well.
            self._failed(failure_of(error))
            return
        finally:
            # What is remembered stays for good, so the collector need not go through a thousand guides each time.
            gc.collect()
            gc.freeze()
        self._said_last = ""
        wrote = built.counts is not None and (built.changes.written or built.counts.removed)
        if wrote or self._last != built.diagnostics:
            self._news.tell(panel(built.diagnostics), _pages_of(built))
            self._tell(Watched(built=replace(built, note=None) if built.note in self._said else built))
            self._said.add(built.note)
        self._last = built.diagnostics
        self._server.lost_home = home_from_anywhere(built.url)

    def _failed(self, failure: GuidegenError) -> None:
        """Tell pages of a failed build, and the terminal if it has not been told the same just before."""
        if self._said_last != failure.message:
            self._tell(Watched(built=None, failure=failure))
        self._last, self._said_last = None, failure.message
        self._news.tell(_panel_of(failure.message, failure.help_line))


def _pages_of(built: Built) -> tuple[str, ...] | None:
    """The pages that a build changed, where it changed nothing that other pages show; else None."""
    seen = tuple(path for path in built.changes.written if path not in UNSEEN)
    alone = built.counts is not None and not built.counts.removed and all(map(is_page, seen))
    return seen if alone else None


def _listening(root: Path, port: int, news: News) -> PreviewServer:
    """A server on the first free port from `port` on. Raises GuidegenError where twenty are taken."""
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
