"""`guidegen build`: check the content, then write the site."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Sequence
from dataclasses import asdict, fields, replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from guidegen.base.exit_codes import FAULTS
from guidegen.terminal.common import (
    cache_option,
    content_option,
    counted,
    exit_for,
    json_option,
    out_option,
    print_json,
    show,
)
from guidegen.terminal.progress import progress_bars

if TYPE_CHECKING:
    from guidegen.building.build import Built, Counts

EXAMPLE = """\b
Examples:
  guidegen build
  guidegen build --content club --out public
"""

# Plenty for ten thousand photos in three sizes and two formats; older ones go first when it is full.
CACHE_SIZE = "8 GB"


class _Size(click.ParamType[int]):
    """An amount of disk: `500 MB`, `2 GB`, or plain bytes."""

    name = "size"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> int:
        import re

        found = re.fullmatch(r"\s*(\d{1,15}(?:\.\d+)?)\s*([kmgt]?)i?b?\s*", str(value), re.IGNORECASE)
        if not found:
            self.fail(f"“{value}” is no size; write it as 500 MB or 2 GB.", param, ctx)
        return int(float(found[1]) * 1000 ** " kmgt".index(found[2].lower() or " "))


@click.command(epilog=EXAMPLE)
@content_option
@out_option
@click.option(
    "--leave-out-faulty",
    is_flag=True,
    help="Write the guides without errors, keep the last good pages of the others, and still end with 1.",
)
@click.option(
    "--remove-many", is_flag=True, help="Go on where more than a tenth of the pages would be removed."
)
@click.option(
    "--changes",
    "changes_file",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE",
    help="Write here what is new, changed and removed, in an order for an upload file by file.",
)
@click.option("--open", "open_it", is_flag=True, help="Open the site in the browser when it is done.")
@cache_option
@click.option(
    "--cache-size",
    type=_Size(),
    default=CACHE_SIZE,
    show_default=True,
    metavar="SIZE",
    help="How large the cache may grow.",
)
@json_option
def command(
    content: Path,
    out: Path,
    cache: Path | None,
    cache_size: int,
    changes_file: Path | None,
    *,
    leave_out_faulty: bool,
    remove_many: bool,
    open_it: bool,
    as_json: bool,
) -> None:
    """Check the content, then write the site.

    An error stops it before anything is written, and so does the loss of more than a tenth of the pages (and more than
    20), unless --remove-many asks for it. Ends with 1 where there is an error or so many pages would go, with 2 where
    the output folder is refused or the machine has trouble.
    """
    from guidegen.building.build import Order, build

    _keep_out(changes_file, out)
    order = Order(
        content=content,
        out=out,
        cache=cache,
        cache_bytes=cache_size,
        leave_out_faulty=leave_out_faulty,
        remove_many=remove_many,
    )
    with progress_bars(sys.stderr) as progress:
        built = build(replace(order, progress=progress))
    _tell(built, content)
    if changes_file is not None and built.counts is not None:
        _write_changes(changes_file, built.changes.lines())
    _print(built, out, as_json=as_json)
    if open_it and built.counts is not None:
        _open(out)
    if built.refused is not None:
        raise SystemExit(FAULTS)
    exit_for(built.diagnostics)


def _tell(built: Built, content: Path) -> None:
    """Tell what is wrong with the content or with the machine, on the error stream."""
    show(built.diagnostics, content)
    if built.note:
        click.echo(built.note, err=True)
    if built.refused is not None:
        click.echo(f"{built.refused.message}\n    {built.refused.help_line}", err=True)


def _print(built: Built, out: Path, *, as_json: bool) -> None:
    if as_json:
        print_json(_data(built))
    elif built.counts is None:
        click.echo("Nothing was written.", err=True)
    else:
        click.echo("\n".join((_told(built.counts, out), *_faulty_told(built.kept, built.left_out))))


def _data(built: Built) -> dict[str, object]:
    from guidegen.building.build import Counts

    counts = asdict(built.counts) if built.counts else {one.name: 0 for one in fields(Counts)}
    files = {"new": built.changes.new, "changed": built.changes.changed}
    files["removed_files"] = built.changes.removed
    return {**counts, **files, "kept": built.kept, "left_out": built.left_out}


def _told(counts: Counts, out: Path) -> str:
    parts = [counted(counts.pages, "page")]
    if counts.photos_encoded:
        parts.append(f"{counted(counts.photos_encoded, 'photo')} encoded")
    parts.append(f"{counted(counts.written, 'file')} written")
    if counts.unchanged:
        parts.append(f"{counts.unchanged} unchanged")
    if counts.removed:
        parts.append(f"{counts.removed} removed")
    home = os.path.relpath(out / "index.html")
    return f"{', '.join(parts)} in {counts.seconds:.1f} s.\nOpen {home} to see the site."


def _faulty_told(kept: Sequence[str], left_out: Sequence[str]) -> Iterator[str]:
    """What became of each faulty guide, plan and shared list."""
    if kept:
        yield "Faulty, and kept with the last good pages:"
        yield from (f"  {address}" for address in kept)
    if left_out:
        yield "Faulty, and left out, since there are no good pages yet:"
        yield from (f"  {address}" for address in left_out)


def _keep_out(file: Path | None, out: Path) -> None:
    """Raises OutputRefusedError where the list of changes would lie in the site."""
    from guidegen.base.errors import OutputRefusedError

    if file is not None and Path(os.path.realpath(file)).is_relative_to(os.path.realpath(out)):
        raise OutputRefusedError(f"“{file}” would lie in the site.", "Write the list of changes elsewhere.")


def _write_changes(file: Path, lines: str) -> None:
    """Raises MachineError where the list cannot be written."""
    from guidegen.writing.atomic import write_atomically
    from guidegen.writing.trouble import writing

    with writing(file, "Choose another place for --changes."):
        write_atomically(file, lines.encode())


def _open(out: Path) -> None:
    import webbrowser

    webbrowser.open((out / "index.html").resolve().as_uri())
