"""The bench as a painter works it: its buttons, and what the browser keeps of it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

from support import town
from support.content_folders import put
from support.rendered_town import site_of

if TYPE_CHECKING:
    from playwright.sync_api import Locator, Page

BENCH = "guides/ferry-watch/bench.html"


def laid_out(at: Path) -> Path:
    """A site with one guide, and its bench."""
    return put(at, site_of(town.archive(town.ferry_watch())))


def opened(page: Page, folder: Path) -> Page:
    page.set_viewport_size({"width": 820, "height": 1100})
    page.emulate_media(reduced_motion="reduce")
    page.goto((folder / BENCH).as_uri())
    return page


def until(bench: Page, holds: str) -> None:
    """Wait for something in the page; its policy keeps Playwright's own way of waiting out."""
    bench.evaluate(
        f"() => new Promise(done => {{ const look = () => {{ if ({holds}) done(); else setTimeout(look, 50); }}; look(); }})"
    )


def button(bench: Page, step: str) -> Locator:
    """The one button of a step that changes: what is to do, or the way on."""
    return bench.locator(f"#step-{step} .leaf-foot :is(.do, .on):visible")


def finish(bench: Page, *steps: str) -> None:
    for step in steps:
        while (every := bench.locator(f"#step-{step} .every")).is_enabled():
            every.click()


def kept(bench: Page) -> dict[str, Any]:
    """What the browser keeps of the steps."""
    return bench.evaluate(
        """() => {
            const {store, page} = JSON.parse(document.querySelector("#bench-data").textContent);
            return JSON.parse(localStorage.getItem(store)).benches[page];
        }"""
    )


def dries_in(bench: Page, milliseconds: int) -> None:
    """As if the clock of the second step had been started so long ago that this much is left, and the page shut."""
    bench.evaluate(
        """left => {
            const key = JSON.parse(document.querySelector("#bench-data").textContent).store, kept = JSON.parse(localStorage.getItem(key));
            Object.assign(kept.benches.index["step-coats"], {dry: Date.now() + left, rang: false, heard: false});
            localStorage.setItem(key, JSON.stringify(kept));
        }""",
        milliseconds,
    )
    bench.reload()
