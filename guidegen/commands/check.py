"""`guidegen check`: what is wrong with the content, and nothing written."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import click

from guidegen import __version__
from guidegen.commands.common import content_option, exit_for, shown_from

EXAMPLE = """\b
Examples:
  guidegen check
  guidegen check --format line
  guidegen check --why unknown-paint
"""


@click.command(epilog=EXAMPLE)
@content_option
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "line", "json", "sarif"]),
    default="text",
    show_default=True,
    help="Full text, a line each, or data for other programs.",
)
@click.option("--json", "as_json", is_flag=True, help="The same as --format json.")
@click.option("--why", metavar="SLUG", help="Explain one kind of message and stop.")
def command(content: Path, form: str, why: str | None, *, as_json: bool) -> None:
    """Say what is wrong with the content, and write nothing.

    Ends with 1 where there is an error; warnings and advice do not count.
    """
    if why is not None:
        _explain(why)
        return
    from guidegen.build import check_with_photos

    diagnostics = check_with_photos(content).diagnostics
    shown = shown_from(content)
    if as_json or form == "json":
        from guidegen.reporting.as_json import as_json as text_of

        sys.stdout.write(text_of(diagnostics, shown=shown))
    elif form == "line":
        from guidegen.reporting.line import as_lines

        sys.stdout.write(as_lines(diagnostics, shown=shown))
    elif form == "sarif":
        from guidegen.reporting.sarif import as_sarif

        sys.stdout.write(as_sarif(diagnostics, shown=shown, version=__version__))
    elif diagnostics:
        from guidegen.reporting.terminal import print_diagnostics

        print_diagnostics(diagnostics, shown=shown, stream=sys.stdout, environ=os.environ)
    else:
        click.echo("Nothing to mend.")
    exit_for(diagnostics)


def _explain(slug: str) -> None:
    from guidegen.base.codes import CODES
    from guidegen.base.suggest import nearest

    code = CODES.get(slug)
    if code is None:
        near = nearest(slug, CODES)
        raise click.BadParameter(
            f"There is no message “{slug}”." + (f" Did you mean {near}?" if near else ""), param_hint="--why"
        )
    import textwrap

    click.echo(f"{slug} ({code.severity})\n")
    click.echo(textwrap.fill(code.explanation, 80))
