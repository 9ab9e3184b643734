"""The site in German in a real Chromium: scripts say what Python says, long words fit, axe finds nothing."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner
from support.axe import violations
from support.content_folders import lay_out
from support.languages import GERMAN
from support.made_once import built_german
from support.paths import CASES
from support.spray_weather import spray_weather

from guidegen.commands.build import command
from guidegen.computing.guide.spraying import COLDEST_READ, HOTTEST_READ, REASONS

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

CONTENT = CASES / "german.txt"
GUIDE = "guides/faehrwache/index.html"
KINDS = (
    "index.html",
    GUIDE,
    "guides/faehrwache/bench.html",
    "plans.html",
    "plans/eilig/index.html",
    "plans/nie/index.html",
    "cautions.html",
    "techniques.html",
    "colours.html",
    "try.html",
    "paints/index.html",
    "paints/schiefergrund.html",
    "shelf.html",
    "shared/steg-base.html",
    "404.html",
)
# Batches of which the last is the most that a page counts.
BATCHES = (1, 23, 500)

# Everything on a guide's page that its script writes anew for another batch.
WRITTEN = """() => [...document.querySelectorAll("[data-show], [data-say], .amount, .shelf, .when, .wait")]
    .map(place => place.textContent.replace(/\\s+/g, " ").trim())"""


def made(at: Path, figures: int, cache: Path) -> Path:
    text = CONTENT.read_text("utf-8")
    assert "\nfigures: 10\n" in text
    lay_out(at / "content", text.replace("\nfigures: 10\n", f"\nfigures: {figures}\n"))
    places = ["--content", str(at / "content"), "--out", str(at / "site"), "--cache", str(cache)]
    result = CliRunner().invoke(command, places)
    assert result.exit_code == 0, result.output
    return at / "site"


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built_german(tmp_path_factory)


@pytest.mark.parametrize("figures", BATCHES)
def test_another_batch_reads_as_if_it_had_been_built(page: Page, site: Path, tmp_path: Path, figures: int):
    page.goto((site / GUIDE).as_uri())
    page.fill("#figures", str(figures))
    page.dispatch_event("#figures", "change")
    by_script = page.evaluate(WRITTEN)
    page.goto((made(tmp_path, figures, site.parent / "cache") / GUIDE).as_uri())
    by_python = page.evaluate(WRITTEN)
    assert by_script == by_python
    if figures == max(BATCHES):
        # Groups of digits and a decimal comma are among what was compared.
        assert any("1.700 ml" in text for text in by_python)
    if figures == min(BATCHES):
        assert any(re.search(r"\d,\d+ ml", text) for text in by_python)


def test_what_is_said_of_the_weather(page: Page, site: Path):
    page.goto((site / GUIDE).as_uri())
    place = page.locator(".weather").first
    place.evaluate("place => { place.closest('details').open = true; }")
    for reading in ((18.0, 17.5, 45.0), (18.0, 17.5, 65.0), (5.0, 5.0, 80.0), (70.0, 20.0, 50.0)):
        for field, value in zip(place.locator("input").all(), reading, strict=True):
            field.fill(f"{value:g}")
        found = spray_weather(*reading)
        words = [GERMAN.t(f"spray.{found.verdict}")]
        for reason in found.reasons:
            limit = REASONS[reason]
            words.append(GERMAN.t(f"spray.{reason}", limit=limit, coldest=COLDEST_READ, hottest=HOTTEST_READ))
        if found.dew_point is not None and found.margin is not None:
            dew, margin = (GERMAN.number(value, 1) for value in (found.dew_point, found.margin))
            words.append(GERMAN.t("spray.dew", dew=dew, margin=margin))
        assert place.locator("output").inner_text().strip() == " ".join(words)


def test_the_bench_speaks_german(page: Page, site: Path):
    page.goto((site / "guides/faehrwache/bench.html").as_uri())
    leaf = page.locator(".leaf[data-n='1']")
    assert leaf.locator(".do").inner_text() == "Figur 1 von 10 fertig"
    assert leaf.locator(".timer").inner_text() == "Trocknet 30 min: Uhr starten"
    leaf.locator(".every").click()
    assert page.locator(".told").inner_text() == GERMAN.t("bench.is-done", n=1, done=1, count=16)


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_long_words_fit(page: Page, site: Path, width: int):
    page.set_viewport_size({"width": width, "height": 800})
    for path in KINDS:
        page.goto((site / path).as_uri())
        assert page.evaluate("document.documentElement.scrollWidth") <= width, path


def test_axe_finds_nothing(browser: Browser, site: Path):
    context = browser.new_context(bypass_csp=True, reduced_motion="reduce")
    page = context.new_page()
    found = {}
    for path in (GUIDE, "plans/eilig/index.html", "cautions.html", "colours.html"):
        page.goto((site / path).as_uri())
        found[path] = violations(page)
    context.close()
    assert found == {path: [] for path in found}
