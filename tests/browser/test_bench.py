"""The bench in a real Chromium, from `file://`: what the painter ticks, starts and notes survives a reload."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
import town
from published import site_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

BENCH = "guides/ferry-watch/bench.html"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("bench")
    for path, data in site_of(town.archive(town.ferry_watch())).items():
        (at / path).parent.mkdir(parents=True, exist_ok=True)
        (at / path).write_bytes(data)
    return at


@pytest.fixture
def bench(page: Page, folder: Path) -> Page:
    page.set_viewport_size({"width": 820, "height": 1100})
    page.emulate_media(reduced_motion="reduce")
    page.goto((folder / BENCH).as_uri())
    return page


def test_a_tick_survives_a_reload(bench: Page) -> None:
    for n in ("prime", "coats"):
        bench.locator(f"#step-{n} [data-keep=done]").check()
    bench.reload()
    assert bench.locator("#step-coats [data-keep=done]").is_checked()
    assert not bench.locator("#step-faces-and-hands [data-keep=done]").is_checked()
    assert bench.locator(".resume").inner_text() == "On with step 3: Trousers and caps"
    bench.locator(".resume a").click()
    assert bench.url.endswith("#step-trousers-and-caps")


def test_each_figure_has_its_dot(bench: Page) -> None:
    dots = bench.locator("#step-coats .dots button")
    assert dots.count() == 10
    dots.nth(3).click()
    dots.nth(4).click()
    dots.nth(4).click()
    bench.reload()
    pressed = [dots.nth(at).get_attribute("aria-pressed") for at in range(10)]
    assert pressed == ["true" if at == 3 else "false" for at in range(10)]
    bench.fill("#figures", "3")
    bench.press("#figures", "Tab")
    assert dots.count() == 3


def dries_in(bench: Page, milliseconds: int) -> None:
    """As if the clock of the second step had been started so long ago that this much is left, and the page shut."""
    bench.evaluate(
        """left => {
            const key = "guidegen bench " + location.pathname, kept = JSON.parse(localStorage.getItem(key));
            kept["2"].dry = Date.now() + left;
            localStorage.setItem(key, JSON.stringify(kept));
        }""",
        milliseconds,
    )
    bench.reload()


def test_the_drying_clock_runs_on_while_the_page_is_shut_and_rings_once(bench: Page) -> None:
    timer, left = bench.locator("#step-coats .timer"), bench.locator("#step-coats .left")
    assert timer.inner_text() == "Dries 15 min: start the clock"
    timer.click()
    assert re.fullmatch("(15:00|14:5[0-9]) until dry", left.inner_text())
    dries_in(bench, 3_600_000 + 65_000)
    assert re.fullmatch("1:0[01]:[05][0-9] until dry", left.inner_text())
    assert timer.inner_text() == "Stop the clock"
    dries_in(bench, -1_000)
    assert left.inner_text() == "Dry"
    assert (
        bench.evaluate("JSON.parse(localStorage.getItem('guidegen bench ' + location.pathname))['2'].rang")
        is True
    )
    timer.click()
    assert left.inner_text() == ""


def test_notes_copy_out_as_text_for_the_guide(bench: Page) -> None:
    leaf = bench.locator("#step-coats")
    leaf.locator("summary").click()
    leaf.locator("[data-keep=minutes]").fill("47")
    leaf.locator("[data-keep=pot]").fill("Brass Lamp")
    leaf.locator("[data-keep=note]").fill("Cold kitchen.")
    bench.reload()
    assert bench.input_value(".all-notes") == "## Coats\nTook 47 min. Used Brass Lamp. Cold kitchen.\n"
    bench.locator(".copy").click()
    bench.wait_for_function(
        "document.querySelector('.copied').textContent.startsWith('Copied.')", timeout=5_000
    )
    bench.locator(".clear").click()
    assert bench.input_value(".all-notes") == ""


def test_next_and_back_are_large_and_the_keyboard_turns_too(bench: Page) -> None:
    first = bench.locator("#step-prime .on")
    box = first.bounding_box()
    assert box is not None
    assert min(box["width"], box["height"]) >= 48
    first.click()
    assert bench.url.endswith("#step-coats")
    bench.keyboard.press("ArrowRight")
    assert bench.url.endswith("#step-trousers-and-caps")
    bench.keyboard.press("ArrowLeft")
    assert bench.url.endswith("#step-coats")


def test_the_pots_in_reach(bench: Page) -> None:
    foot = bench.locator("#step-coats .in-reach")
    assert foot.inner_text().split("\n") == [
        "In hand", "Oilskin Ochre", "Next", "Ferryman's Slate", "Saltpan White", "Put away", "Slate Undercoat",
    ]  # fmt: skip


def test_without_scripts_it_can_still_be_read_and_turned(browser: Browser, folder: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((folder / BENCH).as_uri())
    assert page.locator(".leaf").count() == 14
    assert not page.locator(".bench-tools").first.is_visible()
    page.locator("#step-prime .on").click()
    assert page.url.endswith("#step-coats")
    context.close()


def test_damaged_memory_is_forgotten(bench: Page) -> None:
    bench.evaluate("localStorage.setItem('guidegen bench ' + location.pathname, '{broken')")
    bench.reload()
    assert bench.locator(".dots button").count() == 130
