"""After a first try: what a mixture became, told on the page of one's pots or in a guide, says what to add."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from click.testing import CliRunner
from support.axe import axe_page, violations
from support.content_folders import lay_out
from support.own_pots import TEXT, guide, my_pots, own

from guidegen.building.build import Order, build
from guidegen.cli import guidegen

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

# Lines are made when a fold is opened, and made again when all guides have been looked at.
OPENED = """() => {
  const closed = document.querySelectorAll(".own details:not([open])");
  closed.forEach(one => { one.open = true; });
  return document.querySelector(".own summary") && !closed.length;
}"""
POTS = ["Reedbank / Old Rope", "Reedbank / Gull", "Reedbank / Kiln Red"]


@pytest.fixture(scope="module")
def at(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("first-try")
    lay_out(at / "content", TEXT)
    assert build(Order(content=at / "content", out=at / "site", cache=at / "cache")).counts is not None
    return at


def _told(page: Page, wanted: str, mixed: str, got: str) -> str:
    page.fill("#mine-wanted", wanted)
    page.fill("#mine-mixed", mixed)
    page.fill("#mine-got", got)
    page.click(".mine-try button")
    page.wait_for_function("() => document.querySelector('.mine-next').textContent")
    return page.inner_text(".mine-next")


def test_the_page_of_my_pots_says_what_to_add_as_the_command_does(page: Page, at: Path) -> None:
    own(page, at / "site", POTS)
    my_pots(page, at / "site")
    asked = ("mix", "--content", str(at / "content"), "--toward", "Light Rope", "--from", "all", "--json")
    tried = ("--tried", "Old Rope: 3, Gull: 1", "--got", "#cbac76")
    answer = json.loads(CliRunner().invoke(guidegen, [*asked, *tried]).stdout)
    [(name, parts)] = answer["add"].items()
    said = _told(page, "Light Rope", "3 Old Rope + 1 Gull", "#cbac76")
    assert said.startswith("3 Old Rope + 1 Gull became: ")
    assert f"Add {parts:g} {'part' if parts == 1 else 'parts'} {name}: then about " in said
    assert "3 Old Rope + 1 Gull" in page.inner_text(".mine-tried")
    page.reload()
    page.locator(".mine-tried li").wait_for()
    page.get_by_role("button", name="Forget it: 3 Old Rope + 1 Gull").click()
    assert page.locator(".mine-tried li").count() == 0
    assert "start again" in _told(page, "#d4b886", "Old Rope: 2, Gull: 1", "#203040")


@pytest.mark.parametrize(
    ("wanted", "mixed", "said"),
    [
        ("Nothing", "2 Old Rope + 1 Gull", "“Nothing” is neither a paint of a known colour nor a colour."),
        ("Light Rope", "2 Old Rope + 1 Silt Wash", "“Silt Wash” is no pot at hand that can be mixed."),
        ("Light Rope", "2 <b>Rope</b> + 1 Gull", "“<b>Rope</b>” is no pot at hand that can be mixed."),
        ("Light Rope", "2 Gull + 1 Gull", "Two to four pots in parts make a mixture."),
    ],
)
def test_what_cannot_be_told_from_is_said(page: Page, at: Path, wanted: str, mixed: str, said: str) -> None:
    own(page, at / "site", [*POTS, "Reedbank / Silt Wash"])
    my_pots(page, at / "site")
    assert _told(page, wanted, mixed, "#808080") == said
    assert page.locator(".mine-tried li, .mine-next b").count() == 0


def test_in_a_guide_a_try_corrects_what_is_foretold_next(page: Page, at: Path) -> None:
    own(page, at / "site", POTS)
    guide(page, at / "site", "guides/ropes/index.html")
    line = page.locator(".own-lines > li").filter(has_text="for Light Rope")
    before = line.locator(".own-line").first.inner_text()
    assert before.startswith("1 Gull + 1 Old Rope for Light Rope")
    line.locator("summary").click()
    line.locator("input[type=color]").fill("#e8dcc8")
    line.locator("input[type=color]").dispatch_event("change")
    assert "1 Gull + 1 Old Rope became: " in line.inner_text()
    assert "Add " in line.inner_text()
    line.get_by_role("button", name="Undo").click()
    # It came out too light: another mixture of the two, with less of the white, is foretold now.
    after = line.locator(".own-line").first.inner_text()
    assert "Old Rope + 1 Gull" in after
    page.reload()
    page.locator(".own.told").wait_for()
    assert line.locator(".own-line").first.inner_text() == after


@pytest.mark.parametrize(("scheme", "width"), [("dark", 390), ("light", 1280)])
def test_axe_finds_nothing_on_shelf_plan_and_after_a_try(
    browser: Browser, at: Path, scheme: str, width: int
) -> None:
    with axe_page(browser, scheme, width) as page:
        own(page, at / "site", POTS)
        my_pots(page, at / "site")
        _told(page, "Light Rope", "3 Old Rope + 1 Gull", "#cbac76")
        assert violations(page) == []
        for path in ("shelf.html", "plans/regatta/index.html", "guides/ropes/index.html"):
            guide(page, at / "site", path)
            page.wait_for_function(OPENED)
            assert violations(page) == []
            assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
