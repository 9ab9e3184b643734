"""A guide for one choice of variants, with every paint resolved: what all other computing starts from."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from guidegen.base.suggest import folded
from guidegen.computing.colour.blend import Blend, blend_of
from guidegen.model.guide import Guide, PaintUse, Step, Stop
from guidegen.model.names import Name
from guidegen.model.paint import Kind, Mix, Paint, Palette
from guidegen.model.technique import Role, Technique, technique_of

# The key of the whole figure in guides that name no area at all.
WHOLE = "all"


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

    @property
    def pots(self) -> tuple[Paint | Mix, ...]:
        """All pots that are brushed on."""
        return tuple(part.pot for blend in self.brushed for part in blend.parts)

    @property
    def kinds(self) -> frozenset[Kind]:
        """The kinds of these pots; a house mix that gives none is a paint."""
        return frozenset(pot.kind or Kind.PAINT for pot in self.pots)


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


def scheme_of(
    guide: Guide,
    palette: Palette,
    choice: Mapping[str, str] | None = None,
    mixed: Mapping[str, Collection[str]] | None = None,
) -> Scheme:
    """The guide for a choice of variants; what the choice leaves out takes its first option.

    Of a choice that is `mixed` the steps of all those options are kept, as for a batch whose figures differ.
    """
    chosen = guide.default_choice | dict(choice or {})
    options = {name: {folded(option)} for name, option in chosen.items()}
    options |= {name: set(map(folded, several)) for name, several in (mixed or {}).items()}
    kept = [entry for entry in guide.entries if isinstance(entry, Stop) or _belongs(entry, options)]
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


def _belongs(step: Step, options: Mapping[str, Collection[str]]) -> bool:
    return all(folded(option.text) in options.get(name, ()) for name, option in step.only.items())


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
