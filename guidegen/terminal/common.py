"""What several commands share: their options, how diagnostics are shown, and exit codes."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any, TypeVar

import click

from guidegen.base import paths
from guidegen.base.diagnostic import Diagnostic, has_errors
from guidegen.base.exit_codes import FAULTS

Command = TypeVar("Command", bound=Callable[..., object])

# The most lines that `tell_some` prints.
MOST_TOLD = 20

# What shows that a folder is somebody's content.
_MARKS = ("site.yaml", "palette.yaml", "palette", "guides")


def _content(_ctx: click.Context, _param: click.Parameter, value: Path | None) -> Path:
    """The folder given; else `content` if there is one; else the current folder if it is content."""
    content = Path("content")
    if value is not None or content.is_dir():
        return value or content
    return Path() if is_content(Path()) else content


def is_content(folder: Path) -> bool:
    """Whether a folder is somebody's content, by what lies in it."""
    return any((folder / mark).exists() for mark in _MARKS)


def content_option(function: Command) -> Command:
    """`--content DIR`."""
    return click.option(
        "--content",
        type=click.Path(path_type=Path),
        callback=_content,
        metavar="DIR",
        help="The folder with the guides and the palette.  [default: content, or the current folder if it is one]",
    )(function)


def out_option(function: Command) -> Command:
    """`--out DIR`."""
    return click.option(
        "--out",
        type=click.Path(path_type=Path),
        default=Path("site"),
        show_default=True,
        metavar="DIR",
        help="The folder that the site is written to.",
    )(function)


def cache_option(function: Command) -> Command:
    """`--cache DIR`."""
    return click.option(
        "--cache",
        type=click.Path(path_type=Path, file_okay=False),
        metavar="DIR",
        help="Where encoded photos are kept.  [default: the user's cache folder]",
    )(function)


def json_option(function: Command) -> Command:
    """`--json`."""
    return click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")(function)


def shown_from(content: Path) -> Callable[[str], str]:
    """How a file is named in output: from the current folder if it lies inside it, else from content."""
    return paths.shown_from(Path(os.path.realpath(content)), Path(os.path.realpath(Path.cwd())))


def show(diagnostics: Sequence[Diagnostic], content: Path) -> None:
    """Print diagnostics in full to standard error."""
    from guidegen.reporting.terminal import print_diagnostics

    print_diagnostics(diagnostics, shown=shown_from(content), stream=sys.stderr, environ=os.environ)


def tell(message: str, help_line: str) -> None:
    """Print what is wrong and, set in below it, what to do about it, to standard error."""
    from guidegen.reporting.cells import harmless

    click.echo(f"{harmless(message)}\n    {harmless(help_line)}", err=True)


def tell_some(lines: Sequence[str]) -> None:
    """The first lines on standard error, and how many more there are, so that many do not hide what to do next."""
    from guidegen.reporting.cells import harmless

    for line in lines[:MOST_TOLD]:
        click.echo(harmless(line), err=True)
    if len(lines) > MOST_TOLD:
        click.echo(f"    and {len(lines) - MOST_TOLD} more", err=True)


def print_json(value: Any) -> None:
    """A command's answer as JSON, on standard output."""
    from guidegen.reporting.as_json import dumped

    click.echo(dumped(value), nl=False)


def counted(number: int, noun: str) -> str:
    """`1 page`, `2 pages`."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def exit_for(diagnostics: Sequence[Diagnostic]) -> None:
    """Exit with FAULTS (1) where there is an error among them, else return."""
    if has_errors(diagnostics):
        raise SystemExit(FAULTS)
