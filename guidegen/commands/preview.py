"""`guidegen preview`: the site on this machine, kept up to date while the author writes."""

from __future__ import annotations

import hashlib
import signal
from contextlib import suppress
from pathlib import Path
from types import FrameType
from typing import TYPE_CHECKING

import click

from guidegen.base.stopping import stop
from guidegen.terminal.common import content_option, show

if TYPE_CHECKING:
    from guidegen.preview.session import Watched

EXAMPLE = """\b
Examples:
  guidegen preview
  guidegen preview --content club --port 8080
"""


@click.command(epilog=EXAMPLE)
@content_option
@click.option(
    "--out",
    type=click.Path(path_type=Path),
    metavar="DIR",
    help="Where the preview is built.  [default: in the user's cache folder]",
)
@click.option(
    "--port", default=8642, show_default=True, type=click.IntRange(1, 65000), help="The first port to try."
)
@click.option("--open", "open_it", is_flag=True, help="Open it in the browser.")
def command(content: Path, out: Path | None, port: int, *, open_it: bool) -> None:
    """Show the site at an address of this machine, drafts and all, and build again at every change.

    While there are mistakes, the last good page stays up with a list of them. Ends with Ctrl-C.
    """
    from guidegen.building.build import Order
    from guidegen.preview.session import Preview
    from guidegen.writing.cache import cache_folder

    if out is None:
        place = hashlib.sha256(str(content.resolve()).encode()).hexdigest()[:16]
        base = cache_folder()
        out = base.parent / f"{base.name}-preview" / place
    preview = Preview(
        Order(content=content, out=out, drafts=True, remove_many=True),
        port,
        lambda watched: _say(watched, content),
    )
    click.echo(f"The preview is at {preview.address} and ends with Ctrl-C.")
    if open_it:
        import webbrowser

        webbrowser.open(preview.address)

    def end(number: int, at: FrameType | None) -> None:
        # An interrupt that falls into a callback of the interpreter is lost, so the preview is told as well.
        preview.end()
        stop(number, at)

    for asked in (signal.SIGINT, signal.SIGTERM):
        if signal.getsignal(asked) is not signal.SIG_IGN:
            signal.signal(asked, end)
    with suppress(KeyboardInterrupt):
        preview.run()
    click.echo("The preview has ended.")


def _say(watched: Watched, content: Path) -> None:
    if watched.failure is not None:
        click.echo(watched.failure.message, err=True)
        for line in watched.failure.help_line.splitlines():
            click.echo(f"    {line}", err=True)
    if watched.built is not None:
        show(watched.built.diagnostics, content)
        if watched.built.note:
            click.echo(watched.built.note, err=True)
        if watched.built.counts is not None:
            click.echo(
                f"Up to date: {watched.built.counts.written} written, {watched.built.counts.seconds:.2f} s."
            )
