"""What is said when guidegen itself fails, and where the details are kept."""

from __future__ import annotations

import errno
import os
import platform
import sys
import traceback
from pathlib import Path

from guidegen import __version__
from guidegen.base.activity import activity_notes
from guidegen.base.errors import GuidegenError, MachineError
from guidegen.base.own_files import PACKAGE
from guidegen.base.workers import WorkerTraceError
from guidegen.writing.crash_notes import keep_aside

# The details of the last crash, in the cache folder.
DETAILS = "last-crash.txt"

# What a machine refuses, and no programme can help. ESTALE and EDQUOT are not known everywhere.
_OF_THE_MACHINE = frozenset(
    getattr(errno, name, errno.ENOSPC)
    for name in (
        *("EACCES", "EPERM", "EROFS"),
        *("ENOSPC", "EDQUOT", "EFBIG", "ENOMEM", "EMFILE", "ENFILE"),
        *("EIO", "ENODEV", "ESTALE", "ETIMEDOUT"),
    )
)


class CrashError(GuidegenError):
    """A fault in guidegen itself, and neither in the content nor in the machine."""


def failure_of(error: Exception) -> GuidegenError:
    """What to tell of an exception that nobody expected: the machine's trouble, or a crash of ours, details kept."""
    over = activity_notes(error)
    if isinstance(error, MemoryError):
        return MachineError(
            "This machine has no memory left to go on with.",
            "\n".join((*_work(over), "End some other programs, or make the photos smaller.")),
        )
    if isinstance(error, OSError) and error.errno in _OF_THE_MACHINE:
        where = f"“{error.filename}”" if error.filename else "a file"
        return MachineError(
            f"The machine has trouble with {where}: {error.strerror}.",
            "\n".join((*_work(over), "Look to the disk and the folder, and try again.")),
        )
    lines = [
        *_work(over),
        "Nothing of yours is lost, and a site that was there before still works.",
        f"{type(error).__name__}: {_short(error)}  (guidegen {__version__}, {_place(error)})",
    ]
    kept = _kept(error, over)
    if kept is not None:
        lines.append(f"The details are in “{kept}”; please send them to whoever gave you guidegen.")
    else:
        lines.append("Set GUIDEGEN_TRACE=1 and try again to see the details.")
    if os.environ.get("GUIDEGEN_TRACE"):
        traceback.print_exception(error)
    return CrashError(
        "guidegen itself has failed. This is a fault of the tool, not of your content.", "\n".join(lines)
    )


def _work(over: tuple[str, ...]) -> list[str]:
    return [f"It was busy with {', for '.join(over)}."] if over else []


def _short(error: Exception) -> str:
    words = " ".join(str(error).split())
    return words if len(words) <= 200 else f"{words[:200]}…"


def _place(error: Exception) -> str:
    """File and line of the innermost of guidegen's own lines in the trace, '?' where there is none."""
    cause = error.__cause__
    frames = (
        cause.frames if isinstance(cause, WorkerTraceError) else traceback.extract_tb(error.__traceback__)
    )
    ours = [one for one in frames if PACKAGE in Path(one.filename).parents]
    if not ours:
        return "?"
    return f"{Path(ours[-1].filename).relative_to(PACKAGE).as_posix()}, line {ours[-1].lineno}"


def _kept(error: Exception, over: tuple[str, ...]) -> Path | None:
    """Write the whole trace into the cache folder. Its path, None where it cannot be written."""
    text = "".join(
        (
            f"guidegen {__version__}, Python {platform.python_version()}, {platform.system()}\n",
            f"{' '.join(sys.argv[1:])}\n",
            *(f"busy with {one}\n" for one in over),
            "\n",
            *traceback.format_exception(error),
        )
    )
    return keep_aside(DETAILS, text.encode(errors="backslashreplace"))
