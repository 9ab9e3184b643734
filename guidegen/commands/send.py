"""`guidegen send`: a guide as one file with everything in it, to be mailed or carried on a stick."""

from __future__ import annotations

import os
import sys
from pathlib import Path, PurePath
from typing import TYPE_CHECKING, NoReturn

import click

from guidegen.terminal.common import content_option, counted, exit_for, show
from guidegen.terminal.progress import progress_bars

if TYPE_CHECKING:
    from collections.abc import Mapping

    from guidegen.building.check import Checked
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
@click.option(
    "--cache",
    type=click.Path(path_type=Path, file_okay=False),
    metavar="DIR",
    help="Where encoded photos are kept.  [default: the user's cache folder]",
)
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
    from guidegen.building.standalone import concerning, wrap

    checked = check(content, drafts=True)
    address = address_asked(checked, guide)
    found = checked.archive.guide(address)
    if found is None:
        diagnostics = concerning(checked, address)
        show(diagnostics, content)
        exit_for(diagnostics)
        _leave_unknown(checked, guide)
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


def address_asked(checked: Checked, asked: str) -> str:
    """The address of the guide that is asked for; leaves with 1 where there is none, or more than one."""
    from guidegen.base.paths import slug
    from guidegen.base.suggest import folded
    from guidegen.commands.at_hand import leave

    for name in (asked, slug(asked), slug(_place(asked, checked.content))):
        if name in checked.archive.addresses:
            return name
    titled = [one.slug for one in checked.archive.guides if folded(one.title) == folded(asked)]
    if len(titled) > 1:
        leave(f"{len(titled)} guides have the title “{asked}”.", f"Write one of {', '.join(titled)}.")
    if not titled:
        _leave_unknown(checked, asked)
    return titled[0]


def _place(asked: str, content: Path) -> str:
    """The name of the guide's folder or file where its path was given, from here or from content; else ''."""
    top = Path(os.path.realpath(content), "guides")
    real = Path(os.path.realpath(asked))
    parts = real.relative_to(top).parts if real.is_relative_to(top) else PurePath(asked).parts
    if parts[:1] == ("guides",):
        parts = parts[1:]
    return parts[0].removesuffix(".md") if parts else ""


def _leave_unknown(checked: Checked, asked: str) -> NoReturn:
    from guidegen.base.suggest import nearest
    from guidegen.commands.at_hand import known_help, leave

    known = sorted(checked.archive.addresses)
    near = nearest(asked, [*known, *(guide.title for guide in checked.archive.guides)])
    none = "Make one with guidegen start guides/NAME."
    leave(f"There is no guide “{asked}”.", known_help(asked, known, none, near=near and f"“{near}”"))


def _choice(guide: Guide, chosen: tuple[str, ...]) -> Mapping[str, str]:
    """What `--choose` says, in the guide's own words; leaves with 1 where it does not offer that."""
    from guidegen.base.paths import slug
    from guidegen.commands.at_hand import known_help, leave, some_of

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

    try:
        if not replace and _is_anothers(target, parcel):
            raise OutputRefusedError(
                f"“{target}” is there already, and is not this guide as it was sent before.",
                "Choose another name with --out, or write over it with --replace.",
            )
        write_atomically(target, parcel.data, durable=True)
    except FileNotFoundError as error:
        raise MachineError(f"There is no folder “{target.parent}” to write to.", "Make it first.") from error
    except OSError as error:
        raise MachineError(
            f"“{target}” cannot be written: {error.strerror}.", "Choose another place with --out."
        ) from error


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
