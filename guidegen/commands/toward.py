"""What `guidegen mix --toward` answers: which pots stand in for a colour, and what to mix for it."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import click

from guidegen.base.suggest import folded
from guidegen.commands.at_hand import known_help, leave, leave_unknown, pot_named
from guidegen.computing.colour.blend import Blend, BlendPart
from guidegen.computing.colour.closest import is_owned
from guidegen.computing.colour.directions import directions
from guidegen.computing.colour.first_try import MOST_TRIED, Addition, addition
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.colour.spaces import difference_words
from guidegen.computing.colour.stand_in import (
    GOOD,
    Advice,
    NearPot,
    Sort,
    StandIn,
    StandIns,
    Target,
    correction_of,
)
from guidegen.model.paint import COLOURLESS, Kind, Mix, Paint, Palette
from guidegen.terminal.common import print_json

if TYPE_CHECKING:
    from guidegen.computing.colour.corrections import Correction
    from guidegen.computing.colour.recipes import Recipe
    from guidegen.terminal.swatches import Row

# The smallest puddle that a brush can work from, in drops: common practice, no source.
_PUDDLE = 5

_MIXTURE_WORDS = "about 5 off as a rule (ΔE00), sometimes 15. Mix, dab, let it dry, look."
_BOTTLE_WORDS = (
    "For more than a quarter of the figure, for several evenings or for more than five figures, mix enough for all of "
    "it at once, and bottle it."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What a name or a colour on the command line asks for; `reason` says why nothing may stand in for it, `paint` is it."""

    name: str | None
    heading: str
    colour: str | None
    target: Target | None
    reason: str = ""
    paint: Paint | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """The pots to choose from: what the command line calls them, and how a sentence does."""

    source: str
    words: str
    wanted: Callable[[Paint], bool]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """A first try: coloured pots in parts, each once, and the colour that it became."""

    parts: tuple[tuple[Paint, float], ...]
    got: str

    def taught(self, mixer: Mixer) -> Correction:
        """The correction that it gives for other parts of the same pots."""
        return correction_of(mixer, self.parts, self.got)


def wanted_by(mixer: Mixer, query: str) -> Wanted:
    """What is asked for; a name that the palette lacks, and that is no colour, ends with 1."""
    from guidegen.base.units import read_colour

    pot = pot_named(mixer.palette, query)
    if pot is None:
        colour = read_colour(query)
        if colour is None:
            leave_unknown(mixer.palette, query)
        return Wanted(name=None, heading=colour, colour=colour, target=Target(colour=colour))
    found = mixer.of_pot(pot)
    name, kind = mixer.palette.label(pot), mixer.kind(Blend((BlendPart(pot, 1.0),)))
    heading = f"{pot.full_name} ({kind}{', an estimated colour' if found.estimate else ''})"
    paint = pot if isinstance(pot, Paint) else None
    if found.colour is None:
        return Wanted(name=name, heading=heading, colour=None, target=None, reason=found.reason, paint=paint)
    if isinstance(pot, Mix):
        target = Target.of_mix(pot, mixer, found.colour)
    else:
        target = Target.of_paint(pot, found.colour)
    return Wanted(
        name=name,
        heading=heading,
        colour=found.colour,
        target=target,
        reason=_why_nothing(target),
        paint=paint,
    )


def _why_nothing(target: Target) -> str:
    if target.sort is not None:
        return ""
    if target.kind is Kind.EFFECT:
        return "what an effect paint does, glowing for one, no other pot does"
    return f"a {target.kind} has no substitute by its colour"


def shelf_called(palette: Palette, source: str) -> Shelf:
    """The pots that `--from` means; a range that the palette lacks ends with 1."""
    if folded(source) == "owned":
        return Shelf(source="owned", words="the pots you own", wanted=is_owned)
    if folded(source) == "all":
        return Shelf(source="all", words="all pots of the palette", wanted=lambda _: True)
    ranges = list(dict.fromkeys(paint.range for paint in palette.paints if paint.range))
    found = next((one for one in ranges if folded(one) == folded(source)), None)
    if found is None:
        leave(
            f"There is no range “{source}” in the palette.",
            known_help(source, ["owned", "all", *ranges], "Write owned or all.", there="Write one of"),
        )
    return Shelf(source=found, words=f"the pots of {found}", wanted=lambda paint: paint.range == found)


def tried_of(mixer: Mixer, blend: Blend, got: str) -> Tried:
    """A first try as typed; what cannot be corrected is misuse."""
    from guidegen.base.units import read_colour

    colour = read_colour(got)
    if colour is None:
        raise click.BadParameter(f"“{got}” is no colour; write one like #b8862f.", param_hint="--got")
    amounts: dict[str, tuple[Paint, float]] = {}
    for paint, amount in _poured(mixer, blend):
        if paint.kind is Kind.METALLIC or (paint.colour is None and paint.kind not in COLOURLESS):
            raise click.BadParameter(
                f"What “{paint.full_name}” does in a mixture cannot be worked out.", param_hint="--tried"
            )
        if paint.kind not in COLOURLESS:
            before = amounts.get(paint.full_name, (paint, 0.0))[1]
            amounts[paint.full_name] = (paint, before + amount)
    if not 2 <= len(amounts) <= MOST_TRIED:
        raise click.BadParameter(f"A first try has two to {MOST_TRIED} coloured pots.", param_hint="--tried")
    return Tried(parts=tuple(amounts.values()), got=colour)


def _poured(mixer: Mixer, blend: Blend) -> list[tuple[Paint, float]]:
    """The paints of a blend with their parts as typed; house mixes broken down, in parts of the same sum."""
    poured = [(part.pot, part.amount) for part in blend.parts]
    if all(isinstance(pot, Paint) for pot, _ in poured):
        return [(pot, amount) for pot, amount in poured if isinstance(pot, Paint)]
    total = sum(amount for _, amount in poured)
    return [(item.paint, item.share * total) for item in mixer.ingredients(blend)]


def answer_toward(
    mixer: Mixer,
    query: str,
    *,
    source: str,
    pots: int,
    ml: float | None,
    tried: Tried | None,
    as_json: bool,
) -> None:
    """Print what stands in for a name or a colour."""
    shelf = shelf_called(mixer.palette, source)
    wanted = wanted_by(mixer, query)
    seen = None if tried is None else tried.taught(mixer)
    found = StandIn(pots=(), recipes=(), least=None, advice=Advice.BUY)
    more: Addition | None = None
    if wanted.target is not None:
        corrections = () if seen is None else (seen,)
        found = StandIns(mixer, shelf.wanted).towards(wanted.target, pots=pots, tried=corrections)
        if tried is not None and seen is not None:
            more = addition(mixer, tried.parts, seen, wanted.target.colour)
    itself = wanted.paint
    if not found.pots and itself is not None and is_owned(itself) and shelf.wanted(itself):
        # Nothing else stands in for it, but there it is.
        found = replace(found, pots=(NearPot(paint=itself, de00=0.0),), advice=Advice.POT)
    if as_json:
        _print_json(mixer.palette, wanted, shelf, found, more, ml)
    else:
        _print(mixer.palette, wanted, shelf, found, tried, more, ml)


def pots_data(palette: Palette, pots: Sequence[NearPot]) -> list[dict[str, Any]]:
    """Pots that stand in, as data."""
    return [
        {
            "name": palette.label(one.paint),
            "range": one.paint.range,
            "colour": one.paint.colour,
            "de00": one.de00,
        }
        for one in pots
    ]


def recipes_data(palette: Palette, recipes: Sequence[Recipe], ml: float | None) -> list[dict[str, Any]]:
    """Recipes as data, with the drops that make `ml`, or the smallest puddle."""
    return [
        {
            "parts": {palette.label(paint): count for paint, count in one.parts},
            "colour": one.colour,
            "de00": one.de00,
            "estimate": True,
            "drops": drops_of(palette, one, ml),
        }
        for one in recipes
    ]


def drops_of(palette: Palette, recipe: Recipe, ml: float | None) -> dict[str, int]:
    """The drops of each pot that make `ml`, or where that is None the smallest puddle."""
    from guidegen.computing.colour.drops import drops_for

    sizes = [paint.drop for paint, _ in recipe.parts]
    drops = drops_for([count for _, count in recipe.parts], sizes, _PUDDLE * min(sizes) if ml is None else ml)
    names = [palette.label(paint) for paint, _ in recipe.parts]
    return dict(zip(names, drops.counts, strict=True))


def pot_rows(pots: Sequence[NearPot], colour: str) -> list[Row]:
    """Pots that stand in for a colour, as rows: name, colour, difference in words, and ΔE00 last."""
    from guidegen.terminal.swatches import Row

    return [
        Row(
            one.paint.colour,
            (
                one.paint.full_name,
                one.paint.colour or "",
                *_compared(one.paint.colour or "", colour, one.de00),
            ),
        )
        for one in pots
    ]


def _drop_words(drops: Mapping[str, int]) -> str:
    return " + ".join(map(str, drops.values())) + " drops"


def _compared(colour: str, wanted: str, de00: float) -> tuple[str, str, str]:
    return difference_words(de00), ", ".join(directions(colour, wanted)), f"ΔE00 {de00:.2f}"


def _parts_words(palette: Palette, parts: Sequence[tuple[Paint, float]]) -> str:
    return ", ".join(f"{palette.label(paint)} {amount:g}" for paint, amount in parts)


def _print(
    palette: Palette,
    wanted: Wanted,
    shelf: Shelf,
    found: StandIn,
    tried: Tried | None,
    more: Addition | None,
    ml: float | None,
) -> None:
    from guidegen.terminal.swatches import Row, colour_cells, print_rows, say

    cells = colour_cells(wanted.colour) if wanted.colour else ("no colour",)
    print_rows(f"{wanted.heading}, out of {shelf.words}", [Row(wanted.colour, cells)], first=True)
    if wanted.target is None or wanted.reason:
        click.echo()
        if found.pots:
            say(f"Take {found.pots[0].paint.full_name}: it is there.")
        say(f"Nothing {'else ' if found.pots else ''}stands in for it: {wanted.reason}.")
        return
    colour = wanted.target.colour
    print_rows("Pots", pot_rows(found.pots, colour), none=no_pots(wanted.target))
    if wanted.target.mixed:
        print_recipes(palette, found.recipes, colour, ml=ml)
    click.echo()
    if tried is not None:
        _print_tried(palette, tried, more, colour)
    say(_advice_words(palette, found, colour))
    if found.advice is Advice.MIX:
        say(_BOTTLE_WORDS)


def print_recipes(
    palette: Palette, recipes: Sequence[Recipe], colour: str, *, ml: float | None = None
) -> None:
    """Recipes for a colour, never without how far off they may be; the drops too where an amount is asked for."""
    from guidegen.terminal.swatches import Row, print_rows, say

    rows = []
    for one in recipes:
        drops = () if ml is None else (_drop_words(drops_of(palette, one, ml)),)
        cells = (
            _parts_words(palette, one.parts),
            one.colour,
            *_compared(one.colour, colour, one.de00),
            *drops,
        )
        rows.append(Row(one.colour, cells))
    none = "There are not two acrylics among them to mix."
    print_rows("Mixtures, the simplest of those as good first", rows, none=none)
    if rows:
        say(f"Estimates, {_MIXTURE_WORDS}", "  ")


def no_pots(target: Target) -> str:
    """Why no pot stands in for it."""
    if target.sort is Sort.METAL:
        return "There is no metal of that hue among them, and a metal is never mixed."
    return "There is no pot of this kind among them."


def _print_tried(palette: Palette, tried: Tried, more: Addition | None, colour: str) -> None:
    from guidegen.computing.colour.spaces import delta_e_2000, lab_of
    from guidegen.terminal.swatches import say

    away = float(delta_e_2000(*lab_of([tried.got, colour])))
    words = ", ".join((difference_words(away), *directions(tried.got, colour)))
    say(f"{_parts_words(palette, tried.parts)} became {tried.got}: {words}.")
    if more is not None:
        added = " and ".join(
            f"{amount:g} {'part' if amount == 1 else 'parts'} {palette.label(paint)}"
            for paint, amount in more.parts
        )
        say(f"Add {added}: then about {more.de00:.1f} off.")
    elif away <= GOOD:
        say("Adding more brings it no nearer.")
    else:
        say("Adding brings it nowhere near: start again.")


def _advice_words(palette: Palette, found: StandIn, colour: str) -> str:
    if found.advice is Advice.MIX:
        one = found.recipes[0]
        return f"Mix {_parts_words(palette, one.parts)}: {_how_near(one.colour, colour, one.de00)}."
    if not found.pots:
        return "Buy a pot of it, or live without."
    pot = found.pots[0]
    near = _how_near(pot.paint.colour or "", colour, pot.de00)
    if found.advice is Advice.BUY:
        return f"Buy a pot of it, or live without: {pot.paint.full_name} is {near}."
    return f"Take {pot.paint.full_name}: {near}{'' if pot.de00 <= GOOD else ', and nothing comes nearer'}."


def _how_near(colour: str, wanted: str, de00: float) -> str:
    return ", ".join((difference_words(de00), *directions(colour, wanted)))


def _print_json(
    palette: Palette, wanted: Wanted, shelf: Shelf, found: StandIn, more: Addition | None, ml: float | None
) -> None:
    data = {
        "query": {"name": wanted.name, "colour": wanted.colour},
        "from": shelf.source,
        "pots": pots_data(palette, found.pots),
        "recipes": recipes_data(palette, found.recipes, ml),
        "advice": found.advice.value,
        "add": None if more is None else {palette.label(p): _plain(n) for p, n in more.parts},
    }
    print_json(data)


def _plain(amount: float) -> float:
    rounded = round(amount, 6)
    return int(rounded) if rounded.is_integer() else rounded
