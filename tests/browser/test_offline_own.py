"""What the worker that serves a guide without a network leaves alone, and what it never keeps for good."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import quote

import pytest
from support import town
from support.hosted import BENCH, BUILT, FERRY, RIDERS, hosted, photo, until, visit, write
from support.rendered_town import riders

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


def showing(folder: Path, *pictures: str) -> Path:
    """A site whose ferry watch shows files that its author has copied in as they are."""
    write(folder, town.ferry_watch(), riders(), loose=tuple(f"as-is/{path}" for path in pictures))
    tags = "".join(f'<img class="own" alt="" src="../../{path}">' for path in pictures)
    file = folder / FERRY
    file.write_bytes(file.read_bytes().replace(b"</body>", f"{tags}</body>".encode()))
    os.utime(file, (BUILT, BUILT))
    return folder


def put_picture(folder: Path, path: str, width: int, later: int) -> None:
    """Whole and with its time at once: a worker that still fetches what an earlier page shows meets no half of it."""
    (folder / path).parent.mkdir(parents=True, exist_ok=True)
    new = folder / "new-picture"
    new.write_bytes(photo(width))
    os.utime(new, (BUILT + later * 60,) * 2)
    new.replace(folder / path)


OWN_WIDTHS = """async () => {
    const own = Array.from(document.querySelectorAll("img.own"));
    await Promise.all(own.map(image => image.decode()));
    return own.map(image => image.naturalWidth);
}"""


KEPT_ANEW = """async name => {
    const cache = await caches.open((await caches.keys())[0]);
    const found = (await cache.keys()).find(request => request.url.endsWith(name));
    return found && (await createImageBitmap(await (await cache.match(found)).blob())).width === 60;
}"""


def test_an_authors_own_files_are_never_old_and_there_without_a_network(page: Page, tmp_path: Path) -> None:
    """Whatever their names look like."""
    names = (
        "assets/logo.png",
        "assets/logo-0123456789.png",
        "assets/photos/0123456789abcdef0123-480.jpg",
        "pics/Wäsche & Öl.png",
    )
    showing(tmp_path, *names)
    for name in names:
        put_picture(tmp_path, name, 40, 0)
    with hosted(tmp_path, asked_always=True) as host:
        visit(page, host.address + FERRY)
        page.goto(host.address + FERRY)
        assert page.evaluate(OWN_WIDTHS) == [40] * 4
        for name in names:
            put_picture(tmp_path, name, 60, 1)
        page.goto(host.address + FERRY)
        assert page.evaluate(OWN_WIDTHS) == [60] * 4
        visit(page, host.address + BENCH)
        page.goto(host.address + FERRY)
        for name in names:
            until(page, KEPT_ANEW, quote(name, safe="/&"))
        host.stop()
        page.goto(host.address + FERRY)
        assert page.evaluate(OWN_WIDTHS) == [60] * 4
        host.start()


def test_what_is_not_the_sites_own_goes_its_own_way(browser: Browser, tmp_path: Path) -> None:
    """At the root of a server the worker hears of everything there, also of other apps' pages and files."""
    from playwright.sync_api import Error

    write(tmp_path, town.ferry_watch(), riders())
    others = {
        "wiki/index.html": b"<!doctype html><title>wiki</title>wiki",
        "wiki/data.json": b"{}",
        "wiki/guides/index.html": b"<!doctype html><title>more</title>more",
        "wiki.html": b"<!doctype html><title>one</title>one",
        "assets/other.js": b"1",
    }
    for path, data in others.items():
        (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / path).write_bytes(data)
        os.utime(tmp_path / path, (BUILT, BUILT))
    context = browser.new_context()
    page = context.new_page()
    with hosted(tmp_path) as host:
        visit(page, host.address + FERRY)
        page.goto(host.address + "wiki/index.html")
        assert page.evaluate("navigator.serviceWorker.controller !== null")
        # A page of another app asks for it to be kept.
        page.evaluate("place => navigator.serviceWorker.controller.postMessage([place])", page.url)
        host.asked.clear()
        asking = """async () => {
            for (const path of ["/wiki/data.json", "/assets/other.js"])
                for (let time = 0; time < 3; time++) await (await fetch(path)).text();
        }"""
        page.evaluate(asking)
        # The browser's own store knows them from the first time on; our own pages are always asked for.
        asked = [path for path in host.asked if path.removeprefix("/") in others]
        assert sorted(asked) == ["/assets/other.js", "/wiki/data.json"]
        page.evaluate(
            "async page => { for (let time = 0; time < 3; time++) await fetch(page); }", f"/{RIDERS}"
        )
        assert host.asked.count(f"/{RIDERS}") == 3
        host.stop()
        for path in ("wiki/index.html?new", "wiki/guides/?new", "wiki.html?new", "wiki/?new"):
            # In a window of its own, since the browser's page about it comes up a moment later.
            other = context.new_page()
            with pytest.raises(Error, match="ERR_CONNECTION_REFUSED"):
                other.goto(host.address + path)
            other.close()
        for path in ("", RIDERS, "index.html", "guides/nowhere/"):
            page.goto(host.address + path)
            assert page.locator("h1").inner_text() == "No network"
        kept = page.evaluate(
            "caches.keys().then(async names => (await (await caches.open(names[0])).keys()).map(one => one.url))"
        )
        assert not [url for url in kept if "wiki" in url or "other" in url]
        host.start()
    context.close()
