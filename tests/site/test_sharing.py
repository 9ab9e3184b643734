"""What the demo tells the world: feed, list of pages, pictures for sharing and structured data, held to their standards."""

from __future__ import annotations

import datetime as dt
import io
import json
import re
from functools import cache

import pytest
from lxml import etree
from PIL import Image
from support.paths import REFERENCE

HOME = "https://archive.example/painting/"
ATOM = "{http://www.w3.org/2005/Atom}"
LISTED = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
GRAMMAR = REFERENCE / "atom.rng"

# RFC 3339, section 5.6, as RFC 4287, section 3.3 narrows it: capital T and Z, and always a zone.
RFC_3339 = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(?:\.\d+)?(?:Z|[+-]\d\d:\d\d)")
# ISO 8601, section 5.5.2: at least one part, and one after a T.
ISO_8601 = re.compile(r"P(?=\d|T\d)(?:(\d+)D)?(?:T(?=\d)(?:(\d+)H)?(?:(\d+)M)?(?:(\d+(?:\.\d+)?)S)?)?")


def minutes(duration: str) -> float:
    found = ISO_8601.fullmatch(duration)
    assert found, duration
    days, hours, mins, seconds = (float(part or 0) for part in found.groups())
    return days * 1440 + hours * 60 + mins + seconds / 60


@pytest.fixture(scope="module")
def feed(demo):
    return etree.parse(demo.folder / "feed.xml")


def test_the_feed_is_what_the_standard_says(feed):
    grammar = etree.RelaxNG(etree.parse(GRAMMAR))
    assert grammar.validate(feed), grammar.error_log
    for name in ("updated", "published"):
        for element in feed.iter(ATOM + name):
            assert RFC_3339.fullmatch(element.text)
            assert dt.datetime.fromisoformat(element.text).tzinfo is not None
    root = feed.getroot()
    # RFC 4287, section 4.1.1 and 4.1.2: what its grammar cannot say.
    assert root.find(ATOM + "author") is not None
    for holder in (root, *root.iter(ATOM + "entry")):
        links = [(link.get("rel"), link.get("type")) for link in holder.findall(ATOM + "link")]
        assert len(set(links)) == len(links)
        assert ("alternate", "text/html") in links
    ids = [element.text for element in feed.iter(ATOM + "id")]
    assert len(set(ids)) == len(ids)
    assert root.find(ATOM + "link[@rel='self']").get("href") == HOME + "feed.xml"


def test_the_grammar_refuses_what_is_no_feed(feed):
    grammar = etree.RelaxNG(etree.parse(GRAMMAR))
    for spoil in ("updated", "id", "title"):
        other = etree.fromstring(etree.tostring(feed))
        other.remove(other.find(ATOM + spoil))
        assert not grammar.validate(other), spoil
    late = etree.fromstring(etree.tostring(feed))
    late.find(ATOM + "updated").text = "2026-05-03"
    assert not grammar.validate(late)


def test_the_feed_has_the_newest_guides_first(demo, feed):
    entries = list(feed.iter(ATOM + "entry"))
    days = [entry.findtext(ATOM + "updated") for entry in entries]
    assert days == sorted(days, reverse=True)
    assert feed.getroot().findtext(ATOM + "updated") == days[0]
    assert len(entries) >= 8
    for entry in entries:
        address = entry.find(ATOM + "link").get("href")
        page = demo.pages[address.removeprefix(HOME)]
        assert entry.findtext(ATOM + "title") == page.h1.get_text(strip=True)
        content = entry.find(ATOM + "content")
        assert content.get("type") == "html"
        shown = etree.HTML(content.text)
        for target in shown.xpath("//@href | //@src"):
            assert target.startswith("https://"), target
            if target.startswith(HOME):
                assert target.removeprefix(HOME).partition("#")[0] in demo.files
        assert not shown.xpath("//script | //style | //@srcset")


def test_the_list_of_pages_keeps_to_its_protocol(demo):
    """https://www.sitemaps.org/protocol.html: UTF-8, whole addresses under 2,048 characters, below the list's own place."""
    raw = (demo.folder / "sitemap.xml").read_bytes()
    assert len(raw) < 50_000_000
    listed = etree.fromstring(raw)
    assert listed.tag == LISTED + "urlset"
    pages = {}
    for entry in listed:
        assert entry.tag == LISTED + "url"
        assert [part.tag for part in entry] in ([LISTED + "loc"], [LISTED + "loc", LISTED + "lastmod"])
        address = entry.findtext(LISTED + "loc")
        assert address.startswith(HOME)
        assert len(address) < 2_048
        pages[address.removeprefix(HOME)] = entry.findtext(LISTED + "lastmod")
    assert len(pages) == len(listed) <= 50_000
    own = {
        path
        for path, soup in demo.pages.items()
        if (link := soup.find("link", rel="canonical")) and link["href"] == HOME + path
    }
    assert set(pages) == own
    assert "404.html" not in pages
    assert pages["guides/ferry-watch/index.html"] == "2026-03-14"
    for day in filter(None, pages.values()):
        assert dt.date.fromisoformat(day)


def test_a_bench_and_an_old_address_stand_for_the_guide(demo):
    for path, other in (
        ("guides/ferry-watch/bench.html", "guides/ferry-watch/index.html"),
        ("guides/heron-riders/bench-with-straw-hat.html", "guides/heron-riders/with-straw-hat.html"),
        ("guides/jetty-watch/index.html", "guides/ferry-watch/index.html"),
    ):
        assert demo.pages[path].find("link", rel="canonical")["href"] == HOME + other


def told(soup) -> dict[str, str]:
    return {meta["property"]: meta["content"] for meta in soup.find_all("meta", property=True)}


def test_every_page_says_how_it_is_shared(demo):
    """https://ogp.me: title, type, image and url are required of every page."""
    for path, soup in demo.pages.items():
        if path == "404.html":
            continue
        meta = told(soup)
        assert {"og:title", "og:type", "og:image", "og:url", "og:description", "og:image:alt"} <= set(meta)
        assert meta["og:site_name"] == "The Nightjetty Archive"
        assert re.fullmatch("[a-z]{2,3}_[A-Z]{2}", meta["og:locale"])
        assert (meta["og:image:width"], meta["og:image:height"]) == ("1200", "630")
        assert meta["og:type"] == ("article" if path.startswith("guides/") else "website"), path


@cache
def marks(data: bytes) -> list[int]:
    """The markers of a JPEG up to its pixels (ITU-T T.81, annex B)."""
    found, at = [], 2
    while data[at + 1] != 0xDA:
        found.append(data[at + 1])
        at += 2 + int.from_bytes(data[at + 2 : at + 4], "big")
    return found


def test_the_pictures_for_sharing_are_as_told_and_bare(demo):
    pictures = sorted(path for path in demo.files if path.startswith("assets/social/"))
    assert len(pictures) >= 8
    for path in pictures:
        data = (demo.folder / path).read_bytes()
        with Image.open(io.BytesIO(data)) as opened:
            assert (opened.format, opened.size, opened.mode) == ("JPEG", (1200, 630), "RGB")
            assert not opened.getexif()
            assert set(opened.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
        # APP0 is JFIF's own; no other application segment, no comment.
        assert not [mark for mark in marks(data) if 0xE1 <= mark <= 0xEF or mark == 0xFE]
        assert len(data) < 300_000


def data_of(soup) -> dict:
    (block,) = soup.find_all("script", type="application/ld+json")
    return json.loads(block.string)


def parts_of(data: dict) -> list[dict]:
    sections = data["step"]
    if all(one["@type"] == "HowToStep" for one in sections):
        return sections
    assert all(one["@type"] == "HowToSection" for one in sections)
    return [step for one in sections for step in one["itemListElement"]]


def test_a_guide_is_a_how_to(demo):
    """https://schema.org/HowTo: types, whole addresses, and times as guide.json has them."""
    count = 0
    for path, soup in demo.pages.items():
        if not soup.find("script", type="application/ld+json"):
            continue
        count += 1
        data = data_of(soup)
        assert (data["@context"], data["@type"]) == ("https://schema.org", "HowTo")
        assert data["url"] == HOME + path
        assert data["name"] == soup.h1.get_text(strip=True)
        assert data["description"]
        assert data["image"]
        for image in data["image"]:
            assert image.startswith(HOME)
            assert image.removeprefix(HOME) in demo.files
        for key, kind in (("supply", "HowToSupply"), ("tool", "HowToTool")):
            for one in data.get(key, ()):
                assert one["@type"] == kind
                assert one["name"]
        steps = parts_of(data)
        assert [step["position"] for step in steps] == list(range(1, len(steps) + 1))
        for step in steps:
            address, place = step["url"].split("#")
            assert address == HOME + path
            assert place in demo.ids[path]
            assert step["name"]
            assert step["text"]
            images = step.get("image", [])
            for image in [images] if isinstance(images, str) else images:
                assert image.removeprefix(HOME) in demo.files
        if not path.endswith("/index.html"):
            continue
        told_json = json.loads((demo.folder / path).with_name("guide.json").read_text("utf-8"))
        handbook = path.startswith("guides/handbook-")
        assert ("totalTime" in data, "performTime" in data, "yield" in data) == (not handbook,) * 3
        if handbook:
            continue
        assert minutes(data["totalTime"]) == pytest.approx(told_json["time"]["total_min"], abs=1e-4)
        assert minutes(data["performTime"]) == pytest.approx(told_json["time"]["hands_on_min"], abs=1e-4)
        assert [step["name"] for step in steps] == [step["step"] for step in told_json["steps"]]
        names = [one["name"] for one in data.get("supply", ())]
        paints = [" / ".join(filter(None, (one["range"], one["name"]))) for one in told_json["paints"]]
        # A pot's edition, where it has one, stands behind its name.
        assert [name.partition(" (")[0] for name in names[: len(paints)]] == paints
        assert names[len(paints) :] == [one["name"] for one in told_json["materials"]]
        assert [one["name"] for one in data.get("tool", ())] == [one["name"] for one in told_json["tools"]]
    assert count >= 9


def test_a_variant_has_its_own_steps(demo):
    riders = data_of(demo.pages["guides/heron-riders/index.html"])
    hats = data_of(demo.pages["guides/heron-riders/with-straw-hat.html"])
    assert [step["name"] for step in parts_of(riders)] != [step["name"] for step in parts_of(hats)]


def test_the_site_as_an_app_names_icons_that_are_there(demo):
    """W3C, Web Application Manifest."""
    manifest = json.loads((demo.folder / "site.webmanifest").read_text("utf-8"))
    assert manifest["name"] == "The Nightjetty Archive"
    assert (manifest["start_url"], manifest["scope"]) == ("index.html", "./")
    for icon in manifest["icons"]:
        assert icon["src"] in demo.files
        if icon["type"] == "image/png":
            with Image.open(demo.folder / icon["src"]) as opened:
                opened.verify()
                assert icon["sizes"] == "{}x{}".format(*opened.size)
    assert [icon["sizes"] for icon in manifest["icons"]] == ["any", "192x192", "512x512"]


def test_the_worker_asks_nobody_but_its_own_server(demo):
    text = (demo.folder / "offline.js").read_text("utf-8")
    assert not re.search("https?:", text)
    assert "importScripts" not in text
    # Each time it is a request of a page in its scope, or an address that was held against its scope before.
    asked = re.findall(r"\bfetch\(", text)
    assert len(asked) == len(re.findall(r"\bfetch\((?:request|url|page|here\+file)\b", text)) == 6
    assert len(text) < 7_500
