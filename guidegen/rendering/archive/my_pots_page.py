"""The page of the reader's own pots. All that it lists comes out of the palette's script: nobody else sees what is ticked."""

from __future__ import annotations

from dataclasses import dataclass

from guidegen.computing.colour.stand_in import sort_of
from guidegen.model.paint import COLOURLESS, Kind
from guidegen.reading.paint_lists.cells import CHOICES
from guidegen.rendering.page.own_pots import pots_store
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import MY_POTS, PALETTE_SCRIPT, relative


@dataclass(frozen=True, slots=True, kw_only=True)
class MyPotsView:
    """Links to the scripts of the palette and of colours (`engine`) and to the style, and what a form offers.

    `kinds` and `binders` are those that a pot of the reader's own may have, `ranges` those of the archive; `store`
    begins the names that the browser keeps pots under.
    """

    store: str
    palette: str
    engine: str
    style: str
    kinds: tuple[str, ...]
    binders: tuple[str, ...]
    ranges: tuple[str, ...]


def my_pots_view(context: SiteContext) -> MyPotsView:
    """The page's fixed part."""
    paints = context.palette_tools.palette.paints
    return MyPotsView(
        store=pots_store(context),
        palette=relative(PALETTE_SCRIPT, MY_POTS),
        engine=relative(context.assets.colour, MY_POTS),
        style=relative(context.assets.own_style, MY_POTS),
        kinds=tuple(kind.value for kind in Kind if sort_of(kind) or kind in COLOURLESS),
        binders=CHOICES["binder"],
        ranges=tuple(dict.fromkeys(paint.range for paint in paints if paint.range)),
    )
