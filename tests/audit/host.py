"""Serves a built site as a static host would: compressed, with lasting assets, on the loopback address only."""

from __future__ import annotations

import gzip
import http.server
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

COMPRESSED = {".html", ".css", ".js", ".svg", ".json", ".xml", ".webmanifest", ".txt"}


class Handler(http.server.SimpleHTTPRequestHandler):
    """One request: text goes compressed, and what lies in `assets/` may be kept for a year."""

    protocol_version = "HTTP/1.1"

    def do_GET(self) -> None:
        path = Path(self.translate_path(self.path))
        if path.is_dir():
            path = path / "index.html"
        found = path.is_file()
        if not found:
            path = Path(self.directory) / "404.html"
        body = path.read_bytes()
        self.send_response(200 if found else 404)
        self.send_header("Content-Type", self.guess_type(str(path)))
        if path.suffix in COMPRESSED:
            body = gzip.compress(body, mtime=0)
            self.send_header("Content-Encoding", "gzip")
        lasting = "/assets/" in self.path or "/photos/" in self.path
        self.send_header("Cache-Control", "max-age=31536000, immutable" if lasting else "no-cache")
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002  # the base class names it so
        """Say nothing: the judges' own reports are what counts."""


Handler.extensions_map = {
    **http.server.SimpleHTTPRequestHandler.extensions_map,
    ".webmanifest": "application/manifest+json",
    ".webp": "image/webp",
}


@contextmanager
def served(site: Path) -> Iterator[str]:
    """The address under which `site` is served while the block runs."""

    def handler(*args: object, **kwargs: object) -> Handler:
        return Handler(*args, directory=str(site), **kwargs)  # type: ignore[arg-type]

    with http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_address[1]}/"
        server.shutdown()
