"""The shelf against the archive: what can be painted from it, what is one pot short, what is no longer sold."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from guidegen.computing.guide.materials import PaintNeed
from guidegen.model.paint import Paint, Palette


class Work(Protocol):
    """What is painted: a guide, or whatever stands for one."""

    @property
    def slug(self) -> str:
        """Its address."""

    @property
    def title(self) -> str:
        """Its title."""


class Near(Protocol):
    """A paint that comes close to another, with the difference in CIEDE2000."""

    @property
    def paint(self) -> Paint:
        """The paint that comes close."""

    @property
    def de00(self) -> float:
        """How far off it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OnShelf:
    """One guide against the shelf: the paints of which pots are to buy, and those no longer sold."""

    guide: Work
    missing: tuple[Paint, ...]
    discontinued: tuple[Paint, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gone:
    """A discontinued paint, the guides that use it, and the closest paint that is still sold, if one comes near."""

    paint: Paint
    guides: tuple[Work, ...]
    closest: Near | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """A paint to buy, how many guides lack it, and those that lack nothing else."""

    paint: Paint
    guides: tuple[Work, ...]
    completes: tuple[Work, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """The whole archive against the shelf. `short` has the guides two or more paints short, fewest first."""

    ready: tuple[OnShelf, ...]
    one_short: tuple[OnShelf, ...]
    short: tuple[OnShelf, ...]
    gone: tuple[Gone, ...]
    wanted: tuple[Wanted, ...]


def on_shelf(guide: Work, needs: Iterable[PaintNeed]) -> OnShelf:
    """One guide against the shelf.

    A paint is missing where its pots do not last for the guide's figures, and one cannot paint without it.
    """
    kept = tuple(needs)
    return OnShelf(
        guide=guide,
        missing=tuple(need.paint for need in kept if need.buy and not need.spared),
        discontinued=tuple(need.paint for need in kept if need.paint.discontinued),
    )


def shelf_of(
    guides: Iterable[tuple[Work, Sequence[PaintNeed]]], closest: Callable[[Paint], Iterable[Near]]
) -> Shelf:
    """Every guide with its needs against the shelf; `closest` gives the paints near one, nearest first.

    Guides keep their order within each list; wanted paints go by how many guides they complete, then by how many
    lack them, then by name.
    """
    found = [on_shelf(guide, needs) for guide, needs in guides]
    return Shelf(
        ready=tuple(one for one in found if not one.missing),
        one_short=tuple(one for one in found if len(one.missing) == 1),
        short=tuple(sorted((one for one in found if len(one.missing) > 1), key=lambda one: len(one.missing))),
        gone=_gone(found, closest),
        wanted=_wanted(found),
    )


def sold_paints(palette: Palette) -> Palette:
    """The palette without what is no longer sold and without house mixes: where to look for a replacement."""
    return replace(
        palette, paints=tuple(paint for paint in palette.paints if not paint.discontinued), mixes=()
    )


def _gone(found: Iterable[OnShelf], closest: Callable[[Paint], Iterable[Near]]) -> tuple[Gone, ...]:
    users: dict[str, tuple[Paint, list[Work]]] = {}
    for one in found:
        for paint in one.discontinued:
            users.setdefault(paint.full_name, (paint, []))[1].append(one.guide)
    return tuple(
        Gone(
            paint=paint,
            guides=tuple(guides),
            closest=next((near for near in closest(paint) if not near.paint.discontinued), None),
        )
        for _, (paint, guides) in sorted(users.items())
    )


def _wanted(found: Iterable[OnShelf]) -> tuple[Wanted, ...]:
    lacking: dict[str, tuple[Paint, list[OnShelf]]] = {}
    for one in found:
        for paint in one.missing:
            lacking.setdefault(paint.full_name, (paint, []))[1].append(one)
    wanted = [
        Wanted(
            paint=paint,
            guides=tuple(one.guide for one in those),
            completes=tuple(one.guide for one in those if len(one.missing) == 1),
        )
        for paint, those in lacking.values()
    ]
    return tuple(sorted(wanted, key=lambda w: (-len(w.completes), -len(w.guides), w.paint.full_name)))
