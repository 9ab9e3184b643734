"""People and rights on a site that was built: who made what, a page for each, a filter, licences, whom to write to."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from support.content_folders import lay_out
from support.link_check import dead_links

from guidegen.building.build import Order, build

CONTENT = """\
» site.yaml
title: The jetty
people:
  odda: {name: Odda of the lock, link: "https://lock.example/"}
  marl: {name: Marl}
licence: free to copy
contact: jetty@club.example
» palette.yaml
paints: [{name: Oilskin Ochre, colour: b8862f}, {name: Never Opened, colour: ff0000, owned: 1}]
» guides/eels/guide.md
---
title: Eels
author: [odda, Wenna]
cover: {file: eels.jpg, alt: Eels, by: marl, licence: ask first}
made:
  - {date: 2025-03-01, figures: 4}
  - {date: 2026-03-01, figures: 2, by: marl, minutes: {Coat: 90}}
steps: [{step: Coat, paint: Oilskin Ochre, each: 10 min}]
---
» guides/eels/eels.jpg = a photo 600 × 400
» guides/lamps.md
---
title: Lamps
author: Marl
licence: mine alone
steps: [{step: Coat, paint: Oilskin Ochre, each: 10 min}]
---
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("people")
    content = lay_out(folder / "content", CONTENT)
    built = build(Order(content=content, out=folder / "site", cache=folder / "cache"))
    assert built.diagnostics == () or all(one.severity != "error" for one in built.diagnostics)
    return folder / "site"


def page(site: Path, path: str) -> BeautifulSoup:
    return BeautifulSoup((site / path).read_text(encoding="utf-8"), "html.parser")


def test_a_guide_names_its_authors_and_leads_to_their_pages(site: Path):
    guide = page(site, "guides/eels/index.html")
    links = {link.get_text(): str(link["href"]) for link in guide.select(".facts a")}
    assert links == {"Odda of the lock": "../../people/odda.html"}
    assert "Odda of the lock, Wenna" in guide.select(".facts")[0].get_text()
    assert "2 figures by Marl" in guide.get_text()
    assert "Photo: Marl · Licence: ask first" in guide.get_text()
    assert dead_links(site) == []


def test_a_page_for_each_person(site: Path):
    odda, marl = (page(site, f"people/{key}.html") for key in ("odda", "marl"))
    assert odda.select(".counts")[0].get_text() == "1 guide · 4 figures · 40 min at the brush"
    assert [str(link["href"]) for link in odda.select("main a")] == [
        "https://lock.example/",
        "../guides/eels/index.html",
        "../guides/eels/index.html",
    ]
    assert marl.select(".counts")[0].get_text() == "1 guide · 2 figures · 1 h 30 min at the brush"
    assert [link.get_text() for link in marl.select("main a")] == ["Lamps", "Eels"]


def test_guides_are_sifted_by_who_made_them(site: Path):
    options = [option.get_text() for option in page(site, "index.html").select("#find-by option")]
    assert options == ["Anybody", "Marl", "Odda of the lock", "Wenna"]
    index = (site / "search-index.js").read_text(encoding="utf-8")
    entries = json.loads(index[index.index("(") + 1 : index.rindex(")")])
    assert {one["slug"]: one["by"] for one in entries} == {
        "eels": ["Odda of the lock", "Wenna"],
        "lamps": ["Marl"],
    }


def test_what_says_nothing_has_the_sites_licence(site: Path):
    assert "Licence: free to copy" in page(site, "guides/eels/index.html").select(".colophon")[0].get_text()
    assert "Licence: mine alone" in page(site, "guides/lamps/index.html").select(".colophon")[0].get_text()
    foot = page(site, "index.html").select("footer.foot a[href^=mailto]")
    assert [str(link["href"]) for link in foot] == ["mailto:jetty@club.example"]


def test_the_archive_in_numbers(site: Path):
    """Two batches, of four figures in 2025 and of two in 2026, by three people; every pot and technique by its guides."""
    numbers = page(site, "numbers.html")
    rows = {
        str(section["aria-labelledby"]): [
            [cell.get_text() for cell in row.find_all(["th", "td"]) if not cell.select("path")]
            for row in section.select("tbody tr")
        ]
        for section in numbers.select("main section")
    }
    assert rows["years"] == [["2025", "4", "40 min"], ["2026", "2", "1 h 30 min"]]
    assert rows["people"] == [
        ["Marl", "2", "1 h 30 min"],
        ["Odda of the lock", "4", "40 min"],
        ["Wenna", "4", "40 min"],
    ]
    assert rows["paints"] == [["Oilskin Ochre", "2"]]
    assert [one.get_text() for one in numbers.select("#unused ~ ul li")] == ["Never Opened"]
    bars = [str(path["d"]) for path in numbers.select('[aria-labelledby="years"] path')]
    assert bars == ["M0 0h100.0v6H0z", "M0 0h50.0v6H0z"]
    assert "numbers.html" in [str(link["href"]) for link in page(site, "index.html").select(".counts a")]
