"""The home page and the page of colours, of few guides and of a thousand."""

from __future__ import annotations

import datetime as dt
import gzip
from dataclasses import replace
from functools import cache

import pytest
from bs4 import BeautifulSoup
from support import town
from support.rendered_town import TEMPLATES, riders, site_of, soup

from guidegen.computing.guide.colour_families import families_of
from guidegen.computing.guide.computed_guide import PaletteTools, compute_guide
from guidegen.rendering.archive.home_page import FEW, MOST_CARDS, home_view
from guidegen.rendering.guide.summary import Summary, summary_of
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.site.pages import archive_pages
from guidegen.rendering.theme.assets import site_assets

MANY = 1000
# What a page may weigh over the wire, and what its style takes of that at most.
WIRE, STYLE = 60_000, 14_000


def context() -> SiteContext:
    archive = town.archive()
    return SiteContext.of(
        archive, PaletteTools.over(archive.palette), site_assets(TEMPLATES, {})[0], town.PICTURES
    )


# Colours of a large palette's areas once painted and washed.
SHADES = tuple(f"#{n * 7919 * 104729 % 0x1000000:06x}" for n in range(1, 601))


def numbered(count: int, **more) -> list[Summary]:
    """So many guides, each with a title, a day and colours of its own."""
    at = context()
    short = summary_of(compute_guide(town.ferry_watch(), at.palette_tools), at.chips)
    guides = []
    for n in range(count):
        shown = tuple(
            replace(one, colour=SHADES[(n * 7919 + place * place * 101) % len(SHADES)])
            for place, one in enumerate(short.covers)
        )
        guides.append(
            replace(
                short,
                slug=f"watch-{n:04}",
                title=f"Watch {n} of the Upper Weir",
                date=dt.date(2010 + n % 12, 1 + n % 12, 1 + n % 28) if n % 50 else None,
                covers=shown,
                families=families_of(shown),
                **more,
            )
        )
    return guides


@cache
def of_a_thousand() -> dict[str, bytes]:
    pages = archive_pages(numbered(MANY), context(), TEMPLATES)
    return {page.path: page.render(TEMPLATES) for page in (next(pages), next(pages))}


@pytest.mark.parametrize("path", ["index.html", "colours.html"])
def test_a_thousand_guides_stay_a_light_page(path: str):
    assert len(gzip.compress(of_a_thousand()[path], 9, mtime=0)) <= WIRE - STYLE


def test_of_a_thousand_guides_each_is_there_once_the_older_ones_by_year():
    page = BeautifulSoup(of_a_thousand()["index.html"], "html.parser")
    links = [link["href"] for link in page.select("h2 a, .lines a")]
    assert len(links) == len(set(links)) == MANY
    assert len(page.select(".card")) == MOST_CARDS
    years = [section.h2.get_text() for section in page.select(".year")]
    assert years == [*map(str, range(2021, 2009, -1)), "Without a date"]
    for link in page.select(".years a"):
        assert page.find(id=link["href"].removeprefix("#")) is not None
    assert len(page.find_all("picture")) == MOST_CARDS


def test_few_guides_all_have_their_cards():
    view = home_view(numbered(FEW), context())
    assert (len(view.cards), view.years) == (FEW, ())


def test_only_what_tells_guides_apart_is_offered():
    at = context()
    view = home_view(numbered(3), at)
    assert view.finder.times == ()  # all take as long
    longer = [replace(one, hands_on=100 * town.MINUTE * 2**n) for n, one in enumerate(numbered(3))]
    times = [minutes for minutes, _ in home_view(longer, at).finder.times]
    assert times == [120, 240]
    for minutes in times:
        assert 0 < sum(one.hands_on <= minutes * town.MINUTE for one in longer) < 3
    assert not view.finder.shelf
    needs = tuple(replace(need, buy=0) for need in numbered(1)[0].needs)
    ready = [*numbered(1, needs=needs), *numbered(2)]
    owned = any(paint.owned for paint in at.palette_tools.palette.paints)
    assert home_view(ready, at).finder.shelf is owned is True
    # What paints nothing is not painted with what is on the shelf.
    assert not home_view([*numbered(1, needs=()), *numbered(2)], at).finder.shelf
    assert home_view(numbered(1), at).finder is None
    assert home_view([], at).finder is None


def test_without_scripts_nothing_of_the_search_is_to_be_seen():
    page = soup(site_of(town.archive(town.ferry_watch(), town.short_note())), "index.html")
    for control in page.find_all(["input", "select", "button", "form"]):
        assert control.find_parent(hidden=True) is not None or control.has_attr("hidden"), control
    assert page.select_one(".all-guides").find_parent(hidden=True) is None
    assert page.select_one(".find-out").has_attr("hidden")


def test_one_guide_needs_no_search():
    page = soup(site_of(town.archive(town.ferry_watch())), "index.html")
    assert page.find("form") is None
    assert page.select_one(".keep-all") is None
    assert not [script["src"] for script in page.find_all("script", src=True) if "search" in script["src"]]


def test_every_guide_stands_under_its_colours():
    site = site_of(town.archive(town.ferry_watch(), riders(), town.short_note()))
    page = soup(site, "colours.html")
    linked = {link["href"] for link in page.select("main section a")}
    assert linked == {f"guides/{name}/index.html" for name in ("ferry-watch", "heron-riders", "eel-seller")}
    shown = [section["id"] for section in page.select(".hue")]
    assert [link["href"].removeprefix("#") for link in page.select(".hues a")] == (
        shown if len(shown) > 1 else []
    )
    for strip in page.select(".schemes svg"):
        ends = [float(path["d"].split("M")[1].split(" ")[0]) for path in strip.find_all("path")]
        assert ends == sorted(ends)


def test_within_a_family_guides_go_from_dark_to_light():
    at = context()
    pages = archive_pages(numbered(40), at, TEMPLATES)
    next(pages)
    view = next(pages).values["colours"]
    by_title = {one.title: one for one in numbered(40)}
    for hue in view.families:
        lightness = [
            next(
                main.lightness
                for main in by_title[scheme.guide.text].families
                if f"family.{main.family}" == hue.key
            )
            for scheme in hue.guides
        ]
        assert lightness == sorted(lightness)


def test_a_guide_without_a_colour_is_not_lost():
    blank = replace(town.short_note(), entries=())
    page = soup(site_of(town.archive(blank, town.ferry_watch())), "colours.html")
    section = page.find(id="plain").find_parent("section")
    assert [link.get_text() for link in section.find_all("a")] == [blank.title]
