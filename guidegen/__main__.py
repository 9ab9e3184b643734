"""`guidegen` and `python -m guidegen`: what stands around every command, from its first moment to its last."""

from __future__ import annotations

from typing import NoReturn

from guidegen.base.exit_codes import STOPPED
from guidegen.base.stopping import deaf, listen


def main() -> NoReturn:
    """Run a command and leave with its exit code; Ctrl-C and SIGTERM end it in good order, whenever they come."""
    code = STOPPED
    try:
        listen()
        from guidegen.terminal.streams import in_unicode, made_safe

        in_unicode()
        made_safe()
        from guidegen.cli import run

        code = run()
        deaf()
    except KeyboardInterrupt:
        deaf()
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
