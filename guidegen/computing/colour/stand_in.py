"""What stands in for a colour out of the pots one has: the nearest pot, a recipe, or the advice to buy it.

What may stand for what, and the limits of the advice, are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

import numpy as np

from guidegen.computing.colour.blend import Blend, BlendPart
from guidegen.computing.colour.closest import is_owned
from guidegen.computing.colour.corrections import Correction
from guidegen.computing.colour.layers import ReliefColours, film_over
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.colour.recipes import MOST_POTS, Found, Recipe, RecipeBook
from guidegen.computing.colour.spaces import DECIMALS, Floats, delta_e_2000, lab_of
from guidegen.model.paint import FILMS, Kind, Mix, Paint

# A pot or a mixture within this, in CIEDE2000, is taken; nothing beyond the other is worth having.
GOOD, HOPELESS = 4.0, 12.0

# At most so many pots and so many recipes are shown.
MOST = 5

# Films are compared over white and over the undercoat, a middling one where nobody says which: assumed, no source.
WHITE, MIDDLING = "#ffffff", "#808080"

# Metals of less chroma than this are grey ones; of others the hues must be as near as this, in degrees.
GREY_METAL, SAME_HUE = 12.0, 30.0


class Sort(StrEnum):
    """What can stand for one another: covering paints, and others each by their own kind."""

    COVERING = "covering"
    PRIMER = "primer"
    INK = "ink"
    OIL = "oil"
    FILM = "film"
    METAL = "metal"


# Fluorescents, grounds, pigments and what has no colour are in none: no other pot does what they do.
SORTS: dict[Kind, Sort] = {
    Kind.PAINT: Sort.COVERING,
    Kind.PRIMER: Sort.PRIMER,
    Kind.INK: Sort.INK,
    Kind.OIL: Sort.OIL,
    **dict.fromkeys(FILMS, Sort.FILM),
    Kind.METALLIC: Sort.METAL,
}


class Advice(StrEnum):
    """What to do for a colour."""

    POT = "pot"
    MIX = "mix"
    BUY = "buy"


def sort_of(kind: Kind) -> Sort | None:
    """What a pot of this kind can stand for; None for what nothing stands in for by its colour."""
    return SORTS.get(kind)


def binder_of(paint: Paint) -> str:
    """What holds a paint together; acrylic where nobody says, as nearly all paints for figures are."""
    return paint.binder or ("oil" if paint.kind is Kind.OIL else "acrylic")


def can_be_mixed(paint: Paint) -> bool:
    """Whether it goes into a mixture: covering acrylics that come out of a pot."""
    return paint.kind is Kind.PAINT and binder_of(paint) == "acrylic" and paint.comes_as != "can"


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """A colour that is wanted, `#rrggbb`, and what it is the colour of; `paint` where it is one of the palette's.

    `sort` is None where nothing stands in for it, and `mixed` False where no mixture does. `undercoat` is the colour of
    what is painted over, where it is a film.
    """

    colour: str
    sort: Sort | None = Sort.COVERING
    kind: Kind = Kind.PAINT
    strength: float = 1.0
    from_can: bool = False
    paint: Paint | None = None
    undercoat: str = MIDDLING

    @property
    def mixed(self) -> bool:
        """Whether it can be mixed towards: covering paints alone, and no primer, since that covers the whole figure."""
        return self.sort is Sort.COVERING

    @property
    def lab(self) -> Floats:
        """The colour in CIELAB, shape (3,)."""
        wanted: Floats = lab_of([self.colour])[0]
        return wanted

    @classmethod
    def of_paint(cls, paint: Paint, colour: str, undercoat: str | None = None) -> Target:
        """A paint of the palette that has this colour; over an undercoat, where that is known."""
        return cls(
            colour=colour,
            sort=sort_of(paint.kind),
            kind=paint.kind,
            strength=paint.strength,
            from_can=paint.comes_as == "can",
            paint=paint,
            undercoat=undercoat or MIDDLING,
        )

    @classmethod
    def of_mix(cls, mix: Mix, mixer: Mixer, colour: str) -> Target:
        """A house mix that has this colour."""
        blend = Blend((BlendPart(mix, 1.0),))
        kind = _kind_of(blend, mixer)
        return cls(colour=colour, sort=sort_of(kind), kind=kind, strength=mixer.film_strength(blend))


@dataclass(frozen=True, slots=True, kw_only=True)
class NearPot:
    """A pot and how far it is from what is wanted, in CIEDE2000 to four decimals."""

    paint: Paint
    de00: float


@dataclass(frozen=True, slots=True, kw_only=True)
class StandIn:
    """Pots, nearest first, and recipes, the first to be tried first, for one colour, with the advice.

    `least` is the smallest difference that any recipe is predicted to come to; None where there are none.
    """

    pots: tuple[NearPot, ...]
    recipes: tuple[Recipe, ...]
    least: float | None
    advice: Advice


class StandIns:
    """Answers what stands in for colours out of some pots of a palette; a house mix that was bottled is a pot too.

    `wanted` says which pots there are. One that is no longer sold is passed over unless it is owned.
    """

    def __init__(self, mixer: Mixer, wanted: Callable[[Paint], bool] = is_owned) -> None:
        self._mixer = mixer
        self._pots = tuple(
            paint
            for paint in (*mixer.palette.paints, *_bottled(mixer))
            if paint.colour
            and sort_of(paint.kind)
            and wanted(paint)
            and (is_owned(paint) or not paint.discontinued)
        )
        self._names = {paint.full_name for paint in self._pots}
        self._advised: dict[str, StandIn] = {}

    @cached_property
    def _book(self) -> RecipeBook:
        return RecipeBook(self._mixer, filter(can_be_mixed, self._pots))

    @cached_property
    def _measured(self) -> tuple[Correction, ...]:
        """What house mixes whose colour was measured say about other parts of the same pots."""
        found = (self._correction_of(mix) for mix in self._mixer.palette.mixes if mix.colour)
        return tuple(one for one in found if one is not None)

    def _correction_of(self, mix: Mix) -> Correction | None:
        items = self._mixer.ingredients(Blend((BlendPart(mix, 1.0),)))
        if (
            len(items) < 2
            or not mix.colour
            or not all(item.paint.colour and can_be_mixed(item.paint) for item in items)
        ):
            return None
        return correction_of(self._mixer, [(item.paint, item.share) for item in items], mix.colour)

    def towards(self, target: Target, *, pots: int = MOST_POTS, tried: Sequence[Correction] = ()) -> StandIn:
        """The pots and the recipes of at most `pots` pots that come nearest, and what to do.

        A paint that is not owned does not stand in for itself. `tried` corrects the recipes of its pots.
        """
        found, corrections = Found((), None), (*self._measured, *tried)
        if target.mixed:
            found = self._book_without(target).towards(
                target.lab, most=MOST, pots=pots, corrections=corrections
            )
        return _stand_in(self.nearest(target), found)

    @property
    def films(self) -> tuple[Paint, ...]:
        """The pots that may stand for a film."""
        return tuple(paint for paint in self._pots if sort_of(paint.kind) is Sort.FILM)

    def advised(self, paint: Paint, undercoat: str | None = None) -> StandIn:
        """The same for a paint, kept, with the first recipe alone, and none where a pot will do.

        A film is compared over the `undercoat`, `#rrggbb`, where that is known.
        """
        if undercoat is not None and sort_of(paint.kind) is Sort.FILM:
            return self._advise(paint, undercoat)
        name = paint.full_name
        if name not in self._advised:
            self._advised[name] = self._advise(paint)
        return self._advised[name]

    def keep(self, name: str, advice: StandIn) -> None:
        """Answer `advised` of the paint of that full name by what was worked out elsewhere."""
        self._advised[name] = advice

    def _advise(self, paint: Paint, undercoat: str | None = None) -> StandIn:
        if paint.colour is None:
            return StandIn(pots=(), recipes=(), least=None, advice=Advice.BUY)
        target = Target.of_paint(paint, paint.colour, undercoat)
        near = self.nearest(target)
        if near and near[0].de00 <= GOOD:
            return StandIn(pots=near[:MOST], recipes=(), least=None, advice=Advice.POT)
        found = Found((), None)
        if target.mixed:
            found = self._book_without(target).first(target.lab, corrections=self._measured)
        return _stand_in(near, found)

    def nearest(self, target: Target) -> tuple[NearPot, ...]:
        """All pots that may stand for it, nearest first, then by full name."""
        itself = target.paint
        others = [paint for paint in self._pots if paint is not itself and self._may_stand(paint, target)]
        away = self._differences(target, others)
        near = [NearPot(paint=paint, de00=d) for paint, d in zip(others, away, strict=True)]
        if itself is not None and is_owned(itself) and itself.full_name in self._names:
            near.append(NearPot(paint=itself, de00=0.0))
        return tuple(sorted(near, key=lambda one: (one.de00, one.paint is not itself, one.paint.full_name)))

    def _may_stand(self, paint: Paint, target: Target) -> bool:
        if sort_of(paint.kind) is not target.sort:
            return False
        if target.sort is Sort.METAL:
            return _of_one_hue(paint.colour or "", target.colour)
        # What comes out of a can is sprayed, and stands only for what is sprayed, or for any undercoat.
        return paint.comes_as != "can" or target.from_can or target.sort is Sort.PRIMER

    def _differences(self, target: Target, paints: Sequence[Paint]) -> list[float]:
        if not paints:
            return []
        if target.sort is Sort.FILM:
            return [_film_difference(target, paint) for paint in paints]
        away = delta_e_2000(lab_of([target.colour]), lab_of([paint.colour or "" for paint in paints]))
        rounded: list[float] = away.round(DECIMALS).tolist()
        return rounded

    def _book_without(self, target: Target) -> RecipeBook:
        """The recipes of all pots, but of none that is wanted and not owned."""
        if target.paint is None or is_owned(target.paint) or target.paint.full_name not in self._names:
            return self._book
        others = (each for each in self._pots if can_be_mixed(each) and each is not target.paint)
        return RecipeBook(self._mixer, others)


def _stand_in(near: Sequence[NearPot], found: Found) -> StandIn:
    advice = advice_for(near[0].de00 if near else None, found.least)
    return StandIn(pots=tuple(near[:MOST]), recipes=found.recipes, least=found.least, advice=advice)


def _kind_of(mixed: Blend, mixer: Mixer) -> Kind:
    return Kind.METALLIC if mixer.has_metal(mixed) else mixer.kind(mixed)


def _bottled(mixer: Mixer) -> Iterator[Paint]:
    """House mixes of which there are pots, as the paints that these hold."""
    for mix in mixer.palette.mixes:
        blend = Blend((BlendPart(mix, 1.0),))
        binders = {binder_of(item.paint) for item in mixer.ingredients(blend)} if mix.owned else set()
        if len(binders) == 1:
            yield Paint(
                name=mix.name,
                kind=_kind_of(blend, mixer),
                colour=mixer.of_pot(mix).colour,
                binder=binders.pop(),
                size=mix.size,
                owned=mix.owned,
                strength=mixer.film_strength(blend),
                span=mix.span,
            )


def correction_of(mixer: Mixer, parts: Iterable[tuple[Paint, float]], measured: str) -> Correction:
    """What a mixture of coloured paints in parts, measured as `#rrggbb`, says about other parts of them."""
    amounts: dict[str, tuple[Paint, float]] = {}
    for paint, amount in parts:
        amounts[paint.full_name] = (paint, amount + amounts.get(paint.full_name, (paint, 0.0))[1])
    shares = np.array([amount for _, amount in amounts.values()])
    shares /= shares.sum()
    predicted = mixer.lab_of_parts([paint for paint, _ in amounts.values()], shares)
    return Correction(
        shares=dict(zip(amounts, shares.tolist(), strict=True)), offset=lab_of([measured])[0] - predicted
    )


def advice_for(pot: float | None, mixture: float | None) -> Advice:
    """What to do where the nearest pot and the best mixture are so far off in CIEDE2000; None where there is none.

    A pot that will do comes before a mixture, which is an estimate and a work of its own.
    """
    pot = np.inf if pot is None else pot
    mixture = np.inf if mixture is None else mixture
    if pot <= GOOD:
        return Advice.POT
    if mixture <= GOOD:
        return Advice.MIX
    if min(pot, mixture) > HOPELESS:
        return Advice.BUY
    return Advice.POT if pot <= mixture else Advice.MIX


def _of_one_hue(one: str, two: str) -> bool:
    """Whether two metals may stand for one another: both grey, or both of nearly one hue, as gold and brass are."""
    lab = lab_of([one, two])
    chroma = np.hypot(lab[:, 1], lab[:, 2])
    grey = chroma < GREY_METAL
    if grey.any():
        return bool(grey.all())
    turn = np.degrees(np.arctan2(lab[:, 2], lab[:, 1]))
    return bool(abs((turn[0] - turn[1] + 180.0) % 360.0 - 180.0) <= SAME_HUE)


def _film_difference(target: Target, paint: Paint) -> float:
    """How far two films are apart in the recesses, where they are darkest: over white or the undercoat, whichever is more."""
    away = 0.0
    for ground in (WHITE, target.undercoat):
        under = ReliefColours.of_one(ground)
        wanted = film_over(under, target.colour, strength=target.strength, technique=target.kind.value)
        laid = film_over(under, paint.colour, strength=paint.strength, technique=paint.kind.value)
        pair = lab_of([wanted.recesses or "", laid.recesses or ""])
        away = max(away, float(delta_e_2000(pair[0], pair[1]).round(DECIMALS)))
    return away
