"""`guidegen sample`: a paint's colour read off a photo."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING

import click

from guidegen.base.exit_codes import FAULTS
from guidegen.commands.at_hand import finite
from guidegen.commands.common import content_option, counted, json_option, tell

if TYPE_CHECKING:
    from guidegen.computing.colour.closest import Match
    from guidegen.computing.colour.sampling import Sample

EXAMPLE = """\b
Examples:
  guidegen sample pot-lid.jpg --at 640,480
  guidegen sample pot-lid.jpg --at 640,480 --white 1200,300 --radius 20
"""

# Large enough to even out a sensor's noise, small enough for a dab of paint: from memory.
_RADIUS = 8.0


def _point(ctx: click.Context, param: click.Parameter, value: str | None) -> tuple[float, float] | None:
    """`x,y` in pixels from the top left corner of the upright photo."""
    if value is None:
        return None
    found = re.fullmatch(r"\s*(-?\d{1,6}(?:\.\d+)?)\s*,\s*(-?\d{1,6}(?:\.\d+)?)\s*", value)
    if found is None:
        message = f"“{value}” is no place in a photo: write two numbers of pixels, as in 640,480."
        raise click.BadParameter(message, ctx, param)
    return float(found[1]), float(found[2])


@click.command(epilog=EXAMPLE)
@click.argument("photo", type=click.Path(path_type=Path))
@click.option(
    "--at",
    callback=_point,
    required=True,
    metavar="X,Y",
    help="Where the paint is, in pixels from the top left.",
)
@click.option(
    "--white", callback=_point, metavar="X,Y", help="Where a white card is, to take the light's colour out."
)
@click.option(
    "--radius",
    type=click.FloatRange(0, 10_000),
    callback=finite,
    default=_RADIUS,
    show_default=True,
    metavar="N",
    help="How far around the point pixels count.",
)
@content_option
@json_option
def command(
    photo: Path,
    at: tuple[float, float],
    white: tuple[float, float] | None,
    radius: float,
    content: Path,
    *,
    as_json: bool,
) -> None:
    """Read a paint's colour off a photo, the mean over a small disc, and name the closest paints.

    Pixels are counted from the top left corner of the photo as it is seen upright. With a white card in the picture,
    in the same light as the paint, the tint and the brightness of the light are taken out.
    """
    from guidegen.base.source import Span
    from guidegen.commands.at_hand import leave, palette_at_hand
    from guidegen.computing.colour.closest import Matcher
    from guidegen.computing.colour.sampling import Refusal, sample
    from guidegen.imaging.load import load_full

    if not photo.exists():
        leave(f"There is no photo “{photo}”.", "Check the name, and that you are in the right folder.")
    picture, diagnostics = load_full(photo, photo.name, Span.of_file(str(photo)))
    if picture is None:
        tell(diagnostics[0].message, diagnostics[0].help)
        raise SystemExit(FAULTS)
    for diagnostic in diagnostics:
        tell(diagnostic.message, diagnostic.help)
    found = sample(picture, at, radius, white)
    if isinstance(found, Refusal):
        leave(found.message, found.help)
    closest: tuple[Match, ...] = ()
    if content.is_dir():
        closest = Matcher(palette_at_hand(content)).closest_to_colour(found.colour)
    if as_json:
        _print_json(found, closest)
    else:
        _print(found, closest, balanced=white is not None)


def _print(found: Sample, closest: tuple[Match, ...], *, balanced: bool) -> None:
    from guidegen.commands.swatches import LEGEND, Row, match_rows, print_rows, say

    lightness, a, b = found.lab
    lab = f"L* {lightness:.1f}  a* {a:.1f}  b* {b:.1f}"
    count = f"the mean of {counted(found.pixels, 'pixel')}"
    print_rows("Seen in the photo", [Row(found.colour, (found.colour, lab, count))], first=True)
    if found.clipped:
        say("It is brighter than the card or too vivid for a screen; this is the nearest it can show.", "  ")
    print_rows("Closest", match_rows(closest), none="No covering paint is within 10.")
    click.echo()
    say(LEGEND)
    if not balanced:
        say("Without a white card (--white) the colour of the light is still in it.")


def _print_json(found: Sample, closest: tuple[Match, ...]) -> None:
    from guidegen.commands.swatches import match_data
    from guidegen.reporting.as_json import dumped

    data = {
        "colour": found.colour,
        "lab": [round(value, 4) for value in found.lab],
        "pixels": found.pixels,
        "closest": match_data(closest),
    }
    click.echo(dumped(data), nl=False)
