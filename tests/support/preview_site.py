"""A preview's server at work over a small site, spoken to byte by byte."""

from __future__ import annotations

import os
import socket
import threading
from contextlib import closing, suppress
from pathlib import Path

from support.waiting import PATIENCE

from guidegen.preview.reload import News
from guidegen.preview.server import PreviewServer

SECRET = b"what the palette says"
LARGE = bytes(range(256)) * 40_000


class Served:
    """A server at work over a small site, with what it wrote on the terminal."""

    def __init__(self, top: Path) -> None:
        site = top / "site"
        (site / "guides/lamp-boys").mkdir(parents=True)
        (site / "index.html").write_bytes(b"<html><body>home</body></html>")
        (site / "guides/lamp-boys/index.html").write_bytes(b"<html><body>lamp boys</body></html>")
        (site / "404.html").write_bytes(
            b'<html><body><a href="/club/a&amp;b/index.html">lost</a></body></html>'
        )
        (site / ".guidegen-manifest.json").write_bytes(SECRET)
        (site / "large.bin").write_bytes(LARGE)
        (top / "palette.yaml").write_bytes(SECRET)
        (site / "out.yaml").symlink_to(top / "palette.yaml")
        (site / "out").symlink_to(top)
        (site / "round").symlink_to(site / "round")
        (site / "manifest.json").symlink_to(site / ".guidegen-manifest.json")
        (site / "dev").symlink_to("/dev/zero")
        os.mkfifo(site / "pipe")
        self.site = site
        self.server = PreviewServer(site, 0, News(), {"/.preview/wait.js": b"waits"})
        self.port = self.server.server_address[1]
        threading.Thread(
            target=self.server.serve_forever, kwargs={"poll_interval": 0.01}, daemon=True
        ).start()

    def connect(self) -> socket.socket:
        return socket.create_connection(("127.0.0.1", self.port), timeout=PATIENCE)

    def say(self, data: bytes) -> bytes:
        """All that is answered to these bytes, until the server hangs up."""
        with closing(self.connect()) as line:
            with suppress(OSError):
                line.sendall(data)
            answer = b""
            with suppress(ConnectionResetError):
                while piece := line.recv(1 << 16):
                    answer += piece
            return answer

    def ask(self, target: str = "/", method: str = "GET", host: str | None = None, more: str = "") -> bytes:
        """The answer to one request, written as it is given here."""
        names = f"127.0.0.1:{self.port}" if host is None else host
        head = f"{method} {target} HTTP/1.1\r\nHost: {names}\r\n{more}Connection: close\r\n\r\n"
        return self.say(head.encode("utf-8", "surrogateescape"))


def status(answer: bytes) -> int:
    assert answer.startswith(b"HTTP/1."), answer[:200]
    return int(answer.split(None, 2)[1])
