"""What a guide shows of files: nothing of it has to be pushed sideways on a phone, and paper cuts nothing off."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from support.content_folders import lay_out

from guidegen.building.build import Order, build

if TYPE_CHECKING:
    from playwright.sync_api import Page

LONG = "  - {step: Coats, technique: base coat, area: coat, paint: Oilskin Ochre, each: 4 min, dry: 15 min}\n"
CONTENT = f"""
» guides/eel-seller.md
---
title: Eel seller
steps: [{{step: Write it down, paint: none, each: 1 min}}]
---
## Write it down

```yaml content/guides/eel-seller.md
{LONG}{"x" * 400}
```

```text
    content/guides/eel-seller.md, line 3     steps: [{{step: Write it down, paint: nune, each: 1 min}}]
                                                                                  ~~~~
```

```sh
guidegen check
```

| key | what it says |
|---|---|
| `technique` | {"how the paint is laid, in a word or two, " * 6} |
"""


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> str:
    at = tmp_path_factory.mktemp("listings")
    order = Order(content=lay_out(at / "content", CONTENT), out=at / "site", cache=at / "cache")
    assert build(order).counts is not None
    return Path(order.out, "guides/eel-seller/index.html").as_uri()


@pytest.mark.parametrize("media", ["screen", "print"])
@pytest.mark.parametrize("width", [320, 390, 700, 1280])
def test_lines_break_where_the_page_ends(page: Page, address: str, width: int, media: str) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    page.emulate_media(media="print" if media == "print" else "screen")
    page.goto(address)
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    for block in page.locator("pre:not(.aligned)").all():
        assert block.evaluate("pre => pre.scrollWidth <= pre.clientWidth")
        box = block.bounding_box()
        assert box is not None
        assert box["x"] + box["width"] <= width
    # The first column of a table holds its words whole.
    assert page.locator("td code").evaluate("word => word.getClientRects().length") == 1


@pytest.mark.parametrize("width", [320, 390])
def test_a_mark_stays_below_what_it_marks(page: Page, address: str, width: int) -> None:
    page.set_viewport_size({"width": width, "height": 800})
    page.goto(address)
    block = page.locator("pre.aligned")
    lines = "pre => [pre.clientHeight, parseFloat(getComputedStyle(pre).lineHeight), parseFloat(getComputedStyle(pre).paddingTop)]"
    height, line, padding = block.evaluate(lines)
    assert abs(height - 2 * padding - 2 * line) < line / 2  # two lines, as written
    assert block.evaluate("pre => pre.tabIndex") == 0


def test_a_files_name_is_the_caption_of_its_text(page: Page, address: str) -> None:
    page.goto(address)
    listing = page.get_by_role("figure", name="content/guides/eel-seller.md")
    assert listing.locator("code").inner_text().startswith(LONG)


def test_where_nothing_is_painted_no_paints_are_listed(page: Page, address: str) -> None:
    page.goto(address)
    assert page.locator("#paints, #where, .swatches, .says").count() == 0
    assert page.locator(".bar a").all_inner_texts() == ["1 step", "Index", "Paint along"]
    page.goto(address.replace("guides/eel-seller/index.html", "index.html"))
    assert page.locator(".card-top").count() == 0
