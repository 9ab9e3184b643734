"""Trying colours by thumb on a small phone, by the tab key alone, and in German."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from PIL import Image
from support.axe import axe_page, violations
from support.content_folders import lay_out
from support.trying import CONTENT, SPOT, begun, built, made, opened, order

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

# More tab stops than the page has before any of its parts.
MOST_STOPS = 150
WAYS = 7


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return made(tmp_path_factory.mktemp("trying"))


@pytest.fixture(scope="module")
def german(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("german")
    return built(
        at / "site", lay_out(at / "content", CONTENT.replace("title: The", "language: de\ntitle: The"))
    )


def test_by_thumb_all_that_a_stroke_needs_is_on_one_screen(browser: Browser, site: Path) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 664}, has_touch=True, is_mobile=True)
    page = opened(context.new_page(), site)
    page.locator("[data-figure='try/watchman.js']").tap()
    page.wait_for_selector(".try-pot")
    for name, area in (("Slate Undercoat", "coat"), ("Oilskin Ochre", "coat"), ("Bilge Wash", "coat")):
        pick = page.locator(".try-pot", has_text=name).first
        pick.scroll_into_view_if_needed()
        at = page.evaluate("scrollY")
        boxes = [page.locator(css).bounding_box() for css in (".try-figure", ".try-ways", ".try-held")]
        for box in (*boxes, pick.bounding_box()):
            assert box is not None
            assert box["y"] >= 0
            assert box["y"] + box["height"] <= 664
        pick.tap()
        page.touchscreen.tap(*page.evaluate(SPOT, area))
        assert page.evaluate("scrollY") == at
    assert [each.partition(" coat")[0] for each in order(page)] == [
        "Slate Undercoat brush undercoat the whole figure",
        "Oilskin Ochre base",
        "Bilge Wash wash",
    ]
    small = page.eval_on_selector_all(
        ".try-work button, .try-work select, .try-ways label, .try-range",
        """all => all.filter(each => each.offsetParent).map(each => [each.className || each.textContent, each.getBoundingClientRect()])
             .filter(([, box]) => box.width < 40 || box.height < 40).map(([name]) => name)""",
    )
    assert small == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    context.close()


def test_a_hint_of_two_lines_leaves_both_rows_of_pots_on_the_screen(browser: Browser, german: Path) -> None:
    context = browser.new_context(viewport={"width": 390, "height": 664}, has_touch=True, is_mobile=True)
    page = opened(context.new_page(), german)
    page.locator("[data-figure='try/watchman.js']").tap()
    page.wait_for_selector(".try-pot")
    for _ in range(2):
        lines = page.evaluate(
            """() => { const said = document.createRange(); said.selectNodeContents(document.querySelector('.try-held'));
              return new Set([...said.getClientRects()].map(each => Math.round(each.top))).size; }"""
        )
        assert lines == 2
        tops = {
            (box := page.locator(".try-pot").nth(n).bounding_box() or pytest.fail("no box"))["y"]
            + box["height"]
            for n in range(2)
        }
        assert len(tops) == 2
        assert max(tops) <= 664
        page.locator(".try-pot", has_text="Ferryman").tap()
    context.close()


@pytest.mark.parametrize("before", [".try-pot", ".try-q"])
def test_what_a_thumb_touches_is_painted_though_the_figure_moves(
    browser: Browser, site: Path, before: str
) -> None:
    """The figure stays in sight, but for what has the keys; that ends as soon as the thumb comes down."""
    context = browser.new_context(viewport={"width": 390, "height": 664}, has_touch=True, is_mobile=True)
    page = opened(context.new_page(), site)
    page.locator("[data-figure='try/watchman.js']").tap()
    page.locator(".try-pot", has_text="Ochre").tap()
    page.locator(before).first.focus()
    page.evaluate("document.querySelector('.try-stage').scrollIntoView(); scrollBy(0, 120)")
    page.touchscreen.tap(*page.evaluate(SPOT, "boots"))
    page.wait_for_selector(".try-steps ol li")
    assert order(page) == ["Oilskin Ochre base coat boots"]
    context.close()


def _tab_to(page: Page, name: str) -> None:
    """Press the tab key until what has the focus is called so."""
    for _ in range(MOST_STOPS):
        page.keyboard.press("Tab")
        called = page.evaluate(
            """() => { const at = document.activeElement, [label] = at.labels || [];
              return (at.getAttribute("aria-label") || (label || at).textContent).trim(); }"""
        )
        if called == name:
            return
    pytest.fail(f"“{name}” is not reached by the tab key")


def test_by_keys_alone_from_the_figure_to_the_draft(page: Page, site: Path, tmp_path: Path) -> None:
    opened(page, site)
    _tab_to(page, "Watchman with boathook and lantern")
    page.keyboard.press("Enter")
    page.wait_for_selector(".try-pot")
    page.keyboard.press("Enter")  # the undercoat has the focus
    _tab_to(page, "Areas and steps as a table")
    page.keyboard.press("Enter")
    _tab_to(page, "Paint coat")
    page.keyboard.press("Enter")
    page.evaluate("document.activeElement.blur()")
    _tab_to(page, "Find a pot")
    page.keyboard.type("ochre")
    _tab_to(page, "Oilskin Ochre")
    page.keyboard.press("Enter")
    _tab_to(page, "Paint coat")
    page.keyboard.press("Enter")
    page.evaluate("document.activeElement.blur()")
    _tab_to(page, "Find a pot")
    page.keyboard.press("Control+a")
    page.keyboard.type("white")
    _tab_to(page, "Gull White")
    page.keyboard.press("Enter")
    for _ in range(MOST_STOPS):  # back to the ways, one tab stop among them
        page.keyboard.press("Shift+Tab")
        if page.evaluate("document.activeElement.name") == "try-way":
            break
    for _ in range(WAYS):
        page.keyboard.press("ArrowRight")
        if page.evaluate("document.activeElement.value") == "highlight":
            break
    _tab_to(page, "Paint coat")
    page.keyboard.press("Enter")
    assert order(page) == [
        "Slate Undercoat brush undercoat the whole figure",
        "Oilskin Ochre base coat coat",
        "Gull White highlight coat",
    ]
    page.evaluate("document.activeElement.blur()")
    _tab_to(page, "Earlier: Gull White, highlight: coat")
    page.keyboard.press("Enter")
    assert order(page)[1] == "Gull White highlight coat"
    page.keyboard.press("Control+z")
    assert order(page)[2] == "Gull White highlight coat"
    page.evaluate("document.activeElement.blur()")
    _tab_to(page, "Take it along")
    page.keyboard.press("Enter")
    _tab_to(page, "Save as a file")
    with page.expect_download() as saved:
        page.keyboard.press("Enter")
    saved.value.save_as(tmp_path / "draft.md")
    assert "    technique: highlight\n" in (tmp_path / "draft.md").read_text(encoding="utf-8")


def test_by_keys_a_colour_is_taken_from_any_place_of_a_picture(
    page: Page, site: Path, tmp_path: Path
) -> None:
    picture = Image.new("RGB", (100, 60), "#b8862f")
    picture.paste("#4c5660", (60, 0, 100, 60))
    picture.paste("#f0efe8", (60, 40, 100, 60))
    picture.save(tmp_path / "picture.png")
    begun(page, site)
    page.locator(".try-from-picture summary").focus()
    page.keyboard.press("Enter")
    page.set_input_files(".try-from-picture input", tmp_path / "picture.png")
    page.wait_for_selector(".try-from-picture canvas:not([hidden])")
    told = page.locator(".try-picture-told")
    for _ in range(MOST_STOPS):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.localName") == "canvas":
            break
    assert page.locator(".try-sight").is_visible()
    near = page.locator(".try-near button")
    page.keyboard.press("Enter")
    assert "#b8862f" in near.inner_text()
    for _ in range(2):
        page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("ArrowDown")
    assert "#4c5660" in told.inner_text()
    assert "#b8862f" in near.inner_text()
    page.keyboard.press("Enter")
    assert "#4c5660" in near.inner_text()
    for _ in range(9):
        page.keyboard.press("Shift+ArrowDown")  # no farther than the edge
    page.keyboard.press(" ")
    assert "#f0efe8" in near.inner_text()
    assert page.locator(".try-pot").first.inner_text() == "Gull White"
    sight, canvas = (
        page.locator(css).bounding_box() or pytest.fail("no box")
        for css in (".try-sight", ".try-from-picture canvas")
    )
    assert sight["y"] + sight["height"] / 2 <= canvas["y"] + canvas["height"] + 1
    page.keyboard.press("Tab")
    assert page.locator(".try-sight").is_hidden()


@pytest.mark.parametrize(("look", "width"), [("light", 390), ("dark", 1280)])
def test_axe_has_nothing_to_say_in_german(browser: Browser, german: Path, look: str, width: int) -> None:
    with axe_page(browser, look, width) as page:
        opened(page, german)
        assert violations(page) == []
        page.click("[data-figure='guides/lamp-boys/try.js']")
        page.wait_for_selector(".try-pot")
        for summary in page.locator("main summary").all():
            summary.click()
        page.wait_for_selector(".try-like")
        assert violations(page) == []
        assert page.evaluate("document.documentElement.lang") == "de"
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
        assert "# Zeiten sind übliche Werte" in page.locator(".try-draft").inner_text()
