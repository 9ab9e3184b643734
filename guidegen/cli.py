"""The list of commands. Each is imported only when it is run, so that help comes at once."""

from __future__ import annotations

import signal
import sys
from importlib import import_module
from types import FrameType

import click

from guidegen import __version__
from guidegen.base.errors import GuidegenError

# Name, and the line that `guidegen --help` shows for it; the command itself is `guidegen.commands.<name>.command`.
COMMANDS = {
    "build": "Check the content and write the site.",
    "check": "Say what is wrong with the content, and write nothing.",
    "preview": "Show the site on this machine and keep it up to date while you write.",
    "start": "Make a content folder, a guide or a plan to begin from.",
    "closest": "Find the paints closest to a paint or a colour.",
    "mix": "Predict the colour of a mixture, or of a wash over a colour.",
    "sample": "Read a paint's colour off a photo.",
    "plan": "Spread the painting over the sittings there are.",
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


def main() -> None:
    """Run a command; a failure of the tool or the machine is one plain message and exit code 2."""
    # Being told to end is what Ctrl-C is: whatever is under way is left in good order.
    signal.signal(signal.SIGTERM, _stop)
    try:
        guidegen.main(prog_name="guidegen", standalone_mode=False)
    except click.ClickException as mistake:
        mistake.show()
        sys.exit(mistake.exit_code)
    except (click.Abort, KeyboardInterrupt):
        click.echo("Stopped. What was being written is as it was, or finished.", err=True)
        sys.exit(130)
    except GuidegenError as failure:
        click.echo(failure.message, err=True)
        if failure.help_line:
            click.echo(f"    {failure.help_line}", err=True)
        sys.exit(2)
    except BrokenPipeError:
        # The reader of a pipe went away; there is nobody left to tell.
        sys.stderr.close()
        sys.exit(0)
    except Exception:  # noqa: BLE001  the last line of defence: a crash of ours is said to be ours
        from guidegen.commands.crash import tell_of_crash

        tell_of_crash()
        sys.exit(2)


def _stop(_signal: int, _at: FrameType | None) -> None:
    raise KeyboardInterrupt
