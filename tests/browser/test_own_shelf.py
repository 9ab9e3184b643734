"""What the reader's own pots change beside a guide's lines: whose shelf is meant, on paper too, and the list of mixtures."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from support.content_folders import lay_out
from support.own_pots import SIXTY, TEXT, fills, guide, own, rest

from guidegen.building.build import Order, build

if TYPE_CHECKING:
    from playwright.sync_api import Page


def _built(at: Path, text: str) -> Path:
    lay_out(at / "content", text)
    assert build(Order(content=at / "content", out=at / "site", cache=at / "cache")).counts is not None
    return at / "site"


def test_shelf_and_plan_say_whose_shelf_they_mean_on_paper_too(page: Page, tmp_path: Path) -> None:
    site = _built(tmp_path, TEXT)
    theirs = page.get_by_text("With the pots on the author’s shelf")
    page.goto((site / "shelf.html").as_uri())
    assert theirs.is_hidden()
    own(page, site, SIXTY)
    guide(page, site, "shelf.html")
    assert theirs.is_visible()
    page.emulate_media(media="print")
    assert all(link.is_visible() for link in page.locator(".own-guide > a").all())
    assert page.locator(".own-top a").is_hidden()
    guide(page, site, "plans/regatta/index.html")
    assert page.inner_text("#to-buy") == "What the author’s shelf lacks"
    page.emulate_media(media="screen")


def test_the_list_of_mixtures_is_in_the_readers_paints_too(page: Page, tmp_path: Path) -> None:
    mixed = """» guides/reeds/guide.md
---
title: Reeds
steps:
  - {step: Reeds, technique: base coat, area: reeds, paint: {Oilskin Ochre: 2, Gull: 1}, each: 2 min}
  - {step: Backs, technique: base coat, area: backs, paint: {Kiln Red: 1, Gull: 1}, each: 2 min}
  - {step: Tips, technique: base coat, area: tips, paint: Dry reed, each: 2 min}
---
"""
    town = TEXT.replace("mixes:\n", "mixes:\n  - {name: Dry reed, parts: {Oilskin Ochre: 3, Gull: 1}}\n")
    site = _built(tmp_path, town + mixed)
    own(page, site, [*SIXTY, "Reedbank / Gull"])
    guide(page, site, "guides/reeds/index.html")
    before = rest(page)
    page.check(".own-switch input")
    page.locator(".mixes summary").click()
    rows = [" ".join(text.split()) for text in page.locator(".mix-rows > li").all_inner_texts()]
    assert "2 Mustard + 1 Gull guide: 2 Oilskin Ochre + 1 Gull" in rows[0]
    assert "guide:" not in rows[1]
    assert "3 Mustard + 1 Gull guide: Dry reed" in rows[2]
    step, row = fills(page, "#step-reeds .pots"), fills(page, ".mix-rows > li:first-child")
    assert set(row) == set(step)
    page.locator(".mixes summary").click()
    page.uncheck(".own-switch input")
    assert rest(page) == before
