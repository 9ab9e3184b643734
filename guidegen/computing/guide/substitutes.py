"""What the author's shelf has for each paint of a guide that is not on it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from guidegen.computing.colour.blend import Blend, BlendPart, blend_of
from guidegen.computing.colour.closest import is_owned
from guidegen.computing.colour.spaces import delta_e_2000, lab_of
from guidegen.computing.colour.stand_in import Advice
from guidegen.computing.guide.palette_tools import PaletteTools
from guidegen.computing.guide.scheme import Scheme
from guidegen.computing.guide.undercoat import undercoat_of
from guidegen.model.paint import Paint


class Way(StrEnum):
    """Where a substitute comes from: the author's own word in the guide, a pot that is near, a mixture."""

    INSTEAD = "instead"
    POT = "pot"
    MIX = "mix"


@dataclass(frozen=True, slots=True, kw_only=True)
class Substitute:
    """What to take for a paint. `de00` is to four decimals, None where a colour is not known."""

    way: Way
    blend: Blend
    colour: str | None
    de00: float | None
    estimate: bool


def substitutes(
    scheme: Scheme, paints: Iterable[Paint], palette_tools: PaletteTools
) -> Mapping[str, Substitute | None]:
    """For each of the scheme's paints that is not owned, by full name; None where it is to buy, or to live without."""
    undercoat = undercoat_of(scheme, palette_tools.mixer)
    return {
        paint.full_name: _substitute(scheme, paint, palette_tools, undercoat)
        for paint in paints
        if not is_owned(paint)
    }


def _substitute(
    scheme: Scheme, paint: Paint, palette_tools: PaletteTools, undercoat: str | None
) -> Substitute | None:
    mixer = palette_tools.mixer
    for blend in _named_by_author(scheme, paint, palette_tools):
        if all(is_owned(item.paint) for item in mixer.ingredients(blend)):
            found = mixer.predict(blend)
            return Substitute(
                way=Way.INSTEAD,
                blend=blend,
                colour=found.colour,
                de00=_difference(paint.colour, found.colour),
                estimate=found.estimate,
            )
    advised = palette_tools.stand_ins.advised(paint, undercoat)
    if advised.advice is Advice.POT:
        pot = advised.pots[0]
        blend = Blend((BlendPart(pot.paint, 1.0),))
        return Substitute(way=Way.POT, blend=blend, colour=pot.paint.colour, de00=pot.de00, estimate=False)
    if advised.advice is Advice.MIX:
        recipe = advised.recipes[0]
        blend = Blend(tuple(BlendPart(pot, float(count)) for pot, count in recipe.parts))
        return Substitute(way=Way.MIX, blend=blend, colour=recipe.colour, de00=recipe.de00, estimate=True)
    return None


def _named_by_author(scheme: Scheme, paint: Paint, palette_tools: PaletteTools) -> Iterator[Blend]:
    """The author's substitutes in steps that paint with this pot alone, in the order written."""
    for step in scheme.steps:
        if len(step.brushed) == 1 and step.brushed[0].pot is paint:
            for other in step.step.instead:
                blend = blend_of(other.parts, palette_tools.palette)
                if blend is not None and len(blend.parts) == len(other.parts):
                    yield blend


def _difference(one: str | None, two: str | None) -> float | None:
    if one is None or two is None:
        return None
    lab = lab_of([one, two])
    return round(float(delta_e_2000(lab[0], lab[1])), 4)
