"""`guidegen send`: a guide as one file with everything in it, to be mailed or carried on a stick."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from guidegen.terminal.common import cache_option, content_option, counted, exit_for, show
from guidegen.terminal.progress import progress_bars

if TYPE_CHECKING:
    from collections.abc import Mapping

    from guidegen.building.standalone import Parcel
    from guidegen.model.guide import Guide

EXAMPLE = """\b
Examples:
  guidegen send ferry-watch
  guidegen send heron-riders --choose headgear=straw-hat --out riders.html
"""

# The mark of a file that was sent stands at its beginning.
_LOOKED_AT = 4096


@click.command(epilog=EXAMPLE)
@click.argument("guide")
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE",
    help="The file to write.  [default: the guide's address with .html, in the current folder]",
)
@click.option(
    "--choose",
    "chosen",
    multiple=True,
    metavar="NAME=OPTION",
    help="Send this variant. The first option of each choice is sent otherwise.",
)
@click.option("--replace", is_flag=True, help="Write over a file of that name, whatever it is.")
@cache_option
@content_option
def command(
    guide: str, out: Path | None, chosen: tuple[str, ...], cache: Path | None, content: Path, *, replace: bool
) -> None:
    """Write one HTML file with everything in it: the guide's page, its photos, its times for any number of figures.

    GUIDE is the guide's address, its title, or the path of its folder or guide.md. A draft may be sent. Mistakes in
    the guide, the palette or site.yaml end with 1, those in other guides are no matter. Of files that are there
    already, only the same guide's, sent before, is written over.
    """
    from guidegen.building.check import check
    from guidegen.building.standalone import wrap
    from guidegen.commands.guide_asked import guide_asked

    checked = check(content, drafts=True)
    found = guide_asked(checked, guide, content)
    path = _page(found, _choice(found, chosen))
    with progress_bars(sys.stderr) as progress:
        wrapped = wrap(checked, found, path, cache=cache, progress=progress)
    show(wrapped.diagnostics, content)
    if wrapped.note:
        click.echo(wrapped.note, err=True)
    if wrapped.parcel is None:
        click.echo("Nothing was written.", err=True)
        exit_for(wrapped.diagnostics)
        return
    target = out or Path(wrapped.parcel.name)
    _write(target, wrapped.parcel, replace=replace)
    click.echo(_told(target, wrapped.parcel, draft=found.draft))


def _choice(guide: Guide, chosen: tuple[str, ...]) -> Mapping[str, str]:
    """What `--choose` says, in the guide's own words; leaves with 1 where it does not offer that."""
    from guidegen.base.listed import some_of
    from guidegen.base.paths import slug
    from guidegen.commands.at_hand import known_help, leave

    choice: dict[str, str] = {}
    for one in chosen:
        name, sign, option = (part.strip() for part in one.partition("="))
        if not sign or not name or not option:
            raise click.BadParameter(f"“{one}” is to be a choice and its option, as in headgear=straw-hat.")
        offered = next((known for known in guide.choose if slug(known) == slug(name)), None)
        if offered is None:
            help_line = known_help(name, list(guide.choose), "It has no variants.", there="It offers")
            leave(f"“{guide.title}” offers no choice “{name}”.", help_line)
        options = guide.choose[offered]
        found = next((known for known in options if slug(known) == slug(option)), None)
        if found is None:
            leave(f"“{offered}” has no option “{option}”.", f"It has: {some_of(options)}.")
        choice[offered] = found
    return choice


def _page(guide: Guide, choice: Mapping[str, str]) -> str:
    from guidegen.building.standalone import page_for
    from guidegen.commands.at_hand import leave

    path = page_for(guide, choice)
    if path is None:
        leave(
            f"“{guide.title}” has so many variants that this combination has no page.",
            "Choose one option that is not the first, and leave the other choices.",
        )
    return path


def _write(target: Path, parcel: Parcel, *, replace: bool) -> None:
    """Put the file in place whole. Raises OutputRefusedError for another file, MachineError where the disk refuses."""
    from guidegen.base.errors import MachineError, OutputRefusedError
    from guidegen.writing.atomic import write_atomically
    from guidegen.writing.trouble import writing

    with writing(target, "Choose another place with --out."):
        if not target.parent.exists():
            raise MachineError(f"There is no folder “{target.parent}” to write to.", "Make it first.")
        if not replace and _is_anothers(target, parcel):
            raise OutputRefusedError(
                f"“{target}” is there already, and is not this guide as it was sent before.",
                "Choose another name with --out, or write over it with --replace.",
            )
        write_atomically(target, parcel.data, durable=True)


def _is_anothers(target: Path, parcel: Parcel) -> bool:
    if not os.path.lexists(target):
        return False
    if target.is_symlink() or not target.is_file():
        return True
    with target.open("rb") as file:
        start = file.read(_LOOKED_AT)
    return f'<meta name="generator" content="{parcel.mark}">'.encode() not in start


def _told(target: Path, parcel: Parcel, *, draft: bool) -> str:
    from guidegen.reporting.cells import harmless

    photos = counted(parcel.photos, "photo") if parcel.photos else "no photos"
    lines = [
        f"{harmless(str(target))}: {len(parcel.data) / 1000:,.0f} kB with {photos} in it.",
        "It opens in any browser, without a network and without other files.",
    ]
    if draft:
        lines.append("It is still a draft, and says so.")
    return "\n".join(lines)
