"""Paints whose colour nobody has said: the site builds, and what is worked out of them is not known."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from support.content_folders import lay_out

from guidegen.building.build import Order, build

TOWN = """» palette.yaml
paints:
  - {name: Wharf Grey, kind: undercoat}
  - {name: Mustard Sail}
  - {name: Wet Plank, colour: 5e4c3b, let_down: {colour: c0b0a0, parts: 1:9, white: Gull}}
  - {name: Straw, colour: d9c07a}
  - {name: Gull}
  - {name: Ditch, kind: wash}
  - {name: Brass, kind: metallic}
  - {name: Dust, kind: pigment}
  - {name: Old Gull, discontinued: yes}
mixes:
  - {name: Mud, parts: {Mustard Sail: 2, Wet Plank: 1}}
» guides/a.md
---
title: A
figures: 5
figure: watchman
steps:
  - {step: Prime, technique: spray, paint: Wharf Grey, each: 20 s, dry: 30 min}
  - {step: Coat, technique: base coat, area: coat, paint: Mustard Sail, each: 4 min, instead: [Gull]}
  - {step: Boots, technique: base coat, area: boots, paint: Mud, each: 4 min}
  - {step: Hat, technique: base coat, area: hat, paint: {Wet Plank: 1, Gull: a touch}, each: 4 min}
  - {step: Belt, technique: base coat, area: belt, paint: [Brass, Straw, Old Gull], each: 4 min}
  - {step: Wash, technique: wash, area: all, paint: Ditch, each: 1 min, dry: 40 min}
  - {step: Edge, technique: highlight, area: coat, paint: Straw, each: 1 min}
  - {step: Pale edge, technique: highlight, area: coat, paint: Gull, each: 1 min}
  - {step: Glaze, technique: glaze, area: hat, paint: Ditch, each: 1 min}
  - {step: Dusty, technique: pigment, area: boots, paint: Dust, each: 1 min}
---
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("bare")
    lay_out(folder / "content", TOWN)
    built = build(Order(content=folder / "content", out=folder / "site", cache=folder / "cache"))
    codes = {diagnostic.code for diagnostic in built.diagnostics}
    assert "colour-not-known" in codes
    assert not codes & {"highlight-too-close", "highlight-darker", "shade-lighter"}
    return folder / "site"


def test_its_data_say_null(site: Path):
    data = json.loads((site / "guides/a/guide.json").read_text(encoding="utf-8"))
    colours = {paint["name"]: (paint["colour"], paint["closest"]) for paint in data["paints"]}
    assert {name for name, (colour, _) in colours.items() if colour} == {"Wet Plank", "Straw"}
    assert colours["Gull"] == (None, [])
    assert [(mix["name"], mix["colour"]) for mix in data["mixes"]] == [("Mud", None), (None, None)]
    relief = {area: [state["flats"] for state in states] for area, states in data["areas"].items()}
    assert {flat for area in ("coat", "boots", "hat") for flat in relief[area]} == {None}


def test_its_pages_say_so(site: Path):
    guide = (site / "guides/a/index.html").read_text(encoding="utf-8")
    assert guide.count("colour not known") >= 8
    for name in ("gull", "mix-mud"):
        assert "<dt>Colour</dt><dd>colour not known</dd>" in (site / f"paints/{name}.html").read_text(
            encoding="utf-8"
        )
    assert "Gull" not in (site / "guides/a/palette.gpl").read_text(encoding="utf-8")
    assert "Straw" in (site / "guides/a/palette.gpl").read_text(encoding="utf-8")


def test_a_let_down_with_an_unknown_white_counts_for_nothing():
    from guidegen.base.source import Source
    from guidegen.computing.colour.blend import Blend, BlendPart
    from guidegen.computing.colour.mixing import Mixer
    from guidegen.model.paint import Palette
    from guidegen.reading.content.palette import palette_of, read_palette_file

    def mixed(white: str) -> str | None:
        text = f"paints:\n- {{name: A, colour: 5e4c3b{white}}}\n- {{name: B, colour: d9c07a}}\n- {{name: Gull}}\n"
        palette: Palette = palette_of([read_palette_file(Source(file="palette.yaml", text=text))[0]])[0]
        a, b, _ = palette.paints
        return Mixer(palette).predict(Blend((BlendPart(a, 1.0), BlendPart(b, 1.0)))).colour

    assert mixed(", let_down: {colour: c0b0a0, parts: 1:9, white: Gull}") == mixed("")
    assert mixed(", let_down: {colour: c0b0a0, parts: 1:9}") != mixed("")
