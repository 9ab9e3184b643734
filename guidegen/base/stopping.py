"""Being told to end, by Ctrl-C or SIGTERM: it is heard from the first moment on, and never lost on the way."""

from __future__ import annotations

import signal
import sys
from types import FrameType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sys import UnraisableHookArgs

# An interrupt that fell into a callback of the interpreter is raised again after so many seconds, outside of it.
AGAIN = 0.02

_SIGNALS = (signal.SIGINT, signal.SIGTERM)
_asked: list[int] = []


def listen() -> None:
    """From now on both raise KeyboardInterrupt. One that whoever started us has switched off stays so."""
    for one in _SIGNALS:
        if signal.getsignal(one) is not signal.SIG_IGN:
            signal.signal(one, stop)
    sys.unraisablehook = _hear_again


def stop(number: int, _at: FrameType | None) -> None:
    """The signals' handler."""
    _asked.append(number)
    raise KeyboardInterrupt


def was_asked() -> bool:
    """Whether the user wants it to end: libraries make all sorts of errors of an interrupt while they are imported."""
    return bool(_asked)


def deaf() -> None:
    """The work is done or left off; what comes now would only disturb the leaving."""
    for one in _SIGNALS:
        signal.signal(one, signal.SIG_IGN)


def _hear_again(lost: UnraisableHookArgs) -> None:
    """The interpreter drops what is raised in its callbacks, and prints a trace; an interrupt must not go that way."""
    if not isinstance(lost.exc_value, KeyboardInterrupt):
        sys.__unraisablehook__(lost)
        return
    import threading

    timer = threading.Timer(AGAIN, _call_again)
    timer.daemon = True
    timer.start()


def _call_again() -> None:
    import threading

    main = threading.main_thread().ident
    if hasattr(signal, "pthread_kill") and main is not None:
        # By the system, which also ends what the main thread may be waiting for.
        signal.pthread_kill(main, _asked[-1] if _asked else signal.SIGINT)
    else:
        signal.raise_signal(signal.SIGINT)
