"""Where a paint's colour comes from stands beside it, and with a mixture's estimate where that is by eye."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from support.content_folders import lay_out

from guidegen.building.build import Order, build

TOWN = """» palette.yaml
paints:
  - {name: Mustard Sail, colour: bd8f35, colour_from: measured}
  - {name: Wet Plank, colour: 5e4c3b, colour_from: photo}
  - {name: Straw, colour: d9c07a, colour_from: eye}
  - {name: Gull, colour: f0f0ea, colour_from: maker}
  - {name: Ditch, colour: 4c5b2f}
mixes:
  - {name: Mud, parts: {Mustard Sail: 2, Wet Plank: 1}}
  - {name: Dry Reed, parts: {Straw: 2, Wet Plank: 1}}
  - {name: Fen, parts: {Dry Reed: 1, Mud: 3}}
» guides/sail-menders.md
---
title: Sail menders
figures: 5
base: 25 mm
steps:
  - {step: Smocks, technique: base coat, area: smock, paint: {Mustard Sail: 2, Wet Plank: 1}, each: 8 min}
  - {step: Seal, technique: brush varnish, area: all, paint: none, each: 1 min, dry: 60 min}
---
» guides/reed-cutters.md
---
title: Reed cutters
figures: 5
base: 25 mm
steps:
  - {step: Smocks, technique: base coat, area: smock, paint: {Mustard Sail: 2, Fen: 1}, each: 8 min}
  - {step: Seal, technique: brush varnish, area: all, paint: none, each: 1 min, dry: 60 min}
---
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("from")
    lay_out(folder / "content", TOWN)
    built = build(Order(content=folder / "content", out=folder / "site", cache=folder / "cache"))
    assert [diagnostic.code for diagnostic in built.diagnostics] == []
    return folder / "site"


def text_of(site: Path, pot: str) -> str:
    (file,) = (site / "paints").glob(f"*{pot}.html")
    page = file.read_text(encoding="utf-8")
    return BeautifulSoup(page, "html.parser").main.get_text(" ", strip=True)


@pytest.mark.parametrize(
    ("pot", "shown"),
    [
        ("mustard-sail", "#bd8f35 measured"),
        ("wet-plank", "#5e4c3b off a photo"),
        ("straw", "#d9c07a by eye"),
        ("gull", "#f0f0ea by the maker"),
    ],
)
def test_it_stands_beside_the_colour(site, pot, shown):
    assert shown in text_of(site, pot)


def test_where_nobody_says_nothing_stands_there(site):
    assert "by " not in text_of(site, "ditch").split("#4c5b2f")[1][:6]


def test_an_estimate_made_of_colours_by_eye_says_so(site):
    assert "known by eye only" in text_of(site, "dry-reed")
    assert "known by eye only" not in text_of(site, "mud")


def test_so_does_one_made_of_mixtures_of_such_colours(site):
    assert "known by eye only" in text_of(site, "fen")


@pytest.mark.parametrize(("guide", "said"), [("sail-menders", False), ("reed-cutters", True)])
def test_a_guides_mixtures_say_so_too(site, guide, said):
    page = (site / "guides" / guide / "index.html").read_text(encoding="utf-8")
    mixtures = BeautifulSoup(page, "html.parser").select_one("details.mixes").get_text(" ", strip=True)
    assert "half came within" in mixtures
    assert ("known by eye only" in mixtures) is said
