"""`guidegen sample`: a paint's colour read off a photo."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from guidegen.commands.at_hand import finite
from guidegen.terminal.common import content_option, counted, json_option, print_json

if TYPE_CHECKING:
    from guidegen.computing.colour.closest import Match, Matcher
    from guidegen.computing.colour.clusters import MainColour
    from guidegen.computing.colour.sampling import Sample

EXAMPLE = """\b
Examples:
  guidegen sample pot-lid.jpg --at 640,480
  guidegen sample pot-lids.jpg --at 640,480 --at 900,480 --white 1200,300 --radius 20
  guidegen sample painting.jpg --colours 6
  guidegen sample card.jpg --card --write
  guidegen sample old-and-new.jpg --compare 400,600 900,600
"""

# Large enough to even out a sensor's noise, small enough for a dab of paint: from memory.
_RADIUS = 8.0


def _points(
    ctx: click.Context, param: click.Parameter, values: tuple[str, ...]
) -> tuple[tuple[float, float], ...]:
    """Several points, in the order given."""
    points = [_point(ctx, param, value) for value in values]
    return tuple(point for point in points if point is not None)


def _point(ctx: click.Context, param: click.Parameter, value: str | None) -> tuple[float, float] | None:
    """`x,y` in pixels from the top left corner of the upright photo."""
    if value is None:
        return None
    found = re.fullmatch(r"\s*(-?\d{1,6}(?:\.\d+)?)\s*,\s*(-?\d{1,6}(?:\.\d+)?)\s*", value)
    if found is None:
        message = f"“{value}” is no place in a photo: write two numbers of pixels, as in 640,480."
        raise click.BadParameter(message, ctx, param)
    return float(found[1]), float(found[2])


def _pair(
    ctx: click.Context, param: click.Parameter, values: tuple[str, str] | None
) -> tuple[tuple[float, float], ...] | None:
    """Two points, or None where the option is not given."""
    return None if values is None else _points(ctx, param, values)


@click.command(epilog=EXAMPLE)
@click.argument("photos", nargs=-1, required=True, type=click.Path(path_type=Path), metavar="PHOTO...")
@click.option(
    "--at",
    "points",
    callback=_points,
    multiple=True,
    metavar="X,Y",
    help="Where the paint is, in pixels from the top left; may be given several times.",
)
@click.option(
    "--colours",
    type=click.IntRange(1),
    metavar="N",
    help="The N colours that most of the photo is made of, up to 8.",
)
@click.option(
    "--card", is_flag=True, help="Read a painted card (guidegen card); several photos are averaged."
)
@click.option("--write", is_flag=True, help="With --card: put the colours into the palette.")
@click.option(
    "--compare",
    "compared",
    nargs=2,
    callback=_pair,
    metavar="X,Y X,Y",
    help="Where the old paint is and where the new one: how they differ, and what to add.",
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
    photos: tuple[Path, ...],
    points: tuple[tuple[float, float], ...],
    white: tuple[float, float] | None,
    radius: float,
    colours: int | None,
    content: Path,
    compared: tuple[tuple[float, float], ...] | None,
    *,
    card: bool,
    write: bool,
    as_json: bool,
) -> None:
    """Read a paint's colour off a photo, the mean over a small disc, and name the closest paints.

    With --colours it names the few colours that most of a photo is made of, what covers most first.

    Pixels are counted from the top left corner of the photo as it is seen upright. With a white card in the picture,
    in the same light as the paint, the tint and the brightness of the light are taken out. A card's boxes are found by
    themselves.
    """
    _refuse_at_odds(photos, points, compared, colours, white, card=card, write=write)
    if card:
        from guidegen.commands.sample_card import read_photos

        read_photos(photos, content, write=write, as_json=as_json)
    elif compared is not None:
        from guidegen.commands.compare import compare

        compare(photos[0], compared[0], compared[1], radius, white, content, as_json=as_json)
    elif colours is not None:
        _read_main_colours(photos[0], colours, content, as_json=as_json)
    else:
        _read_points(photos[0], points, white, radius, content, as_json=as_json)


def _refuse_at_odds(
    photos: tuple[Path, ...],
    points: object,
    compared: object,
    colours: int | None,
    white: object,
    *,
    card: bool,
    write: bool,
) -> None:
    from guidegen.computing.colour.clusters import MOST_COLOURS

    if sum((bool(points), compared is not None, colours is not None, card)) != 1:
        raise click.UsageError(
            "Say what to read: --at X,Y, --colours N, --compare X,Y X,Y, or --card; one of them."
        )
    if colours is not None and white is not None:
        raise click.UsageError("--colours looks at the whole photo, without --white.")
    if colours is not None and colours > MOST_COLOURS:
        raise click.BadParameter(f"It tells {MOST_COLOURS} colours at most.", param_hint="--colours")
    if write and not card:
        raise click.UsageError("--write goes with --card.")
    if len(photos) > 1 and not card:
        raise click.UsageError("Name one photo; only --card takes several.")


def _read_points(
    photo: Path,
    points: tuple[tuple[float, float], ...],
    white: tuple[float, float] | None,
    radius: float,
    content: Path,
    *,
    as_json: bool,
) -> None:
    from guidegen.commands.sample_card import colours_at

    seen = colours_at(photo, points, radius, white)
    closest: list[tuple[Match, ...]] = [() for _ in seen]
    matcher = _matcher(content)
    if matcher is not None:
        closest = [matcher.closest_to_colour(found.colour) for found in seen]
    if as_json:
        _print_json(seen, closest)
    else:
        _print(seen, closest, points, balanced=white is not None)


def _read_main_colours(photo: Path, colours: int, content: Path, *, as_json: bool) -> None:
    from guidegen.commands.sample_card import loaded
    from guidegen.computing.colour.clusters import main_colours

    found = main_colours(loaded(photo), colours)
    _print_main_colours(found, _matcher(content), as_json=as_json)


def _matcher(content: Path) -> Matcher | None:
    """Finds the closest paints of the palette; None where there is no content folder."""
    from guidegen.commands.at_hand import palette_at_hand
    from guidegen.computing.colour.closest import Matcher

    return Matcher(palette_at_hand(content)) if content.is_dir() else None


def _print_main_colours(found: Sequence[MainColour], matcher: Matcher | None, *, as_json: bool) -> None:
    from guidegen.terminal.swatches import LEGEND, Row, match_data, match_rows, print_rows, say

    closest = [matcher.closest_to_colour(one.colour) if matcher is not None else () for one in found]
    if as_json:
        data = [
            {"colour": one.colour, "share": one.share, "closest": match_data(matches)}
            for one, matches in zip(found, closest, strict=True)
        ]
        print_json({"colours": data})
        return
    for number, (one, matches) in enumerate(zip(found, closest, strict=True)):
        cells = (one.colour, f"{one.share:.0%} of the photo")
        print_rows(f"Colour {number + 1}", [Row(one.colour, cells)], first=not number)
        print_rows("Closest", match_rows(matches), none="No covering paint is within 10.")
    click.echo()
    say(LEGEND)


def _print(
    seen: Sequence[Sample],
    closest: Sequence[tuple[Match, ...]],
    points: Sequence[tuple[float, float]],
    *,
    balanced: bool,
) -> None:
    from guidegen.terminal.swatches import LEGEND, Row, match_rows, print_rows, say

    for number, (found, matches, (x, y)) in enumerate(zip(seen, closest, points, strict=True)):
        lightness, a, b = found.lab
        lab = f"L* {lightness:.1f}  a* {a:.1f}  b* {b:.1f}"
        count = f"the mean of {counted(found.pixels, 'pixel')}"
        place = f" at {x:g},{y:g}" if len(seen) > 1 else ""
        print_rows(
            f"Seen in the photo{place}", [Row(found.colour, (found.colour, lab, count))], first=not number
        )
        if found.clipped:
            say(
                "It is brighter than the card or too vivid for a screen; this is the nearest it can show.",
                "  ",
            )
        print_rows("Closest", match_rows(matches), none="No covering paint is within 10.")
    click.echo()
    say(LEGEND)
    if not balanced:
        say("Without a white card (--white) the colour of the light is still in it.")


def _print_json(seen: Sequence[Sample], closest: Sequence[tuple[Match, ...]]) -> None:
    """One sample by itself; several as a list in the order asked for."""
    from guidegen.terminal.swatches import match_data

    data = [
        {
            "colour": found.colour,
            "lab": [round(value, 4) for value in found.lab],
            "pixels": found.pixels,
            "closest": match_data(matches),
        }
        for found, matches in zip(seen, closest, strict=True)
    ]
    print_json(data if len(data) > 1 else data[0])
