"""Standard output and error, wherever they lead: a closed pipe, a full disk, a terminal that only knows ASCII."""

from __future__ import annotations

import codecs
import io
import os
import sys
from contextlib import suppress
from typing import TYPE_CHECKING, Any, NoReturn, TextIO

from guidegen.base.exit_codes import FAILED

if TYPE_CHECKING:
    from _typeshed import ReadableBuffer

# The name of our codec error handler (see `_plainer`).
_ERRORS = "guidegen-plainer"

# What a terminal or file that cannot take a character gets instead; anything else becomes a question mark.
_PLAINER = {
    "“": '"',
    "”": '"',
    "„": '"',
    "‘": "'",
    "’": "'",
    "…": "...",
    "–": "-",
    "—": "-",
    "·": "*",
    "×": "x",
}


def restart_in_utf8() -> None:
    """Run the program anew in Python's UTF-8 mode (PEP 540) where file names could only be written in ASCII."""
    if os.name != "posix" or sys.getfilesystemencoding() != "ascii" or os.environ.get("PYTHONUTF8") == "1":
        return
    with suppress(OSError):
        os.execve(  # noqa: S606  the same program with the same arguments
            sys.executable, [sys.executable, *sys.orig_argv[1:]], {**os.environ, "PYTHONUTF8": "1"}
        )


def make_streams_safe() -> None:
    """Replace both streams so that a closed pipe or an odd character is no error, only a disk or device that fails."""
    _fill_gaps()
    codecs.register_error(_ERRORS, _plainer)
    sys.stdout = _safe(sys.stdout, 1)
    sys.stderr = _safe(sys.stderr, 2)


def leave(code: int) -> NoReturn:
    """Flush both streams and exit with `code`; with `FAILED` where the output cannot be written."""
    try:
        sys.stdout.flush()
    except OSError as error:
        code = FAILED
        with suppress(OSError):
            sys.stderr.write(f"The output cannot be written: {error.strerror}.\n")
        _to_nowhere(1)
    try:
        sys.stderr.flush()
    except OSError:
        _to_nowhere(2)
    sys.exit(code)


class _Outlet(io.RawIOBase):
    """A file number to write to. Once the reader of a pipe has gone, what is written is dropped."""

    def __init__(self, number: int) -> None:
        self._number = number

    def writable(self) -> bool:
        return True

    def fileno(self) -> int:
        return self._number

    def isatty(self) -> bool:
        return os.isatty(self._number)

    def write(self, data: ReadableBuffer, /) -> int:
        try:
            return os.write(self._number, data)
        except BrokenPipeError:
            # The command goes on to its end all the same: its exit code is about the content.
            return memoryview(data).nbytes


def _safe(stream: TextIO | None, number: int) -> TextIO:
    """A stream over the same file number that drops what a closed pipe refuses; one that is redirected stays as it is."""
    if stream is None:
        return open(os.devnull, "w", encoding="utf-8")  # noqa: PTH123  it lasts as long as the process
    if not isinstance(stream, io.TextIOWrapper) or _number_of(stream) != number:
        return stream
    errors = stream.errors if stream.encoding.replace("-", "").lower().startswith("utf8") else _ERRORS
    if os.name != "posix" or stream.isatty():
        stream.reconfigure(errors=errors)
        return stream
    stream.flush()
    # Without a buffer where none is wanted, as Python has it: PYTHONUNBUFFERED.
    outlet: Any = _Outlet(number) if stream.write_through else io.BufferedWriter(_Outlet(number))
    return io.TextIOWrapper(
        outlet,
        encoding=stream.encoding,
        errors=errors,
        line_buffering=stream.line_buffering,
        write_through=stream.write_through,
    )


def _number_of(stream: TextIO) -> int | None:
    try:
        return stream.fileno()
    except OSError:
        return None


def _fill_gaps() -> None:
    """Open what is closed of the three, so that no file of a site takes the number that libraries write messages to."""
    for number in range(3):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)


def _to_nowhere(number: int) -> None:
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, number)
    os.close(nowhere)


def _plainer(error: UnicodeError) -> tuple[str, int]:
    """Codec error handler: plainer characters for those that the encoding lacks."""
    if not isinstance(error, UnicodeEncodeError):
        raise error
    found = error.object[error.start : error.end]
    return "".join(_PLAINER.get(character, "?") for character in found), error.end
