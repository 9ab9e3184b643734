"""Whoever opens the preview before its first build is done waits there, and is not told that there is nothing."""

from __future__ import annotations

import threading
from http.client import HTTPConnection
from pathlib import Path

import pytest

from guidegen.preview.server import WAIT_SCRIPT, News, PreviewServer


def asked(folder: Path, path: str) -> tuple[int, str]:
    server = PreviewServer(folder, 0, News(), {})
    threading.Thread(target=server.serve_forever, args=(0.02,), daemon=True).start()
    line = HTTPConnection("127.0.0.1", server.server_address[1])
    line.request("GET", path)
    answer = line.getresponse()
    said = answer.read().decode()
    line.close()
    server.shutdown()
    server.server_close()
    return answer.status, said


@pytest.mark.parametrize("path", ["/", "/guides/eel-seller/index.html"])
def test_a_page_that_is_not_built_yet_waits_to_be(tmp_path: Path, path: str):
    status, said = asked(tmp_path / "site", path)
    assert status == 404
    assert "comes up here by itself" in said
    assert f'src="{WAIT_SCRIPT}" data-turn="0"' in said


def test_what_is_no_page_is_not_there(tmp_path: Path):
    assert asked(tmp_path / "site", "/assets/site.css") == (404, "There is no such page.\n")


def test_once_there_is_a_site_its_own_page_is_shown_to_the_lost(tmp_path: Path):
    (tmp_path / "404.html").write_text("<p>Nothing lies here</p>", encoding="utf-8")
    assert "Nothing lies here" in asked(tmp_path, "/nobody.html")[1]
