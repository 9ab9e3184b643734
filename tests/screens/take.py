"""Take the README's pictures of the demo site: `python tests/screens/take.py`, with an installed Chromium.

Each shows what a reader has before them: a guide on a desk, the bench on a phone, the sheet on paper.
"""

from __future__ import annotations

import io
import os
import shutil
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from PIL import Image, ImageOps

from guidegen.building.build import Order, build

if TYPE_CHECKING:
    from playwright.sync_api import Browser

TOP = Path(__file__).parents[2]
SCREENS = Path(__file__).parent
GUIDE = "guides/ferry-watch"

# What a picture may weigh at most, so that the README is there at once.
MOST_BYTES = 150_000
# CSS: 96 pixels an inch. A4 and the style's own margins (templates/style/paper.css) in pixels.
A4 = (794, 1123)
MARGINS = (49, 53)


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen:
    """One picture: the page, a place on it, how large its window is, and how many pixels of the picture each of it gets."""

    page: str
    place: str = ""
    size: tuple[int, int]
    density: float = 1.0
    paper: bool = False
    dark: bool = False


SCREENS_TAKEN = {
    "guide-on-a-desk": Screen(page=f"{GUIDE}/index.html", size=(1280, 900)),
    "guide-in-the-dark": Screen(page=f"{GUIDE}/index.html", size=(390, 780), density=1.5, dark=True),
    "bench-on-a-phone": Screen(page=f"{GUIDE}/bench.html", place="#step-coats", size=(390, 780), density=1.5),
    "sheet-on-paper": Screen(
        page=f"{GUIDE}/bench.html", size=(A4[0] - 2 * MARGINS[0], A4[1] - 2 * MARGINS[1]), paper=True
    ),
}


def taken(browser: Browser, site: Path, screen: Screen) -> bytes:
    """A picture as WebP."""
    width, height = screen.size
    context = browser.new_context(
        viewport={"width": width, "height": height},
        device_scale_factor=screen.density,
        color_scheme="dark" if screen.dark else "light",
        reduced_motion="reduce",
    )
    page = context.new_page()
    page.emulate_media(media="print" if screen.paper else "screen")
    page.goto((site / screen.page).as_uri() + screen.place)
    page.wait_for_load_state("networkidle")
    picture = Image.open(io.BytesIO(page.screenshot())).convert("RGB")
    context.close()
    if screen.paper:
        across, down = MARGINS
        picture = ImageOps.expand(picture, (across, down, across, down), "white")
        picture = ImageOps.expand(picture, 1, "#999")
    out = io.BytesIO()
    picture.save(out, "WEBP", quality=82, method=6)
    return out.getvalue()


def main() -> int:
    """Build the demo, take every picture, and tell what each weighs; 1 where one is too heavy."""
    from playwright.sync_api import sync_playwright

    SCREENS.mkdir(parents=True, exist_ok=True)
    heavy = False
    with tempfile.TemporaryDirectory() as scratch, sync_playwright() as playwright:
        site = Path(scratch) / "site"
        built = build(Order(content=TOP / "content", out=site, cache=Path(scratch) / "cache"))
        if built.counts is None:
            print("The demo cannot be built.")
            return 1
        browser = playwright.chromium.launch(executable_path=_chromium())
        for name, screen in SCREENS_TAKEN.items():
            data = taken(browser, site, screen)
            (SCREENS / f"{name}.webp").write_bytes(data)
            heavy = heavy or len(data) > MOST_BYTES
            print(f"{name}.webp: {len(data) // 1000} kB")
        browser.close()
    return 1 if heavy else 0


def _chromium() -> str | None:
    """An installed Chromium or Chrome, None for the one that Playwright brought."""
    told = os.environ.get("GUIDEGEN_CHROMIUM", "")
    if told:
        return None if told == "playwright" else told
    names = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "microsoft-edge")
    return next(filter(None, map(shutil.which, names)), None)


if __name__ == "__main__":
    sys.exit(main())
