"""Sites of the town on a plain web server that can go away, visited by a browser that keeps what it needs."""

from __future__ import annotations

import io
import os
import re
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from functools import cache, partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import TYPE_CHECKING

from PIL import Image
from support import town, waiting
from support.rendered_town import site_of

from guidegen.imaging.picture import key_of

if TYPE_CHECKING:
    from playwright.sync_api import Page

FERRY, BENCH = "guides/ferry-watch/index.html", "guides/ferry-watch/bench.html"
RIDERS = "guides/heron-riders/index.html"
BUILT = 1_772_323_200

# Named as real ones are, by what is in them: that is how the worker knows what never changes.
PICTURES = {path: town.FakePicture(key_of(path)) for path in town.PICTURES}

# Once everything of this version is kept, the worker says so with this entry.
KEPT = """async page => {
    const seen = await Promise.all((await caches.keys()).map(async name => {
        const urls = (await (await caches.open(name)).keys()).map(request => request.url);
        return urls.some(url => url.endsWith("?seen")) && urls.some(url => url.endsWith(page));
    }));
    return seen.length === 1 && seen[0];
}"""


def write(folder: Path, *guides, later: int = 0, loose: tuple[str, ...] = (), **site) -> Path:
    """A site's files, of so many minutes later: servers tell by whole seconds whether one has changed."""
    archive = replace(town.archive(*guides, **site), loose=loose)
    for path, data in site_of(archive, PICTURES).items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_bytes(data or photo(int(re.findall(r"-(\d+)\.", path)[0])))
        os.utime(folder / path, (BUILT + later * 60,) * 2)
    return folder


@cache
def photo(width: int) -> bytes:
    """A photo of that width; browsers look at what is in it, not at its name."""
    out = io.BytesIO()
    Image.new("RGB", (width, width * 3 // 4), (60, 80, 100)).save(out, "JPEG", quality=30)
    return out.getvalue()


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:  # noqa: A002  the name is the library's
        """Say nothing, and keep in mind what was asked for."""
        self.server.asked.append(self.path)

    def end_headers(self) -> None:
        if self.server.asked_always:
            self.send_header("Cache-Control", "no-cache")
        super().end_headers()


class Host:
    """A plain web server on the loopback address, which can go away and come back under the same port.

    `asked_always` says that a browser has to ask each time whether what it has is still good.
    """

    def __init__(self, folder: Path, *, asked_always: bool = False) -> None:
        self.folder = folder
        self.asked_always = asked_always
        self.port = 0
        self.asked: list[str] = []
        self.start()

    def start(self) -> None:
        handler = partial(Quiet, directory=str(self.folder))
        self._server = ThreadingHTTPServer(("127.0.0.1", self.port), handler)
        self._server.asked, self._server.asked_always = self.asked, self.asked_always
        self.port = self._server.server_address[1]
        threading.Thread(target=self._server.serve_forever, args=(0.02,), daemon=True).start()

    def stop(self) -> None:
        self._server.shutdown()
        self._server.server_close()

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}/"


@contextmanager
def hosted(folder: Path, *, asked_always: bool = False) -> Iterator[Host]:
    host = Host(folder, asked_always=asked_always)
    try:
        yield host
    finally:
        host.stop()


def until(page: Page, told: str, arg: str = "") -> None:
    """Wait for a promise to hold: Playwright's own waiting takes any promise for yes."""
    waiting.until(lambda: page.evaluate(told, arg), lambda: f"never came true: {told}")


def visit(page: Page, address: str, kept: str = FERRY) -> None:
    page.goto(address)
    until(page, KEPT, kept)
