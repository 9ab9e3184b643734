"""A content folder small enough to work out by hand: guide.json says what the remarks here reckon, to the last digit."""

from __future__ import annotations

import json
import math
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from support.content_folders import lay_out

from guidegen.commands.build import command

CONTENT = """
» palette.yaml
ranges:
  Reedbank Acrylics: {size: 17 ml, price: 2.80}
  Ninelock: {size: 20 ml}
paints:
  - {name: Oilskin Ochre, range: Reedbank Acrylics, colour: b8862f, owned: 1}
  - {name: Bilge Wash, range: Ninelock, kind: wash, colour: 2a2d36}
  - {name: Kelp Wash, range: Ninelock, kind: wash, colour: 3b4427}
  - {name: Clear Medium, range: Ninelock, kind: medium, owned: yes}
mixes:
  - {name: Wet Wool wash, parts: {Bilge Wash: 5, Kelp Wash: 2, Clear Medium: 1}}
» shared/jetty-base.yaml
steps:
  - {step: Boards, technique: base coat, area: base, paint: Oilskin Ochre, amount: 0.1 ml, each: 1 min}
  - {step: Puddles, area: base, paint: none, each: 1 min, materials: [gloss gel]}
"""
STEPS = """steps:
  - {step: A, technique: base coat, area: coat, paint: Oilskin Ochre, amount: 0.5 ml, once: 5 min, each: 2 min, dry: 30 min}
  - {step: B, technique: wash, area: coat, paint: Wet Wool wash, amount: 0.6 ml, each: 3 min, dry: 10 min}
  - {step: C, technique: base coat, area: coat, paint: Oilskin Ochre, amount: 0.1 ml, once: 2 min, each: 1 min}
---
"""
EXAMPLE = "---\ntitle: The worked example\nfigures: %d\n" + STEPS
HELD = """---
title: Held by its area
figures: 2
steps:
  - {step: Coat, area: coat, paint: Oilskin Ochre, amount: 0.1 ml, each: 2 min, dry: 10 min, holds: area}
  - {step: Hood, area: hood, paint: Oilskin Ochre, amount: 0.1 ml, each: 3 min}
  - {step: Coat again, area: coat, paint: Oilskin Ochre, amount: 0.1 ml, each: 1 min}
---
"""
INSERTED = """---
title: Stops, inserts and variants
figures: 10
base: 25 mm
surface: 40 cm2
choose: {headgear: [hood, straw hat]}
steps:
  - {step: Coat, technique: base coat, area: coat, paint: Oilskin Ochre, each: 2 min, dry: 5 min, coats: 2, rest: yes}
  - stop: Fit to field
  - insert: jetty-base
  - {step: Hood, technique: wash, area: hood, paint: Bilge Wash, share: 10%, thin: "2:1 water", each: 1 min, only: {headgear: hood}}
  - {step: Hat, area: hat, paint: Oilskin Ochre, each: 4 min, only: {headgear: straw hat}}
  - {step: Ties, area: coat, paint: {Oilskin Ochre: 2, Kelp Wash: 1}, amount: 0.03 ml, once: 1 min}
---
"""
TIMES = ("figures", "hands_on_min", "waiting_min", "brush_down_min", "total_min", "no_wait_figures")


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("by-hand")
    texts = {
        "one": EXAMPLE % 1,
        "ten": EXAMPLE.replace("The worked", "The second worked") % 10,
        "held": HELD,
        "stops": INSERTED,
    }
    lay_out(at / "content", CONTENT + "".join(f"» guides/{slug}.md\n{text}" for slug, text in texts.items()))
    places = ["--content", str(at / "content"), "--out", str(at / "site"), "--cache", str(at / "cache")]
    result = CliRunner().invoke(command, places)
    assert result.exit_code == 0, result.output
    return at / "site"


def guide(site: Path, slug: str) -> dict[str, Any]:
    return json.loads((site / "guides" / slug / "guide.json").read_text(encoding="utf-8"))


def times(data: dict[str, Any]) -> tuple[Any, ...]:
    return tuple(data[key] for key in TIMES)


def test_one_figure(site: Path):
    """A 5+2 = 7, dry at 37: wait 30. B till 40, dry at 50. C's preparation till 42, wait 8, then till 51.

    Hands-on 7 + 3 + 3 = 13, waiting 30 + 8 = 38, the brush down at 51 with nothing left to dry.
    No waiting from 16 figures on: the first is dry at 37, and painting A takes 5 + 2 N.
    """
    assert times(guide(site, "one")["time"]) == (1, 13, 38, 51, 51, 16)


def test_ten_figures(site: Path):
    """A: 5 + 20 = 25. The first is dry at 37, so wait 12. B: 30, till 67; its first is dry at 50. C: 2 + 10, till 79.

    The last of B is painted at 67 and dry at 77, and C reaches it at 78. Hands-on 25 + 30 + 12 = 67.
    """
    data = guide(site, "ten")
    assert times(data["time"]) == (10, 67, 12, 79, 79, 16)
    assert data["stretches"] == [{"from": 1, "to": 3, "no_wait_figures": 16}]


def test_amounts_said_by_the_author(site: Path):
    """Oilskin Ochre 10 × (0.5 + 0.1) = 6 ml. The mix 10 × 0.6 = 6 ml: 5/8 bilge, 2/8 kelp, 1/8 medium.

    A drop is 0.05 ml. One pot of ochre is owned and holds 17 ml; no pot of the washes is, and one of the medium.
    """
    paints = guide(site, "ten")["paints"]
    assert [
        (p["name"], p["range"], p["kind"], p["colour"], p["steps"], p["ml"], p["drops"], p["owned"], p["buy"])
        for p in paints
    ] == [
        ("Oilskin Ochre", "Reedbank Acrylics", "paint", "#b8862f", [1, 3], 6, 120, 1, 0),
        ("Bilge Wash", "Ninelock", "wash", "#2a2d36", [2], 3.75, 75, 0, 1),
        ("Kelp Wash", "Ninelock", "wash", "#3b4427", [2], 1.5, 30, 0, 1),
        ("Clear Medium", "Ninelock", "medium", None, [2], 0.75, 15, 1, 0),
    ]
    (mix,) = guide(site, "ten")["mixes"]
    assert (mix["name"], mix["parts"]) == (
        "Wet Wool wash",
        {"Bilge Wash": 5, "Kelp Wash": 2, "Clear Medium": 1},
    )
    assert mix["estimate"] is True


def test_an_area_that_is_held_leaves_the_others_free(site: Path):
    """Coats till 2 and 4, dry at 12 and 14. Hoods from 4 on, at once, till 7 and 10.

    The first coat is dry at 12: wait 2, till 13. The second at 14: wait 1, till 15.
    Hands-on 4 + 6 + 2 = 12. With N figures the first coat is wanted at 5 N and dry at 12: none waits from 3 on, for
    the second, dry at 14, is wanted at 16, and each after it is dry 2 minutes later and wanted 1 later, the third at
    16 and 17.
    """
    assert times(guide(site, "held")["time"]) == (2, 12, 3, 15, 15, 3)


def test_stops_inserts_and_the_first_of_the_variants(site: Path):
    """Ten figures. Coats 1: 20 minutes, the first dry at 7; coat 2 from 20 to 40, its last dry at 45.

    Boards from 40 on: the first is dry at 27, the last, painted at 40, at 45, and reached at 49. Till 50; puddles till
    60, hoods till 70; ties 1 minute, once. The straw hat is the second variant, so its step is not there.
    """
    data = guide(site, "stops")
    assert [(step["n"], step["step"]) for step in data["steps"]] == [
        (1, "Coat"), (2, "Boards"), (3, "Puddles"), (4, "Hood"), (5, "Ties"),
    ]  # fmt: skip
    assert data["steps"][0] == {
        "n": 1, "step": "Coat", "technique": "base coat", "areas": ["coat"], "paints": ["Oilskin Ochre"],
        "coats": 2, "once_min": 0, "each_min": 2, "dry_min": 5,
    }  # fmt: skip
    assert times(data["time"])[:5] == (10, 71, 0, 71, 71)
    (stop,) = data["stops"]
    assert stop["name"] == "Fit to field"
    assert times(stop)[:5] == (10, 40, 0, 40, 45)
    # The first of N figures gets its second coat at 2 N, and is dry at 7.
    assert stop["no_wait_figures"] == 4
    assert [(part["from"], part["to"]) for part in data["stretches"]] == [(1, 1), (2, 5)]
    assert data["materials"] == [{"name": "gloss gel", "for": None}]


def test_amounts_by_surface(site: Path):
    """Wet film: 1 cm² under 1 µm is 0.0001 ml.

    Coat: 40 cm² × 20% × 50 µm × loss 2 = 0.08 ml a figure and coat; ten figures, two coats: 1.6 ml.
    Boards 10 × 0.1 = 1 ml. Ties 10 × 0.03 × 2/3 = 0.2 ml of ochre, 0.1 of kelp wash. Ochre: 2.8 ml.
    Hood: 40 cm² × 10% × 60 µm × loss 1.5 × 2/3 paint = 0.024 ml; ten figures: 0.24 ml.
    """
    paints = {paint["name"]: paint for paint in guide(site, "stops")["paints"]}
    assert list(paints) == ["Oilskin Ochre", "Bilge Wash", "Kelp Wash"]
    assert {name: paint["ml"] for name, paint in paints.items()} == {
        "Oilskin Ochre": pytest.approx(2.8, abs=1e-4),
        "Bilge Wash": pytest.approx(0.24, abs=1e-4),
        "Kelp Wash": pytest.approx(0.1, abs=1e-4),
    }
    assert {name: paint["steps"] for name, paint in paints.items()} == {
        "Oilskin Ochre": [1, 2, 5], "Bilge Wash": [4], "Kelp Wash": [5],
    }  # fmt: skip
    (mix,) = guide(site, "stops")["mixes"]
    assert (mix["name"], mix["parts"], mix["estimate"]) == (None, {"Oilskin Ochre": 2, "Kelp Wash": 1}, True)


def test_amounts_by_body(site: Path, tmp_path: Path):
    """Du Bois & Du Bois, Arch. Intern. Med. 17 (1916) 863: 0.007184 · 70^0.425 · 175^0.725 = 1.848 m².

    Twice that for clothes and kit, at 1:56: 11.79 cm². A wash takes all of it and the 25 mm base, 4.909 cm²:
    16.69 cm² × 60 µm × loss 1.5 = 0.1502 ml a figure. A base coat takes 20% without the base: 11.79 × 0.2 × 50 µm
    × 2 = 0.02357 ml. Twenty figures: 3.005 ml of wash, so of one pot; 0.471 ml of ochre, of which one is there.
    """
    text = CONTENT.partition("» shared")[0] + (
        "» guides/body.md\n---\ntitle: By body\nfigures: 20\nscale: 1:56\nbase: 25 mm\nsteps:\n"
        "  - {step: A, technique: base coat, area: coat, paint: Oilskin Ochre, each: 1 min}\n"
        "  - {step: B, technique: wash, area: all, paint: Bilge Wash, each: 1 min, dry: 40 min}\n---\n"
    )
    lay_out(tmp_path / "content", text)
    places = ["--content", str(tmp_path / "content"), "--out", str(tmp_path / "site")]
    result = CliRunner().invoke(command, [*places, "--cache", str(tmp_path / "cache")])
    assert result.exit_code == 0, result.output
    skin = 0.007184 * 70**0.425 * 175**0.725
    body = 2 * skin * 1e4 / 56**2
    disc = math.pi * 1.25**2
    assert (skin, body, disc) == (
        pytest.approx(1.848, abs=5e-4),
        pytest.approx(11.79, abs=5e-3),
        pytest.approx(4.909, abs=5e-4),
    )
    ochre, wash = guide(tmp_path / "site", "body")["paints"]
    assert ochre["ml"] == pytest.approx(20 * body * 0.2 * 50e-4 * 2, abs=1e-4)
    assert wash["ml"] == pytest.approx(20 * (body + disc) * 60e-4 * 1.5, abs=1e-4)
    assert (ochre["buy"], wash["buy"]) == (0, 1)
