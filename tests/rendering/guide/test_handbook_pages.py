"""A page of the handbook is one of words: no figures, scale, times or bench, and a shelf of its own on the home page."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from bs4 import BeautifulSoup
from support import town
from support.rendered_town import site_of, soup

from guidegen.model.guide import GuideKind
from guidegen.model.web_address import WebAddress

PAGE = "guides/eel-seller/index.html"


@pytest.fixture(scope="module")
def site() -> dict[str, bytes]:
    words = replace(town.short_note(), kind=GuideKind.HANDBOOK, summary="How to sell eels.")
    archive = town.archive(words, town.ferry_watch())
    told = replace(
        archive.site, summary="What the town paints.", url=WebAddress.parse("https://delta.example")
    )
    return site_of(replace(archive, site=told))


@pytest.fixture(scope="module")
def page(site: dict[str, bytes]) -> BeautifulSoup:
    return soup(site, PAGE)


def test_it_has_no_figures_times_and_bench(site: dict[str, bytes], page: BeautifulSoup) -> None:
    assert not page.select(
        ".glance, .stepper, time, .clock, .wet, .wait, .when, #clock-data, #ending, .to-bench"
    )
    labels = {term.get_text() for term in page.select(".head .facts dt, .step .facts dt")}
    assert labels.isdisjoint({"Scale", "Base", "Painting", "Dry", "Clock"})
    assert not [path for path in site if path.startswith("guides/eel-seller/bench")]
    assert page.find("script", attrs={"data-pages": True})["data-pages"] == "index.html"
    painted = soup(site, "guides/ferry-watch/index.html")
    assert painted.select(".glance")
    assert painted.select(".to-bench")


def test_nothing_is_said_of_its_times_elsewhere(site: dict[str, bytes], page: BeautifulSoup) -> None:
    data = json.loads(page.find("script", attrs={"type": "application/ld+json"}).string)
    assert {"totalTime", "performTime", "yield"}.isdisjoint(data)
    entry = next(
        one
        for one in json.loads(site["search-index.js"].decode().removeprefix("guidegenIndex(").rstrip(");\n"))
        if one["slug"] == "eel-seller"
    )
    assert entry["facts"] == "Handbook"
    assert entry["minutes"] is None


def test_it_stands_on_a_shelf_of_its_own(site: dict[str, bytes]) -> None:
    home = soup(site, "index.html")
    assert [link["href"] for link in home.select(".handbook a")] == [PAGE]
    assert "How to sell eels." in home.select_one(".handbook").get_text()
    assert [link["href"] for link in home.select(".card h2 a")] == ["guides/ferry-watch/index.html"]
    assert home.select_one(".counts").get_text().startswith("1 guide ")


def test_home_says_what_the_site_is(site: dict[str, bytes]) -> None:
    home = soup(site, "index.html")
    assert home.select_one(".home-head .lede").get_text() == "What the town paints."
    assert home.find("meta", attrs={"name": "description"})["content"] == "What the town paints."
