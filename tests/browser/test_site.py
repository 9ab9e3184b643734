"""The site in a real Chromium as its author and its readers have it: from the disk, and from the preview."""

from __future__ import annotations

import http.client
import os
import re
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from support.content_folders import lay_out
from support.waiting import PATIENCE, free_port

from guidegen.building.build import Order, build
from guidegen.building.check import check
from guidegen.computing.guide.computed_guide import compute_guide

if TYPE_CHECKING:
    from playwright.sync_api import Page

TEXT = """
» palette.yaml
paints:
  - {name: Oilskin Ochre, colour: b8862f}
  - {name: Silt Wash, kind: wash, colour: 4a3b2a}
» guides/ferry-watch/guide.md
---
title: Ferry watch
figures: 10
steps:
  - {step: Coats, technique: base coat, area: coat, paint: Oilskin Ochre, once: 5 min, each: 2 min, dry: 30 min, photo: {file: coats.jpg, alt: Coats}}
  - {step: Folds, technique: wash, area: coat, paint: Silt Wash, each: 3 min, dry: 40 min}
  - stop: Fit to field
  - {step: Collars, technique: highlight, area: coat, paint: Oilskin Ochre, once: 2 min, each: 1 min}
---
» guides/ferry-watch/coats.jpg = a photo 1200 × 900
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("from-disk")
    lay_out(at / "content", TEXT)
    assert build(Order(content=at / "content", out=at / "site", cache=at / "cache")).counts is not None
    return at


@dataclass(frozen=True)
class Shown:
    """A preview that runs: where its content lies, and where it is to be seen."""

    content: Path
    port: int

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}/"

    def ask(self, method: str, path: str, host: str | None = None) -> tuple[int, bytes]:
        """The answer to a request that is sent as it is written here, which a browser would tidy up."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE)
        try:
            connection.putrequest(method, path, skip_host=True)
            connection.putheader("Host", host or f"127.0.0.1:{self.port}")
            connection.endheaders()
            answer = connection.getresponse()
            return answer.status, answer.read()
        finally:
            connection.close()

    def edit(self, old: str, new: str) -> None:
        file = self.content / "guides/ferry-watch/guide.md"
        text = file.read_text(encoding="utf-8")
        assert old in text
        file.write_text(text.replace(old, new), encoding="utf-8")


def running(at: Path, port: int) -> tuple[subprocess.Popen[str], Shown]:
    """Start a preview and wait until its first build is done."""
    process = subprocess.Popen(
        [sys.executable, "-m", "guidegen", "preview", "--content", str(at / "content"),
         "--out", str(at / f"shown-{time.monotonic_ns()}"), "--port", str(port)],
        stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
        env=os.environ | {"XDG_CACHE_HOME": str(at / "caches"), "PYTHONUNBUFFERED": "1"},
    )  # fmt: skip
    assert process.stdout is not None
    said = re.search(r"http://127\.0\.0\.1:(\d+)/", process.stdout.readline())
    assert said is not None
    while not process.stdout.readline().startswith("Up to date"):
        assert process.poll() is None
    return process, Shown(at / "content", int(said[1]))


def ended(process: subprocess.Popen[str]) -> None:
    process.terminate()
    process.communicate(timeout=PATIENCE)


@pytest.fixture
def preview(tmp_path: Path) -> Iterator[Shown]:
    lay_out(tmp_path / "content", TEXT)
    process, shown = running(tmp_path, free_port())
    yield shown
    ended(process)


def pages_of(site: Path) -> list[str]:
    return sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))


def test_from_the_disk_every_page_loads_and_asks_for_nothing_outside(page: Page, made: Path):
    """The fixture fails the test where a page complains of anything."""
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    for path in pages_of(made / "site"):
        page.goto((made / "site" / path).as_uri())
    inside = ((made / "site").as_uri(), "data:")
    assert [url for url in asked if not url.startswith(inside)] == []
    page.goto((made / "site/guides/ferry-watch/index.html").as_uri())
    photo = page.locator("figure.photo img").first
    photo.scroll_into_view_if_needed()
    page.wait_for_function("image => image.complete && image.naturalWidth > 0", arg=photo.element_handle())


@pytest.mark.parametrize("figures", [1, 11, 16, 40])
def test_the_stepper_reckons_as_python_does(page: Page, made: Path, figures: int):
    checked = check(made / "content")
    computed = compute_guide(checked.archive.guides[0], checked.palette_tools, figures=figures)
    page.goto((made / "site/guides/ferry-watch/index.html").as_uri())
    box = page.locator("#figures")
    if figures == 11:
        page.click(".stepper [data-by='1']")
    else:
        box.fill(str(figures))
        box.press("Enter")
    assert box.input_value() == str(figures)
    for key, times in (("whole", computed.times.whole), ("stop0", computed.times.stops[0].times)):
        for what, value in (("handsOn", times.hands_on), ("waiting", times.waiting), ("total", times.total)):
            shown = page.locator(f"time[data-show='{key}.{what}']").first.get_attribute("datetime")
            assert shown is not None
            assert float(shown.removeprefix("PT").removesuffix("S")) * 1000 == value, (key, what)


def test_the_preview_reloads_after_an_edit_and_shows_mistakes_over_the_last_good_page(
    preview: Shown, page: Page
):
    # The preview comes before the page, so that the page is shut first: it would complain that nobody answers.
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(preview.address + "guides/ferry-watch/index.html")
    page.locator("h1", has_text="Ferry watch").wait_for()

    preview.edit("title: Ferry watch", "title: Night ferry")
    page.locator("h1", has_text="Night ferry").wait_for()

    preview.edit("paint: Silt Wash", "paint: Sild Wash")
    panel = page.locator("#guidegen-preview")
    panel.wait_for()
    assert "“Sild Wash”, which is not in the palette" in panel.inner_text()
    page.locator("h1", has_text="Night ferry").wait_for()
    assert page.evaluate("getComputedStyle(document.getElementById('guidegen-preview')).position") == "fixed"

    # Opened anew, the page still says so; mended, it is as good as before.
    page.reload()
    panel.wait_for()
    preview.edit("paint: Sild Wash", "paint: Silt Wash")
    panel.wait_for(state="detached")
    page.locator("h1", has_text="Night ferry").wait_for()
    assert [url for url in asked if not url.startswith((preview.address, "data:"))] == []


def test_a_page_of_the_preview_asks_for_news_once_it_is_there(preview: Shown, page: Page):
    """A question that stays open would otherwise count as something that the page still has to load."""
    page.goto(preview.address + "guides/ferry-watch/index.html")
    page.wait_for_function(
        "() => performance.getEntriesByName(location.origin + '/.preview/news.js?turn=0&page=%2Fguides%2Fferry-watch%2Findex.html').length > 0"
    )
    asked, loaded = page.evaluate(
        """() => [performance.getEntriesByName(location.origin + "/.preview/news.js?turn=0&page=%2Fguides%2Fferry-watch%2Findex.html")[0].startTime,
                  performance.getEntriesByType("navigation")[0].loadEventStart]"""
    )
    assert asked >= loaded > 0


def test_the_preview_answers_nobody_else(preview: Shown):
    home = preview.ask("GET", "/")
    assert home[0] == 200
    assert preview.ask("HEAD", "/") == (200, b"")
    assert preview.ask("GET", "/", f"localhost:{preview.port}")[0] == 200
    for host in (
        "guides.example",
        f"guides.example:{preview.port}",
        "127.0.0.1",
        f"127.0.0.1:{preview.port}.example",
    ):
        status, body = preview.ask("GET", "/", host)
        assert (status, b"Ferry" in body) == (421, False), host
    for method in ("POST", "PUT", "DELETE", "OPTIONS", "PATCH", "TRACE"):
        assert preview.ask(method, "/")[0] == 405, method


def test_the_preview_leads_to_no_file_outside_the_site(preview: Shown):
    for path in (
        "/../content/palette.yaml",
        "/..%2fcontent/palette.yaml",
        "/%2e%2e/content/palette.yaml",
        "/guides/../../content/palette.yaml",
        "/guides/%2e%2e/%2e%2e/content/palette.yaml",
        "/..%5ccontent%5cpalette.yaml",
        f"/{preview.content}/palette.yaml",
        f"//{preview.content}/palette.yaml",
        "/.guidegen-manifest.json",
        "/index.html%00.jpg",
    ):
        status, body = preview.ask("GET", path)
        assert status == 404, path
        assert b"Oilskin Ochre, colour" not in body, path


def test_where_a_port_is_taken_the_next_one_is(preview: Shown, tmp_path: Path):
    process, second = running(tmp_path, preview.port)
    try:
        assert preview.port < second.port < preview.port + 20
        assert second.ask("GET", "/")[0] == 200
        assert preview.ask("GET", "/")[0] == 200
    finally:
        ended(process)
