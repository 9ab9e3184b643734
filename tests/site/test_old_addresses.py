"""Addresses of guides that are no more and of paints that were renamed, on a site that was built."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from support.content_folders import lay_out
from support.link_check import dead_links

from guidegen.building.build import Order, build

pytestmark = pytest.mark.slow

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
