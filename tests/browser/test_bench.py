"""The bench in a real Chromium, from `file://`: what the painter ticks, starts and notes survives a reload."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from support import town
from support.benches import BENCH, button, finish, kept, laid_out, opened, until
from support.content_folders import put
from support.rendered_town import site_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return laid_out(tmp_path_factory.mktemp("bench"))


@pytest.fixture
def bench(page: Page, folder: Path) -> Page:
    return opened(page, folder)


def test_a_tick_survives_a_reload(bench: Page) -> None:
    assert bench.locator(".resume").inner_text() == "Begin with step 1: Prime"
    finish(bench, "prime", "coats")
    bench.reload()
    assert button(bench, "coats").inner_text() == "Next: Trousers and caps"
    assert button(bench, "faces-and-hands").inner_text().startswith("Figure 1 of 10 done")
    assert bench.locator(".resume").inner_text() == "On with step 3: Trousers and caps"
    bench.locator(".resume a").click()
    bench.wait_for_url(lambda url: url.endswith("#step-trousers-and-caps"))


def test_a_step_of_ten_figures_takes_eleven_touches_and_two_with_all(bench: Page) -> None:
    step = "faces-and-hands"
    said = []
    while bench.evaluate("location.hash") != "#step-lamps-and-boathooks":
        said.append(button(bench, step).inner_text())
        button(bench, step).click()
    assert len(said) == 11
    assert said[3] == "Figure 4 of 10 done"
    assert said[9:] == ["All done · dry 10 min", "Next: Lamps and boathooks"]
    assert kept(bench)["step-faces-and-hands"]["done"] is True
    assert kept(bench)["step-faces-and-hands"]["dry"] > 0
    bench.locator("#step-lamps-and-boathooks .every").click()
    button(bench, "lamps-and-boathooks").click()
    bench.wait_for_url(lambda url: url.endswith("#step-darken-the-folds"))
    assert kept(bench)["step-lamps-and-boathooks"]["done"] is True


def test_two_coats_are_two_rounds(bench: Page) -> None:
    said = []
    for _ in range(21):
        said.append(button(bench, "coats").inner_text())
        button(bench, "coats").click()
    assert said[0] == "Coat 1: figure 1 of 10 done"
    assert said[9:11] == ["Coat 1 done · dry 15 min", "Coat 2: figure 1 of 10 done"]
    assert said[19:] == ["All done · dry 15 min", "Next: Trousers and caps"]
    assert kept(bench)["step-coats"]["painted"] == [10, 10]


def test_a_touch_by_mistake_is_taken_back_even_after_a_reload(bench: Page) -> None:
    step = bench.locator("#step-faces-and-hands")
    back = step.locator(".take-back")
    assert not back.is_visible()
    for _ in range(3):
        button(bench, "faces-and-hands").click()
    back.click()
    assert step.locator(".count").inner_text() == "2 of 10"
    step.locator(".every").click()
    assert bench.locator(".clocks").is_visible()
    back.click()
    assert step.locator(".count").inner_text() == "2 of 10"
    assert not bench.locator(".clocks").is_visible()
    assert button(bench, "faces-and-hands").inner_text().startswith("Figure 3 of 10 done")
    step.locator(".every").click()
    bench.reload()
    back.click()
    assert step.locator(".count").inner_text() == "9 of 10"
    assert button(bench, "faces-and-hands").inner_text().startswith("All done")


def test_the_strip_slides_to_any_number(bench: Page) -> None:
    strip = bench.locator("#step-faces-and-hands .strip")
    assert strip.get_attribute("aria-valuetext") == "0 of 10"
    strip.focus()
    for _ in range(4):
        bench.keyboard.press("ArrowRight")
    assert kept(bench)["step-faces-and-hands"]["painted"] == [4]
    assert strip.get_attribute("aria-valuetext") == "4 of 10"
    bench.keyboard.press("End")
    assert button(bench, "faces-and-hands").inner_text() == "Next: Lamps and boathooks"
    bench.keyboard.press("ArrowLeft")
    assert button(bench, "faces-and-hands").inner_text().startswith("All done")


def test_ticks_are_announced_and_counted(bench: Page) -> None:
    button(bench, "faces-and-hands").click()
    assert bench.locator("[role=status].told").text_content() == "1 of 10"
    finish(bench, "faces-and-hands")
    assert bench.locator(".told").text_content() == "Step 4 is done. 1 of 13 steps done."
    assert bench.locator(".so-far").inner_text() == "1 of 13 steps done"
    bench.locator("#step-faces-and-hands .take-back").click()
    assert bench.locator(".told").text_content() == "1 of 10"
    assert bench.locator(".so-far").inner_text() == "0 of 13 steps done"


def test_its_buttons_are_told_apart_by_their_steps(bench: Page) -> None:
    finish(bench, "prime")
    names = bench.evaluate(
        """() => [...document.querySelectorAll(".leaf button, .leaf-foot a")].filter(each => each.checkVisibility())
            .map(each => each.ariaLabel || each.textContent)"""
    )
    assert len(set(names)) == len(names)


def test_it_begins_again_and_what_was_cleared_comes_back(bench: Page) -> None:
    leaf = bench.locator("#step-faces-and-hands")
    finish(bench, "coats")
    button(bench, "faces-and-hands").click()
    leaf.locator("summary").last.click()
    leaf.locator("[data-keep=note]").fill("Cold kitchen.")
    bench.locator(".begin-again").click()
    assert button(bench, "coats").inner_text().startswith("Coat 1: figure 1 of 10")
    assert leaf.locator(".count").inner_text() == "0 of 10"
    assert leaf.locator("[data-keep=note]").input_value() == "Cold kitchen."
    assert bench.locator(".told").text_content() == "Cleared."
    bench.locator(".undo").click()
    assert button(bench, "coats").inner_text().startswith("Next")
    assert leaf.locator(".count").inner_text() == "1 of 10"
    bench.locator(".drop-notes").click()
    assert leaf.locator(".count").inner_text() == "1 of 10"
    assert bench.input_value(".all-notes") == ""
    bench.reload()
    assert leaf.locator("[data-keep=note]").input_value() == ""


def test_two_hundred_figures_make_no_step_longer(bench: Page) -> None:
    bench.set_viewport_size({"width": 390, "height": 664})
    leaf = bench.locator("#step-faces-and-hands")
    heights = []
    for figures in (10, 200):
        bench.fill("#figures", str(figures))
        bench.press("#figures", "Tab")
        heights.append(leaf.evaluate("leaf => leaf.getBoundingClientRect().height"))
    assert heights[0] == heights[1]
    for _ in range(3):
        button(bench, "faces-and-hands").click()
    bench.reload()
    assert leaf.locator(".count").inner_text() == "3 of 200"


def test_one_figure_needs_no_strip(bench: Page) -> None:
    bench.fill("#figures", "1")
    bench.press("#figures", "Tab")
    assert not bench.locator("#step-faces-and-hands .tally").is_visible()
    assert button(bench, "faces-and-hands").inner_text() == "Done · dry 10 min"
    assert button(bench, "coats").inner_text() == "Coat 1 done · dry 15 min"
    assert bench.locator("#step-coats .count").inner_text() == "Coat 1 of 2"


def test_ticks_stay_with_their_step_when_another_comes_before_it(page: Page, tmp_path: Path) -> None:
    guide = town.ferry_watch()
    more = replace(guide, entries=(town.step("Wash the figures", each=1), *guide.entries))
    for one in (guide, more):
        put(tmp_path, site_of(town.archive(one)))
        page.goto((tmp_path / BENCH).as_uri())
        if one is guide:
            finish(page, "coats")
    assert page.locator("#step-coats").get_attribute("data-n") == "3"
    assert page.locator(".leaf.is-done").count() == 1
    assert button(page, "coats").inner_text().startswith("Next")


def test_without_a_memory_it_says_so_and_works_on(browser: Browser, folder: Path) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.add_init_script("Storage.prototype.setItem = () => { throw new Error('full'); };")
    page.goto((folder / BENCH).as_uri())
    assert page.locator(".no-memory").is_visible()
    finish(page, "coats")
    assert page.locator(".so-far").inner_text() == "1 of 13 steps done"
    context.close()


def test_notes_copy_out_as_text_for_the_guide(bench: Page) -> None:
    leaf = bench.locator("#step-coats")
    leaf.locator("summary").last.click()
    leaf.locator("[data-keep=minutes]").fill("47")
    leaf.locator("[data-keep=pot]").fill("Brass Lamp")
    leaf.locator("[data-keep=note]").fill("Cold kitchen.")
    bench.reload()
    assert bench.input_value(".all-notes") == "## Coats\nTook 47 min. Used Brass Lamp. Cold kitchen.\n"
    bench.locator(".copy").click()
    until(bench, "document.querySelector('.copied').textContent.startsWith('Copied.')")
    assert bench.locator(".told").text_content() == "Copied. Paste them into the guide."


def test_next_and_back_are_large_and_the_keyboard_turns_too(bench: Page) -> None:
    finish(bench, "prime")
    first = bench.locator("#step-prime .on")
    box = first.bounding_box()
    assert box is not None
    assert min(box["width"], box["height"]) >= 64
    first.click()
    bench.wait_for_url(lambda url: url.endswith("#step-coats"))
    bench.keyboard.press("ArrowRight")
    bench.wait_for_url(lambda url: url.endswith("#step-trousers-and-caps"))
    until(bench, "document.activeElement.textContent === 'Trousers and caps'")
    bench.keyboard.press("ArrowLeft")
    bench.wait_for_url(lambda url: url.endswith("#step-coats"))
    bench.keyboard.press("PageDown")
    bench.wait_for_url(lambda url: url.endswith("#step-trousers-and-caps"))
    bench.keyboard.press("Shift+ArrowRight")
    bench.wait_for_url(lambda url: url.endswith("#step-trousers-and-caps"))


def test_the_pots_in_reach(bench: Page) -> None:
    reach = bench.locator("#step-coats .in-reach")
    assert reach.inner_text().split("\n") == [
        "Next",
        "Ferryman's Slate",
        "Saltpan White",
        "Put away",
        "Slate Undercoat",
    ]


def test_a_house_mix_stands_with_what_it_is_mixed_from(bench: Page) -> None:
    assert bench.locator("#step-darken-the-folds .recipe .blend-parts").inner_text() == (
        "5 parts Bilge Wash + 2 parts Kelp Wash + 1 part Clear Medium"
    )


def test_without_scripts_it_can_still_be_read_and_turned(browser: Browser, folder: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((folder / BENCH).as_uri())
    assert page.locator(".leaf").count() == 14
    assert not page.locator(".bench-tools").first.is_visible()
    assert page.locator("#step-prime .on").inner_text() == "Next: Coats"
    page.locator("#step-prime .on").click()
    page.wait_for_url(lambda url: url.endswith("#step-coats"))
    context.close()


@pytest.mark.parametrize(
    "text", ["{broken", "[1]", '{"figures": "x", "benches": {"index": {"step-coats": {"painted": "no"}}}}']
)
def test_damaged_memory_is_forgotten(bench: Page, text: str) -> None:
    bench.evaluate(
        """text => localStorage.setItem(JSON.parse(document.querySelector("#bench-data").textContent).store, text)""",
        text,
    )
    bench.reload()
    assert button(bench, "coats").inner_text().startswith("Coat 1: figure 1 of 10")
