"""`guidegen mix`: the colour of a mixture, of a film of it over a colour, and how many drops it takes."""

from __future__ import annotations

import math
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import click

from guidegen.commands.at_hand import finite
from guidegen.terminal.common import content_option, counted, json_option, print_json

if TYPE_CHECKING:
    from guidegen.computing.colour.blend import Blend, BlendPart
    from guidegen.computing.colour.closest import Match
    from guidegen.computing.colour.drops import Drops
    from guidegen.computing.colour.layers import ReliefColours
    from guidegen.computing.colour.mixing import Mixer, Prediction
    from guidegen.model.paint import Kind, Palette
    from guidegen.reading.types.amounts import Measure

EXAMPLE = """\b
Examples:
  guidegen mix "Oilskin Ochre: 2, Ropewalk: 1"
  guidegen mix "Saltpan White: 3, Bell Rope Red: a touch" --ml 2
  guidegen mix "Bilge Wash: 2, Clear Medium: 1" --over "Oilskin Ochre"
  guidegen mix --toward "Lock Ice"
  guidegen mix --toward "#7a6b55" --tried "Ropewalk: 2, Jetty Plank: 1" --got "#8a7860"
"""

# A litre: nobody counts the drops of more.
_MOST_ML = 1000.0

# A smaller error of a ratio is only rounding.
_EXACT = 1e-6


class _Over(NamedTuple):
    """What a film was laid over, how, and what it looks like."""

    ground: str
    technique: str
    relief: ReliefColours


class _Answer(NamedTuple):
    """Everything that was asked about a mixture."""

    parts: dict[str, float]
    touches: frozenset[str]
    kind: Kind
    found: Prediction
    strength: float
    over: _Over | None
    drops: tuple[dict[str, int], Drops] | None
    closest: tuple[Match, ...]


@click.command(epilog=EXAMPLE)
@click.argument("parts", nargs=-1)
@click.option(
    "--ml",
    type=click.FloatRange(min=0, min_open=True, max=_MOST_ML),
    callback=finite,
    metavar="ML",
    help="Count the drops that make this much.",
)
@click.option("--over", metavar="COLOUR-OR-NAME", help="Lay it as a film over this: edges, flats, recesses.")
@click.option(
    "--toward", metavar="COLOUR-OR-NAME", help="Ask which pots stand in for this, and what to mix for it."
)
@click.option(
    "--from",
    "source",
    metavar="owned|all|RANGE",
    help="Out of which pots, with --toward.  [default: owned]",
)
@click.option(
    "--pots", type=click.IntRange(1, 3), help="The most pots in a mixture, with --toward.  [default: 3]"
)
@click.option("--tried", metavar="PARTS", help="What you mixed towards it, so that the next try is nearer.")
@click.option("--got", metavar="COLOUR", help="What became of --tried once it was dry.")
@content_option
@json_option
def command(
    parts: tuple[str, ...],
    ml: float | None,
    over: str | None,
    toward: str | None,
    source: str | None,
    pots: int | None,
    tried: str | None,
    got: str | None,
    content: Path,
    *,
    as_json: bool,
) -> None:
    """Predict the colour of paints in parts, as in "Oilskin Ochre: 2, Ropewalk: 1".

    A part without a number counts 1, "a touch" counts 0.1, and a paint named twice adds up. The colour is an estimate
    unless it is one pot's own or a house mix's measured one.

    With --toward it is the other way round: which of your pots stands in for a paint or a colour, and what to mix for
    it. Where a mixture is tried and its colour measured, --tried and --got say what to add.
    """
    if toward is not None:
        _refuse_beside("--toward", {"PARTS": parts or None, "--over": over})
        _toward(content, toward, source or "owned", pots or 3, ml, (tried, got), as_json=as_json)
        return
    alone = {"--from": source, "--pots": pots, "--tried": tried, "--got": got}
    if any(value is not None for value in alone.values()):
        named = next(name for name, value in alone.items() if value is not None)
        raise click.UsageError(f"{named} goes with --toward only.")
    if not parts:
        raise click.UsageError(
            'Write paints with their parts, as in "Oilskin Ochre: 2, Ropewalk: 1", or --toward.'
        )
    answer = _answer(content, " ".join(parts), over, ml)
    if as_json:
        _print_json(answer)
    else:
        _print(answer)


def _answer(content: Path, parts: str, over: str | None, ml: float | None) -> _Answer:
    from guidegen.commands.at_hand import palette_at_hand
    from guidegen.computing.colour.mixing import Mixer

    palette = palette_at_hand(content)
    blend = _blend(palette, parts)
    mixer = Mixer(palette)
    found, kind = mixer.predict(blend), mixer.kind(blend)
    amounts: dict[str, float] = {}
    for name, part in _labelled(palette, blend):
        amounts[name] = amounts.get(name, 0.0) + part.amount
    return _Answer(
        parts=amounts,
        touches=frozenset(name for name, part in _labelled(palette, blend) if part.touch),
        kind=kind,
        found=found,
        strength=mixer.film_strength(blend),
        over=None if over is None else _laid_over(mixer, blend, over),
        drops=None if ml is None else _dripped(palette, blend, ml),
        closest=_closest(mixer, blend),
    )


def _refuse_beside(option: str, others: dict[str, object]) -> None:
    given = [name for name, value in others.items() if value is not None]
    if given:
        raise click.UsageError(f"{option} and {given[0]} do not go together.")


def _toward(
    content: Path,
    toward: str,
    source: str,
    pots: int,
    ml: float | None,
    tried: tuple[str | None, str | None],
    *,
    as_json: bool,
) -> None:
    from guidegen.commands.at_hand import palette_at_hand
    from guidegen.commands.toward import answer_toward, tried_of
    from guidegen.computing.colour.mixing import Mixer

    what, got = tried
    if (what is None) != (got is None):
        raise click.UsageError("--tried and --got need one another: what was mixed, and what became of it.")
    palette = palette_at_hand(content)
    mixer = Mixer(palette)
    first = None if what is None or got is None else tried_of(mixer, _blend(palette, what), got)
    answer_toward(mixer, toward, source=source, pots=pots, ml=ml, tried=first, as_json=as_json)


def _blend(palette: Palette, text: str) -> Blend:
    from guidegen.base.source import Span
    from guidegen.base.suggest import folded
    from guidegen.commands.at_hand import leave_unknown, pot_named
    from guidegen.computing.colour.blend import Blend, BlendPart
    from guidegen.model.paint import Kind, Paint
    from guidegen.reading.content.written_mixes import THINNERS
    from guidegen.reading.types.amounts import measure_of

    parts = []
    for name, amount in _split(palette, text):
        measure = amount if isinstance(amount, tuple) else measure_of(amount)
        if measure is None:
            raise click.BadParameter(
                f"“{amount}” stands after “{name}” where a number above 0 or “a touch” is needed.",
                param_hint="PARTS",
            )
        pot = pot_named(palette, name)
        if pot is None and folded(name) in THINNERS:
            pot = Paint(name=name, kind=Kind.THINNER, span=Span.of_file(""))
        if pot is None:
            leave_unknown(palette, name, in_parts=True)
        parts.append(BlendPart(pot, measure.number, measure.touch))
    if not parts:
        raise click.BadParameter(
            'Write paints with their parts, as in "Oilskin Ochre: 2, Ropewalk: 1".', param_hint="PARTS"
        )
    return Blend(tuple(parts))


def _split(palette: Palette, text: str) -> list[tuple[str, str | Measure]]:
    """Names and amounts as typed. A comma or a colon may be part of a name that the palette has."""
    from guidegen.reading.types.mix_words import read_mix

    written = read_mix(text.strip(" {}"), lambda name: palette.find(name) is not None)
    if written is not None:
        return [(part.name, part.measure) for part in written]
    found: list[tuple[str, str | Measure]] = []
    held = ""
    for piece in text.strip().removeprefix("{").removesuffix("}").split(","):
        if held:
            joined = _part(palette, f"{held},{piece}")
            if palette.find(joined[0]) is not None:
                found.append(joined)
                held = ""
                continue
            found.append((held, "1"))
            held = ""
        name, amount = _part(palette, piece)
        if ":" in piece or palette.find(name) is not None:
            found.append((name, amount))
        else:
            # No such pot: perhaps the first half of a name with a comma in it.
            held = name
    return [*found, (held, "1")] if held else found


def _part(palette: Palette, piece: str) -> tuple[str, str]:
    name, colon, amount = (text.strip().strip("\"'").strip() for text in piece.rpartition(":"))
    whole = piece.strip().strip("\"'").strip()
    return (name, amount) if colon and palette.find(whole) is None else (whole, "1")


def _labelled(palette: Palette, blend: Blend) -> list[tuple[str, BlendPart]]:
    """The parts of a blend, each with the shortest name that finds its pot."""
    return [(palette.label(part.pot), part) for part in blend.parts]


def _laid_over(mixer: Mixer, blend: Blend, over: str) -> _Over:
    from guidegen.base.units import read_colour
    from guidegen.commands.at_hand import leave, leave_unknown, pot_named
    from guidegen.computing.colour.layers import FACTORS, ReliefColours, film_over

    pot = pot_named(mixer.palette, over)
    ground = read_colour(over) if pot is None else mixer.of_pot(pot).colour
    if pot is None and ground is None:
        leave_unknown(mixer.palette, over)
    if pot is not None and ground is None:
        leave(
            f"“{pot.full_name}” has no colour to lay a film over.",
            "Name a paint with a colour, or give the colour itself.",
        )
    kind = mixer.kind(blend).value
    technique = kind if kind in FACTORS else "wash"
    under = ReliefColours.of_one(ground)
    if mixer.has_colour(blend):
        under = film_over(
            under, mixer.predict(blend).colour, strength=mixer.film_strength(blend), technique=technique
        )
    return _Over(ground or "", technique, under)


def _dripped(palette: Palette, blend: Blend, ml: float) -> tuple[dict[str, int], Drops]:
    """Drops by the paint, house mixes broken down: what is dripped comes out of a maker's pot."""
    from guidegen.computing.colour.blend import ingredients
    from guidegen.computing.colour.drops import drops_for

    items = ingredients(blend, palette)
    drops = drops_for([item.share for item in items], [item.paint.drop for item in items], ml)
    names = [palette.label(item.paint) for item in items]
    return dict(zip(names, drops.counts, strict=True)), drops


def _closest(mixer: Mixer, blend: Blend) -> tuple[Match, ...]:
    """The paints closest to a mixture; a paint by itself is not its own substitute."""
    from guidegen.commands.at_hand import role_of_blend
    from guidegen.computing.colour.closest import Matcher
    from guidegen.model.paint import Paint

    matcher = Matcher(mixer.palette)
    first = blend.parts[0].pot
    if isinstance(first, Paint) and all(part.pot is first for part in blend.parts):
        return matcher.closest(first)
    colour = mixer.predict(blend).colour
    return () if colour is None else matcher.closest_to_colour(colour, role_of_blend(mixer, blend))


def _print(answer: _Answer) -> None:
    from guidegen.computing.colour.mixing import ESTIMATE_WORDS
    from guidegen.reading.types.amounts import TOUCH
    from guidegen.terminal.swatches import LEGEND, Row, colour_cells, match_rows, print_rows, say

    found = answer.found
    words = [
        f"{name} {'a touch' if name in answer.touches and amount <= TOUCH else f'{amount:g}'}"
        for name, amount in answer.parts.items()
    ]
    remark = "an estimate" if found.estimate else ""
    if found.colour is None:
        print_rows(", ".join(words), [Row(None, ("no colour",))], first=True)
        click.echo()
        say(f"No colour to be had: {found.reason}.")
    else:
        rows = [Row(found.colour, (*colour_cells(found.colour), remark))]
        for end, colour in (("a touch of 0.05", found.touch_low), ("a touch of 0.25", found.touch_high)):
            if colour is not None:
                rows.append(Row(colour, (*colour_cells(colour), end)))
        print_rows(", ".join(words), rows, first=True)
        if found.clipped:
            say("Screens cannot show it; this is the nearest that they can.", "  ")
    if answer.over is not None:
        _print_over(answer.over, answer.strength)
    if answer.drops is not None:
        _print_drops(*answer.drops)
    if found.colour is not None:
        print_rows("Closest", match_rows(answer.closest), none="No paint of this kind is within 10.")
        click.echo()
        say(LEGEND)
    if found.estimate:
        say(f"The mixture's colour is {ESTIMATE_WORDS}.")


def _print_over(over: _Over, strength: float) -> None:
    from guidegen.terminal.swatches import Row, colour_cells, print_rows

    rows = [
        Row(colour, (where, *(colour_cells(colour) if colour else ("not known",))))
        for where, colour in (
            ("edges", over.relief.edges),
            ("flats", over.relief.flats),
            ("recesses", over.relief.recesses),
        )
    ]
    print_rows(f"As a {over.technique} of strength {strength:.2g} over {over.ground}, roughly", rows)


def _print_drops(counts: dict[str, int], drops: Drops) -> None:
    from guidegen.terminal.swatches import Row, print_rows, say

    total = sum(counts.values())
    rows = [Row(None, (name, counted(count, "drop"))) for name, count in counts.items()]
    print_rows(f"{total} drops, about {drops.ml:.2g} ml", rows)
    if not drops.keeps_ratio:
        say(
            "No count of drops worth counting keeps these parts: so little of one paint is wanted that a drop of it is "
            "too much. Thin that paint first, or make far more.",
            "  ",
        )
    elif drops.error > _EXACT:
        say(f"Within {math.ceil(100 * drops.error)}% of the parts.", "  ")


def _print_json(answer: _Answer) -> None:
    from guidegen.terminal.swatches import match_data

    over = answer.over
    data = {
        "parts": {name: round(amount, 6) for name, amount in answer.parts.items()},
        "colour": answer.found.colour,
        "estimate": answer.found.estimate,
        "clipped": answer.found.clipped,
        "strength": round(answer.strength, 4),
        "over": None
        if over is None
        else {"edges": over.relief.edges, "flats": over.relief.flats, "recesses": over.relief.recesses},
        "drops": None if answer.drops is None else answer.drops[0],
        "closest": match_data(answer.closest),
    }
    print_json(data)
