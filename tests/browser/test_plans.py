"""A plan's page in a real Chromium, from `file://`: ticks stay, it reflows, it prints whole, and axe finds nothing."""

from __future__ import annotations

import datetime as dt
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from support import town
from support.axe import axe_page, violations
from support.content_folders import put
from support.plans import evening, plan_of, unit
from support.rendered_town import site_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

PLAN = "plans/regatta/index.html"
PAGES = (PLAN, "plans.html")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A plan that is late, with units up to a stop, over many short evenings of several months."""
    watch = town.ferry_watch()
    plan = plan_of(
        unit(watch, 30, batch=10, to="Fit to field"),
        unit(watch, 6),
        week={0: evening(20, 21), 3: evening(20, 21)},
        deadline=dt.date(2026, 5, 2),
    )
    at = tmp_path_factory.mktemp("site")
    archive = replace(town.archive(watch), plans=(plan,))
    put(at, site_of(archive, {}))
    return at


def opened(page: Page, folder: Path, path: str = PLAN) -> Page:
    page.goto((folder / path).as_uri())
    return page


def test_a_tick_survives_a_reload(page: Page, folder: Path):
    opened(page, folder)
    boxes = page.locator(".job input[type=checkbox]")
    count = boxes.count()
    assert count == page.locator(".job").count() > 20
    assert page.locator(".ticks output").text_content() == f"0 of {count} done"
    boxes.nth(0).check()
    page.locator(".job .which").nth(2).click()
    assert page.locator(".ticks output").text_content() == f"2 of {count} done"
    page.reload()
    ticked = [at for at in range(count) if boxes.nth(at).is_checked()]
    assert ticked == [0, 2]
    assert page.locator(".ticks output").text_content() == f"2 of {count} done"
    following = page.locator(".ticks a")
    assert following.get_attribute("href").endswith("#sitting-1")
    assert page.locator(".job .what").nth(1).text_content() in following.text_content()
    boxes.nth(0).uncheck()
    page.reload()
    assert [at for at in range(count) if boxes.nth(at).is_checked()] == [2]


def test_what_is_kept_goes_by_figure_so_that_sittings_may_fall_otherwise(page: Page, folder: Path):
    opened(page, folder)
    first = page.locator(".job").first
    work, begin, end = (first.get_attribute(f"data-{name}") for name in ("work", "first", "last"))
    key = page.locator(".ticks").get_attribute("data-store")
    assert key.startswith("guidegen:")
    first.locator("input").check()
    kept = page.evaluate("key => JSON.parse(localStorage.getItem(key))", key)
    assert kept == {work: list(range(int(begin), int(end) + 1))}
    assert page.evaluate("Object.keys(localStorage)") == [key]
    # Half of the figures are not the job.
    page.evaluate(
        "([key, work, n]) => localStorage.setItem(key, JSON.stringify({[work]: [n]}))", [key, work, int(end)]
    )
    page.reload()
    assert not first.locator("input").is_checked()


@pytest.mark.parametrize("kept", ["{", "5", "null", '"done"', '{"1.step-prime.1": 7}', "[[1]]"])
def test_rubbish_in_the_store_does_no_harm(page: Page, folder: Path, kept: str):
    opened(page, folder)
    key = page.locator(".ticks").get_attribute("data-store")
    page.evaluate("([key, kept]) => localStorage.setItem(key, kept)", [key, kept])
    page.reload()
    box = page.locator(".job input").first
    assert not box.is_checked()
    box.check()
    page.reload()
    assert page.locator(".job input").first.is_checked()


def test_each_box_is_named_by_its_job(page: Page, folder: Path):
    opened(page, folder)
    row = page.locator(".job").nth(3)
    name = row.locator("input").get_attribute("aria-label")
    assert name == " ".join(row.text_content().split())
    bounds = row.locator("input").bounding_box()
    # WCAG 2.2, 2.5.8: at least 24 by 24 pixels.
    assert min(bounds["width"], bounds["height"]) >= 24


def test_without_scripts_rings_stand_for_the_boxes(browser: Browser, folder: Path):
    context = browser.new_context(java_script_enabled=False)
    plain = opened(context.new_page(), folder)
    assert plain.locator(".job .ring").first.is_visible()
    assert plain.locator("input").count() == 0
    assert not plain.locator(".ticks").is_visible()
    context.close()


@pytest.mark.parametrize(("scheme", "width"), [("light", 1280), ("dark", 320)])
def test_axe_finds_nothing_and_nothing_sticks_out(browser: Browser, folder: Path, scheme: str, width: int):
    with axe_page(browser, scheme, width) as page:
        for path in PAGES:
            opened(page, folder, path)
            assert violations(page) == [], path
            assert page.evaluate("document.documentElement.scrollWidth") <= width, path


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_one_sitting_prints_on_one_page_with_its_pots(page: Page, folder: Path, size: str):
    """The page as its print button leaves it, which would stop at the system's own window."""
    page.add_init_script("print = () => {}")
    opened(page, folder)
    whole = page.pdf(format=size).count(b"/Type /Page\n")
    last = page.locator(".sitting").last
    last.locator(".print-sitting").click()
    assert page.pdf(format=size).count(b"/Type /Page\n") == 1 < whole
    # Once it is printed the page is whole again.
    page.locator("html:not(.one-sitting)").wait_for(state="attached")
    assert page.pdf(format=size).count(b"/Type /Page\n") == whole
    last.locator(".print-sitting").click()
    page.emulate_media(media="print")
    assert last.locator(".pots-in-order").is_visible()
    assert [page.locator(css).filter(visible=True).count() for css in (".sitting", "#shopping")] == [1, 0]


def test_every_job_is_on_paper(page: Page, folder: Path, tmp_path: Path):
    """Read back with poppler's pdftotext: nothing that the page says of its jobs is lost in print."""
    reader = shutil.which("pdftotext")
    if reader is None:
        pytest.skip("pdftotext, of poppler, is not installed")
    opened(page, folder)
    titles = page.locator(".job .what").all_text_contents()
    days = page.locator(".sitting h3 time").all_text_contents()
    for size in ("A4", "Letter"):
        page.pdf(path=tmp_path / "plan.pdf", format=size)
        run = subprocess.run([reader, tmp_path / "plan.pdf", "-"], capture_output=True, text=True, check=True)
        text = " ".join(run.stdout.split())
        assert not [day for day in days if day not in text]
        for title in dict.fromkeys(titles):
            assert text.count(title) >= titles.count(title), title
