"""A palette out of a paint list, for `guidegen start --palette-from`."""

from __future__ import annotations

from pathlib import Path

import click

from guidegen.base.errors import MachineError
from guidegen.commands.at_hand import leave
from guidegen.commands.common import counted

# What is larger than this is something else.
LARGEST_LIST = 10_000_000

# What is told of a paint list at most, so that a long one does not hide what to do next.
MOST_TOLD = 20


def palette_from(file: Path) -> str:
    """A palette file out of a paint list; what could not be taken over is told."""
    from guidegen.reading.paint_lists.any_list import read_palette_bytes
    from guidegen.reading.paint_lists.palette_file import palette_yaml

    found = read_palette_bytes(_bytes_of(file))
    _tell_problems([f"line {problem.line}: {problem.message}" for problem in found.problems])
    if not found.paints:
        leave(
            f"“{file}” has no paint that could be taken over.",
            "It should be a workbook (.xlsx), CSV, a GIMP palette, or names, one a line.",
        )
    click.echo(f"{counted(len(found.paints), 'paint')} taken over from {file.name}.")
    return palette_yaml(found.paints, heading=[f"Your paints, taken over from {file.name}."])


def _bytes_of(file: Path) -> bytes:
    if not file.is_file():
        leave(f"There is no paint list “{file}”.", "Check the name, and that you are in the right folder.")
    try:
        with file.open("rb") as opened:
            data = opened.read(LARGEST_LIST + 1)
    except OSError as error:
        raise MachineError(f"“{file}” cannot be read: {error.strerror}.") from error
    if len(data) > LARGEST_LIST:
        leave(f"“{file}” is larger than {LARGEST_LIST:,} bytes.", "Is it a paint list?")
    return data


def _tell_problems(problems: list[str]) -> None:
    from guidegen.reporting.cells import harmless

    for problem in problems[:MOST_TOLD]:
        click.echo(harmless(f"    {problem}"), err=True)
    if len(problems) > MOST_TOLD:
        click.echo(f"    and {len(problems) - MOST_TOLD} more", err=True)
