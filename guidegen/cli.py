"""The list of commands. Each is imported only when it is run, so that help comes at once."""

from __future__ import annotations

from importlib import import_module

import click

from guidegen import __version__
from guidegen.base.errors import GuidegenError
from guidegen.base.exit_codes import FAILED
from guidegen.base.stopping import was_asked

# Name, and the line that `guidegen --help` shows for it; the command itself is `guidegen.commands.<name>.command`.
COMMANDS = {
    "build": "Check the content and write the site.",
    "check": "Say what is wrong with the content, and write nothing.",
    "preview": "Show the site on this machine and keep it up to date while you write.",
    "start": "Make a content folder, a guide or a plan to begin from.",
    "closest": "Find the paints closest to a paint or a colour.",
    "mix": "Predict the colour of a mixture, or of a wash over a colour.",
    "sample": "Read a paint's colour off a photo.",
    "card": "Make a card to print: boxes to paint and photograph, for true colours.",
    "plan": "Spread the painting over the sittings there are.",
    "times": "Say what each step of a guide really took.",
    "made": "Write down a batch that was painted, with what it was painted with.",
    "receive": "Take a member's guides, lists and paints into the archive.",
    "send": "Write a guide as one HTML file with everything in it.",
}

EXAMPLE = """\b
Example:
  guidegen start
  guidegen build --open
"""


class _Commands(click.Group):
    """A group that knows its commands' names and help lines without importing them."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        del ctx
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        del ctx
        if cmd_name not in COMMANDS:
            return None
        command = import_module(f"guidegen.commands.{cmd_name}").command
        return command if isinstance(command, click.Command) else None

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        del ctx
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(
    cls=_Commands,
    epilog=EXAMPLE,
    context_settings={"help_option_names": ["--help", "-h"], "max_content_width": 100},
)
@click.version_option(__version__, prog_name="guidegen", message="%(prog)s %(version)s")
def guidegen() -> None:
    """Publish illustrated painting guides as a checked static site."""


def run() -> int:
    """Run a command: its exit code. A failure of the tool or the machine is one plain message and `FAILED`."""
    try:
        return _code(guidegen.main(prog_name="guidegen", standalone_mode=False))
    except SystemExit as leaving:
        return _code(leaving.code)
    except click.ClickException as mistake:
        mistake.show()
        return mistake.exit_code
    except click.Abort:
        raise KeyboardInterrupt from None
    except GuidegenError as failure:
        return _failed(failure)
    except Exception as error:  # noqa: BLE001  the last line of defence: a crash of ours is said to be ours
        if was_asked():
            raise KeyboardInterrupt from None
        from guidegen.building.crash import failure_of

        return _failed(failure_of(error))


def _failed(failure: GuidegenError) -> int:
    click.echo(failure.message, err=True)
    for line in failure.help_line.splitlines():
        click.echo(f"    {line}", err=True)
    return FAILED


def _code(told: object) -> int:
    """A number is an exit code, and what else a command gives back is not."""
    return told if isinstance(told, int) else 0
