"""`guidegen` and `python -m guidegen`: what stands around every command, from its first moment to its last."""

from __future__ import annotations

from typing import NoReturn

from guidegen.base.exit_codes import STOPPED
from guidegen.base.stopping import ignore_signals, install_handlers


def main() -> NoReturn:
    """Run a command and leave with its exit code; Ctrl-C and SIGTERM end it in good order, whenever they come."""
    code = STOPPED
    try:
        install_handlers()
        from guidegen.terminal.streams import make_streams_safe, restart_in_utf8

        restart_in_utf8()
        make_streams_safe()
        from guidegen.cli import run

        code = run()
        ignore_signals()
    except KeyboardInterrupt:
        ignore_signals()
        _say("Stopped. What was being written is as it was, or finished.")
    from guidegen.terminal.streams import leave

    leave(code)


def _say(words: str) -> None:
    import sys

    try:
        sys.stderr.write(f"{words}\n")
    except OSError:
        # Nobody is there to be told.
        return


if __name__ == "__main__":
    main()
