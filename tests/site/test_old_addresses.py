"""Addresses of guides that are no more and of paints that were renamed, on a site that was built."""

from __future__ import annotations

import re
from pathlib import Path

from bs4 import BeautifulSoup
from support.content_folders import lay_out
from support.link_check import dead_links

from guidegen.building.build import Order, build

CONTENT = """\
» site.yaml
url: https://jetty.example/
gone: {Eel Pie: Hob took it back., eels: It is here., lamp-boys: It has moved.}
» palette.yaml
paints:
  - {name: Old Rope, range: Reedbank, colour: b8862f, was: [Hemp, Twine]}
  - {name: Twine, range: Reedbank, colour: 554433}
» guides/eels.md
---
title: Eels
was: [lamp-boys]
steps: [{step: Coat, paint: [Hemp, Twine], each: 10 min}]
---
"""


def test_every_old_address_says_where_to_go(tmp_path: Path):
    content = lay_out(tmp_path / "content", CONTENT)
    built = build(Order(content=content, out=tmp_path / "site", cache=tmp_path / "cache"))
    assert built.counts is not None, built.diagnostics
    site = tmp_path / "site"

    def text(path: str) -> str:
        return BeautifulSoup((site / path).read_text(encoding="utf-8"), "html.parser").get_text()

    assert "Hob took it back." in text("guides/eel-pie/index.html")
    assert "It is here." not in text("guides/eels/index.html")
    assert "This guide has moved." in text("guides/lamp-boys/index.html")
    moved = (site / "paints" / "reedbank-hemp.html").read_text(encoding="utf-8")
    assert 'url=reedbank-old-rope.html"' in moved
    assert "This paint has another page now." in moved
    assert "This paint" not in text("paints/reedbank-twine.html")
    listed = (site / "sitemap.xml").read_text(encoding="utf-8")
    assert "hemp" not in listed
    assert "eel-pie" not in listed
    assert dead_links(site, "https://jetty.example/") == []


def test_what_names_a_guide_by_its_old_address_leads_to_it_today(tmp_path: Path):
    """Other members' guides, plans and pages need not be touched when a guide is renamed."""
    others = """\
» guides/heron.md
---
title: Heron
see: [lamp-boys]
steps: [{step: Coat, paint: Twine, each: 10 min}]
---
As for [the boys](../lamp-boys/), and [again](lamp-boys.md).

## Coat
[Thinly](../lamp-boys/guide.md).
» pages/club.md
---
title: The club
---
We began with [these](../guides/lamp-boys/).
» plans/regatta.yaml
title: Regatta
start: 2026-06-01
sittings: {mon-fri: "20:00-22:00"}
units: [{guide: lamp-boys, figures: 2}]
"""
    content = lay_out(tmp_path / "content", CONTENT + others)
    built = build(Order(content=content, out=tmp_path / "site", cache=tmp_path / "cache"))
    assert built.counts is not None, built.diagnostics
    site = tmp_path / "site"
    for page in ("guides/heron/index.html", "pages/club.html"):
        html = BeautifulSoup((site / page).read_text(encoding="utf-8"), "html.parser")
        links = [link["href"] for link in html.select("main a[href*='eels']")]
        assert links, page
        assert not html.select("main a[href*='lamp-boys']")
    assert "Eels" in (site / "plans" / "regatta" / "index.html").read_text(encoding="utf-8")


def test_a_rename_keeps_every_address_and_what_readers_noted(tmp_path: Path):
    eels = CONTENT[CONTENT.index("» guides/eels.md") :].replace("was: [lamp-boys]\n", "")
    head = CONTENT[: CONTENT.index("» guides/eels.md")]
    content = lay_out(tmp_path / "content", head.replace("eels: It is here., ", "") + eels)
    order = Order(content=content, out=tmp_path / "site", cache=tmp_path / "cache")
    assert build(order).counts is not None
    site = tmp_path / "site"
    before = {path.name: path.read_bytes() for path in (site / "guides" / "eels").iterdir()}
    kept = "guidegen:Painting guides:eels::1"
    assert kept in before["bench.html"].decode()
    (content / "guides" / "eels.md").unlink()
    renamed = eels.replace("guides/eels.md", "guides/eel-pie.md").replace(
        "title: Eels", "title: Eels\nwas: [eels]"
    )
    lay_out(content, renamed.replace("step: Coat,", "step: Coat it all, id: Coat,"))
    assert build(order).counts is not None
    now = {path.name: path.read_bytes() for path in (site / "guides" / "eel-pie").iterdir()}
    for name in ("index.html", "bench.html"):
        old = (site / "guides" / "eels" / name).read_text(encoding="utf-8")
        assert f'url=../eel-pie/{name}"' in old
        assert re.search(r"assets/moved-[0-9a-f]+\.js", old)
        page = now[name].decode()
        assert kept in page
        assert 'id="step-coat"' in page
    there = {path.name for path in (site / "guides" / "eels").iterdir()}
    assert there == before.keys() - {"summary.json", "paints.js"}
    for name in there - {"index.html", "bench.html"}:
        assert (site / "guides" / "eels" / name).read_bytes() == now[name]
    assert dead_links(site, "https://jetty.example/") == []
    assert "guides/eels/" not in (site / "sitemap.xml").read_text(encoding="utf-8")


def test_a_paint_that_got_an_edition_is_found_at_its_first_address(tmp_path: Path):
    """What the maker changed has two pots now; the address of the name leads to the one that the name means."""
    old = "{name: Old Rope, range: Reedbank, edition: grey lids, colour: b8862f}"
    new = "{name: Old Rope, range: Reedbank, edition: white lids, colour: b0802a, usual: yes}"
    content = lay_out(tmp_path / "content", f"» palette.yaml\npaints:\n  - {old}\n  - {new}\n")
    built = build(Order(content=content, out=tmp_path / "site", cache=tmp_path / "cache"))
    assert built.counts is not None, built.diagnostics
    page = (tmp_path / "site/paints/reedbank-old-rope.html").read_text(encoding="utf-8")
    assert 'url=reedbank-old-rope-white-lids.html"' in page
    assert dead_links(tmp_path / "site") == []


def test_links_to_a_guide_that_is_gone_lead_to_the_page_that_says_so(tmp_path: Path):
    """A member who takes a guide away stops nobody's site."""
    others = """\
» guides/heron.md
---
title: Heron
see: [eel-pie, eels]
steps: [{step: Coat, paint: Twine, each: 10 min}]
---
As for [the pie](../eel-pie/guide.md).
» pages/club.md
---
title: The club
---
We began with [pie](../guides/eel-pie/).
» plans/market.yaml
title: Market day
start: 2026-06-01
sittings: {sat: "10:00-12:00"}
units: [{guide: eel-pie, figures: 3}]
"""
    content = lay_out(tmp_path / "content", CONTENT + others)
    order = Order(content=content, out=tmp_path / "site", cache=tmp_path / "cache")
    refused = build(order)
    assert [one.code for one in refused.diagnostics if one.span.file == "plans/market.yaml"] == [
        "unknown-guide"
    ]
    (content / "plans" / "market.yaml").unlink()
    built = build(order)
    assert built.counts is not None, built.diagnostics
    told = [(one.span.file, one.code) for one in built.diagnostics if one.code.endswith("guide-gone")]
    assert told == [("guides/heron.md", "guide-gone")] * 2 + [("pages/club.md", "guide-gone")]
    for page in ("guides/heron/index.html", "pages/club.html"):
        parsed = BeautifulSoup((tmp_path / "site" / page).read_text(encoding="utf-8"), "html.parser")
        links = [str(link["href"]) for link in parsed.find_all("a", href=True)]
        assert len([href for href in links if "eel-pie/" in href]) == (2 if "heron" in page else 1)
    assert dead_links(tmp_path / "site", "https://jetty.example/") == []
