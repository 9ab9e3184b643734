"""A guide's page rendered for one file: it says what the site's page says, and leads to nothing that is not in it."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from support import town
from support.languages import ENGLISH
from support.rendered_town import TEMPLATES, riders, site_of

from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.model.guide import Guide
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.standalone.own_source import OwnSource
from guidegen.rendering.standalone.sent_page import sent_page
from guidegen.rendering.theme.assets import site_assets
from guidegen.rendering.theme.templates import Templates

HOME = "guides/{}/index.html"


def sent(guide: Guide, path: str = "", templates: Templates = TEMPLATES) -> BeautifulSoup:
    archive = town.archive(guide)
    assets, files = site_assets(templates, {})
    context = SiteContext.of(archive, PaletteTools.over(archive.palette), assets, town.PICTURES)
    photos = [(picture, b"RIFF") for picture in town.PICTURES.values()]
    page = sent_page(
        guide,
        path or HOME.format(guide.slug),
        context,
        templates,
        files,
        photos,
        OwnSource(texts={}, photos={}),
    )
    return BeautifulSoup(page.decode(), "html.parser")


@pytest.mark.parametrize("guide", [town.ferry_watch(), town.short_note(), riders()], ids=lambda one: one.slug)
def test_its_words_are_those_of_the_sites_page(guide: Guide) -> None:
    path = HOME.format(guide.slug)
    on_site = BeautifulSoup(site_of(town.archive(guide))[path].decode(), "html.parser")
    alone = sent(guide)
    for page in (on_site, alone):
        for gone in page.select(
            "script, style, .masthead nav, .own, .own-tell, .paint-along, .choice a:not([aria-current])"
        ):
            gone.decompose()
        for take_along in page.select("section[aria-labelledby=take] :is(h2, ul)"):
            take_along.decompose()
    assert alone.get_text(" ", strip=True) == on_site.get_text(" ", strip=True)


def test_it_asks_for_the_readers_pots_and_has_what_speaks_of_them_inside() -> None:
    page = sent(town.ferry_watch())
    assert page.select_one(".own-tell .small").get_text() == ENGLISH.t("mine.sent")
    assert "guidegenPaints({" in page.find_all("script")[-1].get_text()


def test_what_leads_into_the_site_are_words() -> None:
    page = sent(town.ferry_watch())
    places = {f"#{tag['id']}" for tag in page.find_all(id=True)}
    assert {tag["href"] for tag in page.select("a:not(.save-log)")} <= places
    assert len(page.select(".pot, .name, .blend-parts")) > 15
    assert not page.select(".pot a, .part a, .doing a, .site-name a, .masthead nav")


def test_of_a_choice_it_names_what_it_shows_and_is_no_way_anywhere() -> None:
    for path, option in (("index", "hood"), ("with-straw-hat", "straw hat")):
        choice = sent(riders(), f"guides/heron-riders/{path}.html").find(class_="choice")
        assert choice is not None
        assert (choice.name, choice["role"], choice["aria-label"]) == ("div", "group", "headgear")
        assert choice.find("b").get_text() == option
        assert not choice.find("a")


def test_a_layout_of_the_authors_own_is_held_to_the_same_policy(tmp_path: Path) -> None:
    """One that was written for the site alone, without a word on what is sent."""
    (tmp_path / "base.html").write_text(
        "<!doctype html><html><head><meta http-equiv='Content-Security-Policy' content='{{ frame.policy }}'>"
        '<link rel="stylesheet" href="{{ frame.style }}"><script src="{{ frame.script }}"></script></head>'
        '<body><a href="{{ frame.home }}">Home</a>{% block main %}{% endblock %}</body></html>',
        encoding="utf-8",
    )
    page = sent(town.ferry_watch(), templates=Templates(ENGLISH, tmp_path))
    given = [str(tag["content"]) for tag in page.find_all("meta", attrs={"http-equiv": True})]
    assert [one[:18] for one in given] == ["default-src 'none'", ""]
    assert page.head is not None
    assert page.head.find_all("meta")[1]["content"] == given[0]
    assert [tag["src"] for tag in page.find_all(src=True) if not str(tag["src"]).startswith("data:")] == [""]
    assert page.find(class_="step-photos") is not None
    assert page.find(id="sent-data") is not None
