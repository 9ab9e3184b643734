"""The page of the shelf: which guides the pots at home can paint, what is lacking, what is no longer sold."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from guidegen.computing.colour.closest import Matcher
from guidegen.computing.guide.shelf import Gone, OnShelf, Wanted, shelf_of, sold_paints
from guidegen.model.paint import Paint
from guidegen.rendering.archive.guide_links import guide_link
from guidegen.rendering.archive.home_page import FinderView, finder_of
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.escaping import script_json
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.own_pots import OwnPots, own_pots_of
from guidegen.rendering.page.paint_views import MatchView, PotView, match_view, pot_view
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import GUIDES_SCRIPT, SHELF, guide_file, relative, shelf_file
from guidegen.words.language import Language

# A page of more lines than this is cut: a phone shows no more in a second, and nobody reads as far.
MOST_LINES = 500
# The most pots under “worth buying”, and under “no longer sold”; the most guides named for one of the latter.
MOST_POTS = 100
MOST_GUIDES = 24
# How many pots a guide may lack that is asked for.
LACKS = (0, 1, 2, 3, 5, 8)


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
    """A pot no longer sold, guides that use it, and the closest that is still sold; `more` leads to all of the guides."""

    pot: PotView
    guides: tuple[Link, ...]
    closest: MatchView | None
    more: Link | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfView:
    """A page of the shelf; a large archive has several, which share its guides.

    `owned` counts the paints of which there is a pot. On the first page alone: `wanted` and `gone`, `unlisted`, which
    counts the pots that these two leave out, and `own`. Where there are several pages: `parts` lead to where the guides
    begin that are ready, lack one pot or lack more, each with the key of its name and its count (the link is '' for
    none), and `pages` to all of the pages.
    """

    path: str
    number: int
    owned: int
    ready: tuple[ShelfGuide, ...]
    one_short: tuple[ShelfGuide, ...]
    short: tuple[ShelfGuide, ...]
    wanted: tuple[WantedPot, ...] = ()
    gone: tuple[DiscontinuedPot, ...] = ()
    unlisted: int = 0
    parts: tuple[tuple[Link, str], ...] = ()
    pages: tuple[Link, ...] = ()
    finder: FinderView | None = None
    own: OwnPots | None = None


def shelf_pages(ordered: Sequence[Summary], context: SiteContext) -> tuple[ShelfView, ...]:
    """The archive against the shelf, guides in the order given; one that paints nothing has no place there.

    What can be painted comes first, then what lacks one pot, then what lacks the fewest.
    """
    palette = context.palette_tools.palette
    still_sold = Matcher(sold_paints(palette))
    shelf = shelf_of(((guide, guide.needs) for guide in ordered if guide.needs), still_sold.closest)
    kinds = {"ready": shelf.ready, "one-short": shelf.one_short, "short": shelf.short}
    cut = _cut([(kind, one) for kind, those in kinds.items() for one in those])
    paths = [SHELF, *(shelf_file(number) for number in range(2, len(cut) + 1))]
    # The pages backwards, so that the first counts.
    turned = zip(reversed(paths), reversed(cut), strict=True)
    begins = {kind: path for path, page in turned for kind, _ in page}
    views = []
    for number, (path, page) in enumerate(zip(paths, cut, strict=True), 1):
        lists = {kind: tuple(_guide(one, context) for of, one in page if of == kind) for kind in kinds}
        view = ShelfView(
            path=path,
            number=number,
            owned=sum(paint.owned > 0 for paint in palette.paints),
            ready=lists["ready"],
            one_short=lists["one-short"],
            short=lists["short"],
        )
        if len(cut) > 1:
            parts = _parts(kinds, begins, path, context.language)
            pages = _pages(paths, path, context.language)
            finder = finder_of(ordered, context, lacks=LACKS)
            view = replace(view, parts=parts, pages=pages, finder=finder)
        views.append(view)
    views[0] = replace(
        views[0],
        wanted=tuple(_wanted(one, context) for one in shelf.wanted[:MOST_POTS]),
        gone=tuple(_gone(one, still_sold, context) for one in shelf.gone[:MOST_POTS]),
        own=own_pots_of(context, SHELF, context.assets.own_lists, GUIDES_SCRIPT),
        unlisted=sum(max(0, len(pots) - MOST_POTS) for pots in (shelf.wanted, shelf.gone)),
    )
    return tuple(views)


def guides_script(ordered: Sequence[Summary]) -> bytes:
    """Each guide's page from that of the shelf, and what its paints ask of stand-ins, as data alone."""
    told = [f"[{script_json(guide_file(guide.slug))},{guide.sets}]" for guide in ordered if guide.sets]
    return f"guidegenGuides([{','.join(told)}]);\n".encode(errors="replace")


def _parts(
    kinds: Mapping[str, Sequence[OnShelf]], begins: Mapping[str, str], page: str, language: Language
) -> tuple[tuple[Link, str], ...]:
    """The links to where the guides of each kind begin, with how many there are."""
    return tuple(
        (Link(text=f"shelf.{kind}", href=_to(kind, begins, page)), language.number(len(those)))
        for kind, those in kinds.items()
    )


def _pages(paths: Sequence[str], page: str, language: Language) -> tuple[Link, ...]:
    return tuple(
        Link(text=language.number(at), href=path, current=path == page) for at, path in enumerate(paths, 1)
    )


def _to(kind: str, begins: Mapping[str, str], page: str) -> str:
    """The link to where the guides of a kind begin, '' where there are none."""
    return relative(f"{begins[kind]}#{kind}", page) if kind in begins else ""


def _cut(guides: Sequence[tuple[str, OnShelf]]) -> list[list[tuple[str, OnShelf]]]:
    """The guides in pages of so many lines at most, a line for each guide and for each pot it lacks."""
    pages: list[list[tuple[str, OnShelf]]] = [[]]
    lines = 0
    for kind, one in guides:
        lines += 1 + len(one.missing)
        if lines > MOST_LINES and pages[-1]:
            pages.append([])
            lines = 1 + len(one.missing)
        pages[-1].append((kind, one))
    return pages


def _wanted(one: Wanted, context: SiteContext) -> WantedPot:
    pot = pot_view(one.paint, context, SHELF)
    return WantedPot(pot=pot, completes=len(one.completes), lacking=len(one.guides))


def _gone(one: Gone, still_sold: Matcher, context: SiteContext) -> DiscontinuedPot:
    pot, many = pot_view(one.paint, context, SHELF), len(one.guides)
    every = context.language.t("technique.all", n=many)
    return DiscontinuedPot(
        pot=pot,
        guides=tuple(guide_link(guide, SHELF) for guide in one.guides[:MOST_GUIDES]),
        closest=_closest(still_sold, one.paint, context),
        more=Link(text=every, href=pot.href) if many > MOST_GUIDES else None,
    )


def _closest(still_sold: Matcher, paint: Paint, context: SiteContext) -> MatchView | None:
    found = still_sold.closest(paint)
    return match_view(found[0], context, SHELF) if found else None


def _guide(one: OnShelf, context: SiteContext) -> ShelfGuide:
    return ShelfGuide(
        link=guide_link(one.guide, SHELF),
        missing=tuple(pot_view(paint, context, SHELF) for paint in one.missing),
    )
