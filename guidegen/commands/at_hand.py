"""What is named on the command line: the palette, pots, files, and names that lead nowhere."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from guidegen.base.diagnostic import has_errors
from guidegen.base.errors import MachineError
from guidegen.base.exit_codes import FAULTS
from guidegen.base.listed import some_of
from guidegen.base.suggest import nearest
from guidegen.model.paint import Ambiguous, Mix, Paint, Palette
from guidegen.terminal.common import show, tell

if TYPE_CHECKING:
    from guidegen.computing.colour.blend import Blend
    from guidegen.computing.colour.mixing import Mixer


def finite(ctx: click.Context, param: click.Parameter, value: float | None) -> float | None:
    """An option's callback that refuses “nan” and “inf”, since click's range lets “nan” through."""
    if value is not None and not math.isfinite(value):
        raise click.BadParameter("A plain number is needed.", ctx, param)
    return value


def palette_at_hand(content: Path) -> Palette:
    """The palette, whatever is the matter with guides and plans; its own errors are told and end with 1."""
    from guidegen.reading.content.archive import read_palette

    palette, diagnostics = read_palette(content)
    if has_errors(diagnostics):
        show(diagnostics, content)
        raise SystemExit(FAULTS)
    return palette


def pot_named(palette: Palette, name: str) -> Paint | Mix | None:
    """The pot that a name on the command line means, None if there is none; a name of several ends with 1."""
    found = palette.find(name)
    if isinstance(found, Ambiguous):
        several = ", ".join(pot.full_name for pot in found.found)
        leave(
            f"“{name}” may mean {len(found.found)} pots: {several}.",
            "Write the range before it, as in Range / Name.",
        )
    return found


def role_of_blend(mixer: Mixer, blend: Blend) -> str | None:
    """Which paints can stand in for a blend: metals for whatever glints, else by its kind."""
    from guidegen.computing.colour.closest import METAL, role_of

    return METAL if mixer.has_metal(blend) else role_of(mixer.kind(blend))


def leave_unknown(palette: Palette, name: str, *, in_parts: bool = False) -> NoReturn:
    """Say that a name leads nowhere, with the nearest one, and end with 1; `in_parts` where a number may follow it."""
    counted = re.fullmatch(r"(.*\S)\s+([0-9.]+)", name) if in_parts else None
    if counted is not None and palette.find(counted[1]) is not None:
        leave(
            f"There is no “{name}” in the palette.",
            f"Write “{counted[1]}: {counted[2]}”, with a colon between a paint and its parts.",
        )
    near = palette.nearest(name)
    empty = not palette.paints and not palette.mixes
    leave(
        f"There is no “{name}” in the palette.",
        f"Write {palette.label(near)}, if that is meant."
        if near
        else "The palette is empty: is --content the right folder?"
        if empty
        else "Write a paint's name as the palette has it, with its range before it if need be.",
    )


def leave(message: str, help_line: str) -> NoReturn:
    """Say what is wrong and what to do about it on standard error, and end with 1."""
    tell(message, help_line)
    raise SystemExit(FAULTS)


def bytes_of(file: Path, most: int, *, noun: str, ask: str) -> bytes:
    """What is in a file that was named; leaves with 1 where there is none, or where it is larger than `most` bytes."""
    if not file.is_file():
        leave(f"There is no {noun} “{file}”.", "Check the name, and that you are in the right folder.")
    try:
        with file.open("rb") as opened:
            data = opened.read(most + 1)
    except OSError as error:
        raise MachineError(f"“{file}” cannot be read: {error.strerror}.") from error
    if len(data) > most:
        leave(f"“{file}” is larger than {most:,} bytes.", ask)
    return data


def known_help(
    asked: str, known: Sequence[str], none: str, *, there: str = "There are", near: str | None = None
) -> str:
    """A help line for a name that leads nowhere: the nearest known one (or `near`), else up to 12 of them, else `none`."""
    best = near or nearest(asked, known)
    return f"Write {best}, if that is meant." if best else f"{there}: {some_of(known)}." if known else none
