"""What axe-core has to say about a page, by its rules for WCAG 2.0 to 2.2, A and AA, and its own best practices."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


@contextmanager
def axe_page(browser: Browser, scheme: Any, width: int) -> Iterator[Page]:
    """A page as wide as that, light or dark, which takes axe's own script in and holds still."""
    context = browser.new_context(
        color_scheme=scheme,
        reduced_motion="reduce",
        viewport={"width": width, "height": 800},
        bypass_csp=True,
    )
    try:
        yield context.new_page()
    finally:
        context.close()


def violations(page: Page) -> list[tuple[str, str]]:
    """Each rule that the page as it is now breaks, and the first elements that do."""
    from axe_playwright_python.sync_playwright import Axe

    # What passes is not told, which would take longer than to look.
    options = {"runOnly": {"type": "tag", "values": RULES}, "resultTypes": ["violations"]}
    results = Axe().run(page, options=options)
    return [
        (each["id"], " ".join(node["html"][:160] for node in each["nodes"][:3]))
        for each in results.response["violations"]
    ]
