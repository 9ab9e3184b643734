"""WebKitGTK opens pages of a built site from the disk, asked by the WebDriver protocol (W3C) over the loopback address."""

from __future__ import annotations

import json
import shutil
import socket
import subprocess
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

WALK = Path(__file__).with_name("walk.js")
PATIENCE = 20.0


class Driver:
    """One session of a browser."""

    def __init__(self, port: int) -> None:
        self.base = f"http://127.0.0.1:{port}"
        asked = {"capabilities": {"alwaysMatch": {"webkitgtk:browserOptions": {"args": ["--automation"]}}}}
        made = self._ask("POST", "/session", asked)
        self.session = f"/session/{made['sessionId']}"
        self.version = f"{made['capabilities']['browserName']} {made['capabilities']['browserVersion']}"

    def _ask(self, method: str, path: str, body: object = None) -> dict[str, object]:
        data = None if method == "GET" else json.dumps(body or {}).encode()
        request = urllib.request.Request(self.base + path, data=data, method=method)
        with urllib.request.urlopen(request, timeout=60) as answer:
            return json.load(answer)["value"]

    def open(self, address: str) -> None:
        self._ask("POST", f"{self.session}/url", {"url": address})

    def reload(self) -> None:
        self._ask("POST", f"{self.session}/refresh")

    def walk(self, name: str) -> list[str]:
        """What `walk.js` finds wrong by the function of that name."""
        script = f"const exports = {{}};\n{WALK.read_text('utf-8')}\nreturn exports.{name}();"
        return self._ask("POST", f"{self.session}/execute/sync", {"script": script, "args": []})

    def close(self) -> None:
        self._ask("DELETE", self.session)


def driver_and_screen() -> tuple[str, str] | None:
    """The driver and the command of a virtual screen, None where this machine lacks them."""
    driver, screen = shutil.which("WebKitWebDriver"), shutil.which("xvfb-run")
    return (driver, screen) if driver and screen else None


@contextmanager
def running(driver: str, screen: str) -> Iterator[Driver]:
    """A browser's session on a virtual screen while the block runs."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    process = subprocess.Popen(
        [screen, "-a", driver, f"--port={port}", "--host=127.0.0.1"],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    )  # fmt: skip
    try:
        until = time.monotonic() + PATIENCE
        while True:
            try:
                session = Driver(port)
                break
            except (urllib.error.URLError, ConnectionError):
                if time.monotonic() > until:
                    raise
                time.sleep(0.2)
        yield session
        session.close()
    finally:
        process.terminate()
        process.wait(10)


def opened_by_webkit(site: Path, guide: str) -> tuple[str, list[str]] | None:
    """The engine's name and what is wrong; None where the machine has no WebKitGTK."""
    tools = driver_and_screen()
    if tools is None:
        return None
    wrong: list[str] = []
    with running(*tools) as session:

        def look(name: str, *steps: str) -> None:
            session.open((site / name).resolve().as_uri())
            for step in ("whole", *steps):
                wrong.extend(f"{name}: {what}" for what in session.walk(step))

        for name in ("index.html", "paints/index.html", "shelf.html", "404.html"):
            look(name)
        look(f"guides/{guide}/bench.html", "tick")
        session.reload()
        wrong.extend(session.walk("ticked"))
        look(f"guides/{guide}/index.html", "more")
        return session.version, wrong
