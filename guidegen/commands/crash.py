"""What is said when guidegen itself fails."""

from __future__ import annotations

import sys
import traceback

import click

from guidegen import __version__


def tell_of_crash() -> None:
    """Print that the fault is ours, what was being done, and where it went wrong, to standard error."""
    kind, error, trace = sys.exc_info()
    last = traceback.extract_tb(trace)[-1] if trace else None
    place = f"{last.filename.rsplit('guidegen', 1)[-1].lstrip('/')}, line {last.lineno}" if last else "?"
    notes = getattr(error, "__notes__", [])
    click.echo("guidegen itself has failed. This is a fault of the tool, not of your content.", err=True)
    for note in notes:
        click.echo(f"    It was busy with {note}.", err=True)
    click.echo(
        f"    {kind.__name__ if kind else 'Error'}: {error}  (guidegen {__version__}, {place})", err=True
    )
    click.echo(
        "    The site that was there before is untouched. Set GUIDEGEN_TRACE=1 to see the whole trace.",
        err=True,
    )
    import os

    if os.environ.get("GUIDEGEN_TRACE"):
        traceback.print_exception(error)
