"""The preview's web server: this machine only, files of one folder only, and word of each rebuild.

A page being looked at asks for a small script that is answered when something has changed. That needs nothing but
`script-src 'self'`, so pages keep the very Content-Security-Policy that they are published with.
"""

from __future__ import annotations

import mimetypes
import os
import threading
from collections.abc import Collection, Iterator
from dataclasses import dataclass, field
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import BinaryIO
from urllib.parse import parse_qs, unquote, urlsplit

# Paths of the preview itself; a built site has no file or folder that begins with a dot.
OWN = "/.preview/"
WAIT_SCRIPT = OWN + "wait.js"
PANEL_STYLE = OWN + "panel.css"
NEWS = OWN + "news.js"

# How long a page's question stays open before it is answered "nothing new": under usual proxies' and browsers' limits.
PATIENCE = 25.0
# A client that sends or takes nothing for so long is let go; its thread holds up nobody else meanwhile.
SLOWEST = 60.0
# Pages that may wait for news at once; more are answered at once and ask again.
MOST_WAITING = 64

TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json; charset=utf-8",
    ".svg": "image/svg+xml",
    ".webp": "image/webp",
    ".avif": "image/avif",
    ".vtt": "text/vtt; charset=utf-8",
    ".gpl": "text/plain; charset=utf-8",
    ".csv": "text/csv; charset=utf-8",
    ".ics": "text/calendar; charset=utf-8",
    ".xml": "application/xml; charset=utf-8",
    ".txt": "text/plain; charset=utf-8",
    ".webmanifest": "application/manifest+json",
}


@dataclass(slots=True)
class News:
    """What the last build had to say. `turn` grows with every build; `panel` is HTML of its errors, empty if none.

    A page is told of the last turn that concerned it: `everywhere`, or its own by its path in the site.
    """

    turn: int = 0
    panel: str = ""
    everywhere: int = 0
    pages: dict[str, int] = field(default_factory=dict)
    _changed: threading.Condition = field(default_factory=threading.Condition, repr=False)
    _waiting: int = 0

    def tell(self, panel: str, pages: Collection[str] | None = None) -> None:
        """A build has ended; wake every page that waits, or those alone that have changed, by their paths."""
        with self._changed:
            self.turn += 1
            if pages is None or panel != self.panel:
                self.everywhere = self.turn
            else:
                self.pages.update(dict.fromkeys(pages, self.turn))
            self.panel = panel
            self._changed.notify_all()

    def turn_of(self, page: str) -> int:
        """The last turn that concerns a page."""
        return max(self.everywhere, self.pages.get(page, 0))

    def wait(self, known: int, page: str = "", patience: float = PATIENCE) -> tuple[int, str]:
        """The page's turn and the panel, once the turn is no longer `known`, or when patience is at an end."""
        with self._changed:
            if self._waiting < MOST_WAITING:
                self._waiting += 1
                try:
                    self._changed.wait_for(lambda: self.turn_of(page) != known, timeout=patience)
                finally:
                    self._waiting -= 1
            return self.turn_of(page), self.panel


class PreviewServer(ThreadingHTTPServer):
    """Serves `root` on the loopback address."""

    daemon_threads = True
    # The operating system's refusal of a taken port is wanted, so that a second preview moves on to the next one.
    allow_reuse_address = os.name == "posix"

    def __init__(self, root: Path, port: int, news: News, own_files: dict[str, bytes]) -> None:
        """Listen on 127.0.0.1:`port`, 0 for any free one. Raises OSError where the port is taken."""
        self.root = root.resolve()
        self.news = news
        self.own_files = own_files
        super().__init__(("127.0.0.1", port), _Handler)

    @property
    def address(self) -> str:
        """Where to point a browser."""
        return f"http://127.0.0.1:{self.server_address[1]}/"

    def allowed_hosts(self) -> frozenset[str]:
        """The Host headers that are ours; any other means that a foreign page tries to read this server."""
        port = self.server_address[1]
        return frozenset({f"127.0.0.1:{port}", f"localhost:{port}"})


class _Handler(BaseHTTPRequestHandler):
    server: PreviewServer
    timeout = SLOWEST
    server_version = "guidegen"
    sys_version = ""
    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        self._answer(with_body=True)

    def do_HEAD(self) -> None:
        self._answer(with_body=False)

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002  the name is the library's
        """Say nothing: the terminal is for the author's mistakes."""

    def _answer(self, *, with_body: bool) -> None:
        if self.headers.get("Host", "").lower() not in self.server.allowed_hosts():
            self._send(
                HTTPStatus.MISDIRECTED_REQUEST,
                "text/plain; charset=utf-8",
                b"Not for this host.\n",
                with_body,
            )
            return
        address = urlsplit(self.path)
        path = unquote(address.path)
        if path == NEWS:
            self._send_news(parse_qs(address.query), with_body=with_body)
        elif path in self.server.own_files:
            self._send(HTTPStatus.OK, TYPES[Path(path).suffix], self.server.own_files[path], with_body)
        else:
            self._send_file(path, with_body=with_body)

    def _send_news(self, query: dict[str, list[str]], *, with_body: bool) -> None:
        import json

        known = query.get("turn", ["0"])[0]
        page = _page_at(query.get("page", [""])[0])
        turn, panel = self.server.news.wait(int(known) if known.isdecimal() and len(known) < 10 else 0, page)
        script = f"guidegenPreview({turn}, {_for_script(json.dumps(panel))});\n".encode()
        self._send(HTTPStatus.OK, TYPES[".js"], script, with_body)

    def _send_file(self, path: str, *, with_body: bool) -> None:
        found = _inside(self.server.root, path)
        status = HTTPStatus.OK
        if found is None:
            status = HTTPStatus.NOT_FOUND
            found = _inside(self.server.root, "/404.html")
        if found is None:
            self._send(status, "text/plain; charset=utf-8", b"There is no such page.\n", with_body)
            return
        try:
            with found.open("rb") as file:
                if found.suffix == ".html":
                    # Before it is read: a page that is exchanged meanwhile is then fetched once more.
                    turn = self.server.news.turn_of(_page_at(path))
                    page = _with_script(file.read(), turn)
                    self._send(status, TYPES[".html"], page, with_body)
                else:
                    self._stream(status, found, file, with_body)
        except OSError:
            # The file went away between looking and opening: a rebuild was faster.
            self._send(
                HTTPStatus.NOT_FOUND, "text/plain; charset=utf-8", b"There is no such page.\n", with_body
            )

    def _stream(self, status: HTTPStatus, found: Path, file: BinaryIO, with_body: bool) -> None:
        kind = TYPES.get(found.suffix) or mimetypes.guess_type(found.name)[0] or "application/octet-stream"
        size = os.fstat(file.fileno()).st_size
        self._head(status, kind, size)
        if with_body:
            for piece in _pieces(file, size):
                self.wfile.write(piece)

    def _send(self, status: HTTPStatus, kind: str, body: bytes, with_body: bool) -> None:
        self._head(status, kind, len(body))
        if with_body:
            self.wfile.write(body)

    def _head(self, status: HTTPStatus, kind: str, size: int) -> None:
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(size))
        self.send_header("Cache-Control", "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Cross-Origin-Resource-Policy", "same-origin")
        self.end_headers()


def _pieces(file: BinaryIO, size: int) -> Iterator[bytes]:
    while size > 0 and (piece := file.read(min(size, 1 << 16))):
        size -= len(piece)
        yield piece


def _inside(root: Path, path: str) -> Path | None:
    """The file a path means, None unless it is a plain file below the root without a dot-name on the way."""
    parts = [part for part in path.split("/") if part]
    if any(part.startswith(".") or "\\" in part or "\0" in part for part in parts):
        return None
    try:
        found = root.joinpath(*parts)
        if found.is_dir():
            found /= "index.html"
        found = found.resolve()
        return found if found.is_relative_to(root) and found.is_file() else None
    except (OSError, ValueError):
        return None


def _page_at(path: str) -> str:
    """The path in the site of a page at an address of ours."""
    page = "/".join(part for part in path.split("/") if part)
    return page if page.endswith(".html") else f"{page}/index.html".lstrip("/")


def _with_script(page: bytes, turn: int) -> bytes:
    tag = f'<script src="{WAIT_SCRIPT}" data-turn="{turn}" data-style="{PANEL_STYLE}"></script>'.encode()
    head, end, tail = page.rpartition(b"</body>")
    return head + tag + end + tail if end else page + tag


def _for_script(text: str) -> str:
    """JSON that is also safe inside a script: no tag can end it, and line separators are escaped."""
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
