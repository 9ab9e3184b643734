"""What lies in a file that `send` wrote, read by others: no way out, its policy, its photos, its author's words."""

from __future__ import annotations

import base64
import hashlib
import json
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from PIL import Image
from support.photos import flat, riff_chunks, saved
from support.sent_guides import GUIDE, between, club, parcel, photos_in

pytestmark = pytest.mark.slow

GIVEN = {"https://ferry.example/films/wet-oilskins", "https://harbour.example/?a=1&b=2"}


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("cache")


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """For tests that change nothing in it."""
    return club(tmp_path_factory.mktemp("club") / "content")


def read(html: str) -> BeautifulSoup:
    return BeautifulSoup(html, "html.parser")


def test_it_reaches_for_nothing(content: Path, cache: Path, tmp_path: Path) -> None:
    page = read(parcel(content, cache, tmp_path / "one.html", "ferry-watch"))
    places = {str(tag["id"]) for tag in page.find_all(id=True)}
    led: set[str] = set()
    for tag in page.find_all(True):
        for name in ("href", "src", "srcset", "action", "poster", "data"):
            value = tag.get(name)
            if value is None:
                continue
            if str(value).startswith("#"):
                assert str(value)[1:] in places
            elif tag.name == "a":
                led.add(str(value))
            else:
                assert str(value).startswith("data:image/"), (tag.name, name)
    assert led == GIVEN
    assert "the toll house" in page.get_text()
    for words in ("To the bench", "Take along", "See also", "Techniques"):
        assert words not in page.get_text()
    assert not [tag for tag in page.find_all(["ul", "ol", "li", "nav"]) if not tag.get_text(strip=True)]


def test_its_policy_lets_in_its_own_style_and_script_and_no_more(
    content: Path, cache: Path, tmp_path: Path
) -> None:
    """Content Security Policy Level 3, §2.3.1 and §6.7: hashes of the bytes between the tags."""
    html = parcel(content, cache, tmp_path / "one.html", "ferry-watch")
    style, script = (
        f"'sha256-{base64.b64encode(hashlib.sha256(between(html, tag).encode()).digest()).decode()}'"
        for tag in ("style", "script")
    )
    page = read(html)
    policies = page.find_all("meta", attrs={"http-equiv": "Content-Security-Policy"})
    assert [str(one["content"]).split("; ") for one in policies] == [
        [
            "default-src 'none'",
            "img-src data:",
            f"style-src {style}",
            f"script-src {script}",
            "base-uri 'none'",
            "form-action 'none'",
        ]
    ]
    assert len(page.find_all("style")) == 1
    assert {tag.get("type") for tag in page.find_all("script")} == {None, "application/json"}
    assert not page.find_all(attrs={"style": True})


def test_every_photo_lies_in_it_once_and_brings_nothing_but_pixels(tmp_path: Path, cache: Path) -> None:
    """RFC 9649: a plain lossy file is one VP8 chunk, without a place for metadata."""
    content = club(tmp_path / "content")
    photo = flat((120, 90, 60), (1700, 900))
    exif = Image.Exif()
    exif[0x013B] = "Jetty 9, behind the toll house"
    data = saved(photo, "JPEG", exif=exif)
    assert b"Jetty 9" in data
    (content / "guides" / "ferry-watch" / "coats.jpg").write_bytes(data)
    html = parcel(content, cache, tmp_path / "one.html", "ferry-watch")
    found = photos_in(html)
    assert [riff_chunks(one) for one in found] == [[b"VP8 "]] * 2
    assert html.count("kept-1") == 3  # in the cover, in the step, and where it lies
    sizes = set()
    for one in found:
        (tmp_path / "photo.webp").write_bytes(one)
        with Image.open(tmp_path / "photo.webp") as opened:
            sizes.add(opened.size)
    assert sizes == {(960, 640), (960, 508)}


def test_the_same_content_gives_the_same_bytes(content: Path, cache: Path, tmp_path: Path) -> None:
    first = parcel(content, cache, tmp_path / "first.html", "ferry-watch")
    assert parcel(content, tmp_path / "cold", tmp_path / "second.html", "ferry-watch") == first


HOSTILE = '</title></style></script><img src=x onerror="document.title=1"> & \\"oilskins\\" <!--'
PLAIN = HOSTILE.replace("\\", "")


def test_what_an_author_writes_is_text(tmp_path: Path, cache: Path) -> None:
    guide = GUIDE.replace("title: Ferry watch in wet oilskins", f"title: '{PLAIN}'")
    guide = guide.replace("step: Coats", f"step: '{PLAIN}'").replace("alt: Coats", f"alt: '{PLAIN}'")
    guide = guide.replace("hood, straw hat", f"hood, '{PLAIN}'").replace(
        "headgear: straw hat", "headgear: hood"
    )
    guide = guide.replace("file: coats.jpg", "file: '\"><svg onload=x>.jpg'").replace(
        ", or [the coats](#coats)", ""
    )
    content = club(tmp_path / "content", guide)
    photo = content / "guides" / "ferry-watch" / "coats.jpg"
    photo.rename(photo.with_name('"><svg onload=x>.jpg'))
    html = parcel(content, cache, tmp_path / "one.html", "ferry-watch")
    page = read(html)
    assert page.h1 is not None
    assert page.h1.get_text() == PLAIN
    assert PLAIN in page.select(".step h3")[0].get_text()
    assert not [tag for tag in page.find_all(True) if any(name.startswith("on") for name in tag.attrs)]
    assert all(str(tag["src"]).startswith("data:image/") for tag in page.find_all("img"))
    assert [tag["alt"] for tag in page.find_all("img")] == [PLAIN]
    assert len(page.find_all("script")) == 5
    # The file's own source is data, in which nothing opens a tag.
    source = page.select_one("#sent-source")
    assert source is not None
    assert source["type"] == "application/json"
    assert "<" not in source.get_text()
    assert "onload" not in html.replace(source.get_text(), "")


def test_of_the_sites_address_it_tells_nothing(tmp_path: Path, cache: Path) -> None:
    """With a `url` the site's own page has a canonical link, a feed, a picture for sharing and structured data."""
    content = club(tmp_path / "content")
    (content / "site.yaml").write_text(
        "title: The Nightjetty Archive\nurl: https://nightjetty.example/guides\nlanguage: de\n",
        encoding="utf-8",
    )
    html = parcel(content, cache, tmp_path / "one.html", "ferry-watch")
    assert "nightjetty.example" not in html
    assert "feed.xml" not in html
    page = read(html)
    assert [tag.get("rel") for tag in page.find_all("link")] == [["icon"]]
    named = {str(tag.get("name") or tag.get("http-equiv") or "charset") for tag in page.find_all("meta")}
    assert named == {"charset", "Content-Security-Policy", "generator", "viewport", "description"}
    assert page.html is not None
    assert page.html["lang"] == "de"
    data = page.find(id="sent-data")
    assert data is not None
    assert json.loads(data.get_text())["done"] == "Erledigt"
