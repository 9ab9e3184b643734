"""The demo as an archive: what the home page searches by, and schemes by colour, from outside."""

from __future__ import annotations

import json
import re
from urllib.parse import urlsplit
from xml.etree import ElementTree as ET

import pytest

HEAD, FOOT = "guidegenIndex([\n", "\n]);\n"


@pytest.fixture(scope="module")
def index(demo) -> list[dict]:
    text = (demo.folder / "search-index.js").read_text(encoding="utf-8")
    assert (text[: len(HEAD)], text[-len(FOOT) :]) == (HEAD, FOOT)
    return json.loads(f"[{text[len(HEAD) : -len(FOOT)]}]")


def test_the_index_has_the_guides_of_the_home_page_in_its_order(demo, index):
    links = [link["href"] for link in demo.pages["index.html"].select(".card h2 a, .handbook li a")]
    assert [f"guides/{guide['slug']}/index.html" for guide in index] == links
    assert len(links) > 5


def test_whatever_the_index_leads_to_is_there(demo, index):
    for guide in index:
        page = f"guides/{guide['slug']}/index.html"
        assert page in demo.files
        assert not guide.get("picture") or guide["picture"] in demo.files
        assert len(guide["steps"]) == len(demo.pages[page].select(".step"))
        for _, place, _, _ in guide["steps"]:
            assert place in demo.ids[page]


def test_the_shelf_filter_agrees_with_the_page_of_the_shelf(demo, index):
    ready = demo.pages["shelf.html"].find(id="ready").find_parent("section")
    listed = {link["href"] for link in ready.select("ul.uses > li > a")}
    assert {f"guides/{guide['slug']}/index.html" for guide in index if guide["lacks"] == 0} == listed


def test_the_home_page_fetches_nothing_of_the_index_by_itself(demo):
    page = demo.pages["index.html"]
    scripts = [re.sub("-.*", "", str(script["src"])) for script in page.select("script[src]")]
    assert sorted(scripts) == ["assets/keep", "assets/search"]
    assert page.select_one(".find")["data-index"] == "search-index.js"


def test_every_guide_stands_under_a_colour_and_the_page_is_found(demo):
    page = demo.pages["colours.html"]
    listed = {link["href"] for link in page.select(".schemes a")}
    assert listed == {link["href"] for link in demo.pages["index.html"].select(".card h2 a")}
    for link in page.select(".hue .schemes a"):
        assert link.svg is not None
        assert link.get_text(strip=True)
    for path in ("index.html", "techniques.html", "guides/ferry-watch/index.html"):
        nav = demo.pages[path].select_one(".masthead nav")
        assert any(link["href"].endswith("colours.html") for link in nav.find_all("a")), path
    sitemap = ET.parse(demo.folder / "sitemap.xml")
    places = [
        urlsplit(place.text).path
        for place in sitemap.iter("{http://www.sitemaps.org/schemas/sitemap/0.9}loc")
    ]
    assert any(place.endswith("/colours.html") for place in places)
    assert not any(place.endswith("search-index.js") for place in places)


def test_the_page_of_colours_is_described_for_sharing(demo):
    page = demo.pages["colours.html"]
    about = page.find("meta", attrs={"name": "description"})["content"]
    assert page.find("meta", property="og:description")["content"] == about
    assert about != demo.pages["index.html"].find("meta", attrs={"name": "description"})["content"]
