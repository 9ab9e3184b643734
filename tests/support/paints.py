"""Pots, mixtures and guides for tests, made in a line."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from guidegen.base.source import Span
from guidegen.computing.colour.blend import Blend, blend_of
from guidegen.computing.guide.scheme import Scheme, scheme_of
from guidegen.model.guide import Guide, PaintChoice, PaintUse, Step
from guidegen.model.names import Name, Part
from guidegen.model.paint import Kind, LetDown, Mix, Paint, Palette

HERE = Span.of_file("palette.yaml")


def named(text: str) -> Name:
    return Name(text=text, span=HERE)


def parts_of(amounts: Mapping[str, float | str]) -> tuple[Part, ...]:
    """`{"Ropewalk": 2, "Silt Wash": "a touch"}` as parts."""
    return tuple(
        Part(name=named(name), amount=0.1 if isinstance(n, str) else float(n), touch=isinstance(n, str))
        for name, n in amounts.items()
    )


def pot(name: str, colour: str | None = None, kind: str = "paint", **more: Any) -> Paint:
    return Paint(name=name, colour=colour, kind=Kind(kind), span=HERE, **more)


def house_mix(name: str, amounts: Mapping[str, float | str], **more: Any) -> Mix:
    return Mix(name=name, parts=parts_of(amounts), span=HERE, **more)


def let_down(colour: str, paint: float, white: float, named_white: str | None = None) -> LetDown:
    return LetDown(
        colour=colour,
        paint_parts=paint,
        white_parts=white,
        white=named(named_white) if named_white else None,
        span=HERE,
    )


def palette_of(*pots: Paint | Mix) -> Palette:
    return Palette(
        paints=tuple(each for each in pots if isinstance(each, Paint)),
        mixes=tuple(each for each in pots if isinstance(each, Mix)),
    )


def blend(palette: Palette, amounts: Mapping[str, float | str]) -> Blend:
    found = blend_of(parts_of(amounts), palette)
    assert found is not None
    return found


def step(
    technique: str,
    areas: Iterable[str] = (),
    paint: str | Iterable[str] | Mapping[str, float | str] = "none",
    **more: Any,
) -> Step:
    """A step; `paint` is a name, a list, parts, `none` or `as before`."""
    if paint == "none":
        choice = PaintChoice(use=PaintUse.NONE, span=HERE)
    elif paint == "as before":
        choice = PaintChoice(use=PaintUse.AS_BEFORE, span=HERE)
    elif isinstance(paint, Mapping):
        choice = PaintChoice(use=PaintUse.MIXED, parts=parts_of(paint), span=HERE)
    else:
        names = [paint] if isinstance(paint, str) else list(paint)
        choice = PaintChoice(use=PaintUse.SIDE_BY_SIDE, parts=parts_of(dict.fromkeys(names, 1.0)), span=HERE)
    return Step(
        title=technique,
        technique=technique,
        areas=tuple(named(area) for area in areas),
        paint=choice,
        span=HERE,
        **more,
    )


def scheme(palette: Palette, *steps: Step) -> Scheme:
    """The scheme of a guide with these steps."""
    guide = Guide(slug="tansley", file="guides/tansley.md", title="Widow Tansley", entries=steps, span=HERE)
    return scheme_of(guide, palette)
