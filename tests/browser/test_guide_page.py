"""A guide's page in a real Chromium as its reader has it: not too long, with a bar that stays, folds, zoom, and paper."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from support.axe import axe_page, violations
from support.made_once import built_demo
from support.waiting import until

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

FERRY = "guides/ferry-watch/index.html"
WIDOW = "guides/widow-tansley/index.html"
# How wide a sheet is within its margins, in CSS pixels: A4 and Letter less 12 mm a side.
SHEETS = {"A4": round((210 - 24) * 96 / 25.4), "Letter": round((215.9 - 24) * 96 / 25.4)}


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built_demo(tmp_path_factory)


def opened(page: Page, demo: Path, path: str = FERRY, width: int = 390, height: int = 844) -> Page:
    page.set_viewport_size({"width": width, "height": height})
    page.emulate_media(reduced_motion="reduce")
    page.goto((demo / path).as_uri())
    return page


@pytest.mark.parametrize(("path", "tallest"), [(FERRY, 15_500), (WIDOW, 20_000)])
def test_on_a_phone_the_page_is_no_scroll(page: Page, demo: Path, path: str, tallest: int) -> None:
    opened(page, demo, path)
    tall, first = page.evaluate(
        "[document.documentElement.scrollHeight, document.querySelector('.step').getBoundingClientRect().top + scrollY]"
    )
    assert tall <= tallest
    assert first < 3_000


def test_a_plain_base_coat_is_a_short_row(page: Page, demo: Path) -> None:
    opened(page, demo)
    row = page.locator("#step-boathooks")
    assert row.evaluate("step => step.offsetHeight") <= 125
    assert row.locator(".facts", has_text="Dry").first.inner_text().endswith("10 min")
    # What it leaves out is a touch away, on the same page of paper, and there at once where there is room.
    assert not row.locator(".when").is_visible()
    fold = row.locator("summary")
    assert fold.bounding_box()["height"] >= 44  # type: ignore[index]
    fold.focus()
    page.keyboard.press("Enter")
    assert row.locator(".when").is_visible()
    assert "only this area must stay untouched" in row.inner_text()
    page.keyboard.press("Enter")
    page.emulate_media(media="print")
    assert row.locator(".when").is_visible()
    page.emulate_media(media="screen")
    page.set_viewport_size({"width": 1280, "height": 844})
    assert row.locator(".when").is_visible()
    assert not fold.is_visible()


def test_the_bar_stays_and_tells_the_step(page: Page, demo: Path) -> None:
    opened(page, demo)
    bar, at = page.locator(".bar"), page.locator(".bar .at")
    assert at.inner_text() == "24 steps"
    page.locator("#step-blankets").evaluate("step => step.scrollIntoView()")
    until(lambda: page.evaluate("document.querySelector('.bar .at').textContent === 'Step 7 of 24'"))
    box = bar.bounding_box()
    assert box is not None
    assert box["y"] == 0
    assert 44 <= box["height"] <= 47
    assert at.get_attribute("href") == "#step-blankets"
    # What a link leads to comes to lie below the bar.
    heading = page.locator("#step-blankets h3").bounding_box()
    assert heading is not None
    assert heading["y"] >= box["height"]
    page.locator(".bar a", has_text="Index").click()
    sheet = page.locator("#all-steps").bounding_box()
    assert sheet is not None
    assert sheet["y"] < 844


def test_without_scripts_the_bar_is_links_and_folds_open(browser: Browser, demo: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = opened(context.new_page(), demo)
    leads = [link.get_attribute("href") for link in page.locator(".bar a").all()]
    assert leads == ["#steps", "#paints", "#all-steps", "bench.html"]
    fold = page.locator(".tray details").first
    assert not fold.locator(".about-pot").is_visible()
    fold.locator("summary").focus()
    page.keyboard.press("Enter")
    assert fold.locator(".about-pot").is_visible()
    context.close()


def test_the_menu_is_one_row_and_the_rest_a_touch_away(browser: Browser, demo: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = opened(context.new_page(), demo)
    tall = page.locator(".masthead").evaluate("head => head.offsetHeight")
    assert tall <= 100
    rare, more = page.locator(".masthead nav a", has_text="Cautions"), page.locator(".nav-more summary")
    assert not rare.is_visible()
    more.focus()
    page.keyboard.press("Enter")
    assert rare.is_visible()
    page.set_viewport_size({"width": 1280, "height": 844})
    page.reload()
    assert not more.is_visible()
    assert page.locator(".masthead nav a").evaluate_all(
        "links => links.every(link => link.checkVisibility())"
    )
    context.close()


def test_the_titles_of_cautions_are_in_view_while_they_are_folded(page: Page, demo: Path) -> None:
    opened(page, demo)
    care = page.locator(".care details").first
    assert care.get_attribute("open") is None
    for title in ("Spray cans", "Solvents", "Label"):
        assert title in care.locator("summary").inner_text()


def test_paper_opens_the_folds_and_they_close_again(page: Page, demo: Path) -> None:
    opened(page, demo)
    shut = page.locator("details:not([open])").count()
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert page.locator("details:not([open])").count() == 0
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    assert page.locator("details:not([open])").count() == shut > 20


CUT = """width => [...document.querySelectorAll("main *")].filter(place => place.offsetParent !== null || place.closest("svg") === place)
    .filter(place => !place.closest(".unseen") && place.getClientRects().length)
    .filter(place => place.getBoundingClientRect().right > width + 1 || place.getBoundingClientRect().left < -1)
    .map(place => place.outerHTML.slice(0, 90))"""


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("path", [FERRY, WIDOW, "guides/heron-riders/index.html", "paints/index.html"])
def test_nothing_is_cut_on_paper(page: Page, demo: Path, path: str, sheet: str) -> None:
    opened(page, demo, path, SHEETS[sheet], 1000)
    page.emulate_media(media="print")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert page.evaluate("document.documentElement.scrollWidth") <= SHEETS[sheet]
    assert page.evaluate(CUT, SHEETS[sheet]) == []
    # The drawing lies beside the table, not on it.
    figure, table = page.locator(".beside"), page.locator(".matrix")
    if figure.count():
        here, there = figure.bounding_box(), table.bounding_box()
        assert here is not None
        assert there is not None
        assert there["x"] + there["width"] <= here["x"] + 1


@pytest.mark.parametrize("sheet", SHEETS)
def test_a_guide_of_24_steps_takes_nine_pages(page: Page, demo: Path, sheet: str) -> None:
    opened(page, demo, FERRY, 1280)
    page.evaluate("document.querySelectorAll('img[loading]').forEach(image => { image.loading = 'eager'; })")
    until(lambda: page.evaluate("[...document.images].every(image => image.complete)"))
    pages = page.pdf(format=sheet).count(b"/Type /Page\n")
    assert 5 <= pages <= 9


def test_the_sheet_is_shown_where_it_is_asked_for(page: Page, demo: Path) -> None:
    opened(page, demo)
    page.locator(".ways a", has_text="One-page sheet").click()
    page.locator(".sheet").wait_for()
    assert not page.locator(".leaf").first.is_visible()
    foot = page.locator(".sheet-foot")
    assert "Wet Wool wash: 5 parts Bilge Wash" in foot.inner_text()
    assert foot.locator("img").evaluate("image => image.naturalWidth") > 0
    assert page.evaluate("document.documentElement.scrollWidth") == 390


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("path", [FERRY, WIDOW])
def test_the_sheet_fills_one_page(page: Page, demo: Path, path: str, sheet: str) -> None:
    opened(page, demo, path.replace("index", "bench"), SHEETS[sheet], 1000)
    assert page.pdf(format=sheet).count(b"/Type /Page\n") == 1
    page.emulate_media(media="print")
    tall, foot, drawing = page.evaluate(
        """[".sheet", ".sheet-foot", ".sheet-foot > :first-child"].map(css =>
            document.querySelector(css).getBoundingClientRect().height / 96 * 25.4)"""
    )
    assert 255 <= tall <= 257
    assert foot >= 30
    assert drawing >= 25
    assert "Mixtures" in page.locator(".sheet-foot").inner_text()
    assert "Time" in page.locator(".sheet-foot").inner_text()


def test_a_photo_comes_close_and_goes_back(page: Page, demo: Path) -> None:
    opened(page, demo)
    page.locator("#step-coats .photo a").click()
    shown = page.locator(".large-photo img")
    until(lambda: page.evaluate("document.querySelector('.large-photo img').naturalWidth > 0"))
    far = shown.bounding_box()
    shown.click()
    near = shown.bounding_box()
    assert far is not None
    assert near is not None
    assert near["width"] >= 2 * far["width"] - 1
    assert page.get_by_role("button", name="Zoom in").get_attribute("aria-pressed") == "true"
    page.get_by_role("button", name="Zoom in").click()
    assert shown.bounding_box() == far


def test_weather_that_is_no_longer_told_is_no_longer_judged(page: Page, demo: Path) -> None:
    opened(page, demo)
    box = page.locator(".weather").first
    box.locator("summary").click()
    for field, value in zip(box.locator("input").all(), ("20", "8", "60"), strict=True):
        field.fill(value)
    said = box.locator("output").inner_text()
    assert "°C colder" in said
    assert "-" not in said
    assert "varnish" not in said
    box.locator("input").nth(1).fill("")
    assert box.locator("output").inner_text() == ""


def test_titles_do_not_break_within_a_word(page: Page, demo: Path) -> None:
    """A line of a heading ends at a space or at a hyphen."""
    for width in (390, 1280):
        opened(page, demo, WIDOW, width, 900)
        broken = page.evaluate(
            """() => [...document.querySelectorAll("h1, h2, h3")].flatMap(head => {
                const walk = document.createTreeWalker(head, NodeFilter.SHOW_TEXT), found = [];
                for (let node; node = walk.nextNode();) for (const word of node.data.matchAll(/[^\\s-]+/g)) {
                    const range = document.createRange();
                    range.setStart(node, word.index);
                    range.setEnd(node, word.index + word[0].length);
                    if (new Set([...range.getClientRects()].map(box => Math.round(box.top))).size > 1) found.push(word[0]);
                }
                return found;
            })"""
        )
        assert broken == []


WET = ".tray summary, .fold > summary, .care-fold > summary, .folds summary, .plain summary, .bar a, .ways a, .contact li:not(.halt) a, .stepper button"


def test_what_wet_hands_touch_is_44_pixels(page: Page, demo: Path) -> None:
    opened(page, demo)
    page.locator("details").evaluate_all("all => all.forEach(each => { each.open = true; })")
    small = page.evaluate(
        """css => [...document.querySelectorAll(css)].filter(place => place.offsetParent)
            .filter(place => place.getBoundingClientRect().height < 44 || place.getBoundingClientRect().width < 40)
            .map(place => place.outerHTML.slice(0, 80))""",
        WET,
    )
    assert small == []
    types = page.evaluate(
        """() => Math.min(...[...document.querySelectorAll("main *")].filter(place => place.offsetParent
            && [...place.childNodes].some(node => node.nodeType === 3 && node.data.trim()) && !place.closest(".unseen, svg"))
            .map(place => parseFloat(getComputedStyle(place).fontSize)))"""
    )
    assert types >= 14


# Colours hang on the scheme and places on the width, so each of them is looked at, and not each with each.
@pytest.mark.parametrize(("scheme", "width"), [("light", 320), ("dark", 390), ("light", 1280)])
def test_axe_finds_nothing_with_everything_open(
    browser: Browser, demo: Path, scheme: Any, width: int
) -> None:
    found = []
    with axe_page(browser, scheme, width) as page:
        for path in (FERRY, "guides/handbook-look/index.html", "index.html", "paints/index.html"):
            page.goto((demo / path).as_uri())
            page.locator("details").evaluate_all("all => all.forEach(each => { each.open = true; })")
            assert page.evaluate("document.documentElement.scrollWidth") <= width
            found += [(path, *broken) for broken in violations(page)]
    assert found == []
