"""A guide's page: it says what the author said and what was worked out, in places where it is needed."""

from __future__ import annotations

import json
import re
from dataclasses import replace

import pytest
from bs4 import BeautifulSoup
from support import town
from support.rendered_town import riders, site_of, soup
from support.town import step, uses

from guidegen.model.guide import Body, Passage


@pytest.fixture(scope="module")
def site() -> dict[str, bytes]:
    return site_of(town.archive(town.ferry_watch(), town.short_note(), riders()))


def test_chips_have_the_palettes_colours(site: dict[str, bytes]) -> None:
    page = soup(site, "guides/ferry-watch/index.html")
    rows = page.find(class_="tray").find_all("li", recursive=False)
    colours = {paint.name: paint.colour for paint in town.PALETTE.paints}
    shown = {row.find(class_="name").get_text(strip=True): row.find("use").get("fill") for row in rows}
    assert len(shown) == 15
    assert shown == {paint: colours[paint] for paint in shown}


def test_the_glance_tells_the_times_exactly(site: dict[str, bytes]) -> None:
    page = soup(site, "guides/ferry-watch/index.html")
    data = json.loads(site["guides/ferry-watch/guide.json"])
    sums = [tag.find("time") for tag in page.find(class_="sums").find_all("dd")]
    expected = [data["time"][key] for key in ("hands_on_min", "total_min", "waiting_min")]
    assert [minutes_of(tag["datetime"]) for tag in sums if tag] == [
        pytest.approx(value, abs=1e-3) for value in expected
    ]
    rows = page.find("table", class_="tide").tbody.find_all("tr")
    assert [row.th.get_text(strip=True) for row in rows] == [
        "Fit to field",
        "Fit to stand on the jetty",
        "The end",
    ]
    first = [minutes_of(tag["datetime"]) for tag in rows[0].find_all("time")]
    stop = data["stops"][0]
    keys = ("hands_on_min", "waiting_min", "brush_down_min", "total_min")
    assert first == [pytest.approx(stop[key], abs=1e-3) for key in keys]


def minutes_of(duration: str) -> float:
    found = re.fullmatch(r"P(?:(\d+)D)?(?:T(?:(\d+)H)?(?:(\d+)M)?(?:([\d.]+)S)?)?", duration)
    assert found, duration
    days, hours, minutes, seconds = (float(part or 0) for part in found.groups())
    return days * 1440 + hours * 60 + minutes + seconds / 60


def test_what_goes_where_is_a_table_with_heads(site: dict[str, bytes]) -> None:
    table = soup(site, "guides/ferry-watch/index.html").find("table", class_="matrix")
    heads = [th.get_text(strip=True) for th in table.thead.find_all("th")]
    assert heads[0] == "Area"
    assert {"spray undercoat", "base coat", "wash", "pigment"} <= set(heads)
    assert all(th["scope"] for th in table.find_all("th"))
    coat = next(row for row in table.tbody.find_all("tr") if row.th.get_text(strip=True) == "coat")
    cells = coat.find_all("td")
    assert len(cells) == len(heads) - 1
    washed = cells[heads.index("wash") - 1].a
    assert washed["href"] == "#step-darken-the-folds"
    assert washed["title"] == "Wet Wool wash"


def test_steps_say_what_the_author_said(site: dict[str, bytes]) -> None:
    coats = soup(site, "guides/ferry-watch/index.html").find(id="step-coats")
    words = coats.get_text(" ", strip=True)
    for said in (
        "3:1 water", "size 2", "2 coats, each 4 min a figure", "15 min; only this area must stay untouched", "4:05",
        "the collar, where a slip shows", "no grey shows through", "Brass Lamp", "warmer and a little darker",
        "Work down from the shoulders.",
    ):  # fmt: skip
        assert said in words
    image = coats.find("img")
    assert image["alt"] == "A pair of even coats of ochre on the oilskins"
    assert image["loading"] == "lazy"
    assert (image["width"], image["height"]) == ("1600", "1200")


def test_only_the_first_picture_loads_at_once(site: dict[str, bytes]) -> None:
    images = soup(site, "guides/ferry-watch/index.html").find_all("img")
    assert [image.get("loading") for image in images] == [None, "lazy", "lazy"]
    assert all(image["width"] and image["height"] and image["alt"] for image in images)


def test_cautions_come_before_the_step_they_concern(site: dict[str, bytes]) -> None:
    html = site["guides/ferry-watch/index.html"].decode()
    assert html.index("Extremely flammable aerosol.") < html.index('id="step-prime"')
    assert html.index("Spray cans") < html.index('id="step-prime"')
    assert html.index("The label and the safety data sheet come first") < html.index('id="step-prime"')


def test_stops_and_waits_stand_in_their_places(site: dict[str, bytes]) -> None:
    flow = soup(site, "guides/ferry-watch/index.html").find(class_="flow")
    rows = [row for row in flow.find_all(class_="row", recursive=False) if "hidden" not in row.attrs]
    kinds = [next(kind for kind in ("step", "stop", "wait", "care") if kind in row["class"]) for row in rows]
    assert kinds[:5] == ["care", "step", "wait", "care", "step"]
    assert kinds.count("step") == 13
    stops = [row for row in rows if "stop" in row["class"]]
    assert [row.h3.get_text(strip=True) for row in stops] == [
        "Fit to field", "Fit to stand on the jetty", "Brush down",
    ]  # fmt: skip
    assert "27 min until “Prime” is dry; the first figure dries first" in rows[2].get_text()


def test_hostile_words_stay_words() -> None:
    evil = "</script><script>alert(1)</script>"
    guide = replace(
        town.ferry_watch(),
        title=evil,
        summary='"><img src=x onerror=alert(1)>',
        entries=(step(evil, uses("Oilskin Ochre"), ('"onclick="x',), each=1, mind=evil, brush="<b>"),),
    )
    html = site_of(town.archive(guide))["guides/ferry-watch/index.html"].decode()
    page = BeautifulSoup(html, "html.parser")
    assert all(
        script.get("src") or script["type"] == "application/json" for script in page.find_all("script")
    )
    assert "<img src=x" not in html
    assert json.loads(page.find(id="clock-data").string)["titles"]["1"] == evil


def test_a_guide_in_another_language_says_so_where_the_author_speaks() -> None:
    guide = replace(town.ferry_watch(), title="حرس العبارة", language="ar")
    page = BeautifulSoup(site_of(town.archive(guide))["guides/ferry-watch/index.html"], "html.parser")
    assert (page.h1["lang"], page.h1["dir"]) == ("ar", "rtl")
    assert page.find(id="time").get("lang") is None


def test_passages_get_their_pictures_and_links() -> None:
    passage = Passage(
        html='<img data-photo="0" data-alone><p>See <a data-to="guide:eel-seller">him</a>, <a data-to="step:1">coats</a>,'
        ' <a data-to="plan:regatta">that</a> and <img data-photo="0">.</p>',
        photos=(replace(town.photo("coats.jpg", 'Coats & "hems"'), caption="Two of them"),),
    )
    guide = replace(town.ferry_watch(), body=Body(before=passage))
    site = site_of(town.archive(guide, town.short_note()))
    prose = soup(site, "guides/ferry-watch/index.html").find(class_="before")
    assert [a["href"] for a in prose.p.find_all("a")][:2] == ["../eel-seller/index.html", "#step-coats"]
    assert "that and" in prose.p.get_text()
    assert prose.figure.figcaption.get_text() == "Two of them"
    assert prose.img["alt"] == 'Coats & "hems"'
    assert len(prose.find_all("img")) == 2


def test_a_step_that_a_guide_inserts_twice_keeps_its_own_text() -> None:
    twice = step("Sand", uses("Towpath Paste"), ("base",), each=1)
    guide = replace(
        town.ferry_watch(),
        entries=(twice, twice),
        body=Body(under={0: Passage(html="<p>first</p>"), 1: Passage(html="<p>second</p>")}),
    )
    page = soup(site_of(town.archive(guide)), "guides/ferry-watch/index.html")
    assert "first" in page.find(id="step-sand").get_text()
    assert "second" in page.find(id="step-sand-2").get_text()
