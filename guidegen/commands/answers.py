"""What `guidegen start` asks for a guide and a plan, by what the content folder already has."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from guidegen.base.paths import slug
from guidegen.model.paint import Ambiguous, Kind, Mix, Paint, Palette
from guidegen.model.site import Archive
from guidegen.reading.yaml.quoting import typed
from guidegen.terminal import asking

# The usual technique for each kind of paint, and for all other kinds: common practice, no source.
_BY_KIND: Mapping[Kind | None, str] = MappingProxyType(
    {
        Kind.WASH: "wash",
        Kind.GLAZE: "glaze",
        Kind.PRIMER: "brush undercoat",
        Kind.STAIN: "stain",
        Kind.VARNISH: "brush varnish",
    }
)
_COVERING = "base coat"


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A step to begin with, as it is typed: its title, an area, and a paint or '' where that is still open."""

    title: str
    area: str
    paint: str
    technique: str


def about_site(title: str, author: str) -> tuple[str, str]:
    """Ask for the site's title and author; what is given is the default of each."""
    asking.begin()
    return asking.text("What is the site called?", title), asking.text("Who paints and writes here?", author)


def about_guide(archive: Archive, title: str, figures: int) -> dict[str, object]:
    """Ask for title, figures, areas and a paint for each: the values of `templates/start/guide.md`."""
    asking.begin()
    title = asking.text("Title?", title)
    figures = asking.figures(figures)
    laid = tuple(_laid(area, archive.palette) for area in asking.areas(_areas_of(archive)))
    return {"title": title, "figures": figures, "laid": laid}


def about_plan(archive: Archive, title: str, guide: str) -> dict[str, object]:
    """Ask for title, guide and figures: the values of `templates/start/plan.yaml`."""
    asking.begin()
    title = asking.text("Title?", title)
    known = {one.slug: one.slug for one in archive.guides} | {
        slug(one.title): one.slug for one in archive.guides
    }
    slugs = [one.slug for one in archive.guides]
    guide = asking.name("By which guide?", slugs, lambda answer: known.get(slug(answer)), guide)
    return {"title": title, "guide": guide, "figures": asking.figures(10)}


def _areas_of(archive: Archive) -> list[str]:
    return sorted({area.text for guide in archive.guides for step in guide.steps for area in step.areas})


def _laid(area: str, palette: Palette) -> Laid:
    paint, technique = _paint_for(area, palette)
    title = area[:1].upper() + area[1:]
    return Laid(title=typed(title), area=typed(area), paint=paint, technique=technique)


def _paint_for(area: str, palette: Palette) -> tuple[str, str]:
    """Ask for an area's paint: its name as it is typed, '' for none, and the technique usual for its kind."""
    chosen = ask_pot(f"Which paint for {area}?", palette) if palette.pots else ""
    pot = palette.find(chosen) if chosen else None
    kind = pot.kind if isinstance(pot, Paint | Mix) else None
    return typed(chosen) if chosen else "", _BY_KIND.get(kind, _COVERING)


def ask_pot(question: str, palette: Palette, first: str = "") -> str:
    """The shortest name that finds the pot that is answered; Enter takes `first`."""

    def find(answer: str) -> str | None:
        found = palette.find(answer)
        return None if found is None or isinstance(found, Ambiguous) else palette.label(found)

    return asking.name(question, sorted({palette.label(pot) for pot in palette.pots}), find, first)
