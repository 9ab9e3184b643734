"""Turning in a real Chromium: photos that open large, steps by arrow key, and places that can be shared."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from support import town
from support.benches import until
from support.content_folders import put
from support.rendered_town import site_of, soup

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

GUIDE = "guides/ferry-watch/index.html"
HERE = "location.hash"
OPEN = "document.querySelector('dialog').open"
WORDS = "document.querySelector('.large-words').textContent"
FOCUS = "document.activeElement.getAttribute('href')"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return put(tmp_path_factory.mktemp("turning"), site_of(town.archive(town.ferry_watch())))


@pytest.fixture
def guide(page: Page, folder: Path) -> Page:
    page.emulate_media(reduced_motion="reduce")
    page.goto((folder / GUIDE).as_uri())
    return page


def test_a_photo_opens_large_and_closing_goes_back(guide: Page) -> None:
    link = guide.locator("#step-coats .photo a")
    link.focus()
    guide.keyboard.press("Enter")
    assert guide.evaluate(OPEN) is True
    assert guide.evaluate(WORDS) == "A pair of even coats of ochre on the oilskins 2/3"
    assert (
        guide.locator(".large-photo img").get_attribute("alt")
        == "A pair of even coats of ochre on the oilskins"
    )
    # The widest that there is.
    until(guide, "document.querySelector('.large-photo img').currentSrc.endsWith('coats-1600.webp')")
    guide.keyboard.press("Escape")
    assert guide.evaluate(OPEN) is False
    assert guide.evaluate(FOCUS) == link.get_attribute("href")
    link.click()
    guide.get_by_role("button", name="Close").click()
    assert guide.evaluate(OPEN) is False
    assert guide.evaluate(FOCUS) == link.get_attribute("href")


def test_from_photo_to_photo_by_keys_and_buttons(guide: Page) -> None:
    guide.locator(".head .photo a").click()
    seen = [guide.evaluate(WORDS)]
    for key in ("ArrowRight", "ArrowRight", "ArrowRight", "ArrowLeft"):
        guide.keyboard.press(key)
        seen.append(guide.evaluate(WORDS))
    assert [words[-3:] for words in seen] == ["1/3", "2/3", "3/3", "1/3", "3/3"]
    guide.get_by_role("button", name="Previous").click()
    assert guide.evaluate(WORDS).endswith("2/3")
    guide.get_by_role("button", name="Next").click()
    assert guide.evaluate(WORDS).endswith("3/3")
    assert guide.evaluate(HERE) == ""
    # Whoever tabs on stays with the photo.
    for _ in range(8):
        guide.keyboard.press("Tab")
        assert guide.evaluate(
            "document.activeElement === document.body || !!document.activeElement.closest('dialog')"
        )


def test_the_large_photo_fits_the_screen(guide: Page) -> None:
    for width, height in ((390, 844), (844, 390), (1280, 800)):
        guide.set_viewport_size({"width": width, "height": height})
        guide.locator(".head .photo a").click()
        for part in guide.locator("dialog button").all():
            box = part.bounding_box()
            assert box is not None
            assert box["x"] >= 0
            assert box["x"] + box["width"] <= width
            assert box["y"] + box["height"] <= height
        guide.keyboard.press("Escape")


def test_without_scripts_a_photo_is_a_link_to_the_large_file(browser: Browser, folder: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((folder / GUIDE).as_uri())
    assert page.locator("#step-coats .photo a").get_attribute("href") == "../../assets/photos/coats-1600.jpg"
    assert not page.locator("dialog").is_visible()
    assert not page.locator(".by-key").is_visible()
    context.close()


def test_the_arrow_keys_lead_from_step_to_step(guide: Page) -> None:
    places = []
    for key in ("ArrowRight", "ArrowRight", "ArrowRight", "ArrowLeft"):
        guide.keyboard.press(key)
        places.append((guide.evaluate(HERE), guide.evaluate(FOCUS)))
    assert places == [
        (place, place) for place in ("#step-prime", "#step-coats", "#step-trousers-and-caps", "#step-coats")
    ]
    # From where one reads, once the step that had the focus is far off.
    guide.locator("#step-seal").evaluate("step => step.scrollIntoView()")
    guide.keyboard.press("ArrowRight")
    assert guide.evaluate(HERE) == "#step-puddles"
    for _ in range(3):
        guide.keyboard.press("ArrowRight")
    assert guide.evaluate(HERE) == "#ending"


def test_the_arrow_keys_stay_with_what_has_its_own_use_for_them(guide: Page) -> None:
    guide.focus("#figures")
    guide.keyboard.press("ArrowRight")
    guide.locator(".scroll").first.focus()
    guide.keyboard.press("ArrowRight")
    guide.keyboard.press("Alt+ArrowRight")
    guide.keyboard.press("j")
    assert guide.evaluate(HERE) == ""


def test_every_step_can_be_shared_by_its_title() -> None:
    guide = town.ferry_watch()
    fewer = replace(guide, entries=guide.entries[1:])
    links = []
    for one in (guide, fewer):
        page = soup(site_of(town.archive(one)), GUIDE)
        rows = page.select(".flow .step, .flow .stop")
        assert all(row.h3.a["href"] == f"#{row['id']}" for row in rows)
        listed = [link["href"] for link in page.select(".step-list a")]
        assert listed == [f"#{row['id']}" for row in rows if row["id"] != "ending"]
        links.append(listed)
    assert links[0][1:] == links[1]
    assert "#stop-fit-to-field" in links[0]
