"""Ways through the search in a real Chromium: keyboard, address, phone, nothing found, no scripts, and what axe says."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from support.axe import axe_page, violations
from support.search_archive import FERRY, FETCHED, LOCK, STREET, built, ready, sought, titles

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built(tmp_path_factory.mktemp("search"))


@pytest.fixture
def home(page: Page, site: Path) -> Page:
    page.goto((site / "index.html").as_uri())
    return page


def test_the_address_keeps_what_is_sought(home: Page, site: Path) -> None:
    ready(home)
    home.fill("#find-q", "große")
    home.select_option("#find-tag", "ferry")
    assert titles(home) == [STREET]
    home.wait_for_url(lambda url: url.endswith("#q=gro%C3%9Fe&tag=ferry"))
    address = home.url
    home.locator(".finds h2 a").click()
    home.wait_for_url("**/guides/grosse-strasse/index.html")
    home.go_back()
    home.locator(".finds h2").wait_for()
    assert home.input_value("#find-q") == "große"
    home.goto((site / "colours.html").as_uri())
    home.goto(address)
    home.locator(".finds h2").wait_for()
    assert (titles(home), home.input_value("#find-tag")) == ([STREET], "ferry")
    # An address may be changed by hand, or have nonsense in it.
    home.evaluate("location.hash = 'q=boots&tag=nobody&time=7&shelf'")
    home.wait_for_function("() => document.querySelector('#find-q').value === 'boots'")
    assert (home.input_value("#find-tag"), home.is_checked("#find-shelf")) == ("", True)
    home.click(".find-clear")
    home.wait_for_url(lambda url: "#" not in url)


def test_other_pages_lead_into_the_search(page: Page, tmp_path: Path) -> None:
    guides = "".join(
        f"» guides/watch-{n}/guide.md\n---\ntitle: Watch {n}\nfigures: 1\n"
        "steps: [{step: Coat, technique: dry brush, area: coat, paint: Fog Grey, each: 1 min}]\n---\n"
        for n in range(8)
    )
    site = built(tmp_path, f"» palette.yaml\npaints: [{{name: Fog Grey, colour: 8f9491}}]\n{guides}")
    page.goto((site / "techniques.html").as_uri())
    page.get_by_role("link", name="all 8 guides").click()
    page.locator(".finds h2").first.wait_for()
    assert page.input_value("#find-q") == "dry brush"
    assert len(titles(page)) == 8


def test_a_place_on_the_page_is_no_search(page: Page, site: Path) -> None:
    page.goto((site / "index.html").as_uri() + "#main")
    assert page.locator(".all-guides").is_visible()
    assert page.locator("script[src='search-index.js']").count() == 0


def test_nothing_found_says_so_and_leads_back(home: Page) -> None:
    ready(home)
    assert sought(home, "zebra") == []
    assert home.locator(".find-none").is_visible()
    assert home.locator(".find [role=status]").inner_text() == "0 of 4 guides"
    home.click(".find-clear")
    assert home.locator(".all-guides").is_visible()
    assert home.locator(".find-out").is_hidden()
    assert home.evaluate("document.activeElement.id") == "find-q"
    assert home.locator(".find-clear").is_hidden()


def test_the_keyboard_is_enough(home: Page) -> None:
    ready(home)
    home.focus("#find-q")
    home.keyboard.type("boots")
    home.keyboard.press("Enter")
    assert home.evaluate("document.activeElement.textContent") == LOCK
    home.focus("#find-q")
    home.keyboard.press("Escape")
    assert home.input_value("#find-q") == ""
    assert home.locator(".all-guides").is_visible()
    home.keyboard.press("Tab")
    assert home.evaluate("document.activeElement.id") == "find-tag"
    home.keyboard.press("Tab")
    home.keyboard.press("Tab")
    home.keyboard.press("Space")
    assert titles(home) == [FERRY, STREET]


def test_the_index_comes_with_the_first_touch_alone(page: Page, site: Path) -> None:
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.rpartition("/")[2]))
    page.goto((site / "index.html").as_uri())
    assert "search-index.js" not in asked
    page.focus("#find-tag")
    page.wait_for_function(FETCHED)
    ready(page)
    assert asked.count("search-index.js") == 1


def test_an_index_that_cannot_be_fetched_leaves_the_list(browser: Browser, site: Path) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto((site / "index.html").as_uri())
    page.evaluate("document.querySelector('.find').dataset.index = 'gone.js'")
    page.fill("#find-q", "ferry")
    page.wait_for_function(
        "() => document.querySelector('.find [role=status]').textContent.startsWith('The index could not')"
    )
    assert page.locator(".all-guides").is_visible()
    context.close()


def test_without_scripts_the_page_is_a_list(browser: Browser, site: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / "index.html").as_uri() + "#q=ferry")
    assert page.locator(".card h2 a").count() == 4
    assert page.locator("form, input, select, button, .find-out").filter(visible=True).count() == 0
    assert page.locator(".card h2 a").first.is_visible()
    context.close()


def test_many_are_shown_in_parts(page: Page, tmp_path: Path) -> None:
    guides = "".join(
        f"» guides/watch-{n:02}/guide.md\n---\ntitle: Watch {n}\nfigures: 1\n"
        "steps: [{step: Coat, area: coat, paint: Fog Grey, each: 1 min}]\n---\n"
        for n in range(40)
    )
    site = built(tmp_path, f"» palette.yaml\npaints: [{{name: Fog Grey, colour: 8f9491}}]\n{guides}")
    page.goto((site / "index.html").as_uri() + "#q=watch")
    page.locator(".finds h2").first.wait_for()
    assert page.locator(".finds > li").count() == 24
    assert page.locator(".find [role=status]").inner_text() == "40 of 40 guides"
    page.locator(".find-more", has_text="Show 16 more").click()
    assert page.locator(".finds > li").count() == 40
    assert page.locator(".find-more").is_hidden()
    assert page.evaluate(
        "document.activeElement.closest('li') === document.querySelectorAll('.finds > li')[24]"
    )


@pytest.mark.parametrize(("scheme", "width"), [("light", 1280), ("dark", 390)])
def test_axe_finds_nothing_on_results_and_on_none(
    browser: Browser, site: Path, scheme: Any, width: int
) -> None:
    found = []
    with axe_page(browser, scheme, width) as page:
        for address in ("index.html", "index.html#q=coats&tag=ferry", "index.html#q=zebra", "colours.html"):
            page.goto("about:blank")
            page.goto((site / "index.html").as_uri().replace("index.html", address))
            if "#" in address:
                page.locator(".find-out:not([hidden])").wait_for()
            found += [(address, *broken) for broken in violations(page)]
    assert found == []


@pytest.mark.parametrize("width", [320, 390])
def test_results_fit_a_phone_and_take_a_finger(page: Page, site: Path, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    page.goto((site / "index.html").as_uri() + "#q=coats")
    page.locator(".finds h2").first.wait_for()
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    small = page.evaluate(
        """() => [...document.querySelectorAll(".find input, .find select, .find button, .why a")]
            .map(place => [place.outerHTML.slice(0, 80), place.getBoundingClientRect()])
            .filter(([, box]) => box.width && (box.width < 24 || box.height < 24)).map(([html]) => html)"""
    )
    assert small == []


def test_the_form_moves_nothing_when_it_comes(page: Page, site: Path) -> None:
    """Its room is kept where scripts run, so that the list does not jump below a reader's finger."""
    for width in (390, 1280):
        page.set_viewport_size({"width": width, "height": 800})
        page.goto((site / "index.html").as_uri())
        room, form = page.evaluate(
            """() => {
                const place = document.querySelector(".find-place"), before = place.getBoundingClientRect().height;
                document.querySelector(".find").hidden = true;
                return [place.getBoundingClientRect().height, before];
            }"""
        )
        assert abs(room - form) <= 1, width
