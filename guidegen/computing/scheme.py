"""A guide for one choice of variants, with every paint resolved: what all other computing starts from."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from guidegen.base.suggest import folded
from guidegen.computing.techniques import Role, Technique, technique_of
from guidegen.model.guide import Guide, PaintUse, Step, Stop
from guidegen.model.names import Name, Part
from guidegen.model.paint import DEEPEST_MIX, Ambiguous, Kind, Mix, Paint, Palette

# The key of the whole figure in guides that name no area at all.
WHOLE = "all"


@dataclass(frozen=True, slots=True)
class Ingredient:
    """A palette paint and its part of a blend; the parts of a blend's ingredients sum to 1."""

    paint: Paint
    share: float


@dataclass(frozen=True, slots=True)
class BlendPart:
    """A pot and its parts as written; a touch counts 0.1."""

    pot: Paint | Mix
    amount: float
    touch: bool = False


@dataclass(frozen=True, slots=True)
class Blend:
    """What is on the brush: one pot, or several mixed in parts."""

    parts: tuple[BlendPart, ...]

    @property
    def pot(self) -> Paint | Mix | None:
        """The one pot it is, None for an inline mixture."""
        return self.parts[0].pot if len(self.parts) == 1 else None


@dataclass(frozen=True, slots=True, kw_only=True)
class SchemeStep:
    """A step as it is painted. `n` counts from 1 in this scheme.

    `areas` are the areas' names as first written, all of them where `whole` is set. `brushed` are the blends the
    step uses, each for an equal share of the amount; `laid` gives for each area the blend that ends up on it.
    """

    n: int
    step: Step
    technique: Technique
    whole: bool
    areas: tuple[str, ...]
    brushed: tuple[Blend, ...]
    laid: Mapping[str, Blend]


@dataclass(frozen=True, slots=True, kw_only=True)
class Halt:
    """A stop, and the number of the last step before it (0 before any)."""

    name: str
    after: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Scheme:
    """The steps of one variant, its stops and all its areas in the order first named."""

    guide: Guide
    choice: Mapping[str, str]
    steps: tuple[SchemeStep, ...]
    stops: tuple[Halt, ...]
    areas: tuple[str, ...]

    def until(self, stop: Halt) -> tuple[SchemeStep, ...]:
        """The steps up to a stop."""
        return self.steps[: stop.after]


def find_pot(palette: Palette, name: Name) -> Paint | Mix | None:
    """The pot a name means, None where it is unknown or ambiguous: checking says which."""
    found = palette.find(name.text)
    return None if isinstance(found, Ambiguous) else found


def blend_of(parts: Iterable[Part], palette: Palette) -> Blend | None:
    """The blend of some parts, without those that the palette lacks; None if none is left."""
    found = [(part, find_pot(palette, part.name)) for part in parts]
    kept = tuple(BlendPart(pot, part.amount, part.touch) for part, pot in found if pot is not None)
    return Blend(kept) if kept else None


# What each mix is made of in the end, by its id: paints by theirs, with their shares.
Broken = dict[int, dict[int, Ingredient]]


def ingredients(
    blend: Blend, palette: Palette, *, touch: float | None = None, known: Broken | None = None
) -> tuple[Ingredient, ...]:
    """The palette paints of a blend, mixes broken down, in the order first met; shares sum to 1.

    A mix inside a mix is replaced by its own paints scaled to sum 1, so it weighs its parts and no more. `touch` is
    what a touch counts here, its own amount where that is left out. What is found out about mixes is added to `known`,
    for the next call with this palette and touch: mixes of mixes would else be broken down once for each blend.
    """
    only = blend.parts[0].pot
    if len(blend.parts) == 1 and isinstance(only, Paint):  # nearly every blend, and the same there
        return (Ingredient(only, 1.0),)
    known = {} if known is None else known
    open_mixes: set[int] = set()

    def poured(parts: tuple[BlendPart, ...]) -> dict[int, Ingredient]:
        amounts = [touch if part.touch and touch is not None else part.amount for part in parts]
        total = math.fsum(amounts)
        shares: dict[int, Ingredient] = {}
        for part, amount in zip(parts, amounts, strict=True):
            for key, one in of_pot(part.pot).items():
                before = shares[key].share if key in shares else 0.0
                shares[key] = Ingredient(one.paint, before + one.share * amount / total)
        return shares

    def of_pot(pot: Paint | Mix) -> dict[int, Ingredient]:
        if isinstance(pot, Paint):
            return {id(pot): Ingredient(pot, 1.0)}
        if id(pot) not in known:
            if id(pot) in open_mixes or len(open_mixes) >= DEEPEST_MIX:
                return {}
            open_mixes.add(id(pot))
            inner = blend_of(pot.parts, palette)
            known[id(pot)] = poured(inner.parts) if inner else {}
            open_mixes.remove(id(pot))
        return known[id(pot)]

    shares = poured(blend.parts)
    total = math.fsum(one.share for one in shares.values())
    return tuple(Ingredient(one.paint, one.share / total) for one in shares.values()) if total else ()


def scheme_of(guide: Guide, palette: Palette, choice: Mapping[str, str] | None = None) -> Scheme:
    """The guide for a choice of variants; what the choice leaves out takes its first option."""
    chosen = guide.default_choice | dict(choice or {})
    kept = [entry for entry in guide.entries if isinstance(entry, Stop) or _belongs(entry, chosen)]
    labels = _area_labels([entry for entry in kept if isinstance(entry, Step)], guide.leave)
    every = tuple(labels.values()) or (WHOLE,)
    steps: list[SchemeStep] = []
    stops: list[Halt] = []
    under: dict[str, Blend] = {}
    for entry in kept:
        if isinstance(entry, Stop):
            stops.append(Halt(name=entry.name, after=len(steps)))
            continue
        areas = tuple(dict.fromkeys(labels[folded(area.text)] for area in entry.areas)) or every
        brushed, laid = _paints(entry, areas, palette, under)
        technique = technique_of(entry.technique, varnish=_is_varnish(brushed))
        if technique.role is Role.COVER:
            under |= laid
        steps.append(
            SchemeStep(
                n=len(steps) + 1,
                step=entry,
                technique=technique,
                whole=not entry.areas,
                areas=areas,
                brushed=brushed,
                laid=laid,
            )
        )
    return Scheme(guide=guide, choice=chosen, steps=tuple(steps), stops=tuple(stops), areas=every)


def _belongs(step: Step, chosen: Mapping[str, str]) -> bool:
    return all(folded(chosen.get(name, "")) == folded(option.text) for name, option in step.only.items())


def _area_labels(steps: Iterable[Step], leave: Iterable[Name]) -> dict[str, str]:
    labels: dict[str, str] = {}
    for area in (*(area for step in steps for area in step.areas), *leave):
        labels.setdefault(folded(area.text), area.text)
    return labels


def _paints(
    step: Step, areas: tuple[str, ...], palette: Palette, under: Mapping[str, Blend]
) -> tuple[tuple[Blend, ...], dict[str, Blend]]:
    choice = step.paint
    if choice is None or choice.use is PaintUse.NONE:
        return (), {}
    if choice.use is PaintUse.AS_BEFORE:
        laid = {area: under[area] for area in areas if area in under}
        return tuple(dict.fromkeys(laid.values())), laid
    blend = blend_of(choice.parts, palette)
    if blend is None:
        return (), {}
    beside = choice.use is PaintUse.SIDE_BY_SIDE
    brushed = tuple(Blend((part,)) for part in blend.parts) if beside else (blend,)
    return brushed, dict.fromkeys(areas, blend)


def _is_varnish(brushed: tuple[Blend, ...]) -> bool:
    pots = [part.pot for blend in brushed for part in blend.parts]
    return bool(pots) and all(isinstance(pot, Paint) and pot.kind is Kind.VARNISH for pot in pots)
