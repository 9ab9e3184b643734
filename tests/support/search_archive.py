"""A small archive to search, what is hard to find in it and what is hard to show, and a page that searches it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from support.content_folders import lay_out

from guidegen.building.build import Order, build

if TYPE_CHECKING:
    from playwright.sync_api import Page

TEXT = """
» site.yaml
title: The delta's archive
» palette.yaml
paints:
  - {name: Oilskin Ochre, range: Reedbank, colour: b8862f, owned: 2, aliases: [wet mustard]}
  - {name: Fog Grey, range: Reedbank, colour: 8f9491, owned: 2}
  - {name: Ash White, range: Reedbank, colour: e0e0d8}
  - {name: Silt Wash, range: Ninelock, kind: wash, colour: 4a3b2a, owned: 1}
mixes:
  - {name: Slipway wash, parts: {Silt Wash: 2, Fog Grey: 1}}
» guides/ferry-watch/guide.md
---
title: Ferry watch
summary: Ten of them in the rain.
date: 2026-03-01
tags: [ferry, batch]
figures: 10
steps:
  - {step: Coats, technique: base coat, area: coat, paint: Oilskin Ochre, each: 9 min, dry: 30 min}
  - {step: Folds, technique: wash, area: coat, paint: Silt Wash, each: 3 min, dry: 40 min, mind: no puddles in the cuffs}
---
The watch stands where the river is widest.
» guides/grey-coats/guide.md
---
title: Lock keepers
date: 2026-02-01
tags: [lock]
figures: 2
steps:
  - {step: Grey coats, technique: base coat, area: coat, paint: Fog Grey, each: 5 min, dry: 30 min}
  - {step: Boots, technique: base coat, area: boots, paint: Ash White, each: 5 min, dry: 30 min}
---
» guides/grosse-strasse/guide.md
---
title: Große Straße
language: de
date: 2026-01-01
tags: [ferry, Straßenvolk]
figures: 1
steps:
  - {step: Mäntel, technique: base coat, area: Mantel, paint: Slipway wash, each: 70 min, dry: 30 min}
---
Œuvre d'Élise; the ﬁnest of the ŷd.
» guides/trap/guide.md
---
title: <img src=x onerror=alert(1)>
date: 2025-01-01
tags: ["</option><script>alert(2)</script>"]
figures: 1
steps:
  - {step: "<b>bold</b>", technique: base coat, area: "<i>hat</i>", paint: Ash White, each: 1 min, mind: "</script><script>alert(3)</script>"}
---
"""
FERRY, LOCK, STREET, TRAP = "Ferry watch", "Lock keepers", "Große Straße", "<img src=x onerror=alert(1)>"
FETCHED = """() => document.querySelector('script[src="search-index.js"]')"""


def built(at: Path, text: str = TEXT) -> Path:
    """The site of an archive written as text."""
    lay_out(at / "content", text)
    assert build(Order(content=at / "content", out=at / "site", cache=at / "cache")).counts is not None
    return at / "site"


def ready(page: Page) -> Page:
    """With the index there, whatever is chosen takes effect at once."""
    page.focus("#find-q")
    page.wait_for_function(FETCHED)
    page.fill("#find-q", "e")
    page.locator(".find-out:not([hidden])").wait_for()
    page.fill("#find-q", "")
    return page


def titles(page: Page) -> list[str]:
    return page.locator(".finds h2").all_inner_texts()


def sought(page: Page, text: str) -> list[str]:
    page.fill("#find-q", text)
    return titles(page)
