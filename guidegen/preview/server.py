"""The preview's web server: this machine only, files of one folder only, and word of each rebuild.

A page being looked at asks for a small script that is answered when something has changed. That needs nothing but
`script-src 'self'`, so pages keep the very Content-Security-Policy that they are published with.
"""

from __future__ import annotations

import io
import os
import re
import socketserver
import sys
from collections.abc import Mapping
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from types import MappingProxyType
from typing import Any, BinaryIO
from urllib.parse import parse_qs, unquote

from guidegen.preview.files import TYPES, file_at, kind_of, page_at
from guidegen.preview.reload import News
from guidegen.preview.visitors import Question, Visitors, is_well_formed, take_left_over

# Paths of the preview itself; a built site has no file or folder that begins with a dot.
OWN = "/.preview/"
WAIT_SCRIPT = OWN + "wait.js"
PANEL_STYLE = OWN + "panel.css"
NEWS = OWN + "news.js"
LOST = "/404.html"

# Seconds after which a client that takes nothing of its answer is let go; its thread holds up nobody else meanwhile.
SLOWEST = 30.0

# A page whose Content-Security-Policy names no source of scripts runs none, our own wait.js included.
_NO_SCRIPTS = re.compile(rb'http-equiv="Content-Security-Policy" content="(?![^"]*script-src)')
NO_HEADERS: Mapping[str, str] = MappingProxyType({})
TEXT = "text/plain; charset=utf-8"


class PreviewServer(ThreadingHTTPServer):
    """Serves `root` on the loopback address.

    `lost_home` is the link to the home page as the 404 page has it, which is meant for the site's address in the world.
    """

    daemon_threads = True
    # The operating system's refusal of a taken port is wanted, so that a second preview moves on to the next one.
    allow_reuse_address = os.name == "posix"
    # So many may knock at the same moment before they are let in.
    request_queue_size = 128

    def __init__(self, root: Path, port: int, news: News, own_files: Mapping[str, bytes]) -> None:
        """Listen on 127.0.0.1:`port`, 0 for any free one. Raises OSError where the port is taken."""
        self.root = root.resolve()
        self.news = news
        self.own_files = own_files
        self.lost_home = ""
        self.visitors = Visitors()
        super().__init__(("127.0.0.1", port), _Handler)

    def server_bind(self) -> None:
        """Take the port, and ask no name server who this machine is."""
        socketserver.TCPServer.server_bind(self)
        self.server_name, self.server_port = "127.0.0.1", self.server_address[1]

    @property
    def address(self) -> str:
        """Where to point a browser."""
        return f"http://127.0.0.1:{self.server_address[1]}/"

    def allowed_hosts(self) -> frozenset[str]:
        """The Host headers that are ours; any other means that a foreign page tries to read this server."""
        port = self.server_address[1]
        names = ("127.0.0.1", "localhost")
        return frozenset(f"{name}:{port}" for name in names) | frozenset(names if port == 80 else ())

    def process_request(self, request: Any, client_address: Any) -> None:
        """Answer a connection in a thread of its own, counting it in."""
        self.visitors.enter(request)
        super().process_request(request, client_address)

    def shutdown_request(self, request: Any) -> None:
        """End a connection, and count it out."""
        self.visitors.leave(request)
        super().shutdown_request(request)

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A visitor that went away is nobody's fault, and anything else no reason to fill the author's terminal."""
        del request, client_address
        error = sys.exception()
        if not isinstance(error, OSError):
            sys.stderr.write(f"The preview could not answer a request ({type(error).__name__}: {error}).\n")


class _Handler(BaseHTTPRequestHandler):
    server: PreviewServer
    timeout = SLOWEST
    server_version = "guidegen"
    sys_version = ""
    protocol_version = "HTTP/1.1"
    # What says no version is refused in a way that everybody understands; HTTP/0.9 had answers without a head.
    default_request_version = "HTTP/1.0"
    _refused = False

    def setup(self) -> None:
        super().setup()
        self.rfile.close()
        self._question = Question(self.connection)
        self.rfile = io.BufferedReader(self._question)

    def handle_one_request(self) -> None:
        self._question.begin()
        super().handle_one_request()

    def finish(self) -> None:
        if self._refused:
            take_left_over(self.connection)
        super().finish()

    def parse_request(self) -> bool:
        if not super().parse_request():
            return False
        if not (whole := is_well_formed(self.headers)):
            self._refuse(HTTPStatus.BAD_REQUEST, "A header line is a name, a colon and a value.")
        return whole

    def handle_expect_100(self) -> bool:
        return True  # no body is wanted, so the answer itself comes at once: RFC 9110, section 10.1.1

    def do_GET(self) -> None:
        self._answer()

    def do_HEAD(self) -> None:
        self._answer()

    def _not_allowed(self) -> None:
        """Methods that HTTP knows and that nothing here takes: RFC 9110, section 15.5.6."""
        if self._is_for_us():
            self._refuse(
                HTTPStatus.METHOD_NOT_ALLOWED, "Only GET and HEAD are answered here.", Allow="GET, HEAD"
            )

    # RFC 9110, section 9.3, and RFC 5789; a method that HTTP does not know is 501 by section 9.1.
    do_POST = do_PUT = do_DELETE = do_CONNECT = do_OPTIONS = do_TRACE = do_PATCH = _not_allowed  # noqa: N815

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002  the name is the library's
        """Say nothing: the terminal is for the author's mistakes."""

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        """The library's answer to what is no HTTP request, in plain text, and the end of the connection."""
        del message, explain
        status = HTTPStatus(code)
        self._refuse(status, f"{status.phrase}.")

    def _refuse(self, status: HTTPStatus, words: str, **headers: str) -> None:
        """Answer, and listen no longer: what still comes may be the rest of the question, or pretend to be another."""
        self._refused = self.close_connection = True
        self._send(status, TEXT, f"{words}\n".encode(), headers)

    def _is_for_us(self) -> bool:
        """Whether the request names this server, as RFC 9112, section 3.2, asks; refuses it otherwise."""
        hosts = self.headers.get_all("Host", [])
        if len(hosts) != 1:
            self._refuse(HTTPStatus.BAD_REQUEST, "A request has one Host header.")
            return False
        # A request may name the server a second time in its first line; both have to be ours.
        scheme, sign, rest = self.path.partition("://")
        if sign and scheme.lower() in {"http", "https"} and not self.path.startswith("/"):
            host, slash, path = rest.partition("/")
            hosts.append(host.partition("?")[0])
            self.path = slash + path if slash else "/"
        if not self.server.allowed_hosts().issuperset(host.strip(" \t").lower() for host in hosts):
            self._refuse(HTTPStatus.MISDIRECTED_REQUEST, "Not for this host.")
            return False
        return True

    def _answer(self) -> None:
        self.server.visitors.ask(self.connection)
        if not self._is_for_us():
            return
        if "Content-Length" in self.headers or "Transfer-Encoding" in self.headers:
            # Nothing is done with a body, and its bytes must not be taken for the next request.
            self._refused = self.close_connection = True
        address, _, query = self.path.partition("?")
        path = unquote(address)
        if not path.startswith("/"):
            self._refuse(HTTPStatus.BAD_REQUEST, "An address begins with a slash.")
        elif path == NEWS:
            self._send_news(parse_qs(query))
        elif path in self.server.own_files:
            self._send(HTTPStatus.OK, TYPES[Path(path).suffix], self.server.own_files[path])
        else:
            self._send_file(path)

    def _send_news(self, query: Mapping[str, list[str]]) -> None:
        import json

        known = query.get("turn", ["0"])[0]
        page = page_at(query.get("page", [""])[0])
        turn, panel = self.server.news.wait(int(known) if known.isdecimal() and len(known) < 10 else 0, page)
        script = f"guidegenPreview({turn}, {_for_script(json.dumps(panel))});\n".encode()
        self._send(HTTPStatus.OK, TYPES[".js"], script)

    def _send_file(self, path: str) -> None:
        # Before the file is read: a page that is exchanged meanwhile is then fetched once more.
        turn = self.server.news.turn_of(page_at(path))
        status, found, file = HTTPStatus.OK, *_opened(self.server.root, path)
        if file is None:
            status, found, file = HTTPStatus.NOT_FOUND, *_opened(self.server.root, LOST)
        if file is None:
            if path.endswith((".html", "/")):
                self._send(status, TYPES[".html"], _with_script(_NOT_YET, turn))
            else:
                self._send(status, TEXT, b"There is no such page.\n")
            return
        with file:
            if found.suffix != ".html":
                self._stream(status, found, file)
                return
            page = file.read()
        if status is HTTPStatus.NOT_FOUND:
            page = _with_home_link(page, self.server.lost_home)
        self._send(status, TYPES[".html"], _with_script(page, turn))

    def _stream(self, status: HTTPStatus, found: Path, file: BinaryIO) -> None:
        left = os.fstat(file.fileno()).st_size
        self._head(status, kind_of(found), left)
        if self.command == "HEAD":
            return
        while left > 0 and (piece := file.read(min(left, 1 << 16))):
            self.wfile.write(piece)
            left -= len(piece)
        # A file that became shorter meanwhile: the answer ends where it ends, and with it the connection.
        self.close_connection = self.close_connection or left > 0

    def _send(
        self, status: HTTPStatus, kind: str, body: bytes, headers: Mapping[str, str] | None = None
    ) -> None:
        self._head(status, kind, len(body), headers or NO_HEADERS)
        if self.command != "HEAD":
            self.wfile.write(body)

    def _head(
        self, status: HTTPStatus, kind: str, size: int, headers: Mapping[str, str] = NO_HEADERS
    ) -> None:
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(size))
        self.send_header("Cache-Control", "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Cross-Origin-Resource-Policy", "same-origin")
        for name, value in headers.items():
            self.send_header(name, value)
        if self.close_connection:
            self.send_header("Connection", "close")
        self.end_headers()


def _opened(root: Path, path: str) -> tuple[Path, BinaryIO | None]:
    """The file at an address, opened; None for it where there is none, or a rebuild has just taken it away."""
    found = file_at(root, path)
    try:
        return found or root, found.open("rb") if found is not None else None
    except OSError:
        return root, None


def _with_home_link(page: bytes, home: str) -> bytes:
    """The 404 page with a link to the home page of the preview, at whatever depth it is served."""
    from markupsafe import escape

    return page.replace(f'href="{escape(home)}"'.encode(), b'href="/index.html"')


# Before the first build nothing is there: this page waits for it, and shows what stands in its way.
_NOT_YET = (
    b'<!doctype html>\n<html lang="en"><meta charset="utf-8"><title>Being built</title>\n'
    b"<body><p>The site is being built, and comes up here by itself.</p></body></html>\n"
)


def _with_script(page: bytes, turn: int) -> bytes:
    """A page that waits for news; one whose policy lets no script run, as the 404 page's, is left as it is."""
    if _NO_SCRIPTS.search(page):
        return page
    tag = f'<script src="{WAIT_SCRIPT}" data-turn="{turn}" data-style="{PANEL_STYLE}"></script>'.encode()
    head, end, tail = page.rpartition(b"</body>")
    return head + tag + end + tail if end else page + tag


def _for_script(text: str) -> str:
    """JSON that is also safe inside a script: no tag can end it, and line separators are escaped."""
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
