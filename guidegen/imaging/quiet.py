"""Keeps the TIFF library from writing about broken files straight to the terminal."""

from __future__ import annotations

from functools import cache
from pathlib import Path


@cache
def hush_libtiff() -> bool:
    """Take away its error handler (`TIFFSetErrorHandler` of libtiff), once; whether that could be done.

    Pillow has no setting for it; errors still come back as exceptions. Where the library is built into
    Pillow's own module, as on Windows, it cannot be reached; there a broken compressed TIFF is noisy.
    """
    import ctypes

    for path in _places():
        try:
            handler = ctypes.CDLL(path).TIFFSetErrorHandler
        except (OSError, AttributeError):
            continue
        handler.argtypes = [ctypes.c_void_p]
        handler.restype = ctypes.c_void_p
        handler(None)
        return True
    return False


def _places() -> list[str]:
    """Files of the library that this process has open already, or that Pillow's wheels bring along."""
    import PIL

    package = Path(PIL.__file__).parent
    brought = [*package.parent.glob("pillow.libs/libtiff*"), *package.glob(".dylibs/libtiff*")]
    # One that is not open would be another copy, and hushed in vain.
    return sorted(_opened()) or [str(path) for path in sorted(brought)]


def _opened() -> set[str]:
    """The files of the library that this process has open, where the system tells (Linux)."""
    try:
        lines = Path("/proc/self/maps").read_text("utf-8", "surrogateescape").splitlines()
    except OSError:
        return set()
    fields = (line.split(None, 5) for line in lines)
    return {parts[5] for parts in fields if len(parts) == 6 and "libtiff" in parts[5]}
