"""The page of the shelf: which guides the pots at home can paint, what is lacking, what is no longer sold."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.computing.colour.closest import Matcher
from guidegen.computing.guide.shelf import OnShelf, living, shelf_of
from guidegen.model.paint import Paint
from guidegen.rendering.archive.guide_links import guide_link
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.paint_views import MatchView, PotView, match_view, pot_view
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import SHELF


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfGuide:
    """A guide, and the pots it lacks."""

    link: Link
    missing: tuple[PotView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WantedPot:
    """A pot to buy: how many guides it would complete, and how many lack it."""

    pot: PotView
    completes: int
    lacking: int


@dataclass(frozen=True, slots=True, kw_only=True)
class DiscontinuedPot:
    """A pot no longer sold, the guides that use it, and the closest that is still sold."""

    pot: PotView
    guides: tuple[Link, ...]
    closest: MatchView | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfView:
    """The page of the shelf. `owned` counts the paints of which there is a pot."""

    owned: int
    ready: tuple[ShelfGuide, ...]
    one_short: tuple[ShelfGuide, ...]
    short: tuple[ShelfGuide, ...]
    wanted: tuple[WantedPot, ...]
    gone: tuple[DiscontinuedPot, ...]


def shelf_view(ordered: Iterable[Summary], context: SiteContext) -> ShelfView:
    """The archive against the shelf, guides in the order given; one that paints nothing has no place there."""
    palette = context.palette_tools.palette
    still_sold = Matcher(living(palette))
    shelf = shelf_of(((guide, guide.needs) for guide in ordered if guide.needs), still_sold.closest)
    return ShelfView(
        owned=sum(paint.owned > 0 for paint in palette.paints),
        ready=tuple(_guide(one, context) for one in shelf.ready),
        one_short=tuple(_guide(one, context) for one in shelf.one_short),
        short=tuple(_guide(one, context) for one in shelf.short),
        wanted=tuple(
            WantedPot(
                pot=pot_view(one.paint, context, SHELF), completes=len(one.completes), lacking=len(one.guides)
            )
            for one in shelf.wanted
        ),
        gone=tuple(
            DiscontinuedPot(
                pot=pot_view(one.paint, context, SHELF),
                guides=tuple(guide_link(guide, SHELF) for guide in one.guides),
                closest=_closest(still_sold, one.paint, context),
            )
            for one in shelf.gone
        ),
    )


def _closest(still_sold: Matcher, paint: Paint, context: SiteContext) -> MatchView | None:
    found = still_sold.closest(paint)
    return match_view(found[0], context, SHELF) if found else None


def _guide(one: OnShelf, context: SiteContext) -> ShelfGuide:
    return ShelfGuide(
        link=guide_link(one.guide, SHELF),
        missing=tuple(pot_view(paint, context, SHELF) for paint in one.missing),
    )
