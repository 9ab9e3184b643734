"""The page of schemes by colour: every guide under the families of colour that cover most of its figure."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.computing.guide.colour_families import Cover, Family, MainFamily
from guidegen.rendering.archive.guide_links import guide_link
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.urls import COLOURS

# A strip shows the colours that cover most: with more of them none could be told from its neighbour. In a large archive
# it shows fewer, since the page has to come over the wire.
MOST_COLOURS = 5
LARGE, MOST_IN_LARGE = 400, 4
# As many stand for a whole family.
MOST_OF_FAMILY = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class SchemeStrip:
    """A guide on the page of schemes by colour; `spread` is its colours by what they cover."""

    guide: Link
    spread: tuple[Cover, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyView:
    """A family of colours, `key` of its name, with its guides; `colours` are some of theirs, dark to light."""

    key: str
    anchor: str
    colours: tuple[Cover, ...]
    guides: tuple[SchemeStrip, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ColoursView:
    """The page of schemes by colour; `plain` are guides without a colour that is known."""

    families: tuple[FamilyView, ...]
    plain: tuple[Link, ...]


def colours_view(ordered: Sequence[Summary]) -> ColoursView:
    """The families in their order, in each the guides from dark to light, those as dark in the order given.

    A handbook's pages of words are none of them.
    """
    ordered = tuple(guide for guide in ordered if not guide.handbook)
    found: dict[Family, list[tuple[MainFamily, Summary]]] = {family: [] for family in Family}
    for guide in ordered:
        for main in guide.families:
            found[main.family].append((main, guide))
    most = MOST_COLOURS if len(ordered) <= LARGE else MOST_IN_LARGE
    families = []
    for family, those in found.items():
        those.sort(key=lambda one: one[0].lightness)
        if those:
            hue = FamilyView(
                key=f"family.{family}",
                anchor=str(family),
                colours=_some([main.colour for main, _ in those], metal=family is Family.METALS),
                guides=tuple(
                    SchemeStrip(guide=guide_link(guide, COLOURS), spread=guide.covers[:most])
                    for _, guide in those
                ),
            )
            families.append(hue)
    return ColoursView(
        families=tuple(families),
        plain=tuple(guide_link(guide, COLOURS) for guide in ordered if not guide.families),
    )


def _some(colours: Sequence[str], *, metal: bool) -> tuple[Cover, ...]:
    """At most MOST_OF_FAMILY of many colours, taken at even distances, each shown as wide as the next."""
    every = list(dict.fromkeys(colours))
    count = min(len(every), MOST_OF_FAMILY)
    picked = [every[at * (len(every) - 1) // max(1, count - 1)] for at in range(count)]
    return tuple(Cover(colour=colour, metal=metal, part=1) for colour in picked)
