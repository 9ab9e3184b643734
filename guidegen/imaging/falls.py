"""Signal handlers that name the photo when the library that decodes it crashes the whole process.

Photos are decoded in threads of this process, so a crash ends it. The handler runs in the thread that crashed, writes
one sentence and exits.
"""

from __future__ import annotations

import faulthandler
import os
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import cache
from threading import get_ident
from typing import NoReturn

from guidegen.base.exit_codes import FAILED

# Raised by the processor in the thread that fell. An abort is left alone: it mostly comes from the system's memory
# management with its lock held, and a handler would wait for that lock for ever.
_FALLS = ("SIGSEGV", "SIGBUS", "SIGFPE", "SIGILL")

_opened: dict[int, str] = {}


@contextmanager
def opening(name: str) -> Iterator[None]:
    """While a photo of that name is decoded by this thread."""
    _listen()
    _opened[get_ident()] = name
    try:
        yield
    finally:
        del _opened[get_ident()]


@cache
def _listen() -> Callable[[int], None] | None:
    """Install the handler once and keep it alive; None on other systems than POSIX, and where faulthandler is on."""
    if os.name != "posix" or faulthandler.is_enabled():
        return None
    import ctypes

    # Python's own handlers only make a note and return, and the fall would happen again at once.
    handler = ctypes.CFUNCTYPE(None, ctypes.c_int)(_fallen)
    system = ctypes.CDLL(None)
    for name in _FALLS:
        system.signal(int(getattr(signal, name)), handler)
    return handler


def _fallen(number: int) -> None:
    name = _opened.get(get_ident())
    if name is None:
        # Not over a photo: it falls once more, as it would have.
        signal.signal(number, signal.SIG_DFL)
        return
    _end(
        f"The library that reads photos has crashed over “{name}”.\n"
        "    Take that photo out, or open it in a picture program and save it anew as JPEG. "
        "The site is as it was.\n"
    )


def _end(words: str) -> NoReturn:
    os.write(2, words.encode("utf-8", "replace"))
    os._exit(FAILED)
