"""The pictures for sharing of whole builds: drawn once, gone with what they show, and none without an address."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from PIL import Image
from support.content_folders import bytes_of
from support.edited_archive import begun, built, photo, write_guide

import guidegen.building.social
from guidegen.building.memory import Memory

URL = "https://delta.example/club"


@pytest.fixture
def content(tmp_path: Path) -> Path:
    folder = begun(tmp_path / "content")
    (folder / "site.yaml").write_text(f"title: The delta bench\nurl: {URL}\n")
    return folder


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> list[tuple[bool, int]]:
    """Of every picture that is drawn, whether there is a photo on it, and how many colours."""
    calls: list[tuple[bool, int]] = []
    real = guidegen.building.social._Album._made_of

    def made_of(album, path):
        cover, colours = real(album, path)
        calls.append((cover is not None, len(colours)))
        return cover, colours

    monkeypatch.setattr("guidegen.building.social._Album._made_of", made_of)
    return calls


def named(site: Path) -> dict[str, str]:
    """The picture that each page names, by its path in the site."""
    found = {}
    for page in sorted(site.rglob("*.html")):
        soup = BeautifulSoup(page.read_text("utf-8"), "html.parser")
        if meta := soup.find("meta", property="og:image"):
            found[page.relative_to(site).as_posix()] = meta["content"].removeprefix(URL + "/")
    return found


def pictures(site: Path) -> set[str]:
    return {path for path in bytes_of(site) if path.startswith("assets/social/")}


def test_each_is_drawn_once_in_its_life(content: Path, tmp_path: Path, drawn: list) -> None:
    built(content, tmp_path / "one", tmp_path / "cache")
    assert sorted(drawn) == [(False, 6), *[(True, 3)] * 4]
    assert set(named(tmp_path / "one").values()) == pictures(tmp_path / "one")
    built(content, tmp_path / "one", tmp_path / "cache")
    built(content, tmp_path / "two", tmp_path / "cache")
    assert len(drawn) == 5
    assert bytes_of(tmp_path / "one") == bytes_of(tmp_path / "two")


def test_another_photo_or_colour_makes_another_picture(content: Path, tmp_path: Path, drawn: list) -> None:
    out, memory = tmp_path / "site", Memory()
    page = "guides/lamp-boys/index.html"
    built(content, out, tmp_path / "cache", memory)
    before, there = named(out), pictures(out)
    drawn.clear()
    (content / "guides" / "lamp-boys" / "coat.jpg").write_bytes(photo(7))
    built(content, out, tmp_path / "cache", memory)
    assert drawn == [(True, 3)]
    after = named(out)
    assert {path for path in after if after[path] != before[path]} == {page, "guides/lamp-boys/bench.html"}
    assert pictures(out) == there - {before[page]} | {after[page]}
    with Image.open(io.BytesIO((out / after[page]).read_bytes())) as opened:
        assert opened.size == (1200, 630)
    write_guide(content, "lamp-boys", 2)
    built(content, out, tmp_path / "cache", memory)
    assert named(out)[page] not in {before[page], after[page]}
    assert len(drawn) == 2


def test_with_no_room_in_the_cache_they_are_whole_all_the_same(content: Path, tmp_path: Path) -> None:
    from guidegen.building.build import Order, build

    built(content, tmp_path / "plenty", tmp_path / "large")
    order = Order(content=content, out=tmp_path / "site", cache=tmp_path / "small", cache_bytes=1)
    assert build(order).counts is not None
    for path in pictures(tmp_path / "site"):
        (tmp_path / "site" / path).unlink()
    assert build(order).counts is not None
    assert bytes_of(tmp_path / "site") == bytes_of(tmp_path / "plenty")


def test_without_an_address_none_are_drawn_and_with_it_gone_none_are_left(
    content: Path, tmp_path: Path, drawn: list
) -> None:
    out = tmp_path / "site"
    built(content, out, tmp_path / "cache")
    assert len(pictures(out)) == 5
    drawn.clear()
    (content / "site.yaml").write_text("title: The delta bench\n")
    built(content, out, tmp_path / "cache")
    assert drawn == []
    assert not (out / "assets" / "social").exists()
    assert not (out / "feed.xml").exists()
    assert not (out / "sitemap.xml").exists()
    assert named(out) == {}
    assert (out / "offline.js").exists()


def test_a_guide_that_is_sent_knows_of_no_site(content: Path, tmp_path: Path) -> None:
    from click.testing import CliRunner

    from guidegen.commands.send import command

    places = [
        "--content",
        str(content),
        "--out",
        str(tmp_path / "sent.html"),
        "--cache",
        str(tmp_path / "cache"),
    ]
    result = CliRunner().invoke(command, ["lamp-boys", *places])
    assert result.exit_code == 0, result.output
    text = (tmp_path / "sent.html").read_text("utf-8")
    assert "delta.example" not in text
    assert "feed" not in BeautifulSoup(text, "html.parser").footer.get_text()
    assert "serviceWorker.register" not in text
