"""A plan's page in a real Chromium, from `file://`: ticks stay, it reflows, it prints whole, and axe finds nothing."""

from __future__ import annotations

import datetime as dt
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import quote

import pytest
import yaml
from support import town
from support.axe import axe_page, violations
from support.content_folders import put
from support.plans import evening, plan_of, unit
from support.rendered_town import riders, site_of

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Locator, Page

PLAN, LONG_DAY = "plans/regatta/index.html", "plans/long-day/index.html"
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
    day = plan_of(
        unit(watch, 48, batch=4, to="Fit to field"),
        dated={dt.date(2026, 4, 11): ((480, 1320),)},
        week={},
    )
    at = tmp_path_factory.mktemp("site")
    archive = replace(town.archive(watch), plans=(plan, replace(day, slug="long-day")))
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


def ticked(page: Page) -> list[int]:
    return [at for at, box in enumerate(page.locator(".job input[type=checkbox]").all()) if box.is_checked()]


def first_box(page: Page) -> Locator:
    """That of the first job of the first unit's first batch."""
    return page.locator(".job[data-unit='1'][data-batch='1'] input").first


def is_done(page: Page, *titles: str) -> None:
    """Wait until the plan shows jobs of the first unit as done, and look whether all of that are these."""
    page.locator(".job.done").first.wait_for()
    shown = [one.text_content() for one in page.locator(".job.done .what").all()]
    assert tuple(dict.fromkeys(shown)) == titles


def first_key(page: Page) -> str:
    """Where the first unit's first batch is kept."""
    return page.evaluate(
        "JSON.parse(document.querySelector('#plan-data').textContent).units[0].batches[0].key"
    )


def test_ticks_are_counts_of_a_batch_so_that_sittings_may_fall_otherwise(page: Page, folder: Path):
    opened(page, folder)
    key = first_key(page)
    assert key.startswith("guidegen:")
    assert key.endswith(":ferry-watch:regatta.1:1")
    first_box(page).check()
    kept = page.evaluate("key => JSON.parse(localStorage.getItem(key)).benches", key)
    steps = {step: own for step, own in kept["index"].items() if own}
    assert steps == {"step-prime": {"painted": [10], "done": True}}
    # Half of the figures are not the job.
    kept["index"]["step-prime"] = {"painted": [5]}
    page.evaluate("([key, benches]) => localStorage.setItem(key, JSON.stringify({benches}))", [key, kept])
    page.reload()
    assert ticked(page) == []


def test_bench_and_plan_tick_the_same(page: Page, folder: Path):
    opened(page, folder)
    first_box(page).check()
    link = page.locator(".job[data-unit='1'] .to-bench a").first
    assert link.get_attribute("aria-label") == "Bench: Prime"
    link.click()
    page.locator("#step-prime.is-done").wait_for(state="attached")
    assert page.locator("#figures").input_value() == "10"
    page.locator("#step-coats .every").click()
    page.reload()
    page.locator("#step-prime.is-done").wait_for(state="attached")
    assert page.locator("#step-coats .count").inner_text() == "Coat 2 of 2: 0 of 10"
    page.locator(".to-plan").first.click()
    is_done(page, "Prime", "Coats, coat 1 of 2")
    # The guide's own bench knows nothing of a plan's batch.
    page.goto((folder / "guides/ferry-watch/bench.html").as_uri())
    page.locator("#step-prime .do").wait_for()
    assert page.locator("#step-prime.is-done").count() == 0
    assert page.locator(".to-plan").first.is_hidden()


def test_a_mixed_batch_is_painted_at_the_benches_of_its_options(page: Page, tmp_path: Path):
    """Three hooded riders and two under straw: two batches, the first mixed; its steps meet in one line for `made`."""
    watch = riders()
    plan = plan_of(
        unit(watch, 5, batch=4, mixed={"headgear": {"hood": 2, "straw hat": 3}}), week={0: evening(20, 23)}
    )
    put(tmp_path, site_of(replace(town.archive(watch), plans=(plan,)), {}))
    opened(page, tmp_path)
    jobs = page.locator(".job[data-batch='1']")
    hrefs = [
        str(link.get_attribute("href")).split("/")[-1].split("?")[0]
        for link in jobs.locator(".to-bench a").all()
    ]
    assert sorted(set(hrefs)) == ["bench-with-straw-hat.html", "bench.html"]
    second = page.locator(".job[data-batch='2'] .to-bench a")
    assert {str(link.get_attribute("href")).split("/")[-1].split("?")[0] for link in second.all()} == {
        "bench-with-straw-hat.html"
    }
    straw = next(
        link for link in jobs.locator(".to-bench a").all() if "with-straw" in str(link.get_attribute("href"))
    )
    href = str(straw.get_attribute("href"))
    straw.click()
    assert page.locator("#figures").input_value() == "4"
    assert page.locator("#step-hat .count").inner_text() == "0 of 2"
    page.locator("#step-hat .every").click()
    page.goto(page.url.replace("bench-with-straw-hat", "bench"))
    assert page.locator("#step-hood .count").inner_text() == "0 of 2"
    assert page.locator("#step-coat .count").inner_text() == "0 of 4"
    for name in ("coat", "hood"):
        page.locator(f"#step-{name} .every").click()
        page.locator(
            f"#step-{name} .bench-notes [data-keep='minutes'], #step-{name} [data-keep='minutes']"
        ).first.evaluate(
            "field => { field.value = 9; field.dispatchEvent(new Event('input', {bubbles: true})); field.dispatchEvent(new Event('change', {bubbles: true})); }"
        )
    made = yaml.safe_load(page.locator(".made").input_value())
    assert made[0]["figures"] == 4
    assert made[0]["mixed"] == {"headgear": {"hood": 2, "straw hat": 2}}
    assert "choose" not in made[0]
    assert {"Coat", "Hood"} <= made[0]["minutes"].keys()
    assert "own=step-hood:2,step-hat:2" in href


def test_where_stores_are_not_shared_ticks_come_with_the_link(page: Page, browser: Browser, folder: Path):
    """As in a browser that gives each file a store of its own: the link is opened where nothing is kept."""
    opened(page, folder)
    first_box(page).check()
    address = page.locator(".job[data-unit='1'] .to-bench a").first.evaluate("link => link.href")
    context = browser.new_context()
    other = context.new_page()
    other.goto(address)
    other.locator("#step-prime.is-done").wait_for(state="attached")
    other.wait_for_url(lambda url: url.endswith("#step-prime"))
    other.locator("#step-coats .every").click()
    back = other.locator(".to-plan").first.evaluate("link => link.href")
    context.close()
    page.goto("about:blank")
    page.goto(back)
    is_done(page, "Prime", "Coats, coat 1 of 2")
    page.wait_for_url(lambda url: url.endswith("index.html#to-do"))
    # One that was cut short brings nothing, and takes nothing away.
    page.goto("about:blank")
    page.goto(back[:-9])
    is_done(page, "Prime", "Coats, coat 1 of 2")


def test_a_link_reaches_nothing_but_what_is_kept(page: Page, folder: Path):
    bench = (folder / "guides/ferry-watch/bench.html").as_uri() + "?unit=regatta.1&batch=1&figures=10"
    for ticks in (
        '{"__proto__":{"polluted":1}}',
        '{"index":{"__proto__":1,"step-prime":[1e9,"x"]}}',
        "[7]",
        "%",
    ):
        page.goto("about:blank")
        page.goto(f"{bench}#step-prime&ticks={ticks if ticks == '%' else quote(ticks)}")
        page.locator("#step-prime .leaf-foot :is(.do, .on):visible").wait_for()
        assert page.evaluate("[({}).polluted, ({}).done]") == [None, None]
        page.wait_for_url(lambda url: url.endswith("#step-prime"))
    assert page.locator("#step-prime.is-done").count() == 0


def test_move_on_from_here_gives_the_lines(page: Page, folder: Path, tmp_path: Path):
    """The first batch has its coats, the second only the first of two; they go on at the next five minutes."""
    page.clock.set_fixed_time(dt.datetime(2026, 4, 9, 20, 2, tzinfo=dt.UTC))
    opened(page, folder)

    def lines() -> dict[str, object]:
        found = yaml.safe_load(page.locator(".move-on textarea").input_value())
        assert isinstance(found, dict)
        return found

    assert list(lines()) == ["from"]
    rows = page.locator(".job[data-unit='1']:not([data-batch='3'])")
    for at in range(rows.count()):
        row = rows.nth(at)
        n, batch, coat = (row.get_attribute(f"data-{name}") for name in ("n", "batch", "coat"))
        if n == "1" or (n == "2" and (batch == "1" or coat == "1")):
            row.locator("input").check()
    found = lines()
    assert found["done"] == {1: "Coats", 2: "Prime"}
    assert str(found["from"]).startswith("2026-04-09T")
    assert str(found["from"]).endswith(":05")
    for at in range(page.locator(".job").count()):
        page.locator(".job input").nth(at).check()
    assert page.locator(".move-on textarea").input_value().count('done: "') == 2
    assert page.locator(".ticks output").text_content() == "{0} of {0} done".format(
        page.locator(".job").count()
    )


@pytest.mark.parametrize(
    "kept", ["{", "5", "null", '{"benches": 7}', '{"benches": {"index": {"step-prime": {"painted": 7}}}}']
)
def test_rubbish_in_the_store_does_no_harm(page: Page, folder: Path, kept: str):
    opened(page, folder)
    page.evaluate("([key, kept]) => localStorage.setItem(key, kept)", [first_key(page), kept])
    page.reload()
    box = first_box(page)
    assert not box.is_checked()
    box.check()
    page.reload()
    assert first_box(page).is_checked()


def test_each_box_is_named_by_its_job(page: Page, folder: Path):
    opened(page, folder)
    row = page.locator(".job").nth(3)
    name = row.locator("input").get_attribute("aria-label")
    assert f"{name} · Bench" == " ".join(row.text_content().split())
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


def test_the_links_of_a_job_are_large_enough_wherever_they_lie(page: Page, folder: Path):
    """WCAG 2.2, 2.5.8: one may lie right under the other."""
    page.set_viewport_size({"width": 390, "height": 844})
    opened(page, folder)
    heights = page.locator(".job a").evaluate_all(
        "all => all.map(each => each.getBoundingClientRect().height)"
    )
    assert min(heights) >= 24


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


@pytest.mark.parametrize("size", ["A4", "Letter"])
def test_a_long_day_of_small_batches_prints_on_one_page_too(page: Page, folder: Path, size: str):
    page.add_init_script("print = () => {}")
    opened(page, folder, LONG_DAY)
    assert page.locator(".sitting .job").count() > 50
    page.locator(".print-sitting").click()
    assert page.pdf(format=size).count(b"/Type /Page\n") == 1


@pytest.mark.parametrize(("path", "alone"), [(PLAN, False), (PLAN, True), (LONG_DAY, True)])
def test_no_time_lies_over_a_steps_name_on_paper(page: Page, folder: Path, path: str, alone: bool):
    """A4 less its margins; the widest time is "about 20:10–20:20"."""
    page.add_init_script("print = () => {}")
    page.set_viewport_size({"width": 703, "height": 1032})
    opened(page, folder, path)
    if alone:
        jobs = page.locator(".sitting").evaluate_all(
            "all => all.map(each => each.querySelectorAll('.job').length)"
        )
        page.locator(".print-sitting").nth(jobs.index(max(jobs))).click()
    page.emulate_media(media="print")
    over = page.locator(".job").evaluate_all(
        """jobs => jobs.filter(job => job.checkVisibility()).filter(job => {
            const all = document.createRange();
            all.selectNodeContents(job.querySelector(".when"));
            return all.getBoundingClientRect().right > job.querySelector(".what").getClientRects()[0].left;
        }).map(job => job.innerText)"""
    )
    assert over == []


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
