"""The pages of a small archive, read as a browser would: they are whole, they say what was worked out, they agree."""

from __future__ import annotations

import gzip
import posixpath
import re
from dataclasses import replace
from itertools import pairwise

import pytest
from support import town
from support.rendered_town import TEMPLATES, riders, site_of, soup

from guidegen.computing.guide.computed_guide import PaletteTools
from guidegen.rendering.page.page import Export
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.site.pages import guide_pages
from guidegen.rendering.theme.assets import site_assets


@pytest.fixture(scope="module")
def site() -> dict[str, bytes]:
    return site_of(town.archive(town.ferry_watch(), town.short_note(), riders()))


def pages_of(site: dict[str, bytes]) -> list[str]:
    return [path for path in site if path.endswith(".html")]


def test_every_link_and_picture_leads_to_a_file_of_the_site(site: dict[str, bytes]) -> None:
    count = 0
    for path in pages_of(site):
        page = soup(site, path)
        links = [
            tag[key]
            for key in ("href", "src")
            for tag in page.find_all(attrs={key: True})
            if tag.name != "use"
        ]
        for tag in page.find_all(srcset=True):
            links.extend(part.split()[0] for part in tag["srcset"].split(", "))
        for link in links:
            if link.startswith(("https://", "data:")):
                continue
            file, _, place = link.partition("#")
            target = posixpath.normpath(posixpath.join(posixpath.dirname(path), file)) if file else path
            assert target in site, f"{path}: {link}"
            assert posixpath.basename(target), link
            if place and target.endswith(".html"):
                assert soup(site, target).find(id=place), f"{path}: {link}"
            count += 1
    assert count > 500


def test_no_place_name_stands_twice_on_a_page(site: dict[str, bytes]) -> None:
    for path in pages_of(site):
        ids = re.findall(r' id="([^"]+)"', site[path].decode())
        assert len(ids) == len(set(ids)), path


def test_the_policy_allows_what_the_page_has_and_nothing_inline(site: dict[str, bytes]) -> None:
    for path in pages_of(site):
        page = soup(site, path)
        policy = page.find("meta", attrs={"http-equiv": "Content-Security-Policy"})["content"]
        assert policy.startswith("default-src 'none'")
        assert "unsafe" not in policy
        assert not page.find_all(style=True), path
        assert not [tag for tag in page.find_all() if any(key.startswith("on") for key in tag.attrs)], path
        for script in page.find_all("script"):
            assert script.get("src") or script["type"] == "application/json", path
        assert bool(page.find("style")) == (path == "404.html")


def test_the_404_page_says_how_to_come_home_where_nobody_knows_the_address(site: dict[str, bytes]) -> None:
    """It may be served at any depth, where its link leads home only from the top."""
    words = "take the end off the address"
    assert words in soup(site, "404.html").get_text()
    known = site_of(town.archive(town.ferry_watch(), url="https://delta.example/bench/"))
    assert words not in soup(known, "404.html").get_text()


def test_outline_and_landmarks(site: dict[str, bytes]) -> None:
    for path in pages_of(site):
        page = soup(site, path)
        assert len(page.find_all("h1")) == 1, path
        assert page.html["lang"] == "en"
        assert len(page.find_all("main")) == 1, path
        levels = [int(tag.name[1]) for tag in page.find_all(re.compile(r"^h[1-6]$"))]
        assert all(after <= before + 1 for before, after in pairwise(levels)), (
            path,
            levels,
        )
        if path != "404.html":
            assert page.find("a", class_="skip")["href"] == "#main"
            assert page.title.string


def test_variants_have_pages_that_lead_to_each_other(site: dict[str, bytes]) -> None:
    for path, other, wanted, unwanted in (
        ("guides/heron-riders/index.html", "with-straw-hat.html", "Hood", "Hat"),
        ("guides/heron-riders/with-straw-hat.html", "index.html", "Hat", "Hood"),
    ):
        page = soup(site, path)
        titles = [tag.get_text(" ", strip=True) for tag in page.find(class_="flow").find_all("h3")]
        assert any(wanted in title for title in titles)
        assert not any(unwanted in title for title in titles)
        assert page.find(class_="choice").find("a", href=other)


def test_an_old_address_leads_on(site: dict[str, bytes]) -> None:
    page = soup(site, "guides/old-riders/index.html")
    assert (
        page.find("meta", attrs={"http-equiv": "refresh"})["content"] == "0; url=../heron-riders/index.html"
    )
    assert page.main.a["href"] == "../heron-riders/index.html"


def test_home_shows_each_guide_with_picture_or_colours(site: dict[str, bytes]) -> None:
    cards = soup(site, "index.html").find_all("li", class_="card")
    assert [card.h2.get_text(strip=True) for card in cards] == [
        "Ferry watch in wet oilskins", "Heron riders", "The eel seller",
    ]  # fmt: skip
    assert cards[0].img["alt"] == "Five watchmen in yellow coats on a wooden jetty"
    assert len(cards[2].find_all(class_="daub")) == 1
    assert "min hands on" not in cards[2].get_text()


def test_a_paints_page_tells_where_it_is_used_and_what_is_close(site: dict[str, bytes]) -> None:
    page = soup(site, "paints/reedbank-acrylics-oilskin-ochre.html")
    words = page.main.get_text(" ", strip=True)
    for said in ("#b8862f", "RB-05", "2 pots", "Ferry watch in wet oilskins", "Heron riders", "Brass Lamp"):
        assert said in words
    wash = soup(site, "paints/ninelock-bilge-wash.html").main.get_text(" ", strip=True)
    assert "Wet Wool wash" in wash
    mix = soup(site, "paints/mix-wet-wool-wash.html").main.get_text(" ", strip=True)
    assert "5 parts Bilge Wash" in mix
    assert "colour estimated" in mix


def test_paints_index_has_every_pot_once(site: dict[str, bytes]) -> None:
    page = soup(site, "paints/index.html")
    tiles = page.find_all(class_="name")
    assert len(tiles) == len(town.PALETTE.paints) + len(town.PALETTE.mixes)
    assert len({tile.a["href"] for tile in tiles}) == len(tiles)


def test_techniques_and_cautions_are_all_there(site: dict[str, bytes]) -> None:
    techniques = soup(site, "techniques.html")
    assert len(techniques.find_all(class_="entry")) == 22
    cautions = soup(site, "cautions.html").get_text(" ", strip=True)
    for said in ("Two-pack paint", "H222", "Extremely flammable aerosol.", "UN GHS, Annex 3"):
        assert said in cautions


def test_a_site_with_nothing_in_it_has_its_pages() -> None:
    archive = replace(town.archive(), guides=(), palette=type(town.PALETTE)())
    site = site_of(archive, {})
    assert {"index.html", "404.html", "paints/index.html", "techniques.html", "cautions.html"} <= set(site)


def test_a_page_keeps_its_key_until_what_it_shows_changes() -> None:
    def keys(guide):
        archive = town.archive(guide)
        palette_tools = PaletteTools.over(archive.palette)
        context = SiteContext.of(archive, palette_tools, site_assets(TEMPLATES, {})[0], town.PICTURES)
        _, pages = guide_pages(guide, context, palette_tools)
        return {page.path: page.key("1") for page in pages}

    before, again = keys(town.ferry_watch()), keys(town.ferry_watch())
    assert before == again
    after = keys(replace(town.ferry_watch(), summary="Eleven of them."))
    assert after["guides/ferry-watch/index.html"] != before["guides/ferry-watch/index.html"]
    assert after["guides/ferry-watch/guide.json"] != before["guides/ferry-watch/guide.json"]
    assert after["guides/ferry-watch/materials.csv"] == before["guides/ferry-watch/materials.csv"]
    export = Export(path="a.txt", data=b"x")
    assert export.key("1") != export.key("2")


def test_tokens_of_the_site_reach_the_stylesheet_and_nothing_else_does() -> None:
    tokens = {"accent": "#005f6b", "paper": "url(https://evil.example/x)", "x{}": "red", "ink": "red;} body{"}
    _, files = site_assets(TEMPLATES, tokens)
    style = next(data.decode() for path, data in files.items() if path.endswith(".css"))
    assert style.rstrip().endswith("\n:root {\n  --accent: #005f6b;\n}\n}")
    assert "evil" not in style


def test_the_script_is_small_and_bare() -> None:
    _, files = site_assets(TEMPLATES, {})
    script = next(data for path, data in files.items() if path.endswith(".js"))
    assert len(gzip.compress(script)) <= 12_000 * 0.65
    assert b"/*" not in script


def test_a_page_of_many_steps_stays_light() -> None:
    entries = tuple(
        replace(entry, title=f"{entry.title} {at}")
        for at in range(3)
        for entry in town.ferry_watch().entries
        if hasattr(entry, "title")
    )
    guide = replace(town.ferry_watch(), entries=entries, figures=30)
    site = site_of(town.archive(guide))
    files = [
        site["guides/ferry-watch/index.html"],
        *(site[path] for path in site if path.startswith("assets/site")),
    ]
    assert len(entries) == 39
    assert sum(len(gzip.compress(data)) for data in files) <= 60_000
