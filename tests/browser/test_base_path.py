"""A site that lives below the top of its host, under /club/guides/, in a real Chromium: nothing of it leads outside."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import urldefrag
from xml.etree import ElementTree as ET

import pytest
from support.content_folders import lay_out
from support.waiting import until

from guidegen.building.build import Order, build

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

URL = "https://x.example/club/guides"
FERRY = "guides/ferry-watch/index.html"
ATOM, SITEMAP = "{http://www.w3.org/2005/Atom}", "{http://www.sitemaps.org/schemas/sitemap/0.9}"

CONTENT = f"""
» site.yaml
title: The Delta Bench
url: {URL}
» palette.yaml
paints:
  - {{name: Oilskin Ochre, range: Reedbank Acrylics, colour: b8862f, owned: 1}}
  - {{name: Silt Wash, range: Ninelock, colour: 4a3b2a, kind: wash}}
mixes:
  - {{name: Wet ochre, parts: {{Oilskin Ochre: 3, Silt Wash: 1}}}}
» shared/boards.yaml
steps: [{{step: Boards, technique: base coat, area: base, paint: Silt Wash, each: 1 min}}]
» guides/ferry-watch/guide.md
---
title: Ferry watch
date: 2026-03-14
was: [jetty-watch]
see: [lamp-boys]
cover: {{file: finished.jpg, alt: Five watchmen}}
choose: {{headgear: [hood, straw hat]}}
steps:
  - {{step: Coats, technique: base coat, area: coat, paint: Oilskin Ochre, each: 4 min, dry: 15 min, photo: {{file: coats.jpg, alt: Ochre}}}}
  - {{step: Hoods, technique: wash, area: head, paint: Wet ochre, each: 1 min, only: {{headgear: hood}}}}
  - {{step: Straw, technique: wash, area: head, paint: Silt Wash, each: 1 min, only: {{headgear: straw hat}}}}
  - insert: boards
---
See [the boys](../lamp-boys.md), [the form](../../as-is/form.pdf) and [the coats](#coats).
» guides/ferry-watch/finished.jpg = a photo 1200 × 900
» guides/ferry-watch/coats.jpg = a photo 800 × 600
» guides/lamp-boys.md
---
title: Lamp boys
date: 2026-04-02
figure: watchman
leave: [pack, bedroll, straps, trousers, scarf, beard, boots, pole, glass, hood, face, hands, lantern, base]
steps:
  - {{step: Coats, technique: base coat, area: coat, paint: Oilskin Ochre, each: 4 min}}
---
» as-is/form.pdf
A form.
» plans/regatta.yaml
title: Regatta
start: 2026-04-06
sittings: {{mon-fri: "20:00-22:00"}}
units: [{{guide: ferry-watch, figures: 4}}]
"""

# What a page links to and is made of, as whole addresses.
LINKS = """[...document.querySelectorAll('[href], [src], [srcset]')].flatMap(one => [
    ...(one.closest('symbol, defs') || one.tagName === 'use' ? [] : [one.href, one.src]),
    ...(one.srcset || '').split(',').map(part => part.trim().split(' ')[0] && new URL(part.trim().split(' ')[0], document.baseURI).href),
]).filter(one => typeof one === 'string' && one && !one.startsWith('data:'))"""
KEPT = """async () => (await Promise.all((await caches.keys()).map(async name =>
    (await (await caches.open(name)).keys()).some(one => one.url.endsWith('?seen'))))).some(Boolean)"""


class Handler(SimpleHTTPRequestHandler):
    """A plain host, told which page to show where nothing lies."""

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002  the name is the library's
        """Say nothing."""

    def send_error(self, code: int, message: str | None = None, explain: str | None = None) -> None:
        """The site's own page for lost visitors."""
        lost = (Path(self.directory) / "club/guides/404.html").read_bytes()
        self.send_response(code, message)
        self.send_header("Content-Type", "text/html; charset=utf-8")
        self.send_header("Content-Length", str(len(lost)))
        self.end_headers()
        self.wfile.write(lost)


class Host:
    """The whole host by its address, and the folder in which the site lies."""

    def __init__(self, folder: Path, address: str) -> None:
        self.site = folder / "club" / "guides"
        self.base = f"{address}club/guides/"
        self.address = address

    def path(self, url: str) -> str:
        """A file of the site, by its address on this host or in the world."""
        plain = urldefrag(url)[0].partition("?")[0]
        for base in (self.base, f"{URL}/"):
            if plain.startswith(base):
                return plain.removeprefix(base)
        pytest.fail(f"{url} leads out of the site")


@pytest.fixture(scope="module")
def host(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Host]:
    folder = tmp_path_factory.mktemp("host")
    content = lay_out(folder / "archive", CONTENT)
    root = folder / "www"
    (root / "other").mkdir(parents=True)
    other = "<!doctype html><title>Another's</title><link rel=icon href='data:,'>"
    (root / "other" / "index.html").write_text(other, encoding="utf-8")
    order = Order(content=content, out=root / "club" / "guides", cache=folder / "cache")
    assert build(order).counts is not None
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Handler, directory=str(root)))
    threading.Thread(target=server.serve_forever, args=(0.02,), daemon=True).start()
    yield Host(root, f"http://127.0.0.1:{server.server_address[1]}/")
    server.shutdown()
    server.server_close()


def test_every_link_and_every_picture_is_there(page: Page, host: Host) -> None:
    """From the first page on, by links alone, every page is come by, and nothing outside is asked for."""
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    waiting, seen = [host.base + "index.html"], set()
    while waiting:
        address = waiting.pop()
        if address in seen:
            continue
        seen.add(address)
        answer = page.goto(address)
        assert answer is not None
        assert answer.status == 200, address
        for url in page.evaluate(LINKS):
            path = host.path(url)
            assert (host.site / path).is_file(), f"{address} leads to {path}"
            if path.endswith(".html"):
                waiting.append(host.base + path)
    assert all(url.startswith((host.base, "data:")) for url in asked)
    pages = {path.relative_to(host.site).as_posix() for path in host.site.rglob("*.html")}
    # Nothing leads to the page for lost visitors, nor to an address that a guide had once.
    unseen = pages - {host.path(address) for address in seen}
    assert {path for path in unseen if not path.startswith("guides/jetty-watch/")} == {"404.html"}


@pytest.mark.parametrize("lost", ["nobody.html", "guides/nobody/at/all/index.html"])
def test_who_is_lost_finds_home_from_any_depth(browser: Browser, host: Host, lost: str) -> None:
    # In a profile of its own: the browser complains of the answer's status, which is as it should be.
    context = browser.new_context()
    page = context.new_page()
    answer = page.goto(host.base + lost)
    assert answer is not None
    assert answer.status == 404
    assert page.evaluate("getComputedStyle(document.body).margin") != "8px"
    # From a copy at another root, where the first leads nowhere, there still is the way to the site itself.
    assert page.locator("a").nth(1).get_attribute("href") == f"{URL}/index.html"
    page.locator("a").first.click()
    page.wait_for_url(host.base + "index.html")
    assert page.locator("h1").inner_text() == "The Delta Bench"
    context.close()


def test_an_old_address_leads_to_the_guide(page: Page, host: Host) -> None:
    page.goto(host.base + "guides/jetty-watch/index.html")
    page.locator("main a").first.click()
    page.wait_for_url(host.base + FERRY)


def test_what_is_kept_offline_is_the_sites_alone(page: Page, host: Host) -> None:
    page.goto(host.base + FERRY)
    until(lambda: page.evaluate(KEPT))
    scopes = page.evaluate(
        "navigator.serviceWorker.getRegistrations().then(all => all.map(one => one.scope))"
    )
    assert scopes == [host.base]
    kept = page.evaluate(
        """caches.keys().then(names => Promise.all(names.map(async name =>
            (await (await caches.open(name)).keys()).map(one => one.url)))).then(all => all.flat())"""
    )
    assert kept
    assert all(url.startswith(host.base) for url in kept)
    page.goto(host.address + "other/index.html")
    assert page.evaluate("navigator.serviceWorker.controller") is None


def test_every_page_names_its_one_address(page: Page, host: Host) -> None:
    for path in ("index.html", FERRY, "guides/lamp-boys/index.html", "paints/index.html", "plans.html"):
        page.goto(host.base + path)
        named = page.locator("link[rel=canonical]").get_attribute("href")
        assert named == f"{URL}/{path}"
        shown = page.locator("meta[property='og:url']").get_attribute("content")
        assert shown == named
        picture = page.locator("meta[property='og:image']").get_attribute("content")
        assert (host.site / host.path(picture or "")).is_file()


def test_feed_and_list_of_pages_name_what_is_there(page: Page, host: Host) -> None:
    page.goto(host.base + FERRY)
    feed = page.evaluate("document.querySelector('link[type=\"application/atom+xml\"]').href")
    assert feed == host.base + "feed.xml"
    told = ET.fromstring(page.context.request.get(feed).body())
    links = [one.get("href") or "" for one in told.iter(f"{ATOM}link")]
    assert f"{URL}/{FERRY}" in links
    assert f"{URL}/feed.xml" in links
    listed = ET.fromstring(page.context.request.get(host.base + "sitemap.xml").body())
    pages = [one.text or "" for one in listed.iter(f"{SITEMAP}loc")]
    assert f"{URL}/{FERRY}" in pages
    for url in (*links, *pages):
        assert url.startswith(f"{URL}/")
        assert (host.site / host.path(url)).is_file()
