"""A served guide in a real Chromium whose network goes away: kept whole, never old while there is a network."""

from __future__ import annotations

import threading
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from support import town
from support.hosted import BENCH, FERRY, PICTURES, RIDERS, Host, hosted, until, visit, write
from support.rendered_town import riders

from guidegen.base.own_files import own_templates
from guidegen.preview.reload import News
from guidegen.preview.server import PANEL_STYLE, WAIT_SCRIPT, PreviewServer

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

PHOTOS = """async () => {
    const all = Array.from(document.images);
    all.forEach(image => { image.loading = "eager"; });
    await Promise.all(all.map(image => image.decode()));
    return all.map(image => image.naturalWidth);
}"""


@pytest.mark.parametrize("at", ["", "club/guides/"])
@pytest.mark.parametrize("first", [FERRY, BENCH])
def test_where_the_network_goes_guide_and_bench_stay_whole(
    page: Page, tmp_path: Path, at: str, first: str
) -> None:
    write(tmp_path / at, town.ferry_watch(), riders(), url="https://delta.example/elsewhere")
    with hosted(tmp_path) as host:
        visit(page, host.address + at + first)
        scope = page.evaluate("navigator.serviceWorker.ready.then(kept => kept.scope)")
        assert scope == host.address + at
        assert all(name.startswith(f"guidegen {scope} ") for name in page.evaluate("caches.keys()"))
        host.stop()
        page.goto(host.address + at + BENCH + "?from=a-link#coats")
        assert page.evaluate("getComputedStyle(document.body).margin") == "0px"
        page.locator("#step-prime .every").click()
        page.reload()
        assert page.locator("#step-prime .on").is_visible()
        page.goto(host.address + at + FERRY)
        widths = page.evaluate(PHOTOS)
        assert len(widths) == 3
        assert all(widths)
        host.start()


def test_the_readers_own_pots_are_there_without_the_network_too(page: Page, tmp_path: Path) -> None:
    write(tmp_path, town.ferry_watch())
    with hosted(tmp_path) as host:
        visit(page, host.address + FERRY)
        page.evaluate(
            "localStorage.setItem(document.querySelector('script[data-store]').dataset.store + ':pots', '{\"pots\": [{\"name\": \"Odd\"}]}')"
        )
        page.reload()
        page.locator(".own.told").wait_for()
        host.stop()
        page.goto(host.address + BENCH)
        page.locator(".own.told").wait_for()
        host.start()


def test_a_folders_address_is_its_page(page: Page, tmp_path: Path) -> None:
    write(tmp_path, town.ferry_watch())
    with hosted(tmp_path) as host:
        visit(page, host.address + "guides/ferry-watch/")
        host.stop()
        page.goto(host.address + "guides/ferry-watch/")
        assert page.locator("h1").inner_text() == "Ferry watch in wet oilskins"
        host.start()


def test_a_page_that_is_not_kept_names_those_that_are(browser: Browser, tmp_path: Path) -> None:
    write(tmp_path, town.ferry_watch(), riders())
    context = browser.new_context()
    page = context.new_page()
    with hosted(tmp_path) as host:
        visit(page, host.address + FERRY)
        host.stop()
        page.goto(host.address + RIDERS)
        assert page.locator("h1").inner_text() == "No network"
        page.locator("a", has_text="at the bench").click()
        assert "at the bench" in page.locator("h1, title").first.text_content()
        host.start()
    context.close()


def test_a_new_build_takes_the_place_of_the_old_one(page: Page, tmp_path: Path) -> None:
    write(tmp_path, town.ferry_watch(), riders())
    with hosted(tmp_path) as host:
        visit(page, host.address + FERRY)
        visit(page, host.address + RIDERS, RIDERS)
        (before,) = page.evaluate("caches.keys()")
        # The ferry watch has other words and one photo less.
        other = replace(town.ferry_watch(), title="Ferry watch in dry oilskins", cover=None)
        write(tmp_path, other, riders(), later=1)
        # With a network a page is never an old one; whoever comes by one guide has the others looked at again.
        page.goto(host.address + FERRY)
        assert page.locator("h1").inner_text() == "Ferry watch in dry oilskins"
        page.goto(host.address + RIDERS)
        until(
            page, "before => caches.keys().then(names => names.length === 1 && names[0] !== before)", before
        )
        visit(page, host.address + RIDERS, RIDERS)
        kept = page.evaluate(
            "caches.keys().then(async names => (await (await caches.open(names[0])).keys()).map(one => one.url))"
        )
        gone, there = (PICTURES[f"guides/ferry-watch/{name}.jpg"].stem for name in ("finished", "coats"))
        assert not [url for url in kept if gone in url]
        assert [url for url in kept if there in url]
        host.stop()
        page.goto(host.address + BENCH)
        assert "dry oilskins" in page.title()
        host.start()


def test_a_guide_that_is_not_visited_again_is_looked_at_again_all_the_same(
    page: Page, tmp_path: Path
) -> None:
    write(tmp_path, town.ferry_watch(), riders())
    with hosted(tmp_path) as host:
        visit(page, host.address + FERRY)
        visit(page, host.address + RIDERS, RIDERS)
        write(tmp_path, replace(town.ferry_watch(), title="Ferry watch in dry oilskins"), riders(), later=1)
        page.goto(host.address + RIDERS)
        until(
            page,
            """async page => (await Promise.all((await caches.keys()).map(async name => {
                const found = await (await caches.open(name)).match(page);
                return found && (await found.text()).includes("dry oilskins");
            }))).some(Boolean)""",
            host.address + FERRY,
        )
        host.stop()
        page.goto(host.address + FERRY)
        assert page.locator("h1").inner_text() == "Ferry watch in dry oilskins"
        host.start()


def test_what_others_keep_on_the_same_server_is_left_alone(page: Page, tmp_path: Path) -> None:
    write(tmp_path / "club", town.ferry_watch())
    write(tmp_path / "club" / "guides", riders())
    with hosted(tmp_path) as host:
        page.goto(host.address + "club/404.html")
        page.evaluate("caches.open('somebody else')")
        page.evaluate("place => caches.open(`guidegen ${place} 0123`)", host.address + "club/guides/")
        page.goto(host.address + "club/" + FERRY)
        until(
            page,
            "caches.keys().then(names => names.length === 3 && names.some(name => name.includes('club/ ')))",
        )
        names = page.evaluate("caches.keys()")
        assert {"somebody else", f"guidegen {host.address}club/guides/ 0123"} < set(names)


def test_a_preview_has_no_worker_and_sends_one_away(page: Page, tmp_path: Path) -> None:
    write(tmp_path, town.ferry_watch(), riders())
    host = Host(tmp_path)
    visit(page, host.address + FERRY)
    host.stop()
    page.goto("about:blank")
    folder = own_templates() / "preview"
    own = {WAIT_SCRIPT: (folder / "wait.js").read_bytes(), PANEL_STYLE: (folder / "panel.css").read_bytes()}
    server = PreviewServer(tmp_path, host.port, News(), own)
    threading.Thread(target=server.serve_forever, args=(0.02,), daemon=True).start()
    page.goto(server.address + FERRY)
    until(page, "navigator.serviceWorker.getRegistrations().then(all => all.length === 0)")
    page.goto(server.address + RIDERS)
    until(page, "navigator.serviceWorker.getRegistrations().then(all => all.length === 0)")
    assert page.locator("link[rel=manifest]").count() == 0
    page.goto("about:blank")
    server.shutdown()
    server.server_close()


def test_neither_worker_nor_manifest_nor_data_is_refused(page: Page, tmp_path: Path) -> None:
    """The page's policy lets them through; a block of data is never run, so no policy is asked about it."""
    write(tmp_path, town.ferry_watch(), url="https://delta.example/club")
    page.add_init_script(
        "window.refused = []; addEventListener('securitypolicyviolation', one => refused.push(one.violatedDirective));"
    )
    with hosted(tmp_path) as host:
        visit(page, host.address + FERRY)
        assert page.locator("script[type='application/ld+json']").count() == 1
        assert (
            page.evaluate("document.querySelector('link[rel=manifest]').href")
            == host.address + "site.webmanifest"
        )
        session = page.context.new_cdp_session(page)
        app = session.send("Page.getAppManifest")
        assert app["errors"] == []
        assert '"name": "The Delta Bench"' in app["data"]
        assert page.evaluate("refused") == []
