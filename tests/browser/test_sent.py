"""A guide that was sent, alone in an empty folder, in a real Chromium: all is there, all works, nothing is refused."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from support.axe import axe_page, violations
from support.sent_guides import club, parcel
from support.waiting import until

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

LONG = "Oberwasserstraßenfährmannsumhangsäume"


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("sent")
    content = club(at / "content")
    guide = content / "guides" / "ferry-watch" / "guide.md"
    text = guide.read_text(encoding="utf-8").replace("Fit to stand", f"{LONG}, fit to stand")
    guide.write_text(text, encoding="utf-8")
    (at / "mail").mkdir()
    parcel(content, at / "cache", at / "mail" / "ferry-watch.html", "ferry-watch")
    assert [path.name for path in (at / "mail").iterdir()] == ["ferry-watch.html"]
    return at / "mail" / "ferry-watch.html"


@pytest.fixture
def told(page: Page) -> list[str]:
    """What the browser asks for besides what lies inside, what fails, and every remark of the console."""
    heard: list[str] = []
    page.on("request", lambda request: heard.append(request.url))
    page.on("requestfailed", lambda request: heard.append(f"failed: {request.url}"))
    page.on("console", lambda line: heard.append(line.text))
    page.add_init_script(
        "addEventListener('securitypolicyviolation', event => console.error(event.violatedDirective))"
    )
    return heard


def asked(told: list[str]) -> list[str]:
    return [one for one in told if not one.startswith("data:")]


def test_it_is_whole_and_asks_for_nothing(page: Page, told: list[str], file: Path) -> None:
    page.goto(file.as_uri())
    pictures = page.evaluate("[...document.images].map(image => [image.naturalWidth, image.alt])")
    # The bench within shows those of steps again, which no chart draws.
    assert sorted(map(list, set(map(tuple, pictures)))) == [
        [960, "Coats"],
        [960, "Four watchmen on the jetty"],
        [960, "The end of it"],
    ]
    assert page.evaluate("getComputedStyle(document.body).margin") == "0px"
    icon = page.evaluate("document.querySelector('link[rel=icon]').href")
    assert icon.startswith("data:image/svg+xml,")
    assert asked(told) == [file.as_uri()]


def test_the_policy_would_refuse_what_is_not_its_own(browser: Browser, file: Path) -> None:
    context = browser.new_context()
    page = context.new_page()
    refused: list[str] = []
    page.on("console", lambda line: refused.append(line.text))
    page.goto(file.as_uri())
    assert refused == []
    ran = page.evaluate(
        """async () => {
            const script = document.createElement("script");
            script.textContent = "window.ran = true";
            document.body.append(script);
            document.body.insertAdjacentHTML("beforeend", '<img src="beside.png"><p style="position:fixed">x</p>');
            const fetched = await fetch("https://harbour.example/").then(() => true, () => false);
            return [window.ran === true, getComputedStyle(document.body.lastElementChild).position, fetched];
        }"""
    )
    context.close()
    assert ran == [False, "static", False]
    for directive in ("script-src", "style-src", "img-src", "default-src"):
        assert any(directive in line for line in refused), directive


def test_the_number_of_figures_changes_times_and_amounts(page: Page, told: list[str], file: Path) -> None:
    page.goto(file.as_uri())
    before = page.inner_text(".sums"), page.inner_text(".amount >> nth=0")
    page.fill("#figures", "12")
    page.press("#figures", "Enter")
    after = page.inner_text(".sums"), page.inner_text(".amount >> nth=0")
    assert all(one != other for one, other in zip(before, after, strict=True))
    assert "12 figures" in page.locator("output").first.inner_text()
    assert asked(told) == [file.as_uri()]


def test_a_photo_opens_large_also_where_it_is_shown_again(page: Page, told: list[str], file: Path) -> None:
    page.goto(file.as_uri())
    for at, words in enumerate(
        ("Four watchmen on the jetty", "A second coat over the first", "The end of it")
    ):
        page.locator(".photo a").nth(at).click()
        assert page.locator("dialog").is_visible()
        assert page.evaluate("document.querySelector('dialog img').naturalWidth") == 960
        assert page.inner_text(".large-words").startswith(words)
        page.keyboard.press("Escape")
        assert not page.locator("dialog").is_visible()
    assert asked(told) == [file.as_uri()]


def test_ticks_are_kept_and_can_be_taken_away(page: Page, file: Path) -> None:
    page.goto(file.as_uri())
    ticks = page.get_by_role("checkbox", name="Done")
    assert ticks.count() == 2
    assert not page.locator(".forget").is_visible()
    ticks.nth(1).check()
    page.reload()
    assert [tick.is_checked() for tick in ticks.all()] == [False, True]
    page.click(".forget")
    page.reload()
    assert [tick.is_checked() for tick in ticks.all()] == [False, False]


def test_without_scripts_every_photo_is_there(browser: Browser, file: Path) -> None:
    """Mail readers often show such a file without running it."""
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(file.as_uri())
    assert page.locator(".batch").inner_text() == "4 figures"
    assert page.locator(".tick").count() == 0
    shown = page.locator(".photo :is(img, svg)")
    assert shown.count() == 3
    for one in shown.all():
        box = one.bounding_box()
        assert box is not None
        assert box["width"] > 200
        assert abs(box["width"] / box["height"] - 1100 / 733) < 0.02
    context.close()


@pytest.mark.parametrize("width", [390, 320])
def test_nothing_sticks_out_on_a_phone(page: Page, file: Path, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    page.goto(file.as_uri())
    assert page.evaluate("document.documentElement.scrollWidth") == width


def test_on_paper_there_are_no_ticks(page: Page, file: Path) -> None:
    page.goto(file.as_uri())
    page.emulate_media(media="print")
    assert not page.locator(".tick").first.is_visible()
    assert page.locator(".ring").first.is_visible()


@pytest.mark.parametrize(("scheme", "width"), [("light", 360), ("dark", 1280)])
def test_axe_finds_nothing(browser: Browser, file: Path, scheme: Any, width: int) -> None:
    with axe_page(browser, scheme, width) as page:
        page.goto(file.as_uri())
        page.locator(".tick input").first.check()
        found = violations(page)
    assert found == []


def test_it_is_painted_along_within_the_file(page: Page, told: list[str], file: Path) -> None:
    faults: list[str] = []
    page.on("pageerror", lambda error: faults.append(str(error)))
    page.set_viewport_size({"width": 390, "height": 664})
    page.emulate_media(reduced_motion="reduce")
    page.goto(file.as_uri())
    assert not page.locator(".leaf").first.is_visible()
    page.fill("#figures", "7")
    page.press("#figures", "Tab")
    page.locator(".bar .to-bench").click()
    assert page.locator(".bench-head h1").is_visible()
    assert not page.locator("article h1").is_visible()
    page.locator(".resume a").click()
    step = page.url.split("#")[1]
    assert step.startswith("at-step-")
    leaf = page.locator(f"#{step}")
    assert leaf.locator(".count").inner_text().endswith("0 of 7")
    leaf.locator(".do").click()
    page.reload()
    assert leaf.locator(".count").inner_text().endswith("1 of 7")
    assert leaf.locator(".drawn > *").first.is_visible()
    # A turn goes to the next step of the bench, not of the guide behind it.
    page.keyboard.press("ArrowRight")
    until(lambda: "#at-" in page.url and not page.url.endswith(f"#{step}"))
    page.locator(".to-guide").first.click()
    assert page.locator("article h1").is_visible()
    assert (
        page.evaluate("new Set([...document.querySelectorAll('[id]')].map(each => each.id)).size")
        == page.locator("[id]").count()
    )
    assert asked(told) == [file.as_uri()] * 2
    assert faults == []


def test_without_scripts_the_bench_in_the_file_is_a_link_away(browser: Browser, file: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(file.as_uri())
    page.locator(".bar .to-bench").click()
    assert page.locator(".leaf h2").first.is_visible()
    assert not page.locator("article h1").is_visible()
    context.close()
