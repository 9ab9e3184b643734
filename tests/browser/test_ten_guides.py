"""A reader with sixty of three hundred pots goes through ten guides: nothing leaves, and what is to buy is right by hand."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from support.content_folders import lay_out
from support.own_pots import guide, my_pots

from guidegen.building.build import Order, build

if TYPE_CHECKING:
    from playwright.sync_api import Page

# Reds, ochres and greens that are owned, each with a twin that is not; blues and violets that stand for neither.
HUES = [
    "a03030", "b8862f", "4a6a3a", "7a4a2a", "d4b886", "5a5a50", "c86a3a", "2f5a50", "8a8478", "e8dcc0",
]  # fmt: skip
OWNED = [f"  - {{name: Shelf {n}, range: Reedbank, colour: {hue}}}" for n, hue in enumerate(HUES)]
TWINS = [
    f'  - {{name: Twin {n}, range: Sternpost, colour: "{int(hue, 16) ^ 2:06x}"}}'
    for n, hue in enumerate(HUES)
]
GLOWS = [f"  - {{name: Glow {n}, range: Ninelock, kind: effect, colour: 40ff40}}" for n in range(9)]
DEEPS = [
    f'  - {{name: Deep {n:03d}, range: Reedbank, colour: "#0000{100 + n % 90:02x}"}}' for n in range(271)
]

# Of each guide its number of figures and the ml of glow for each of them; the ninth and the tenth take the same glow.
GLOW_ML = [
    (6, 0.3),
    (10, 1),
    (4, 2.5),
    (5, 2.1),
    (20, 0.7),
    (3, 7),
    (12, 0.05),
    (8, 3.8),
    (10, 0.5),
    (10, 0.6),
]
# And by hand what that comes to in pots of 10 ml: 1.8, 10, 10, 10.5, 14, 21, 0.6, 30.4, 5 and 6 ml.
BY_HAND = [1, 1, 1, 2, 2, 3, 1, 4, 1, 1]
# Together the last two take 11 ml.
TOGETHER = [1, 1, 1, 2, 2, 3, 1, 4, 2]


def _glow(n: int) -> int:
    return min(n, 8)


def _guide(n: int) -> str:
    figures, ml = GLOW_ML[n]
    return f"""
» guides/watch-{n}/guide.md
---
title: Watch {n}
figures: {figures}
steps:
  - {{step: Coats, technique: base coat, area: coat, paint: Twin {n}, amount: 0.2 ml, each: 2 min}}
  - {{step: Hoods, technique: base coat, area: hood, paint: Shelf {(n + 5) % 10}, amount: 0.1 ml, each: 1 min}}
  - {{step: Lamps, technique: base coat, area: lamp, paint: Glow {_glow(n)}, amount: {ml} ml, each: 1 min}}
  - {{step: Ribbons, technique: base coat, area: ribbon, paint: Deep 270, optional: yes, amount: 9 ml, each: 1 min}}
---
"""


UNITS = "\n".join(f"  - {{guide: watch-{n}, figures: {GLOW_ML[n][0]}}}" for n in range(10))
PAINTS = "\n".join((*OWNED, *TWINS, *GLOWS, *DEEPS))
TEXT = f"""
» site.yaml
title: Ten watches
» palette.yaml
ranges: {{Reedbank: {{size: 10 ml}}, Sternpost: {{size: 10 ml}}, Ninelock: {{size: 10 ml}}}}
paints:
{PAINTS}
{"".join(map(_guide, range(10)))}
» plans/all-ten.yaml
title: All ten
start: 2026-06-01
sittings: {{mon-fri: "18:00-22:00"}}
units:
{UNITS}
"""
SIXTY = [*(f"Reedbank / Shelf {n}" for n in range(10)), *(f"Reedbank / Deep {n:03d}" for n in range(50))]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("ten-guides")
    lay_out(at / "content", TEXT)
    report = build(Order(content=at / "content", out=at / "site", cache=at / "cache"))
    assert report.counts is not None, report.diagnostics
    return at / "site"


def _pots(count: int) -> str:
    return f"{count} pot" if count == 1 else f"{count} pots"


def test_sixty_of_three_hundred_pots_and_ten_guides(page: Page, site: Path) -> None:
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    assert len(OWNED) + len(TWINS) + len(GLOWS) + len(DEEPS) == 300
    my_pots(page, site)
    page.fill("#mine-list", "\n".join(SIXTY))
    page.click(".mine-read")
    assert page.inner_text(".mine-count") == "60 pots at hand"
    for n, pots in enumerate(BY_HAND):
        guide(page, site, f"guides/watch-{n}/index.html")
        assert page.inner_text(".own-sum") == (
            "Of 3 paints you have 1; 1 has a substitute, 1 to buy, or to live without. "
            "1 more is only for optional steps, or after your stop."
        )
        assert page.inner_text(".own-lines").startswith(f"Shelf {n} for Twin {n}")
        assert page.inner_text(".own-buy") == f"To buy for your table: Glow {_glow(n)} ({_pots(pots)})"
        page.check(".own-switch input")
        assert " ".join(page.inner_text("#step-coats .pots").split()) == f"Shelf {n} guide: Twin {n}"
        guide(page, site, f"guides/watch-{n}/bench.html")
        assert " ".join(page.inner_text("#step-coats .pots").split()) == f"Shelf {n} guide: Twin {n}"
    guide(page, site, "plans/all-ten/index.html")
    listed = ", ".join(f"Glow {n} ({_pots(pots)})" for n, pots in enumerate(TOGETHER))
    assert page.inner_text(".own-buy") == f"To buy for your table: {listed}"
    assert page.inner_text(".own-sum") == (
        "Of 29 paints you have 10; 10 have a substitute, 9 to buy, or to live without."
    )
    guide(page, site, "shelf.html")
    page.get_by_text("0 of 10 guides can be painted with your pots").wait_for()
    assert asked
    assert [url for url in asked if not url.startswith((site.as_uri(), "data:"))] == []
