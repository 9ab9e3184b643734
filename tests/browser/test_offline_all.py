"""Every guide kept for a hall without a network: how much, how far, what is kept, let go again, renewed with a new build."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from support import town
from support.hosted import BENCH, FERRY, RIDERS, hosted, until, visit, write
from support.rendered_town import riders
from support.town import name

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

URLS = """async () => (await Promise.all((await caches.keys()).map(async name =>
    (await (await caches.open(name)).keys()).map(request => new URL(request.url))))).flat().map(url => url.pathname + url.search)"""
HOLDS = f"async wanted => (await ({URLS})()).includes(wanted)"
LACKS = f"async wanted => !(await ({URLS})()).includes(wanted)"
MOVED = "guides/harbour-watch/index.html"


@pytest.fixture
def phone(browser: Browser) -> Page:
    context = browser.new_context(viewport={"width": 390, "height": 844})
    yield context.new_page()
    context.close()


def keep_all(page: Page, address: str) -> None:
    page.goto(address + "index.html")
    place = page.locator(".keep-all")
    place.wait_for()
    assert place.locator("[role=status]").inner_text().startswith("About 0.")
    assert page.evaluate(URLS) == ["/?seen"] or "/guides" not in str(page.evaluate(URLS))
    place.locator("button", has_text="Keep all guides on this phone").click()
    place.locator("button", has_text="Let them go again").wait_for()
    assert "All guides are kept on this phone" in place.locator("[role=status]").inner_text()


def test_every_guide_is_kept_at_once_and_let_go_again(phone: Page, tmp_path: Path) -> None:
    write(tmp_path, town.ferry_watch(), riders())
    with hosted(tmp_path) as host:
        keep_all(phone, host.address)
        host.stop()
        for path in (
            FERRY,
            BENCH,
            RIDERS,
            "guides/heron-riders/with-straw-hat.html",
            "index.html",
            "cautions.html",
        ):
            phone.goto(host.address + path)
            assert phone.locator("h1").first.inner_text() != "No network", path
        phone.goto(host.address)
        phone.locator("#find-q").fill("oilskin")
        phone.locator(".finds a").first.wait_for()
        host.start()
        phone.goto(host.address + "index.html")
        phone.locator(".keep-all button", has_text="Let them go again").click()
        phone.locator(".keep-all button", has_text="Keep all guides").wait_for()
        assert not [url for url in phone.evaluate(URLS) if url.startswith("/guides/")]
        host.stop()
        phone.goto(host.address + RIDERS)
        assert phone.locator("h1").inner_text() == "No network"
        host.start()


def test_a_new_build_renews_what_is_kept_and_brings_new_guides(phone: Page, tmp_path: Path) -> None:
    write(tmp_path, town.ferry_watch(), town.short_note())
    with hosted(tmp_path) as host:
        keep_all(phone, host.address)
        other = replace(town.ferry_watch(), title="Ferry watch in dry oilskins")
        write(tmp_path, other, town.short_note(), riders(), later=1)
        phone.goto(host.address + "index.html")
        until(phone, HOLDS, "/" + RIDERS)
        until(phone, HOLDS, "/?seen")
        host.stop()
        phone.goto(host.address + FERRY)
        assert phone.locator("h1").inner_text() == "Ferry watch in dry oilskins"
        phone.goto(host.address + RIDERS)
        assert phone.locator("h1").inner_text() == "Heron riders"
        host.start()


def test_where_the_network_goes_half_way_it_says_so_and_goes_on_later(phone: Page, tmp_path: Path) -> None:
    write(tmp_path, town.ferry_watch(), riders())
    with hosted(tmp_path) as host:
        phone.goto(host.address + "index.html")
        place = phone.locator(".keep-all")
        place.wait_for()
        host.stop()
        place.locator("button").first.click()
        place.get_by_text("pages are kept", exact=False).wait_for()
        assert place.locator("button").first.is_visible()
        host.start()
        place.locator("button").first.click()
        place.locator("button", has_text="Let them go again").wait_for()
        place.get_by_text("All guides are kept", exact=False).wait_for()


def test_a_kept_guide_that_is_renamed_is_kept_under_its_new_address(phone: Page, tmp_path: Path) -> None:
    write(tmp_path, town.ferry_watch(), riders())
    with hosted(tmp_path) as host:
        visit(phone, host.address + FERRY)
        moved = replace(
            town.ferry_watch(), slug="harbour-watch", title="Harbour watch", was=(name("ferry-watch"),)
        )
        write(tmp_path, moved, riders(), later=1)
        phone.goto(host.address + RIDERS)
        until(phone, HOLDS, "/" + MOVED)
        until(phone, HOLDS, "/guides/harbour-watch/bench.html")
        host.stop()
        phone.goto(host.address + FERRY)
        phone.wait_for_url("**/" + MOVED)
        assert phone.locator("h1").inner_text() == "Harbour watch"
        phone.goto(host.address + "guides/nowhere/index.html")
        kept = phone.locator("main li").all_inner_texts()
        assert [one for one in kept if "Ferry watch" in one] == []
        assert len([one for one in kept if "Harbour watch" in one]) == 2
        host.start()
