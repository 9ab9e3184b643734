"""A town whose reader has pots of their own: its content, what the browser keeps of them, and pages opened with that."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Page

STORE = "guidegen:Jetty:pots"
GUIDE, BENCH = "guides/ferry-watch/index.html", "guides/ferry-watch/bench.html"

# Blues that stand for nothing in the guides: no nearer than 12 to any of their paints.
FILLERS = [f"Deep {n:03d}" for n in range(290)]
PAINTS = "\n".join(
    f'  - {{name: {name}, range: Reedbank, colour: "#0000{160 + at % 90:02x}"}}'
    for at, name in enumerate(FILLERS)
)

TEXT = f"""
» site.yaml
title: Jetty
» palette.yaml
ranges: {{Reedbank: {{size: 10 ml}}}}
paints:
  - {{name: Oilskin Ochre, range: Reedbank, colour: b8862f, code: R1, aliases: [Watch Yellow], owned: 1}}
  - {{name: Mustard, range: Reedbank, colour: ba8a33, discontinued: yes}}
  - {{name: Bell Red, range: Reedbank, colour: a03030}}
  - {{name: Kiln Red, range: Reedbank, colour: 8a3a30}}
  - {{name: Old Rope, range: Reedbank, colour: c8a870}}
  - {{name: Light Rope, range: Reedbank, colour: d4b886}}
  - {{name: Pale Rope, range: Reedbank, colour: e0c89c}}
  - {{name: Night Glow, range: Reedbank, kind: effect, colour: 40ff40}}
  - {{name: Silt Wash, range: Reedbank, kind: wash, colour: 4a3b2a}}
  - {{name: Gull, range: Reedbank, colour: f2f0e8}}
{PAINTS}
mixes:
  - {{name: Wet rope, parts: {{Old Rope: 3, Silt Wash: 1}}}}
» guides/ferry-watch/guide.md
---
title: Ferry watch
figures: 10
steps:
  - {{step: Coats, technique: base coat, area: coat, paint: Oilskin Ochre, amount: 1.2 ml, each: 2 min}}
  - {{step: Scarves, technique: base coat, area: scarf, paint: Bell Red, instead: Kiln Red, amount: 0.1 ml, each: 2 min}}
  - {{step: Lamps, technique: base coat, area: lamp, paint: Night Glow, amount: 2.1 ml, each: 2 min}}
  - stop: Fit to field
  - {{step: Folds, technique: wash, area: coat, paint: Silt Wash, amount: 0.1 ml, each: 2 min}}
  - {{step: Ribbons, technique: base coat, area: ribbon, paint: Gull, optional: yes, each: 1 min}}
---
» guides/ropes/guide.md
---
title: Ropes
figures: 10
steps:
  - {{step: Base, technique: base coat, area: rope, paint: Light Rope, amount: 0.1 ml, each: 2 min}}
  - {{step: Light, technique: highlight, area: rope, paint: Pale Rope, amount: 0.1 ml, each: 2 min}}
---
» guides/ferry-bags/guide.md
---
title: Ferry bags
steps:
  - {{step: Coat, technique: base coat, area: coat, paint: Old Rope, amount: 0.1 ml, each: 2 min}}
  - {{step: Bag, technique: base coat, area: bag, paint: Light Rope, amount: 0.1 ml, each: 2 min}}
---
» plans/regatta.yaml
title: Regatta
start: 2026-06-01
sittings: {{Mon: "18:00-22:00"}}
units:
  - {{guide: ferry-watch, figures: 20}}
» guides/plain/guide.md
---
title: Plain
steps:
  - {{step: Base, technique: base coat, area: rope, paint: Deep 001, amount: 1 ml, each: 2 min}}
---
"""

SIXTY = [
    "Reedbank / Mustard",
    "Reedbank / Kiln Red",
    "Reedbank / Silt Wash",
    *(f"Reedbank / {name}" for name in FILLERS[:57]),
]


def keep(page: Page, site: Path, value: object, key: str = STORE) -> None:
    """As if an earlier visit had left it."""
    page.goto((site / "techniques.html").as_uri())
    page.evaluate(
        "([key, text]) => localStorage.setItem(key, text)",
        [key, value if isinstance(value, str) else json.dumps(value)],
    )


def own(page: Page, site: Path, names: list[str], state: str = "full") -> None:
    keep(page, site, {"pots": [{"name": name, "state": state} for name in names]})


def kept(page: Page) -> Any:
    written = page.evaluate("key => localStorage.getItem(key)", STORE)
    return json.loads(written)["pots"] if written else []


def my_pots(page: Page, site: Path) -> None:
    page.goto((site / "my-pots.html").as_uri())
    page.locator(".mine-rack").first.wait_for()


def guide(page: Page, site: Path, path: str = GUIDE) -> None:
    page.goto((site / path).as_uri())
    page.locator(".own.told:not([aria-busy])").wait_for()


def rest(page: Page) -> str:
    """All of the page but what is said of pots; a class that went leaves an empty list of them."""
    return page.inner_html("main").replace(page.inner_html(".own"), "").replace(' class=""', "")


def fills(page: Page, css: str) -> list[str]:
    return page.eval_on_selector_all(
        f"{css} [fill^='#']", "all => all.map(each => each.getAttribute('fill'))"
    )
