"""What axe-core has to say about a page, by its rules for WCAG 2.0 to 2.2, A and AA, and its own best practices."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from playwright.sync_api import Page

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


def violations(page: Page) -> list[tuple[str, str]]:
    """Each rule that the page as it is now breaks, and the first elements that do."""
    from axe_playwright_python.sync_playwright import Axe

    results = Axe().run(page, options={"runOnly": {"type": "tag", "values": RULES}})
    return [
        (each["id"], " ".join(node["html"][:160] for node in each["nodes"][:3]))
        for each in results.response["violations"]
    ]
