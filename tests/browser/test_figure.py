"""The figure chart in a real browser: lit areas, and hostile drawings that run nothing."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from guidegen.cli import guidegen

PALETTE = """\
paints:
  - {name: Slate Undercoat, kind: primer, colour: "#6b737a"}
  - {name: Oilskin Ochre, colour: "#b8862f"}
  - {name: Silt Wash, kind: wash, colour: "#4a3b2a"}
"""
GUIDE = """\
---
title: Ferry watch
base: 25 mm
steps:
  - {step: Prime, technique: brush undercoat, paint: Slate Undercoat, each: 1 min}
  - {step: Coats, technique: base coat, area: coat, paint: Oilskin Ochre, each: 1 min}
  - {step: Folds, technique: wash, area: coat, paint: Silt Wash, each: 1 min}
---
"""
DRAWING = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100">'
    '<rect data-area="coat" x="10" y="10" width="80" height="80"/>'
    '<rect data-area="coat" data-part="recess" x="10" y="80" width="80" height="10"/>'
    '<rect data-area="coat" data-part="edge" x="10" y="10" width="80" height="10"/>{more}</svg>'
)
HOSTILE = (
    "<script>window.tripped = 1</script>",
    '<rect onload="window.tripped = 1" onclick="window.tripped = 1" x="0" y="0" width="9" height="9"/>',
    '<image href="x" onerror="window.tripped = 1"/>',
    "<foreignObject><iframe xmlns='http://www.w3.org/1999/xhtml' srcdoc='&lt;script&gt;parent.tripped=1'/></foreignObject>",
    '<a href="javascript:window.tripped=1"><rect x="0" y="0" width="99" height="99"/></a>',
    '<set attributeName="onmouseover" to="window.tripped=1"/>',
)


def content_with(folder: Path, more: str = "") -> Path:
    guide = folder / "content" / "guides" / "ferry-watch"
    guide.mkdir(parents=True)
    (folder / "content" / "palette.yaml").write_text(PALETTE, encoding="utf-8")
    (guide / "guide.md").write_text(GUIDE, encoding="utf-8")
    (guide / "figure.svg").write_text(DRAWING.replace("{more}", more), encoding="utf-8")
    return folder / "content"


def built(folder: Path, more: str = "", *options: str) -> tuple[int, str]:
    content = content_with(folder, more)
    arguments = ["build", "--content", str(content), "--out", str(folder / "site")]
    result = CliRunner().invoke(guidegen, [*arguments, "--cache", str(folder / "cache"), *options])
    return result.exit_code, result.output


def test_the_figures_colours_are_those_of_the_model(tmp_path, page):
    code, output = built(tmp_path)
    assert code == 0, output
    states = json.loads((tmp_path / "site/guides/ferry-watch/guide.json").read_text())["areas"]["coat"]
    page.goto((tmp_path / "site/guides/ferry-watch/index.html").as_uri())
    shown = page.evaluate(
        """() => [...document.querySelectorAll(".step .drawn svg[role=img]")].map(svg =>
        [...svg.querySelectorAll("use[fill^='#']")].map(use => use.getAttribute("fill")))"""
    )
    wanted = [[state["flats"], state["recesses"], state["edges"]] for state in states]
    assert shown == wanted
    finished = (tmp_path / "site/guides/ferry-watch/figure.svg").read_text()
    assert re.findall(r'<use href="#fig\d+" fill="(#\w+)"', finished) == wanted[-1]


def test_pointing_at_an_area_lights_it_both_ways(tmp_path, page):
    built(tmp_path)
    page.goto((tmp_path / "site/guides/ferry-watch/index.html").as_uri())
    row = page.locator(".matrix tr[data-area=coat]")
    shape = page.locator(".beside [data-area=coat]").first
    row.hover()
    assert "lit" in shape.get_attribute("class")
    page.mouse.move(0, 0)
    assert "lit" not in (shape.get_attribute("class") or "")
    row.locator("a").first.focus()
    assert "lit" in shape.get_attribute("class")
    shape.hover()
    assert "lit" in row.get_attribute("class")


@pytest.mark.parametrize("more", HOSTILE)
def test_a_hostile_drawing_stops_the_build_and_runs_nothing(tmp_path, page, more):
    code, output = built(tmp_path, more, "--leave-out-faulty")
    assert code == 1
    assert "bad-chart" in output
    for file in (tmp_path / "site").rglob("*.html"):
        page.goto(file.as_uri())
        assert page.evaluate("window.tripped") is None
        assert "tripped" not in file.read_text(encoding="utf-8")
