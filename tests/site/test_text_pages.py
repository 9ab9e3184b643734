"""Pages of words: content/pages/NAME.md in the site's look, in the menu or the foot, found, listed and kept offline."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from support.content_folders import lay_out
from support.link_check import dead_links

from guidegen.base.diagnostic import Diagnostic
from guidegen.building.build import Built, Order, build
from guidegen.building.check import check_with_photos

pytestmark = pytest.mark.slow

CONTENT = """\
» site.yaml
title: The jetty
url: https://jetty.example/club/
» palette.yaml
paints: [{name: Oilskin Ochre, colour: b8862f, owned: 1}]
» pages/about.md
---
title: About the circle
menu: yes
order: 2
---
# Who we are

We meet above the **chandlery** on Tuesdays; [the rules](house-rules.md) hang there, [eels](../guides/eels.md) too.

![The hall with its long table](hall.jpg "The hall")

<b>Raw</b>
» pages/hall.jpg = a photo 600 × 400
» pages/House-Rules.md
---
title: House rules
---
Brushes are washed before midnight. [About](about.md#who) and [nowhere](attic.md).
» pages/when.md
---
title: When we meet
menu: yes
order: 1
---
Tuesdays.
» guides/eels.md
---
title: Eels
see: [lamps]
steps: [{step: Coat, paint: Oilskin Ochre, each: 10 min}]
---
As [the rules](../pages/house-rules.md) have it.
» guides/lamps.md
---
title: Lamps
steps: [{step: Coat, paint: Oilskin Ochre, each: 10 min}]
---
"""


def made(folder: Path, *, leave_out_faulty: bool = False, remove_many: bool = False) -> Built:
    order = Order(content=folder / "content", out=folder / "site", cache=folder / "cache")
    return build(replace(order, leave_out_faulty=leave_out_faulty, remove_many=remove_many))


def page(site: Path, path: str) -> BeautifulSoup:
    return BeautifulSoup((site / path).read_text(encoding="utf-8"), "html.parser")


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("pages")
    lay_out(folder / "content", CONTENT)
    built = made(folder)
    assert [(one.code, one.span.file) for one in built.diagnostics] == [("bad-link", "pages/House-Rules.md")]
    assert dead_links(folder / "site") == []
    return folder / "site"


def test_a_page_has_the_sites_look_and_its_words(site: Path):
    about = page(site, "pages/about.html")
    assert about.title is not None
    assert about.title.get_text() == "About the circle · The jetty"
    assert [one.get_text() for one in about.select("main h1, main h2")] == ["About the circle", "Who we are"]
    assert about.select_one("main strong").get_text() == "chandlery"  # type: ignore[union-attr]
    assert about.select_one("main figure img")["alt"] == "The hall with its long table"  # type: ignore[index]
    assert "<b>Raw</b>" in about.select_one("main").get_text()  # type: ignore[union-attr]
    assert about.select_one('link[rel="canonical"]')["href"] == "https://jetty.example/club/pages/about.html"  # type: ignore[index]


def test_links_lead_from_guides_to_pages_and_back(site: Path):
    about, rules = page(site, "pages/about.html"), page(site, "pages/house-rules.html")
    links = {link.get_text(): str(link["href"]) for link in about.select("main a[href]:not(:has(img))")}
    assert links == {"the rules": "house-rules.html", "eels": "../guides/eels/index.html"}
    assert [str(link["href"]) for link in rules.select("main a")] == ["about.html"]
    eels = page(site, "guides/eels/index.html")
    assert "../../pages/house-rules.html" in [str(link["href"]) for link in eels.select("main a")]


def test_it_stands_in_the_menu_by_its_order_or_in_the_foot(site: Path):
    for path, to in (
        ("index.html", "pages/"),
        ("guides/eels/index.html", "../../pages/"),
        ("pages/about.html", ""),
    ):
        soup = page(site, path)
        menu = [(link.get_text(), str(link["href"])) for link in soup.select(".masthead nav a")][-2:]
        assert menu == [("When we meet", f"{to}when.html"), ("About the circle", f"{to}about.html")]
        foot = [(link.get_text(), str(link["href"])) for link in soup.select("footer a")]
        assert ("House rules", f"{to}house-rules.html") in foot
    current = page(site, "pages/about.html").select('nav [aria-current="page"]')
    assert [one.get_text() for one in current] == ["About the circle"]


def test_it_is_listed_found_and_kept_offline(site: Path):
    assert "https://jetty.example/club/pages/house-rules.html" in (site / "sitemap.xml").read_text("utf-8")
    index = (site / "search-index.js").read_text("utf-8")
    assert '"page":"pages/house-rules.html"' in index
    assert "washed before midnight" in index
    kept = page(site, "pages/about.html").select_one("script[data-pages]")
    assert kept is not None
    assert kept["data-pages"] == "about.html"
    assert '"pages/"' in (site / "offline.js").read_text("utf-8")


def told(folder: Path, more: str) -> tuple[Diagnostic, ...]:
    return check_with_photos(
        lay_out(folder, CONTENT.replace(" and [nowhere](attic.md)", "") + more)
    ).diagnostics


@pytest.mark.parametrize(
    ("file", "text", "code", "words"),
    [
        ("pages/a.md", "---\nmenu: yes\n---\nWords\n", "missing-key", "This page has no title"),
        ("pages/a.md", "Words alone\n", "missing-key", "The page has no title"),
        ("pages/a.md", "---\ntitle: A\nodrer: 1\n---\n", "unknown-key", "“odrer”"),
        ("pages/a.md", "---\ntitle: A\nmenu: perhaps\n---\n", "bad-value", "perhaps"),
        ("pages/a.md", "---\ntitle: A\n---\n![x](gone.jpg)\n", "missing-photo", "gone.jpg"),
        ("pages/a.md", "---\ntitle: A\n---\n[x](../guides/elks.md)\n", "unknown-guide", "elks"),
        ("pages/a.md", "---\ntitle: A\n---\n![x](a.jpg)\n", "bad-photo", "a.jpg"),
        ("pages/About.md", "---\ntitle: A\n---\n", "two-guides-one-address", "page “about”"),
        ("pages/deep/a.md", "---\ntitle: A\n---\n", "file-not-read", "pages/deep/a.md"),
        ("pages/a.md.txt", "---\ntitle: A\n---\n", "file-not-read", "pages/a.md.txt"),
        ("pages/b.md", "---\ntitle: B\n---\n<<<<<<< HEAD\na\n=======\nb\n>>>>>>> x\n", "merge-marker", ""),
    ],
)
def test_mistakes_are_told(tmp_path: Path, file: str, text: str, code: str, words: str):
    more = f"» {file}\n{text}" + ("» pages/a.jpg\nno photo\n" if code == "bad-photo" else "")
    found = told(tmp_path, more)
    assert [(one.code, words in one.message) for one in found] == [(code, True)]


def test_an_edit_reaches_every_page_and_a_faulty_one_keeps_its_last_good_page(tmp_path: Path):
    lay_out(tmp_path / "content", CONTENT)
    made(tmp_path)
    rules = tmp_path / "content/pages/House-Rules.md"
    text = rules.read_text("utf-8")
    rules.write_text(text.replace("title: House rules", "title: Rules of the hall"), "utf-8")
    assert made(tmp_path).changes.written
    assert "Rules of the hall" in page(tmp_path / "site", "guides/eels/index.html").get_text()
    rules.write_text(text.replace("title:", "titel:"), "utf-8")
    before = (tmp_path / "site/pages/house-rules.html").read_bytes()
    assert made(tmp_path).counts is None
    kept = made(tmp_path, leave_out_faulty=True)
    assert kept.kept == ("pages/house-rules",)
    assert (tmp_path / "site/pages/house-rules.html").read_bytes() == before
    assert "Rules of the hall" in page(tmp_path / "site", "guides/eels/index.html").get_text()
    assert "washed before midnight" in (tmp_path / "site/search-index.js").read_text("utf-8")
    assert dead_links(tmp_path / "site") == []
    rules.unlink()
    made(tmp_path, remove_many=True)
    assert not (tmp_path / "site/pages/house-rules.html").exists()
    assert not re.search("Rules of the hall", (tmp_path / "site/index.html").read_text("utf-8"))
