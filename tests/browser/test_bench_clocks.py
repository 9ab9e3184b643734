"""The bench's drying clocks in a real Chromium: they run on while the page is shut, and are seen and heard."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from support.benches import BENCH, dries_in, kept, laid_out, opened, until

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return laid_out(tmp_path_factory.mktemp("bench"))


@pytest.fixture
def bench(page: Page, folder: Path) -> Page:
    return opened(page, folder)


COUNT_TONES = """
    window.tones = 0;
    const make = AudioContext.prototype.createOscillator;
    AudioContext.prototype.createOscillator = function () { window.tones += 1; return make.call(this); };
"""


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
    assert timer.inner_text() == "Start again: 15 min"


def test_a_stopped_clock_runs_on_as_if_nobody_had_stopped_it(bench: Page) -> None:
    timer, run_on = bench.locator("#step-coats .timer"), bench.locator("#step-coats .run-on")
    timer.click()
    dry = kept(bench)["step-coats"]["dry"]
    timer.click()
    assert not bench.locator(".clocks").is_visible()
    bench.reload()
    assert timer.inner_text() == "Start again: 15 min"
    run_on.click()
    assert kept(bench)["step-coats"]["dry"] == dry
    assert not run_on.is_visible()


def test_what_dries_is_seen_from_every_step_and_rings_until_it_is_heard(bench: Page) -> None:
    title = bench.title()
    bench.locator("#step-coats .timer").click()
    assert bench.locator(".told").inner_text() == "The clock for “Coats” runs: 15 min."
    clocks = bench.locator(".clocks")
    assert re.fullmatch(r"Coats · 1[45]:\d\d", clocks.locator("summary").inner_text().strip())
    assert bench.title() == title
    dries_in(bench, -1_000)
    bench.locator("#step-seal h2").scroll_into_view_if_needed()
    assert clocks.locator("summary").inner_text().strip() == "Coats · Dry"
    assert bench.title() == f"“Coats” is dry. · {title}"
    box = bench.locator(".bench-bar").bounding_box()
    assert box is not None
    assert box["y"] == 0
    assert bench.locator("[role=alert]").text_content() == "“Coats” is dry."
    bench.get_by_role("button", name="Heard: Coats").click()
    assert not clocks.is_visible()
    assert bench.title() == title
    bench.reload()
    assert not clocks.is_visible()
    assert bench.locator("#step-coats .left").inner_text() == "Dry"
    assert bench.locator("#step-coats .timer").inner_text() == "Start again: 15 min"


def test_many_clocks_hide_no_title(bench: Page) -> None:
    bench.set_viewport_size({"width": 390, "height": 664})
    steps = ("prime", "coats", "trousers-and-caps", "faces-and-hands", "lamps-and-boathooks", "seal")
    for step in steps:
        bench.locator(f"#step-{step} .timer").click()
    bench.goto(bench.url.partition("#")[0] + "#step-darken-the-folds")
    assert bench.locator(".clocks summary").inner_text().strip().endswith("and 5 more")
    bar, heading = (
        bench.locator(".bench-bar").bounding_box(),
        bench.locator("#step-darken-the-folds h2").bounding_box(),
    )
    assert bar is not None
    assert heading is not None
    assert bar["height"] == 44
    assert heading["y"] >= 44
    bench.locator(".clocks summary").click()
    assert bench.locator(".clocks li").count() == 6
    bench.locator(".clocks li a", has_text="Seal").click()
    bench.wait_for_url(lambda url: url.endswith("#step-seal"))
    assert not bench.locator(".clocks li").first.is_visible()


def test_the_clock_rings_aloud_once_a_hand_has_woken_the_sound(bench: Page) -> None:
    bench.evaluate(f"() => {{ {COUNT_TONES} }}")
    bench.locator("#step-coats").evaluate("leaf => { leaf.dataset.dry = 20; }")
    bench.locator("#step-coats .timer").click()
    until(bench, "window.tones > 2")
    assert bench.evaluate("window.tones") == 3


def test_an_overdue_clock_is_seen_after_a_reload_and_heard_from_the_first_touch(bench: Page) -> None:
    bench.add_init_script(COUNT_TONES)
    bench.locator("#step-coats .timer").click()
    dries_in(bench, -60_000)
    assert bench.locator(".bench-bar.rings .heard").is_visible()
    assert bench.evaluate("window.tones") == 0
    bench.locator("h1").click()
    until(bench, "window.tones > 2")
    bench.locator("h1").click()
    assert bench.evaluate("window.tones") == 3


def test_it_asks_once_for_a_notification_and_shows_one_when_a_clock_rings(bench: Page) -> None:
    bench.add_init_script(
        """
        window.asked = 0;
        window.shown = [];
        window.Notification = class {
            static permission = "default";
            static async requestPermission() { window.asked += 1; return "granted"; }
            constructor(title) { window.shown.push(title); }
        };
        """
    )
    bench.reload()
    assert bench.evaluate("window.asked") == 0
    bench.locator("#step-coats .timer").click()
    bench.locator("#step-prime .timer").click()
    assert bench.evaluate("window.asked") == 1
    bench.reload()
    bench.locator("#step-seal .timer").click()
    assert bench.evaluate("[window.asked, window.shown]") == [0, []]
    bench.add_init_script("Notification.permission = 'granted';")
    dries_in(bench, -1_000)
    until(bench, "window.shown.length")
    assert bench.evaluate("window.shown") == ["“Coats” is dry."]


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
    page.get_by_text("The screen stays on while this page is open.").wait_for()
    assert page.evaluate("window.asked") == ["screen"]
    context.close()


def test_it_says_where_the_screen_may_go_dark(browser: Browser, folder: Path) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.add_init_script("Object.defineProperty(navigator, 'wakeLock', {value: undefined});")
    page.goto((folder / BENCH).as_uri())
    page.locator(".awake", has_text="This browser may let the screen go dark").wait_for()
    context.close()
