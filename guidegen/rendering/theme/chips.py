"""Chips: a paint's colour as a small inline drawing whose look tells the kind, so that nothing is told by hue alone.

A chip is a `<use>` of a shape that stands once on the page (`templates/parts/chips.svg`); the paint's colour is the
fill it hands down. A film lies half over white and half over grey, with its own colour where it pools. A hole punched
into a chip marks an estimate. Chips carry no words: the name stands beside them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Protocol

from markupsafe import Markup, escape

from guidegen.computing.guide.colour_families import Cover
from guidegen.model.paint import FILMS, Kind

# The rim of every chip: one mid grey, 4.6:1 on white and 4.4:1 on the dark theme's ground, so at least 3:1
# (WCAG 2.2, 1.4.11) on either theme and on paper. The shapes in chips.svg carry the same.
RIM = "#767b79"

# The two grounds a film is shown over, as on a maker's drawdown card.
CARD_WHITE = "#ffffff"
CARD_GREY = "#808080"

# How a kind looks. What is not named here is opaque and flat.
LOOKS: dict[Kind, str] = {
    Kind.PRIMER: "primer",
    Kind.METALLIC: "metal",
    Kind.INK: "ink",
    Kind.OIL: "oil",
    Kind.PIGMENT: "dust",
    Kind.EFFECT: "effect",
    Kind.PASTE: "paste",
    Kind.MEDIUM: "medium",
    Kind.THINNER: "thinner",
    Kind.VARNISH: "varnish",
    **dict.fromkeys(FILMS, "film"),
}
CLEAR = frozenset({"medium", "thinner", "varnish"})

# A palette's chips and pots are drawn again and again on every page; so many drawings are kept.
_MOST_DRAWN = 2_048


@dataclass(frozen=True, slots=True, kw_only=True)
class Chip:
    """What a chip shows. `fill` is None where there is no colour to show; `film` is a film over white and over grey."""

    look: str
    fill: str | None = None
    film: tuple[str, str] | None = None
    estimate: bool = False


def look_of(kind: Kind) -> str:
    """The look for a kind."""
    return LOOKS.get(kind, "flat")


@lru_cache(maxsize=_MOST_DRAWN)
def swatch(chip: Chip) -> Markup:
    """A chip for lines of text and tables."""
    return _use(chip, "c", "chip", "0 0 30 20", ("M1 6h14v8H1z", "M15 6h14v8H15z"))


@lru_cache(maxsize=_MOST_DRAWN)
def daub(chip: Chip) -> Markup:
    """A chip for the colour card: one stroke of a flat brush."""
    return _use(chip, "d", "daub", "0 0 90 48", ("M0 0h45v32H0z", "M45 0h45v32H45z"))


def ring() -> Markup:
    """The mark of a pot that the reader lacks: empty, and drawn by the style where there is something to tell."""
    return _safe('<i class="ring"></i>')


class Pot(Protocol):
    """What of a pot is shown in a line of text."""

    @property
    def name(self) -> str: ...
    @property
    def maker(self) -> str: ...
    @property
    def href(self) -> str: ...
    @property
    def chip(self) -> Chip: ...


@lru_cache(maxsize=_MOST_DRAWN)
def pot(view: Pot) -> Markup:
    """A pot in a line of text: its chip, its name, which leads to its page if anywhere, and its maker."""
    name = escape(view.name)
    if view.href:
        name = _safe(f'<a href="{escape(view.href)}">{name}</a>')
    maker = f" <small>{escape(view.maker)}</small>" if view.maker else ""
    return _safe(f'<span class="pot">{swatch(view.chip)}{ring()}<span>{name}{maker}</span></span>')


def band(chips: Iterable[Chip]) -> Markup:
    """The colours of chips side by side, drawn out to whatever width there is."""
    fills = [chip.fill for chip in chips if chip.fill]
    parts = "".join(f'<path fill="{fill}" d="M{at} 0h1v1h-1z"/>' for at, fill in enumerate(fills))
    return _safe(
        f'<svg class="band" viewBox="0 0 {len(fills)} 1" preserveAspectRatio="none" aria-hidden="true">{parts}</svg>'
    )


def spread(parts: Iterable[Cover]) -> Markup:
    """Colours side by side, each as wide as what it covers, drawn out to whatever width there is; metals glint."""
    drawn, at = [], 0
    every = tuple(parts)
    for place, one in enumerate(every, 1):
        # The last one goes on past the edge, where else a part of a pixel would stay bare.
        width = one.part if place < len(every) else 2 * one.part
        drawn.append(f'<path fill="{one.colour}" d="M{at} 0h{width}v9H{at}z"/>')
        if one.metal:
            left, third = at + one.part // 3, max(1, one.part // 3)
            drawn.append(f'<path fill="#fff" fill-opacity=".4" d="M{left} 0h{third}l-{third} 9h-{third}z"/>')
        at += one.part
    return _safe(
        f'<svg class="band" viewBox="0 0 {at} 9" preserveAspectRatio="none" aria-hidden="true">{"".join(drawn)}</svg>'
    )


def _use(chip: Chip, shape: str, name: str, box: str, halves: tuple[str, str]) -> Markup:
    look = chip.look if chip.fill or chip.look in CLEAR else "none"
    fill = f' fill="{chip.fill}"' if chip.fill else ""
    parts = [f'<use href="#{shape}-{look}"{fill}/>']
    if look == "film" and chip.film:
        drawn = (
            f'<path fill="{colour}" d="{half}"/>' for colour, half in zip(chip.film, halves, strict=True)
        )
        parts.append(f'<g clip-path="url(#{shape}-cut)">{"".join(drawn)}</g>')
    if chip.estimate:
        parts.append(f'<use href="#{shape}-hole"/>')
    return _safe(f'<svg class="{name}" viewBox="{box}" aria-hidden="true">{"".join(parts)}</svg>')


@dataclass(frozen=True, slots=True, kw_only=True)
class ReliefView:
    """An area's raised edges, flats and recesses; `edges_shine` and `shine` where they are metal."""

    edges: str
    flats: str
    recesses: str
    edges_shine: bool = False
    shine: bool = False


@lru_cache(maxsize=_MOST_DRAWN)
def relief(area: ReliefView) -> Markup:
    """An area as it stands: raised edges catch the light above, recesses lie below, the flats between."""
    sheen = ""
    if area.shine:
        sheen = '<path fill="#fff" fill-opacity=".4" d="M8 36 24 0h8L16 36z"/>'
    elif area.edges_shine:
        sheen = '<path fill="#fff" fill-opacity=".5" d="M16 10l5-10h8l-5 9z"/>'
    return _safe(
        '<svg class="relief" viewBox="0 0 48 36" preserveAspectRatio="none" aria-hidden="true">'
        f'<path fill="{area.flats}" d="M0 0h48v36H0z"/><path fill="{area.edges}" d="M0 0h48v7L0 11z"/>'
        f'<path fill="{area.recesses}" d="M0 29l48-4v11H0z"/>{sheen}'
        f'<path fill="none" stroke="{RIM}" d="M.5.5h47v35H.5z" vector-effect="non-scaling-stroke"/></svg>'
    )


_SHAPE = re.compile(r'<(symbol|clipPath) id="([a-z-]+)".*?</\1>', re.DOTALL)
_USED = re.compile(r'href="#([cd]-[a-z]+)"')


def read_shapes(drawing: str) -> dict[str, str]:
    """The shapes of `chips.svg` by their ids."""
    return {found[2]: found[0] for found in _SHAPE.finditer(drawing)}


def shapes_for(html: str, shapes: Mapping[str, str]) -> Markup:
    """The shapes that a page's chips use, to stand once on it; empty where it has no chip."""
    used = sorted(set(_USED.findall(html)))
    if not used:
        return Markup()
    cuts = sorted({f"{name[0]}-cut" for name in used})
    body = "".join(shapes[name] for name in (*cuts, *used))
    return _safe(f'<svg class="shapes" width="0" height="0" aria-hidden="true"><defs>{body}</defs></svg>')


def _safe(svg: str) -> Markup:
    """Our own drawing; what goes into it are colours that reading has brought to the form #rrggbb."""
    return Markup(svg)  # noqa: S704
