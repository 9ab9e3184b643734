"""What a page needs to speak of its reader's pots: where the scripts lie that are asked for once there are any."""

from __future__ import annotations

from dataclasses import dataclass

from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import MY_POTS, PALETTE_SCRIPT


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnPots:
    """What a page needs to speak of its reader's pots; links are relative to the page.

    `mine` leads to the page of the reader's pots, '' from a page that is sent alone. `store` begins the names that the
    reader's browser keeps things under. `ask` is the script that looks whether there are any pots, and then asks for
    `scripts` in this order.
    """

    store: str
    mine: str
    ask: str
    scripts: str
    style: str


def own_pots_of(context: SiteContext, page: str, script: str, data: str) -> OwnPots:
    """For a page with this script and this one of data, by their paths in the site."""
    to = context.links.to
    needed = (context.assets.colour, script, PALETTE_SCRIPT, data)
    return OwnPots(
        store=pots_store(context),
        mine=to(MY_POTS, page),
        ask=to(context.assets.ask, page),
        scripts=" ".join(to(path, page) for path in needed),
        style=to(context.assets.own_style, page),
    )


def pots_store(context: SiteContext) -> str:
    """It names the site, since Chromium keeps one store for all pages opened from files."""
    return f"guidegen:{context.site.title}"
