"""The reader's number of figures: it holds over guide, bench, sheet, tools and materials, and over a reload."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from support import town
from support.content_folders import put
from support.rendered_town import riders, site_of
from support.sent_guides import club, parcel
from support.waiting import until

from guidegen.model.names import Item

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

GUIDE, BENCH = "guides/ferry-watch/index.html", "guides/ferry-watch/bench.html"


def item(name: str, amount: str) -> Item:
    return Item(name=name, amount=amount, span=town.HERE)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    guide = replace(
        town.ferry_watch(),
        tools=(item("corks", "10"), item("tweezers", "2"), item("ruler", "15 cm")),
        materials=(item("gel", "5 ml"), item("rods", "3"), item("sand", "a spoonful"), item("cord", "1,5 m")),
    )
    return put(tmp_path_factory.mktemp("kept"), site_of(town.archive(guide, riders())))


def choose(page: Page, figures: int) -> None:
    page.fill("#figures", str(figures))
    page.dispatch_event("#figures", "change")


def amounts(page: Page) -> list[str]:
    return page.locator("[data-amount]").all_inner_texts()


def has_figures(page: Page, number: str) -> None:
    """A click on a link is over before the next page's script has run."""
    until(lambda: page.input_value("#figures") == number)


def test_it_holds_on_every_page_of_the_guide_and_over_a_reload(page: Page, folder: Path) -> None:
    page.goto((folder / GUIDE).as_uri())
    hands_on = page.locator("[data-show='whole.handsOn']").first
    of_ten = hands_on.inner_text()
    choose(page, 20)
    of_twenty = hands_on.inner_text()
    assert of_twenty != of_ten
    page.reload()
    assert (page.input_value("#figures"), hands_on.inner_text()) == ("20", of_twenty)
    page.locator(".to-bench a").first.click()
    has_figures(page, "20")
    page.wait_for_url(lambda url: url.endswith("bench.html"))
    assert page.locator("#step-coats .count").inner_text() == "Coat 1 of 2: 0 of 20"
    sheet = page.locator(".sheet-head").text_content() or ""
    assert "20 figures" in sheet
    assert of_twenty in sheet
    choose(page, 7)
    page.locator(".to-guide").click()
    has_figures(page, "7")


def test_what_is_counted_grows_with_it_and_what_is_shared_does_not(page: Page, folder: Path) -> None:
    page.goto((folder / GUIDE).as_uri())
    written = ["10", "2", "15 cm", "5 ml", "3", "a spoonful", "1,5 m"]
    assert amounts(page) == written
    choose(page, 25)
    assert amounts(page) == ["25", "2", "15 cm", "13 ml", "8", "a spoonful", "3.8 m"]
    choose(page, 3)
    assert amounts(page) == ["3", "2", "15 cm", "1.5 ml", "1", "a spoonful", "0.45 m"]
    choose(page, 10)
    assert amounts(page) == written


def test_each_guide_has_its_own_and_all_its_variants_have_one(page: Page, folder: Path) -> None:
    page.goto((folder / "guides/heron-riders/index.html").as_uri())
    choose(page, 4)
    page.locator(".choice a", has_text="straw hat").click()
    has_figures(page, "4")
    page.goto((folder / "guides/heron-riders/bench-with-straw-hat.html").as_uri())
    has_figures(page, "4")
    page.goto((folder / GUIDE).as_uri())
    has_figures(page, "10")


def test_variants_are_ticked_apart(page: Page, folder: Path) -> None:
    for file in ("bench.html", "bench-with-straw-hat.html"):
        page.goto((folder / "guides/heron-riders" / file).as_uri())
        assert page.locator("#step-coat .count").inner_text() == "0 of 10"
        page.locator("#step-coat .do").click()


def test_what_plans_could_share_is_kept_by_site_guide_unit_and_batch(page: Page, folder: Path) -> None:
    page.goto((folder / GUIDE).as_uri())
    choose(page, 20)
    assert page.evaluate("Object.keys(localStorage)") == ["guidegen:The Delta Bench:ferry-watch::1"]


def test_links_carry_it_where_each_file_has_a_store_of_its_own(browser: Browser, folder: Path) -> None:
    def alone() -> Page:
        page = browser.new_context().new_page()
        page.goto((folder / GUIDE).as_uri())
        return page

    page = alone()
    assert not any("figures=" in (link.get_attribute("href") or "") for link in page.locator("a[href]").all())
    choose(page, 20)
    page.reload()
    to_bench = page.locator(".to-bench a").first.get_attribute("href") or ""
    page.context.close()
    page = alone()
    page.goto(
        (folder / "guides/ferry-watch" / to_bench.partition("#")[0]).as_uri()
        + "#"
        + to_bench.partition("#")[2]
    )
    has_figures(page, "20")
    page.wait_for_url(lambda url: url.endswith("bench.html"))
    page.goto("about:blank")
    page.goto((folder / BENCH).as_uri() + "#step-coats&figures=33")
    page.wait_for_url(lambda url: url.endswith("#step-coats"))
    has_figures(page, "33")
    page.reload()
    has_figures(page, "33")
    page.context.close()


def test_a_page_that_is_open_follows(page: Page, folder: Path) -> None:
    other = page.context.new_page()
    other.goto((folder / BENCH).as_uri())
    page.goto((folder / GUIDE).as_uri())
    choose(page, 20)
    assert other.evaluate(
        """() => new Promise(done => {
            const look = () => document.querySelector("#figures").value === "20" ? done(true) : setTimeout(look, 50);
            look();
        })"""
    )


def test_a_guide_that_was_sent_keeps_it_too(page: Page, tmp_path: Path) -> None:
    file = tmp_path / "ferry-watch.html"
    parcel(club(tmp_path / "content"), tmp_path / "cache", file, "ferry-watch")
    page.goto(file.as_uri())
    choose(page, 20)
    page.reload()
    has_figures(page, "20")
    box = page.locator(".tick").first.bounding_box()
    assert box is not None
    assert box["height"] >= 44
