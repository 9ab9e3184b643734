"""A guide that was sent alone, and a reader who tells it of pots: no page is left, nothing is asked for."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from support.axe import axe_page, violations
from support.content_folders import lay_out
from support.own_pots import SIXTY, TEXT, fills
from support.sent_guides import parcel

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("sent-pots")
    parcel(lay_out(at / "content", TEXT), at / "cache", at / "watch.html", "ferry-watch")
    return at / "watch.html"


def _tell(page: Page, *names: str) -> None:
    if not page.locator("#mine-list").is_visible():
        page.locator(".own-tell summary").click()
    page.fill("#mine-list", "\n".join(names))
    page.click(".own-tell [type=submit]")


def test_it_speaks_of_the_pots_that_it_is_told(page: Page, file: Path) -> None:
    heard: list[str] = []
    page.on("request", lambda request: heard.append(request.url))
    page.on("console", lambda line: heard.append(line.text))
    page.on("pageerror", lambda error: heard.append(str(error)))
    page.goto(file.as_uri())
    assert not page.locator(".own").is_visible()
    _tell(page, *SIXTY[1:], "Mustrd", "<b>Odd</b>")
    assert page.inner_text(".mine-taken") == "59 pots taken over. 2 names are not known here:"
    assert page.locator(".mine-unknown b").count() == 0
    assert page.inner_text(".own-sum").startswith("Of 4 paints you have 1; 1 has a substitute, 2 to buy")
    page.get_by_role("button", name="Take Reedbank / Mustard").click()
    assert page.inner_text(".own-sum").startswith("Of 4 paints you have 1; 2 have a substitute, 1 to buy")
    assert page.inner_text(".own-buy") == "To buy for your table: Night Glow (3 pots)"
    page.check(".own-switch input")
    assert " ".join(page.inner_text("#step-coats .pots").split()) == "Mustard guide: Oilskin Ochre"
    assert fills(page, "#step-coats .pots") == ["#ba8a33"]
    page.reload()
    page.locator(".own.told").wait_for()
    assert page.is_checked(".own-switch input")
    assert page.locator(".own a").count() == 0
    assert [one for one in heard if one != file.as_uri() and not one.startswith("data:")] == []


def test_a_pot_that_the_archive_lacks_is_kept_with_its_colour(page: Page, file: Path) -> None:
    page.goto(file.as_uri())
    _tell(page, "name,colour", "Grandmother’s Red,#a03131")
    assert page.inner_text(".mine-taken") == "0 pots taken over. 1 name is not known here:"
    page.get_by_role("button", name="Keep it under this name").click()
    assert "Grandmother’s Red for Bell Red" in page.inner_text(".own-lines")
    assert page.locator(".mine-unknown li").count() == 0


def test_a_link_brings_pots_along(page: Page, file: Path) -> None:
    page.goto(file.as_uri() + '#pots={"pots":[{"name":"Reedbank%20/%20Bell%20Red"}]}')
    page.locator(".own.told").wait_for()
    assert page.inner_text(".own-sum").startswith("Of 4 paints you have 1")


@pytest.mark.parametrize(("scheme", "width"), [("dark", 390), ("light", 1280)])
def test_axe_finds_nothing(browser: Browser, file: Path, scheme: str, width: int) -> None:
    with axe_page(browser, scheme, width) as page:
        page.goto(file.as_uri())
        _tell(page, *SIXTY, "Mustrd")
        for summary in page.locator(".own summary").all():
            summary.click()
        assert violations(page) == []
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
