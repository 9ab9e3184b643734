"""`guidegen build --changes`: carried to a host line by line, no link that a visitor can meet leads nowhere."""

from __future__ import annotations

import json
import re
import shutil
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.client import HTTPConnection
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote, urljoin, urlsplit

import pytest
from click.testing import CliRunner, Result
from support.content_folders import lay_out

from guidegen.commands.build import command

pytestmark = pytest.mark.slow

SITE = "» site.yaml\ntitle: The jetty\nurl: https://jetty.example/\n"
PALETTE = "» palette.yaml\npaints:\n  - {{name: Oilskin Ochre, colour: {ochre}}}\n  - {{name: {other}, colour: 556677}}\n"
GUIDE = """\
» guides/{name}.md
---
title: {name}
date: 2026-0{month}-01
see: [{see}]
steps:
  - {{step: Coat, paint: Oilskin Ochre, area: coat, each: 4 min}}
  - {{step: Hat, paint: {other}, area: hat, each: 1 min}}
---
"""
_LINK = re.compile(r'(?:href|src|data-index|data-worker|data-manifest)="([^"#]+)[^"]*"|<(?:loc|id)>([^<]+)<')


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def guides(names: dict[str, str], other: str) -> str:
    return "".join(
        GUIDE.format(name=name, see=see, other=other, month=number % 9 + 1)
        for number, (name, see) in enumerate(names.items())
    )


def built(*options: str) -> Result:
    return CliRunner().invoke(command, ["--out", "site", "--cache", "cache", *options])


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:  # noqa: A002  the name is the library's
        """Say nothing."""


@contextmanager
def served(folder: Path) -> Iterator[int]:
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(folder)))
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
    thread.start()
    try:
        yield server.server_address[1]
    finally:
        server.shutdown()
        thread.join()
        server.server_close()


def dangling(port: int) -> list[tuple[str, str]]:
    """Links that lead nowhere, from all that can be reached from the home page, the feed and the sitemap."""
    connection = HTTPConnection("127.0.0.1", port)
    ahead, seen, dead = ["/index.html", "/feed.xml", "/sitemap.xml"], {"": ""}, []
    origin = dict.fromkeys(ahead, "")
    while ahead:
        path = ahead.pop()
        if path in seen:
            continue
        seen[path] = ""
        connection.request("GET", path)
        answer = connection.getresponse()
        data = answer.read()
        if answer.status != 200:
            dead.append((origin[path], path))
            continue
        if not path.endswith((".html", ".xml")):
            continue
        for found in _LINK.finditer(data.decode("utf-8")):
            target = (found[1] or found[2]).replace("https://jetty.example/", "/")
            target = urlsplit(urljoin(path, target)) if not target.startswith(("data:", "tag:")) else None
            if target is None or target.netloc:
                continue
            there = unquote(target.path)
            there += "index.html" if there.endswith("/") else ""
            origin.setdefault(there, path)
            ahead.append(there)
    return dead


def test_at_no_moment_of_an_upload_a_link_dangles(tmp_path: Path):
    lay_out(Path("content"), SITE + PALETTE.format(ochre="b8862f", other="Wharf Grey"))
    lay_out(
        Path("content"),
        guides({"eels": "lamps", "lamps": "eels", "nets": "eels", "boats": "nets"}, "Wharf Grey"),
    )
    first = json.loads(built("--json", "--changes", "changes.txt").stdout)
    assert first["changed"] == first["removed_files"] == []
    assert len(first["new"]) == first["written"]
    host = tmp_path / "host"
    shutil.copytree("site", host)
    shutil.rmtree("content/guides")
    lay_out(Path("content"), PALETTE.format(ochre="c0902f", other="Dusk Grey"))
    lay_out(
        Path("content"),
        guides({"eels": "ropes", "lamps": "sails", "ropes": "sails", "sails": "ropes"}, "Dusk Grey"),
    )
    second = json.loads(built("--json", "--changes", "changes.txt").stdout)
    lines = [line.split(" ", 1) for line in Path("changes.txt").read_text(encoding="utf-8").splitlines()]
    for word, key in (("new", "new"), ("changed", "changed"), ("removed", "removed_files")):
        assert sorted(path for said, path in lines if said == word) == second[key]
        assert second[key]
    assert second["removed"] == len(second["removed_files"])
    with served(host) as port:
        assert dangling(port) == []
        for word, path in lines:
            if word == "removed":
                (host / path).unlink()
            else:
                (host / path).parent.mkdir(parents=True, exist_ok=True)
                shutil.copy(f"site/{path}", host / path)
            assert dangling(port) == [], (word, path)
    for file in Path("site").rglob("*"):
        if file.is_file() and not file.name.startswith("."):
            assert (host / file.relative_to("site")).read_bytes() == file.read_bytes()


def test_a_list_is_kept_out_of_the_site_and_empty_where_nothing_changed():
    lay_out(Path("content"), PALETTE.format(ochre="b8862f", other="Wharf Grey"))
    lay_out(Path("content"), guides({"eels": "eels"}, "Wharf Grey").replace("see: [eels]\n", ""))
    refused = built("--changes", "site/changes.txt")
    assert refused.exception is not None
    assert not Path("site").exists()
    assert built("--changes", "changes.txt").exit_code == 0
    assert built("--changes", "changes.txt").exit_code == 0
    assert Path("changes.txt").read_bytes() == b""
