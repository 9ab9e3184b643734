"""A palette out of a paint list, for `guidegen start --palette-from`."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TYPE_CHECKING

import click

from guidegen.base.paths import slug
from guidegen.commands.at_hand import bytes_of, leave
from guidegen.terminal.common import counted, tell_some

if TYPE_CHECKING:
    from guidegen.reading.paint_lists.rows import PaintRow

# In bytes: a larger file is no list of paints.
LARGEST_LIST = 10_000_000


def palette_from(file: Path) -> str:
    """A palette file out of a paint list; what could not be taken over is told."""
    from guidegen.reading.paint_lists.palette_file import palette_yaml

    paints = _paints_of(file)
    click.echo(f"{counted(len(paints), 'paint')} taken over from {file.name}.")
    return palette_yaml(paints, heading=[_heading(file)])


def add_to_palette(content: Path, file: Path) -> None:
    """Put the paints of a list that the palette lacks into palette.yaml, else into a file of their own beside others."""
    from guidegen.commands.at_hand import palette_at_hand
    from guidegen.reading.editing.more_paints import not_there_yet, with_paints
    from guidegen.reading.paint_lists.palette_file import palette_yaml
    from guidegen.writing.fresh import put_files, refuse_links
    from guidegen.writing.rewrite import may_be_rewritten, rewrite
    from guidegen.writing.trouble import writing

    paints = _paints_of(file)
    fresh = not_there_yet(paints, palette_at_hand(content))
    known = len(paints) - len(fresh)
    if not fresh:
        click.echo(f"All {counted(known, 'paint')} of {file.name} are in the palette already.")
        return
    palette = Path(os.path.realpath(content)) / "palette.yaml"
    place = content / "palette.yaml"
    with writing(place):
        after = (
            with_paints("palette.yaml", palette.read_bytes(), fresh) if may_be_rewritten(palette) else None
        )
        if after is not None:
            rewrite(palette, after)
    if after is None:
        place = _free_place(content, file)
        refuse_links([place], content)
        with writing(place):
            put_files({place: palette_yaml(fresh, heading=[_heading(file)]).encode()})
    there = f"; {known:,} {'is' if known == 1 else 'are'} there already" if known else ""
    click.echo(f"{counted(len(fresh), 'paint')} taken over from {file.name} into {place}{there}.")


def _free_place(content: Path, file: Path) -> Path:
    """palette.yaml where there is no palette, else a file beside the others, called like the list."""
    if not (content / "palette.yaml").exists() and not (content / "palette").is_dir():
        return content / "palette.yaml"
    name = slug(file.stem)
    numbers = ("", *(f"-{number}" for number in range(2, 1_000)))
    return next(
        place for number in numbers if not (place := content / "palette" / f"{name}{number}.yaml").exists()
    )


def _heading(file: Path) -> str:
    return f"Your paints, taken over from {file.name}."


def _paints_of(file: Path) -> tuple[PaintRow, ...]:
    from guidegen.reading.paint_lists.any_list import read_palette_bytes

    found = read_palette_bytes(bytes_of(file, LARGEST_LIST, noun="paint list", ask="Is it a paint list?"))
    tell_some([f"    line {problem.line}: {problem.message}" for problem in found.problems])
    if not found.paints:
        leave(
            f"“{file}” has no paint that could be taken over.",
            "It should be a workbook (.xlsx), CSV, a GIMP palette, or names, one a line.",
        )
    return found.paints
