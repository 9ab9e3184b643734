"""`guidegen closest`: the paints closest to a paint or to a colour."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import click

from guidegen.terminal.common import content_option, json_option, print_json

if TYPE_CHECKING:
    from guidegen.commands.toward import Wanted
    from guidegen.computing.colour.closest import Match
    from guidegen.computing.colour.mixing import Mixer
    from guidegen.computing.colour.stand_in import StandIn
    from guidegen.model.paint import Mix, Paint, Palette

EXAMPLE = """\b
Examples:
  guidegen closest "Brass Lamp"
  guidegen closest "#c99b45" --json
"""


class _Answer(NamedTuple):
    """What was asked for, and what is closest: of all paints, of one's own, and one's own pots and mixtures however far."""

    wanted: Wanted
    closest: tuple[Match, ...]
    owned: tuple[Match, ...]
    others: StandIn | None


@click.command(epilog=EXAMPLE)
@click.argument("name_or_colour", nargs=-1, required=True)
@content_option
@json_option
def command(name_or_colour: tuple[str, ...], content: Path, *, as_json: bool) -> None:
    """Find the paints closest to a paint, a house mix or a colour, and the closest that you own.

    Like is compared with like: covering paints, films (washes, glazes, stains) and metals, each among themselves. A
    bare colour counts as a covering paint. A name that the palette knows comes before a colour written the same. Where
    nothing of yours is close, your nearest pots are shown all the same, and what to mix of them.
    """
    from guidegen.commands.at_hand import palette_at_hand, pot_named
    from guidegen.commands.toward import wanted_by
    from guidegen.computing.colour.closest import is_owned
    from guidegen.computing.colour.mixing import Mixer
    from guidegen.computing.colour.stand_in import StandIns

    query = " ".join(name_or_colour)
    palette = palette_at_hand(content)
    mixer = Mixer(palette)
    wanted = wanted_by(mixer, query)
    pot = pot_named(palette, query)
    closest, owned = _closest(mixer, pot, wanted)
    others = None
    if wanted.target is not None and not wanted.reason:
        others = StandIns(mixer, lambda paint: is_owned(paint) and paint is not pot).towards(wanted.target)
    answer = _Answer(wanted, closest, owned, others)
    if as_json:
        _print_json(palette, answer)
    else:
        _print(palette, answer)


def _closest(
    mixer: Mixer, pot: Paint | Mix | None, wanted: Wanted
) -> tuple[tuple[Match, ...], tuple[Match, ...]]:
    from guidegen.commands.at_hand import role_of_blend
    from guidegen.computing.colour.blend import Blend, BlendPart
    from guidegen.computing.colour.closest import OPAQUE, Matcher
    from guidegen.model.paint import Paint

    matcher = Matcher(mixer.palette)
    if isinstance(pot, Paint):
        return matcher.closest(pot), matcher.closest_owned(pot)
    if wanted.colour is None:
        return (), ()
    role = OPAQUE if pot is None else role_of_blend(mixer, Blend((BlendPart(pot, 1.0),)))
    return matcher.closest_to_colour(wanted.colour, role), matcher.closest_owned_to_colour(
        wanted.colour, role
    )


def _print(palette: Palette, answer: _Answer) -> None:
    from guidegen.commands.toward import no_pots, pot_rows, print_recipes
    from guidegen.computing.colour.closest import FARTHEST
    from guidegen.terminal.swatches import LEGEND, Row, colour_cells, match_rows, print_rows, say

    wanted, others = answer.wanted, answer.others
    cells = colour_cells(wanted.colour) if wanted.colour else ("no colour",)
    print_rows(wanted.heading, [Row(wanted.colour, cells)], first=True)
    if wanted.reason and not answer.closest:
        click.echo()
        say(f"Nothing to compare: {wanted.reason}.")
        return
    print_rows("Closest", match_rows(answer.closest), none="No paint of this kind is within 10.")
    if answer.owned and answer.owned == answer.closest:
        say("All of these are yours.")
    elif answer.owned or others is None or wanted.target is None:
        print_rows("Closest that you own", match_rows(answer.owned), none="None of yours is within 10.")
    else:
        rows = pot_rows(others.pots, wanted.target.colour)
        # A mixture that was bottled is no paint of the palette, but one of the pots.
        bottled = bool(others.pots) and others.pots[0].de00 <= FARTHEST
        heading = "Closest that you own" if bottled else "None of yours is within 10; the nearest anyway"
        print_rows(heading, rows, none=no_pots(wanted.target))
        if wanted.target.mixed:
            print_recipes(palette, others.recipes, wanted.target.colour)
    click.echo()
    say(LEGEND)


def _print_json(palette: Palette, answer: _Answer) -> None:
    from guidegen.commands.toward import pots_data, recipes_data
    from guidegen.terminal.swatches import match_data

    data = {
        "query": {"name": answer.wanted.name, "colour": answer.wanted.colour},
        "closest": match_data(answer.closest),
        "closest_owned": match_data(answer.owned),
    }
    if answer.others is not None:
        data["pots"] = pots_data(palette, answer.others.pots)
        data["recipes"] = recipes_data(palette, answer.others.recipes, None)
    print_json(data)
