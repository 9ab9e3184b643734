"""The page where colours are tried, as a finger or a mouse works it, and a small site that has it."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

from support.content_folders import lay_out

from guidegen.building.build import Order, build

if TYPE_CHECKING:
    from playwright.sync_api import Page


CONTENT = """
» site.yaml
title: The delta's archive
» palette.yaml
paints:
  - {name: Slate Undercoat, range: Sternpost, kind: primer, colour: 3b4045, owned: 1}
  - {name: Oilskin Ochre, range: Reedbank, colour: b8862f, owned: 2}
  - {name: Gull White, range: Reedbank, colour: f0efe8, owned: 1}
  - {name: "Ferryman's <b>Slate</b>", range: Reedbank, colour: 4c5660}
  - {name: Bilge Wash, range: Ninelock, kind: wash, colour: 2a2d36, strength: 1.4, owned: 1}
  - {name: Lantern Brass, range: Reedbank, kind: metallic, colour: b08d3e, owned: 1}
  - {name: Wet Deck, range: Reedbank, kind: varnish, finish: gloss, owned: 1}
mixes:
  - {name: Wet light, parts: {Gull White: 4, Oilskin Ochre: 1}}
» guides/ferry-watch/guide.md
---
title: Ferry watch
figures: 5
figure: watchman
steps:
  - {step: Coats, technique: base coat, area: coat, paint: Oilskin Ochre, each: 9 min, dry: 30 min}
  - {step: Folds, technique: wash, area: coat, paint: Bilge Wash, each: 3 min, dry: 40 min, thin: "2:1 water"}
---
The watch stands where the river is widest.
» guides/lamp-boys/guide.md
---
title: Lamp boys
figure: watchman
steps:
  - {step: Prime, technique: spray, area: all, paint: Slate Undercoat, each: 20 s, dry: 30 min}
  - {step: Coats, technique: base coat, area: coat, paint: {Oilskin Ochre: 2, Gull White: 1}, thin: "2:1 water", coats: 2, each: 4 min}
  - {step: Hoods, technique: base coat, area: hood, paint: {Gull White: 3, Wet Deck: 1}, each: 2 min}
  - {step: Folds, technique: glaze, area: coat, paint: {Bilge Wash: 1, Wet Deck: 2}, thin: "3:2 water", each: 3 min}
  - {step: Edges, technique: highlight, area: [coat, hood], paint: Wet light, each: 2 min}
---
"""


def built(folder: Path, content: Path) -> Path:
    """Build content into a folder, which is given back."""
    report = build(Order(content=content, out=folder, cache=folder.parent / "cache"))
    assert report.counts is not None, report.diagnostics
    return folder


def opened(page: Page, site: Path, place: str = "") -> Page:
    """The page, at a place of it."""
    page.goto((site / "try.html").as_uri() + place)
    return page


def begun(page: Page, site: Path) -> Page:
    """With the watchman chosen and the tray filled."""
    opened(page, site).click("[data-figure='try/watchman.js']")
    page.wait_for_selector(".try-pot")
    return page


def take(page: Page, name: str, way: str = "") -> None:
    """Take a pot in hand, and say how it goes on."""
    page.locator(".try-pot", has_text=name).first.click()
    if way:
        page.locator(f".try-ways input[value='{way}']").check(force=True)


# A place of the drawing where nothing lies over an area, for a finger.
SPOT = """area => {
  const box = document.querySelector('.try-figure svg').getBoundingClientRect();
  for (let y = box.top; y < box.bottom; y += 3) for (let x = box.left; x < box.right; x += 3) {
    const hit = document.elementFromPoint(x, y), group = hit && hit.closest('[data-area]');
    if (group && group.dataset.area === area) return [x, y];
  }
}"""


def touch(page: Page, *areas: str) -> None:
    """Touch areas of the figure."""
    for area in areas:
        page.mouse.click(*page.evaluate(SPOT, area))


def order(page: Page) -> list[str]:
    """The order of work as it is read."""
    return [" ".join(text.split()) for text in page.locator(".try-steps ol .try-step").all_inner_texts()]


def fills(markup: str) -> list[str]:
    """The colours of a drawing in the order drawn."""
    return re.findall(r'fill="(#[0-9a-f]{6})"', markup)


def drawn(page: Page) -> list[str]:
    """Those of the large figure."""
    return fills(page.inner_html(".try-figure").partition("</defs>")[2])


def painted(page: Page, site: Path) -> Page:
    """A watchman in four steps."""
    begun(page, site)
    take(page, "Slate Undercoat")
    touch(page, "coat")
    take(page, "Oilskin Ochre")
    touch(page, "coat", "hood")
    take(page, "Bilge Wash")
    touch(page, "coat")
    take(page, "Lantern Brass")
    touch(page, "lantern")
    return page


def made(folder: Path) -> Path:
    """The small site, built below a folder."""
    return built(folder / "site", lay_out(folder / "content", CONTENT))
