"""Ctrl-C and SIGTERM: both raise KeyboardInterrupt, also where the interpreter would drop it."""

from __future__ import annotations

import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sys import UnraisableHookArgs

# An interrupt that fell into a callback of the interpreter is raised again after so many seconds, outside of it.
AGAIN = 0.02

STOPS = (signal.SIGINT, signal.SIGTERM)
_asked: list[int] = []


def install_handlers() -> None:
    """Install the handler for both signals, except for one that the parent process has set to be ignored."""
    for one in STOPS:
        if signal.getsignal(one) is not signal.SIG_IGN:
            signal.signal(one, stop)
    sys.unraisablehook = _raise_again


def stop(number: int, _at: FrameType | None) -> None:
    """Handle one of the signals: remember it and raise KeyboardInterrupt."""
    _asked.append(number)
    raise KeyboardInterrupt


def was_asked() -> bool:
    """Whether a signal has come; then errors of libraries may be interrupts that fell into their import."""
    return bool(_asked)


def ignore_signals() -> None:
    """Ignore both signals from now on, while the program leaves."""
    for one in STOPS:
        signal.signal(one, signal.SIG_IGN)
    # Python ends itself by SIGINT, whatever the exit code, if an interrupt fell into text that was being run, as when
    # a dataclass is made, unless more text was run since (unhandled_keyboard_interrupt in CPython's pythonrun.c).
    exec("")  # noqa: S102


def leave_to_parent() -> None:
    """In a worker: Ctrl-C goes to the whole group, and it is the parent that ends its workers."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_UNBLOCK, STOPS)


def _raise_again(lost: UnraisableHookArgs) -> None:
    """sys.unraisablehook: raise an interrupt again that was raised in a callback of the interpreter."""
    if not isinstance(lost.exc_value, KeyboardInterrupt):
        sys.__unraisablehook__(lost)
        return
    import threading

    timer = threading.Timer(AGAIN, _send_again)
    timer.daemon = True
    timer.start()


def _send_again() -> None:
    """Send the last signal to the main thread once more."""
    import threading

    main = threading.main_thread().ident
    if hasattr(signal, "pthread_kill") and main is not None:
        # By the system, which also ends what the main thread may be waiting for.
        signal.pthread_kill(main, _asked[-1] if _asked else signal.SIGINT)
    else:
        signal.raise_signal(signal.SIGINT)


@contextmanager
def no_signal_between() -> Iterator[None]:
    """Hold both signals back where the system can: a fork must not hear them as its parent does."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, STOPS)
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
