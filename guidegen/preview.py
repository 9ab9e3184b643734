"""Builds into a folder of its own, watches the content, and builds again; the last good site stays up meanwhile."""

from __future__ import annotations

import gc
import html
import threading
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from watchdog.events import FileSystemEvent, FileSystemEventHandler

from guidegen.base.diagnostic import Diagnostic, has_errors
from guidegen.base.errors import GuidegenError
from guidegen.build import Built, Order, build, keep, remembered
from guidegen.memory import Memory
from guidegen.rendering.environment import own_templates
from guidegen.serving import PANEL_STYLE, WAIT_SCRIPT, News, PreviewServer

# Editors save in several movements (a swap file, a rename); what follows within this many seconds is one change.
SETTLES = 0.05
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
    """One preview: a server, a watcher, and a loop that builds whenever something has changed."""

    def __init__(self, order: Order, port: int, tell: Callable[[Watched], None]) -> None:
        """Start to listen; nothing is built before `run`. Raises GuidegenError where no port is to be had."""
        self._order = order
        self._tell = tell
        self._news = News()
        self._changed = threading.Event()
        self._ended = False
        self._memory: Memory | None = None
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
        watcher.schedule(_Listener(self._changed), str(self._order.content), recursive=True)
        watcher.start()
        serving = threading.Thread(target=self._server.serve_forever, name="preview", daemon=True)
        serving.start()
        try:
            self._build()
            while not self._ended:
                self._changed.wait()
                self._settle()
                if not self._ended:
                    self._build()
        finally:
            watcher.stop()
            self._server.shutdown()
            self._server.server_close()
            watcher.join()

    def end(self) -> None:
        """Let `run` come to its end."""
        self._ended = True
        self._changed.set()

    def _settle(self) -> None:
        """Wait until nothing has changed for a moment."""
        self._changed.clear()
        while self._changed.wait(SETTLES) and not self._ended:
            self._changed.clear()

    def _build(self) -> None:
        first = self._memory is None
        if self._memory is None:
            self._memory = remembered(self._order)
        try:
            built = build(self._order, self._memory)
        except GuidegenError as failure:
            self._news.tell(_panel_of(failure.message, failure.help_line))
            self._tell(Watched(built=None, failure=failure))
            return
        self._news.tell(panel(built.diagnostics))
        self._tell(Watched(built=built))
        if first:
            keep(self._order, self._memory)
        # What is remembered stays for good, so the collector need not go through a thousand guides at every change.
        gc.collect()
        gc.freeze()


class _Listener(FileSystemEventHandler):
    """Hears of every change below content; looking at a file is none."""

    def __init__(self, changed: threading.Event) -> None:
        self._changed = changed

    def dispatch(self, event: FileSystemEvent) -> None:
        """Called by the watcher for each event."""
        if event.event_type in {"opened", "closed_no_write"}:
            return
        names = [Path(str(path)).name for path in (event.src_path, event.dest_path) if path]
        if any(not name.endswith(_SWAP_ENDINGS) and not name.startswith((".", "#")) for name in names):
            self._changed.set()


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
