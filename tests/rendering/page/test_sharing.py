"""What goes out to the world, in hard cases: no address, names that would break out, renamed guides, many pages."""

from __future__ import annotations

import datetime as dt
import gzip
import io
import json
import re
from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree
from PIL import Image
from support import town
from support.languages import ENGLISH
from support.rendered_town import riders, site_of, soup

from guidegen.imaging import social
from guidegen.model.web_address import WebAddress
from guidegen.rendering.guide.json_ld import data_block
from guidegen.rendering.page import social_pictures as socials
from guidegen.rendering.page.escaping import xml_text
from guidegen.rendering.page.sharing import locale_of
from guidegen.rendering.site.sitemap import sitemaps
from guidegen.rendering.theme.assets import ICON_GROUND, ICON_SIDES, site_assets
from guidegen.rendering.theme.templates import Templates, own_icon

URL = "https://delta.example/club/bench"
ATOM = "{http://www.w3.org/2005/Atom}"
LISTED = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
OUTWARD = ("feed.xml", "sitemap.xml")
FERRY = "guides/ferry-watch/index.html"


def feed_of(*guides, **site):
    return etree.fromstring(site_of(town.archive(*guides, **({"url": URL} | site)))["feed.xml"])


def entries(feed) -> list[str]:
    return [entry.findtext(ATOM + "title") for entry in feed.iter(ATOM + "entry")]


def test_without_an_address_nothing_is_told_to_the_world() -> None:
    site = site_of(town.archive(town.ferry_watch(), town.short_note(), riders()))
    assert not {path for path in site if path in OUTWARD or path.startswith("assets/social/")}
    for path, data in site.items():
        if not path.endswith(".html"):
            continue
        page = BeautifulSoup(data.decode(), "html.parser")
        assert not page.find_all("link", rel=["canonical", "alternate"]), path
        assert not page.find_all("meta", property=True), path
        assert not page.find_all("script", type="application/ld+json"), path
        assert "feed.xml" not in data.decode(), path


def test_the_bench_works_offline_with_and_without_an_address() -> None:
    for site in ({}, {"url": URL}):
        made = site_of(town.archive(town.ferry_watch(), **site))
        for path, pages in (
            (FERRY, "index.html bench.html"),
            ("guides/ferry-watch/bench.html", "bench.html index.html"),
        ):
            (script,) = soup(made, path).find_all("script", attrs={"data-worker": True})
            assert (script["data-worker"], script["data-manifest"], script["data-pages"]) == (
                "../../offline.js",
                "../../site.webmanifest",
                pages,
            )
        assert not soup(made, "paints/index.html").find_all("script")
        keep = next(data for path, data in made.items() if path.startswith("assets/keep"))
        script = next(
            data for path, data in made.items() if path.startswith("assets/site") and path.endswith(".js")
        )
        assert len(keep) <= 1000
        assert len(gzip.compress(script)) + len(gzip.compress(keep)) <= 12_000 * 0.7


def test_the_workers_version_is_that_of_what_may_be_kept() -> None:
    def version(**more) -> str:
        worker = site_of(town.archive(replace(town.ferry_watch(), **more)))["offline.js"].decode()
        return json.loads(re.search(r"about=(\{.*?\});", worker)[1])["version"]

    assert version() == version()
    assert version() != version(title="Ferry watch in dry oilskins")


HOSTILE = "Lamps</script><script>alert(1)</script> ]]> <!-- \"quoted\" & 'single' \x00\x01\x0b\x1f\ufffe\U0001f6f6 \u2028 ß"


def test_no_name_breaks_out_of_anything() -> None:
    guide = replace(
        town.ferry_watch(),
        title=HOSTILE,
        summary=HOSTILE,
        author=HOSTILE,
        licence=HOSTILE,
        tags=(HOSTILE,),
        entries=(
            town.step(HOSTILE, town.uses("Oilskin Ochre"), (HOSTILE,), each=3, brush=HOSTILE),
            town.stop(HOSTILE),
        ),
    )
    site = site_of(town.archive(guide, url=URL, title=HOSTILE, author=HOSTILE))
    # XML without what XML 1.0 forbids, and otherwise to the letter.
    said = re.sub("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]", "", HOSTILE)
    feed = etree.fromstring(site["feed.xml"])
    assert entries(feed) == [said]
    assert feed.findtext(ATOM + "title") == said
    assert feed.find(f"{ATOM}entry/{ATOM}category").get("term") == said
    content = etree.HTML(feed.findtext(f"{ATOM}entry/{ATOM}content"))
    assert not content.xpath("//script")
    etree.fromstring(site["sitemap.xml"])
    # A block that nothing in it can end.
    text = site[FERRY].decode()
    (block,) = re.findall(r'<script type="application/ld\+json">(.*?)</script>', text, re.DOTALL)
    assert not set("<>&\u2028") & set(block)
    data = json.loads(block)
    assert (data["name"], data["description"], data["author"]["name"]) == (HOSTILE,) * 3
    assert data["step"][0]["name"] == HOSTILE
    page = BeautifulSoup(text, "html.parser")
    assert page.find("meta", property="og:title")["content"].replace("\r", "") == HOSTILE
    assert not [
        script for script in page.find_all("script") if "alert" in script.text and not script.get("type")
    ]
    assert json.loads(site["site.webmanifest"])["name"] == HOSTILE


@given(st.text(st.characters(codec="utf-8")))
def test_any_text_stays_itself_in_a_data_block(text: str) -> None:
    block = data_block({"name": text})
    assert json.loads(block)["name"] == text
    assert not re.search("[<>&\x00-\x1f\x7f-\x9f\u2028\u2029\ufffe\uffff]", block)


@given(st.text())
def test_any_text_can_stand_in_xml(text: str) -> None:
    written = xml_text(text)
    read = etree.fromstring(f'<a b="{written}">{written}</a>'.encode())
    plain = re.sub("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]", "", text)
    assert (read.text or "") == plain


def dated(slug: str, day: dt.date | None, **more):
    return replace(town.short_note(), slug=slug, title=slug, date=day, **more)


def test_the_feed_has_dated_guides_the_newest_thirty_and_no_drafts() -> None:
    first = dt.date(2026, 1, 1)
    many = [dated(f"watch-{at:02d}", first + dt.timedelta(days=at)) for at in range(40)]
    feed = feed_of(*many, dated("undated", None), dated("draft", dt.date(2027, 1, 1), draft=True))
    assert entries(feed) == [f"watch-{at:02d}" for at in range(39, 9, -1)]
    assert feed.findtext(ATOM + "updated") == "2026-02-09T00:00:00Z"


def test_a_feed_without_a_dated_guide_is_whole_and_empty() -> None:
    feed = feed_of(town.short_note())
    assert entries(feed) == []
    assert feed.findtext(ATOM + "updated") == "1970-01-01T00:00:00Z"


def test_a_renamed_guide_keeps_its_id_and_nobody_takes_anothers() -> None:
    day = dt.date(2026, 3, 1)

    def ids(*guides) -> dict[str, str]:
        found = feed_of(*guides).iter(ATOM + "entry")
        return {one.findtext(ATOM + "title"): one.findtext(ATOM + "id").removeprefix(URL) for one in found}

    before = ids(dated("lamp-boys", day))
    after = ids(dated("lamp-lads", day, was=(town.name("lamp-boys"),)))
    tag = "tag:delta.example,2026:/club/bench/guides"
    assert before["lamp-boys"] == after["lamp-lads"] == f"{tag}/lamp-boys/"
    both = ids(dated("lamp-boys", day), dated("lamp-lads", day, was=(town.name("lamp-boys"),)))
    assert both == {"lamp-boys": f"{tag}/lamp-boys/", "lamp-lads": f"{tag}/lamp-lads/"}


def test_a_draft_and_an_old_address_are_in_no_list() -> None:
    site = site_of(town.archive(riders(), dated("draft", None, draft=True), url=URL))
    listed = {
        loc.text.removeprefix(URL + "/") for loc in etree.fromstring(site["sitemap.xml"]).iter(LISTED + "loc")
    }
    assert "guides/heron-riders/index.html" in listed
    assert not {
        path for path in listed if "draft" in path or "old-riders" in path or "bench" in path or "404" in path
    }


def test_more_pages_than_one_list_may_have_make_a_list_of_lists() -> None:
    pages = [f"paints/{at}.html" for at in range(10)]
    files = sitemaps(WebAddress.parse(URL), pages, {}, most=4)
    assert list(files) == ["sitemap.xml", "sitemap-1.xml", "sitemap-2.xml", "sitemap-3.xml"]
    whole = etree.fromstring(files["sitemap.xml"])
    assert whole.tag == LISTED + "sitemapindex"
    assert [loc.text for loc in whole.iter(LISTED + "loc")] == [f"{URL}/{path}" for path in list(files)[1:]]
    parts = [
        loc.text for path in list(files)[1:] for loc in etree.fromstring(files[path]).iter(LISTED + "loc")
    ]
    assert sorted(parts) == sorted(f"{URL}/{page}" for page in pages)


@pytest.mark.parametrize(
    ("site", "found"),
    [
        ("https://delta.example", "https://delta.example/a.html"),
        ("https://delta.example/", "https://delta.example/a.html"),
        ("HTTPS://Delta.Example:443/club/", "https://delta.example/club/a.html"),
        ("http://delta.example:8080/club", "http://delta.example:8080/club/a.html"),
        ("https://delta.example/club/index.html", "https://delta.example/club/a.html"),
        ("https://[2001:db8::1]/club", "https://[2001:db8::1]/club/a.html"),
        # RFC 3490 and RFC 3986: the host in ASCII, the path in percent signs, and what is so already left alone.
        ("https://bücher.example/Fährwache/a%20b/5%", "https://xn--bcher-kva.example/F%C3%A4hrwache/a%20b/5%25/a.html"),
    ],
)  # fmt: skip
def test_whole_addresses_are_in_normal_form(site: str, found: str) -> None:
    assert WebAddress.parse(site).file("a.html") == found


@pytest.mark.parametrize(
    ("tag", "locale"),
    [
        ("en", "en_US"),
        ("de", "de_DE"),
        ("de-CH", "de_CH"),
        ("zh-Hant-TW", "zh_TW"),
        ("pt-br", "pt_BR"),
        ("tlh", ""),
    ],
)
def test_a_language_names_a_territory(tag: str, locale: str) -> None:
    assert locale_of(tag) == locale


def test_a_language_that_names_none_is_not_told() -> None:
    site = site_of(town.archive(town.ferry_watch(), url=URL, language="tlh"))
    assert not soup(site, FERRY).find("meta", property="og:locale")


def test_pages_tell_the_size_that_pictures_are_drawn_in() -> None:
    assert (socials.WIDTH, socials.HEIGHT) == (social.WIDTH, social.HEIGHT)


@pytest.mark.parametrize("side", ICON_SIDES)
def test_the_icon_in_pixels_is_the_drawing(side: int) -> None:
    with Image.open(io.BytesIO(own_icon(side))) as opened:
        assert opened.size == (side, side)
        image = opened.convert("RGB")
    scale = side // 32
    # Each a place well inside a shape of templates/icon.svg, whose sides are 32.
    for (x, y), colour in {
        (2, 2): ICON_GROUND.removeprefix("#"),
        (10, 8): "14201e",
        (18, 6): "b23a1e",
        (24, 20): "d39787",
    }.items():
        assert bytes(image.getpixel((x * scale, y * scale))).hex() == colour


def test_an_icon_of_an_authors_own_stands_alone(tmp_path: Path) -> None:
    assert len(site_assets(Templates(ENGLISH), {})[0].icons) == len(ICON_SIDES)
    (tmp_path / "icon.svg").write_text("<svg xmlns='http://www.w3.org/2000/svg'/>", encoding="utf-8")
    assert site_assets(Templates(ENGLISH, tmp_path), {})[0].icons == ()
