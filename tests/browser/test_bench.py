"""The bench in a real Chromium, from `file://`: what the painter ticks, starts and notes survives a reload."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from support import town
from support.content_folders import put
from support.rendered_town import site_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

BENCH = "guides/ferry-watch/bench.html"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return put(tmp_path_factory.mktemp("bench"), site_of(town.archive(town.ferry_watch())))


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
            Object.assign(kept["step-coats"], {dry: Date.now() + left, rang: false, heard: false});
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
    assert kept(bench)["step-coats"]["rang"] is True
    timer.click()
    assert left.inner_text() == ""


def test_what_dries_is_seen_from_every_step_and_rings_until_it_is_heard(bench: Page) -> None:
    bench.locator("#step-coats .timer").click()
    assert bench.locator(".told").inner_text() == "The clock for “Coats” runs: 15 min."
    strip = bench.locator(".clocks")
    assert re.fullmatch(r"Coats\s*1[45]:\d\d until dry", strip.inner_text())
    dries_in(bench, -1_000)
    bench.locator("#step-seal").scroll_into_view_if_needed()
    assert re.fullmatch(r"Coats\s*Dry\s*Heard", strip.inner_text())
    assert strip.is_visible()
    box = strip.bounding_box()
    assert box is not None
    assert box["y"] == 0
    assert bench.locator("[role=alert]").text_content() == "“Coats” is dry."
    bench.get_by_role("button", name="Heard: Coats").click()
    assert not strip.is_visible()
    bench.reload()
    assert not strip.is_visible()
    assert bench.locator("#step-coats .left").inner_text() == "Dry"


def test_the_clock_rings_aloud_once_a_hand_has_woken_the_sound(bench: Page) -> None:
    bench.evaluate(
        """() => {
            window.tones = 0;
            const make = AudioContext.prototype.createOscillator;
            AudioContext.prototype.createOscillator = function () { window.tones += 1; return make.call(this); };
        }"""
    )
    bench.locator("#step-coats").evaluate("leaf => { leaf.dataset.dry = 20; }")
    bench.locator("#step-coats .timer").click()
    assert (
        bench.evaluate(
            """() => new Promise(done => {
                const look = () => { if (window.tones > 2) done(window.tones); else setTimeout(look, 50); };
                look();
            })"""
        )
        == 3
    )


def test_ticks_are_announced_and_counted(bench: Page) -> None:
    box = bench.locator("#step-coats [data-keep=done]")
    box.check()
    assert bench.locator("[role=status].told").text_content() == "Step 2 is done. 1 of 13 steps done."
    assert bench.locator(".so-far").inner_text() == "1 of 13 steps done"
    box.uncheck()
    assert bench.locator(".told").text_content() == "Step 2 is open again. 0 of 13 steps done."


def test_it_begins_again_and_what_was_cleared_comes_back(bench: Page) -> None:
    leaf = bench.locator("#step-coats")
    leaf.locator("[data-keep=done]").check()
    leaf.locator(".dots button").nth(2).click()
    leaf.locator("summary").click()
    leaf.locator("[data-keep=note]").fill("Cold kitchen.")
    bench.locator(".begin-again").click()
    assert not leaf.locator("[data-keep=done]").is_checked()
    assert leaf.locator(".dots [aria-pressed=true]").count() == 0
    assert leaf.locator("[data-keep=note]").input_value() == "Cold kitchen."
    assert bench.locator(".told").text_content() == "Cleared."
    bench.locator(".undo").click()
    assert leaf.locator("[data-keep=done]").is_checked()
    assert leaf.locator(".dots [aria-pressed=true]").inner_text() == "3"
    bench.locator(".drop-notes").click()
    assert leaf.locator("[data-keep=done]").is_checked()
    assert bench.input_value(".all-notes") == ""
    bench.reload()
    assert leaf.locator("[data-keep=note]").input_value() == ""


def test_forty_figures_keep_their_dots(bench: Page) -> None:
    bench.fill("#figures", "40")
    bench.press("#figures", "Tab")
    dots = bench.locator("#step-coats .dots button")
    for at in (0, 25, 39):
        dots.nth(at).click()
    bench.reload()
    assert bench.locator("#step-coats .dots [aria-pressed=true]").all_inner_texts() == ["1", "26", "40"]
    assert bench.locator("#step-coats .dots-count").inner_text() == "3 of 40"


def test_ticks_stay_with_their_step_when_another_comes_before_it(page: Page, tmp_path: Path) -> None:
    guide = town.ferry_watch()
    more = replace(guide, entries=(town.step("Wash the figures", each=1), *guide.entries))
    for one in (guide, more):
        put(tmp_path, site_of(town.archive(one)))
        page.goto((tmp_path / BENCH).as_uri())
        if one is guide:
            page.locator("#step-coats [data-keep=done]").check()
    assert page.locator("#step-coats").get_attribute("data-n") == "3"
    assert page.locator("[data-keep=done]:checked").count() == 1
    assert page.locator("#step-coats [data-keep=done]").is_checked()


def test_without_a_memory_it_says_so_and_works_on(browser: Browser, folder: Path) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.add_init_script("Storage.prototype.setItem = () => { throw new Error('full'); };")
    page.goto((folder / BENCH).as_uri())
    assert page.locator(".no-memory").is_visible()
    page.locator("#step-coats [data-keep=done]").check()
    assert page.locator(".so-far").inner_text() == "1 of 13 steps done"
    context.close()


def test_the_screen_is_asked_to_stay_on(browser: Browser, folder: Path) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.add_init_script(
        "window.asked = []; navigator.wakeLock.request = async kind => { window.asked.push(kind); };"
        if page.evaluate("'wakeLock' in navigator")
        else "window.asked = []; Object.defineProperty(navigator, 'wakeLock',"
        " {value: {request: async kind => { window.asked.push(kind); }}});"
    )
    page.goto((folder / BENCH).as_uri())
    assert page.evaluate("window.asked") == ["screen"]
    context.close()


def kept(bench: Page) -> dict[str, Any]:
    return bench.evaluate("JSON.parse(localStorage.getItem('guidegen bench ' + location.pathname))")


def test_notes_copy_out_as_text_for_the_guide(bench: Page) -> None:
    leaf = bench.locator("#step-coats")
    leaf.locator("summary").click()
    leaf.locator("[data-keep=minutes]").fill("47")
    leaf.locator("[data-keep=pot]").fill("Brass Lamp")
    leaf.locator("[data-keep=note]").fill("Cold kitchen.")
    bench.reload()
    assert bench.input_value(".all-notes") == "## Coats\nTook 47 min. Used Brass Lamp. Cold kitchen.\n"
    bench.locator(".copy").click()
    bench.wait_for_function("document.querySelector('.copied').textContent.startsWith('Copied.')")
    assert bench.locator(".told").text_content() == "Copied. Paste them into the guide."


def test_next_and_back_are_large_and_the_keyboard_turns_too(bench: Page) -> None:
    first = bench.locator("#step-prime .on")
    box = first.bounding_box()
    assert box is not None
    assert min(box["width"], box["height"]) >= 48
    first.click()
    assert bench.url.endswith("#step-coats")
    bench.keyboard.press("ArrowRight")
    assert bench.url.endswith("#step-trousers-and-caps")
    assert bench.evaluate("document.activeElement.textContent") == "Trousers and caps"
    bench.keyboard.press("ArrowLeft")
    assert bench.url.endswith("#step-coats")
    bench.keyboard.press("PageDown")
    assert bench.url.endswith("#step-trousers-and-caps")
    bench.keyboard.press("Shift+ArrowRight")
    assert bench.url.endswith("#step-trousers-and-caps")


def test_the_pots_in_reach(bench: Page) -> None:
    foot = bench.locator("#step-coats .in-reach")
    assert foot.inner_text().split("\n") == [
        "In hand", "Oilskin Ochre", "thinned 3:1 water, with size 2", "Next", "Ferryman's Slate", "Saltpan White",
        "Put away", "Slate Undercoat",
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
