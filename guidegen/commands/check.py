"""`guidegen check`: what is wrong with the content, and nothing written."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path

import click

from guidegen import __version__
from guidegen.base.diagnostic import Diagnostic
from guidegen.terminal.common import content_option, exit_for, shown_from

EXAMPLE = """\b
Examples:
  guidegen check
  guidegen check --format line
  guidegen check --fix
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
@click.option(
    "--fix",
    is_flag=True,
    help="Mend misspelt known names, missing quotes, dashes and spaces; say what was done.",
)
@click.option("--why", metavar="SLUG", help="Explain one kind of message and stop.")
def command(content: Path, form: str, why: str | None, *, fix: bool, as_json: bool) -> None:
    """Say what is wrong with the content, and write nothing but what --fix asks for.

    Ends with 1 where there is an error left; warnings and advice do not count.
    """
    if why is not None:
        _explain(why)
        return
    shown = shown_from(content)
    form = "json" if as_json else form
    diagnostics = _fixed(content, shown, form) if fix else _checked(content)
    if form == "json":
        from guidegen.reporting.as_json import as_json as text_of

        sys.stdout.write(text_of(diagnostics, shown=shown))
    elif form == "line":
        from guidegen.reporting.text import as_lines

        sys.stdout.write(as_lines(diagnostics, shown=shown))
    elif form == "sarif":
        from guidegen.reporting.sarif import as_sarif

        sys.stdout.write(as_sarif(diagnostics, shown=shown, version=__version__))
    elif diagnostics:
        from guidegen.reporting.terminal import print_diagnostics

        print_diagnostics(diagnostics, shown=shown, stream=sys.stdout, environ=os.environ)
        mendable = sum(one.fix is not None for one in diagnostics)
        if mendable and not fix and sys.stdout.isatty():
            click.echo(f"guidegen check --fix mends {mendable} of these.")
    else:
        click.echo("Nothing to mend.")
    exit_for(diagnostics)


def _checked(content: Path) -> tuple[Diagnostic, ...]:
    from guidegen.building.photos_ahead import photos_ahead

    with photos_ahead(content) as ahead:
        # What reads and checks is loaded while photos are being opened.
        from guidegen.building.check import check_with_photos

        return check_with_photos(content, ahead=ahead).diagnostics


def _fixed(content: Path, shown: Callable[[str], str], form: str) -> tuple[Diagnostic, ...]:
    """Mend what can be mended, say so (on standard error where the output is for other programs); what is left."""
    from guidegen.commands.fixes import apply_fixes, fixes_text

    done = apply_fixes(content)
    text = fixes_text(done.applied, shown)
    if text:
        click.echo(text, err=form != "text")
    return done.checked.diagnostics


def _explain(slug: str) -> None:
    from guidegen.base.codes import CODES
    from guidegen.base.listed import list_of_words
    from guidegen.base.suggest import nearest

    code = CODES.get(slug)
    if code is None:
        near = nearest(slug, CODES)
        raise click.BadParameter(
            f"There is no message “{slug}”."
            + (f" Did you mean {near}?" if near else f" There is {list_of_words(sorted(CODES))}."),
            param_hint="--why",
        )
    import textwrap

    click.echo(f"{slug} ({code.severity})\n")
    click.echo(textwrap.fill(code.explanation, 80))
