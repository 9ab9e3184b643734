"""`guidegen closest`: the paints closest to a paint or to a colour."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

import click

from guidegen.commands.common import content_option, json_option

if TYPE_CHECKING:
    from guidegen.computing.colour.closest import Match
    from guidegen.model.paint import Mix, Paint, Palette

EXAMPLE = """\b
Examples:
  guidegen closest "Brass Lamp"
  guidegen closest "#c99b45" --json
"""


class _Answer(NamedTuple):
    """What was asked for, and what is closest to it. `reason` says why there may be nothing."""

    name: str | None
    heading: str
    colour: str | None
    closest: tuple[Match, ...]
    owned: tuple[Match, ...]
    reason: str = ""


@click.command(epilog=EXAMPLE)
@click.argument("name_or_colour", nargs=-1, required=True)
@content_option
@json_option
def command(name_or_colour: tuple[str, ...], content: Path, *, as_json: bool) -> None:
    """Find the paints closest to a paint, a house mix or a colour, and the closest that you own.

    Like is compared with like: covering paints, films (washes, glazes, stains) and metals, each among themselves. A
    bare colour counts as a covering paint. A name that the palette knows comes before a colour written the same.
    """
    from guidegen.commands.at_hand import leave_unknown, palette_at_hand, pot_named

    query = " ".join(name_or_colour)
    palette = palette_at_hand(content)
    pot = pot_named(palette, query)
    answer = _near_colour(palette, query) if pot is None else _near_pot(palette, pot)
    if answer is None:
        leave_unknown(palette, query)
    if as_json:
        _print_json(answer)
    else:
        _print(answer)


def _near_colour(palette: Palette, query: str) -> _Answer | None:
    from guidegen.base.units import read_colour
    from guidegen.computing.colour.closest import Matcher

    colour = read_colour(query)
    if colour is None:
        return None
    matcher = Matcher(palette)
    return _Answer(
        name=None,
        heading=colour,
        colour=colour,
        closest=matcher.closest_to_colour(colour),
        owned=matcher.closest_owned_to_colour(colour),
    )


def _near_pot(palette: Palette, pot: Paint | Mix) -> _Answer:
    from guidegen.commands.at_hand import label, role_of_blend
    from guidegen.computing.colour.blend import Blend, BlendPart
    from guidegen.computing.colour.closest import Matcher
    from guidegen.computing.colour.mixing import Mixer
    from guidegen.model.paint import Paint

    matcher, mixer = Matcher(palette), Mixer(palette)
    found = mixer.of_pot(pot)
    blend = Blend((BlendPart(pot, 1.0),))
    kind, role = mixer.kind(blend), role_of_blend(mixer, blend)
    nothing: tuple[Match, ...] = ()
    if isinstance(pot, Paint):
        closest, owned = matcher.closest(pot), matcher.closest_owned(pot)
    elif found.colour is None:
        closest, owned = nothing, nothing
    else:
        closest = matcher.closest_to_colour(found.colour, role)
        owned = matcher.closest_owned_to_colour(found.colour, role)
    return _Answer(
        name=label(palette, pot),
        heading=f"{pot.full_name} ({kind}{', an estimated colour' if found.estimate else ''})",
        colour=found.colour,
        closest=closest,
        owned=owned,
        reason=found.reason or (f"a {kind} has no substitute by its colour" if role is None else ""),
    )


def _print(answer: _Answer) -> None:
    from guidegen.commands.swatches import LEGEND, Row, colour_cells, match_rows, print_rows, say

    cells = colour_cells(answer.colour) if answer.colour else ("no colour",)
    print_rows(answer.heading, [Row(answer.colour, cells)], first=True)
    if answer.reason:
        click.echo()
        say(f"Nothing to compare: {answer.reason}.")
        return
    print_rows("Closest", match_rows(answer.closest), none="No paint of this kind is within 10.")
    print_rows("Closest that you own", match_rows(answer.owned), none="None of yours is within 10.")
    click.echo()
    say(LEGEND)


def _print_json(answer: _Answer) -> None:
    from guidegen.commands.swatches import match_data
    from guidegen.reporting.as_json import dumped

    data = {
        "query": {"name": answer.name, "colour": answer.colour},
        "closest": match_data(answer.closest),
        "closest_owned": match_data(answer.owned),
    }
    click.echo(dumped(data), nl=False)
