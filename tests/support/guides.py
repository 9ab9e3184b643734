"""Guides with titles, tools and a size, made in a line, for tests of what they use up and what they warn of."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from support.paints import HERE, step

from guidegen.computing.guide.materials import PaintNeed, paint_needs
from guidegen.computing.guide.scheme import Scheme, scheme_of
from guidegen.model.guide import Guide, Scale, Step, Stop
from guidegen.model.names import Item
from guidegen.model.paint import Palette


def titled(
    title: str,
    technique: str = "",
    paint: str | Iterable[str] | Mapping[str, float | str] = "none",
    **more: Any,
) -> Step:
    return replace(step(technique, (), paint, **more), title=title)


def item(name: str, **more: Any) -> Item:
    return Item(name=name, span=HERE, **more)


def guide(*entries: Step | Stop, ratio: float = 56.0, **more: Any) -> Guide:
    more = {"slug": "ferry-watch", "title": "Ferry watch"} | more
    scale = Scale(ratio=ratio, text=f"1:{ratio:g}", given=True)
    return Guide(file=f"guides/{more['slug']}.md", scale=scale, entries=entries, span=HERE, **more)


def scheme(palette: Palette, *entries: Step | Stop, **more: Any) -> Scheme:
    return scheme_of(guide(*entries, **more), palette)


def needs(palette: Palette, *entries: Step | Stop, figures: int = 1, **more: Any) -> tuple[PaintNeed, ...]:
    return paint_needs(scheme(palette, *entries, **more), palette, figures)
