"""Trying colours in a real Chromium, from the disk: by thumb and by keys, kept, sent as an address, hostile addresses."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from support.trying import begun, drawn, made, opened, order, painted, take, touch

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return made(tmp_path_factory.mktemp("trying"))


def test_a_scheme_is_painted_undone_and_scrubbed(page: Page, site: Path) -> None:
    painted(page, site)
    assert order(page) == [
        "Slate Undercoat brush undercoat the whole figure",
        "Oilskin Ochre base coat coat, hood",
        "Bilge Wash wash coat",
        "Lantern Brass base coat lantern",
    ]
    done = drawn(page)
    page.locator(".try-range").fill("1")
    assert set(drawn(page)) == {"#3b4045"} | (set(drawn(page)) - {"#b8862f", "#b08d3e"})
    assert "#b8862f" not in drawn(page)
    page.locator(".try-range").fill("4")
    assert drawn(page) == done
    touch(page, "boots")
    assert order(page)[-1].endswith("lantern, boots")
    page.get_by_role("button", name="Undo").click()
    assert drawn(page) == done
    page.get_by_role("button", name=re.compile("Take out: Lantern Brass")).click()
    assert len(order(page)) == 3
    page.get_by_role("button", name=re.compile("Later: Oilskin Ochre")).click()
    assert order(page)[1].startswith("Bilge Wash")


def test_an_undercoat_touched_again_is_one_undercoat(page: Page, site: Path) -> None:
    begun(page, site)
    take(page, "Slate Undercoat", "brush undercoat")
    touch(page, "coat")
    touch(page, "hood")
    touch(page, "coat")
    assert order(page) == ["Slate Undercoat brush undercoat the whole figure"]
    take(page, "Gull White", "brush undercoat")
    touch(page, "coat")
    touch(page, "hood")
    assert len(order(page)) == 2
    page.get_by_role("button", name="Undo").click()
    assert len(order(page)) == 1


def test_it_is_sent_as_an_address_and_opened_elsewhere(page: Page, site: Path, browser: Browser) -> None:
    painted(page, site)
    page.get_by_role("button", name="Address to send").click()
    page.wait_for_function("() => location.hash.length > 20")
    place = page.evaluate("location.hash")
    assert len(place) < 2000
    other = browser.new_context().new_page()
    opened(other, site, place).wait_for_selector(".try-pot")
    assert order(other) == order(page)
    assert drawn(other) == drawn(page)
    other.context.close()


def test_an_address_takes_nothing_from_what_was_kept(page: Page, site: Path) -> None:
    painted(page, site)
    page.get_by_role("button", name="Address to send").click()
    page.wait_for_function("() => location.hash.length > 20")
    place = page.evaluate("location.hash")
    page.get_by_role("button", name=re.compile("Take out: Lantern Brass")).click()
    mine = order(page)
    page.goto("about:blank")
    opened(page, site, place).wait_for_selector(".try-pot")
    assert len(order(page)) == len(mine) + 1
    page.get_by_role("button", name="Take back what you had").click()
    page.wait_for_function("() => !location.hash && document.querySelector('.try-pot')")
    assert order(page) == mine
    assert page.locator(".try-own").is_hidden()


def test_a_step_is_dragged_to_another_place(page: Page, site: Path) -> None:
    painted(page, site)
    page.locator(".try-steps").scroll_into_view_if_needed()
    grips = page.locator(".try-steps .grip")
    grips.nth(1).hover()
    page.mouse.down()
    grips.nth(2).hover()
    page.mouse.up()
    assert [each.split()[0] for each in order(page)] == ["Slate", "Bilge", "Oilskin", "Lantern"]


def test_the_usual_order_goes_from_the_inside_out(page: Page, site: Path) -> None:
    """What is drawn first lies beneath; a step of several areas goes with the lowest of them."""
    begun(page, site)
    take(page, "Wet Deck")
    touch(page, "boots")
    take(page, "Gull White", "highlight")
    touch(page, "hood")
    take(page, "Lantern Brass", "base coat")
    touch(page, "lantern")
    take(page, "Gull White", "base coat")
    touch(page, "straps")
    take(page, "Gull White", "wash")
    touch(page, "coat")
    take(page, "Oilskin Ochre", "base coat")
    touch(page, "hood")
    take(page, "Slate", "base coat")
    touch(page, "coat")
    take(page, "Oilskin Ochre", "base coat")
    touch(page, "boots")
    take(page, "Gull White", "base coat")
    touch(page, "trousers", "face")
    page.locator(".try-take summary").click()
    page.get_by_role("button", name="usual order").click()
    assert [each.rpartition(" coat ")[2] for each in order(page)[:5]] == [
        "trousers, face",
        "boots",
        "coat",
        "straps",
        "hood",
    ]
    assert [each.split()[-2:] for each in order(page)[5:]] == [
        ["wash", "coat"],
        ["highlight", "hood"],
        ["coat", "lantern"],
        ["varnish", "boots"],
    ]
    page.locator(".try-undo").click()
    assert order(page)[0].endswith("varnish boots")


def test_one_area_s_steps_stay_as_they_were_in_the_usual_order(page: Page, site: Path) -> None:
    begun(page, site)
    for name, area in (("Gull White", "boots"), ("Oilskin Ochre", "boots"), ("Slate", "trousers")):
        take(page, name, "base coat")
        touch(page, area)
    page.locator(".try-take summary").click()
    page.get_by_role("button", name="usual order").click()
    assert [" ".join(each.split()[:2]) for each in order(page)[1:]] == ["Gull White", "Oilskin Ochre"]


def test_a_guide_and_a_starter_chart_may_have_one_name(page: Page, site: Path) -> None:
    names = opened(page, site).locator("[data-name]").evaluate_all("all => all.map(one => one.dataset.name)")
    assert len(names) == len(set(names)) == 7
    assert "guides/ferry-watch" in names


@pytest.mark.parametrize("spoil", [
    lambda text: text[:-9],
    lambda text: text[:30] + "A" + text[31:],
    lambda text: "#" + "<img src=x onerror=alert(1)>" * 3,
    lambda text: "#" + "%" * 60,
])  # fmt: skip
def test_a_broken_address_is_told(page: Page, site: Path, spoil: Any) -> None:
    painted(page, site)
    page.get_by_role("button", name="Address to send").click()
    page.wait_for_function("() => location.hash.length > 20")
    place = spoil(page.evaluate("location.hash"))
    page.evaluate("localStorage.clear()")
    page.goto("about:blank")
    opened(page, site, place)
    page.wait_for_function("() => document.querySelector('.try-told').textContent.includes('broken')")
    assert page.locator(".try-bench").is_hidden()
    assert page.locator("img[src=x]").count() == 0


@pytest.mark.parametrize("kept", [
    "{", "[]", "7", '{"schemes": 3}', '{"schemes": [{"name": "<b>", "figure": "watchman", "steps": [{}]}, {}, {}], "shown": 9}',
])  # fmt: skip
def test_a_broken_store_is_told(page: Page, site: Path, kept: str) -> None:
    opened(page, site)
    page.evaluate(
        "([key, kept]) => localStorage.setItem(key, kept)",
        [page.get_attribute(".try-bench", "data-store"), kept],
    )
    page.reload()
    page.wait_for_function("() => document.querySelector('.try-told').textContent.includes('cannot be read')")
    page.click("[data-figure='try/watchman.js']")
    page.wait_for_selector(".try-pot")


def test_it_is_kept_and_three_stand_side_by_side(page: Page, site: Path) -> None:
    painted(page, site)
    shown = drawn(page)
    page.get_by_role("button", name="Copy the shown one here").first.click()
    take(page, "Slate</b>", "base coat")
    touch(page, "hood")
    assert drawn(page) != shown
    page.reload()
    page.wait_for_selector(".try-pot")
    assert len(order(page)) == 5
    page.get_by_role("button", name="Show Scheme 1").click()
    assert drawn(page) == shown
    page.get_by_role("button", name="Another figure").click()
    page.click("[data-figure='try/ferry.js']")
    page.wait_for_function(
        "() => document.querySelector('.try-told').textContent.includes('not on this figure')"
    )
    assert order(page)[0] == "Slate Undercoat brush undercoat the whole figure"


def test_by_keys_alone(page: Page, site: Path) -> None:
    opened(page, site)
    page.locator("[data-figure='try/watchman.js']").focus()
    page.keyboard.press("Enter")
    page.wait_for_selector(".try-pot")
    assert page.evaluate("document.activeElement.className") == "try-pot"
    page.keyboard.press("Enter")
    page.locator(".try-table summary").focus()
    page.keyboard.press("Enter")
    button = page.get_by_role("button", name="Paint hood", exact=True)
    button.focus()
    page.keyboard.press("Enter")
    assert order(page) == ["Slate Undercoat brush undercoat the whole figure"]
    assert page.evaluate("document.activeElement.getAttribute('aria-label')") == "Paint hood"
    assert "#3b4045" in page.locator(".try-table tbody tr", has_text="hood").inner_text()
    page.keyboard.press("Control+z")
    assert order(page) == []


def test_a_kind_of_pot_that_nobody_knows_goes_on_as_a_paint(page: Page, site: Path) -> None:
    kept = '{"pots": [{"name": "Moss", "own": true, "kind": "constructor", "colour": "#4a5a2c"}]}'
    opened(page, site).evaluate(
        "([key, kept]) => localStorage.setItem(key, kept)",
        [page.get_attribute(".try-bench", "data-mine"), kept],
    )
    page.reload()
    begun(page, site)
    take(page, "Moss")
    touch(page, "coat")
    assert order(page) == ["Moss base coat coat"]


def test_the_readers_own_pots_are_in_the_tray(page: Page, site: Path) -> None:
    opened(page, site)
    kept = (
        '{"pots": [{"name": "Gull White", "state": "dry"}, {"name": "Reedbank / Oilskin Ochre", "state": "full"}, '
        '{"name": "Old <i>Moss</i>", "own": true, "kind": "paint", "colour": "#4a5a2c", "state": "low"}]}'
    )
    page.evaluate(
        "([key, kept]) => localStorage.setItem(key, kept)",
        [page.get_attribute(".try-bench", "data-mine"), kept],
    )
    begun(page, site)
    page.locator(".try-from").select_option("mine")
    assert sorted(page.locator(".try-pot").all_inner_texts()) == ["Oilskin Ochre", "Old <i>Moss</i>"]
    take(page, "Moss")
    touch(page, "coat")
    assert order(page) == ["Old <i>Moss</i> base coat coat"]
    page.reload()
    page.wait_for_selector(".try-pot")
    assert order(page) == ["Old <i>Moss</i> base coat coat"]
