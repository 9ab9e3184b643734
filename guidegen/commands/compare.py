"""`guidegen sample PHOTO --compare X,Y X,Y`: the old figure beside the new one, and what to add to the new paint."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from guidegen.base.listed import list_of_words
from guidegen.commands.at_hand import palette_at_hand
from guidegen.commands.sample_card import colours_at
from guidegen.terminal.common import print_json

if TYPE_CHECKING:
    from guidegen.computing.card.additions import Addition
    from guidegen.computing.colour.sampling import Sample

Point = tuple[float, float]


def compare(
    photo: Path, old: Point, new: Point, radius: float, white: Point | None, content: Path, *, as_json: bool
) -> None:
    """Read both colours off the photo, print how they differ and what to add; with `as_json` as data."""
    from guidegen.computing.card.additions import addition, difference

    before, now = colours_at(photo, (old, new), radius, white)
    de00, words = difference(now.colour, before.colour)
    palette = palette_at_hand(content) if content.is_dir() else None
    added = addition(palette, now.colour, before.colour) if palette is not None and words else None
    if as_json:
        print_json(_data(before, now, de00, words, added))
    else:
        _print(before, now, de00, words, added)


def _data(
    before: Sample, now: Sample, de00: float, words: Iterable[str], added: Addition | None
) -> dict[str, Any]:
    return {
        "old": before.colour,
        "new": now.colour,
        "de00": round(de00, 4),
        "words": list(words),
        "add": None if added is None else {"paint": added.paint, "parts": added.parts, "to": added.to},
    }


def _print(before: Sample, now: Sample, de00: float, words: tuple[str, ...], added: Addition | None) -> None:
    from guidegen.terminal.swatches import LEGEND, Row, colour_cells, print_rows, say

    rows = [
        Row(before.colour, ("the old one", *colour_cells(before.colour))),
        Row(now.colour, ("the new one", *colour_cells(now.colour))),
    ]
    print_rows(f"{de00:.1f} apart", rows, first=True)
    click.echo()
    if not words:
        say("They look alike.")
    else:
        say(f"The new one is {list_of_words(words)}.")
        if added is not None:
            say(
                f"Add {added.parts:g} {'part' if added.parts == 1 else 'parts'} {added.paint} to {added.to:g} of the new paint: "
                f"about {added.left:.0f} apart then, by an estimate. Try it on scrap first."
            )
        else:
            say("No single paint of yours brings it closer.")
    say(LEGEND)
