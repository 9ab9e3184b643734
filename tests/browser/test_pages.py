"""The pages in a real Chromium, from `file://`: the policy lets them work, they reflow, axe finds nothing, and the
figures for another batch are Python's.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from bs4 import BeautifulSoup
from support import town
from support.axe import axe_page, violations
from support.rendered_town import riders, site_of

from guidegen.computing.guide.batch import pass_bars, passes_of
from guidegen.computing.guide.computed_guide import PaletteTools, compute_guide
from guidegen.rendering.guide.timeline import draw_timeline

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

KINDS = (
    "index.html",
    "guides/ferry-watch/index.html",
    "guides/ferry-watch/bench.html",
    "guides/eel-seller/index.html",
    "paints/index.html",
    "paints/ninelock-silt-wash.html",
    "paints/mix-wet-wool-wash.html",
    "colours.html",
    "try.html",
    "techniques.html",
    "cautions.html",
    "404.html",
)
PIXEL = bytes.fromhex(
    "89504e470d0a1a0a0000000d4948445200000001000000010804000000b51c0c020000000b4944415478da6364f80f00010501"
    "0227e3b6620000000049454e44ae426082"
)


@pytest.fixture(scope="session")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("site")
    for path, data in site_of(town.archive(town.ferry_watch(), town.short_note(), riders())).items():
        (at / path).parent.mkdir(parents=True, exist_ok=True)
        (at / path).write_bytes(data or PIXEL)
    return at


def opened(page: Page, folder: Path, path: str) -> Page:
    page.goto((folder / path).as_uri())
    return page


def test_from_the_disk_nothing_is_refused_and_nothing_is_asked_of_the_network(
    page: Page, folder: Path
) -> None:
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    for path in KINDS:
        opened(page, folder, path)
        assert page.evaluate("getComputedStyle(document.body).margin") == "0px"
    assert len(asked) > len(KINDS)
    assert all(url.startswith(("file://", "data:")) for url in asked)


def test_an_inline_style_or_script_would_be_refused(browser: Browser, folder: Path) -> None:
    context = browser.new_context()
    page = context.new_page()
    refused: list[str] = []
    page.on("console", lambda line: refused.append(line.text))
    opened(page, folder, "index.html")
    ran = page.evaluate(
        """() => {
            const script = document.createElement("script");
            script.textContent = "window.ran = true";
            document.body.append(script);
            document.body.insertAdjacentHTML("beforeend", '<p id="styled" style="position:fixed">x</p>');
            return [window.ran === true, getComputedStyle(document.getElementById("styled")).position];
        }"""
    )
    context.close()
    assert ran == [False, "static"]
    assert len(refused) >= 2


GRAB = """() => Array.from(document.querySelectorAll(
    ".flow .spine, .flow .clock, .flow .when, .wait .body, .evening, .no-wait, [data-show], [data-say], .amount, .shelf"
)).map(place => place.innerHTML)"""


def test_there_and_back_the_script_draws_what_the_site_drew(page: Page, folder: Path) -> None:
    for path in (
        "guides/ferry-watch/index.html",
        "guides/eel-seller/index.html",
        "guides/heron-riders/index.html",
    ):
        opened(page, folder, path)
        before = page.evaluate(GRAB)
        page.click(".stepper [data-by='1']")
        changed = page.evaluate(GRAB)
        page.click(".stepper [data-by='-1']")
        assert page.evaluate(GRAB) == before
        assert changed != before


@pytest.mark.parametrize("figures", [1, 3, 7, 24, 120])
def test_for_another_batch_the_page_says_what_python_says(page: Page, folder: Path, figures: int) -> None:
    opened(page, folder, "guides/ferry-watch/index.html")
    page.fill("#figures", str(figures))
    page.press("#figures", "Enter")
    shown = BeautifulSoup(page.content(), "html.parser")
    archive = town.archive()
    computed = compute_guide(town.ferry_watch(), PaletteTools.over(archive.palette), figures=figures)
    for key, times in (
        ("whole", computed.times.whole),
        *((f"stop{i}", s.times) for i, s in enumerate(computed.times.stops)),
    ):
        for what, value in (
            ("handsOn", times.hands_on), ("waiting", times.waiting), ("total", times.total),
        ):  # fmt: skip
            place = shown.find("time", attrs={"data-show": f"{key}.{what}"})
            assert (
                place["datetime"] == f"PT{value / 1000:g}S" or float(place["datetime"][2:-1]) == value / 1000
            )
    passes = passes_of(computed.scheme)
    line = draw_timeline(pass_bars(passes, figures), {p.n: ("#000000",) for p in passes})
    for n, step in line.steps.items():
        row = shown.find(class_="step", attrs={"data-n": str(n)})
        assert int(row.find("svg", class_="wet")["height"]) == step.row.height
        wait = shown.find(attrs={"data-wait": str(n)})
        assert ("hidden" in wait.attrs) == (step.wait is None)
    assert f"{figures} figure" in shown.find("output").get_text() or figures == 10
    assert len(set(re.findall(r'id="([^"]+)"', page.content()))) == len(
        re.findall(r' id="([^"]+)"', page.content())
    )


def test_nonsense_in_the_box_falls_back(page: Page, folder: Path) -> None:
    opened(page, folder, "guides/ferry-watch/index.html")
    for typed, becomes in (("0", "10"), ("-4", "1"), ("9999", "500"), ("", "10")):
        page.fill("#figures", typed)
        page.press("#figures", "Enter")
        assert page.input_value("#figures") == becomes


def test_with_scripts_off_the_authors_number_stands(browser: Browser, folder: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = opened(context.new_page(), folder, "guides/ferry-watch/index.html")
    assert page.locator(".batch").is_visible()
    assert page.locator(".batch").inner_text() == "10 figures"
    assert not page.locator(".stepper").is_visible()
    assert not page.locator(".weather").first.is_visible()
    context.close()


def test_the_weather_for_spraying_is_judged(page: Page, folder: Path) -> None:
    opened(page, folder, "guides/ferry-watch/index.html")
    box = page.locator(".weather").first
    box.locator("summary").click()
    for field, value in zip(box.locator("input").all(), ("20", "20", "50"), strict=True):
        field.fill(value)
    said = box.locator("output").inner_text()
    assert said.startswith("Spray.")
    assert "9.3 °C" in said
    box.locator("input").nth(2).fill("95")
    assert box.locator("output").inner_text().startswith("Wait.")


@pytest.mark.parametrize("path", KINDS)
def test_nothing_sticks_out_of_a_narrow_page(page: Page, folder: Path, path: str) -> None:
    page.set_viewport_size({"width": 320, "height": 640})
    opened(page, folder, path)
    assert page.evaluate("document.documentElement.scrollWidth") == 320
    page.set_viewport_size({"width": 1280, "height": 800})
    page.add_init_script("")
    page.evaluate("document.documentElement.style.fontSize = '200%'")
    assert page.evaluate("document.documentElement.scrollWidth") <= 1280


def test_on_paper_the_folded_is_open_and_the_ground_white(page: Page, folder: Path) -> None:
    page.emulate_media(color_scheme="dark")
    opened(page, folder, "guides/ferry-watch/index.html")
    dark = page.evaluate("getComputedStyle(document.documentElement).backgroundColor")
    page.emulate_media(media="print", color_scheme="dark")
    paper = page.evaluate("getComputedStyle(document.documentElement).backgroundColor")
    assert (dark, paper) == ("rgb(17, 23, 22)", "rgb(255, 255, 255)")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert page.locator("details:not([open])").count() == 0
    assert page.locator(".ring").first.is_visible()


@pytest.mark.parametrize(("scheme", "width"), [("light", 360), ("dark", 1280)])
def test_axe_finds_nothing(browser: Browser, folder: Path, scheme: Any, width: int) -> None:
    found = []
    with axe_page(browser, scheme, width) as page:
        for path in KINDS:
            opened(page, folder, path)
            found += [(path, *broken) for broken in violations(page)]
    assert found == []


def test_everything_that_can_be_clicked_is_large_enough(page: Page, folder: Path) -> None:
    """WCAG 2.2, 2.5.8: 24 by 24 CSS pixels, links within a sentence aside."""
    page.set_viewport_size({"width": 390, "height": 800})
    opened(page, folder, "guides/ferry-watch/index.html")
    small = page.evaluate(
        """() => Array.from(document.querySelectorAll("button, input, summary, .nums a, .matrix a, .jump a, nav a"))
            .filter(place => place.offsetParent)
            .map(place => [place.outerHTML.slice(0, 80), place.getBoundingClientRect()])
            .filter(([, box]) => box.width < 24 || box.height < 24).map(([html]) => html)"""
    )
    assert small == []


def test_the_keyboard_reaches_everything_and_shows_where_it_is(page: Page, folder: Path) -> None:
    opened(page, folder, "guides/ferry-watch/index.html")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    seen = 0
    for _ in range(60):
        page.keyboard.press("Tab")
        outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
        box = page.evaluate("document.activeElement.getBoundingClientRect().toJSON()")
        assert outline == "solid"
        assert box["width"] > 0
        seen += 1
    assert seen == 60
