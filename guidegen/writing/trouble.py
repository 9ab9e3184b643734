"""What a painter is told when the machine will not read or write a file."""

from __future__ import annotations

import errno
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from guidegen.base.errors import GuidegenError, MachineError

# What the site is like after a failure: before, and after, the first page was exchanged.
UNTOUCHED = "The site is as it was."
HALF_WAY = "Every page in it is whole, but some may still be the old ones."

_FULL = {errno.ENOSPC, errno.EDQUOT}
_FORBIDDEN = {errno.EACCES, errno.EPERM}


@contextmanager
def writing(place: Path | str, help_line: str = "") -> Iterator[None]:
    """Turn an OSError about an author's file into a sentence: GuidegenError if it is there already, else MachineError.

    `place` is the file as the author knows it: an OSError may name our unfinished one beside it.
    """
    try:
        yield
    except FileExistsError as error:
        there = error.filename2 or error.filename or place
        raise GuidegenError(f"“{there}” is there already, and nothing is overwritten.") from error
    except OSError as error:
        raise MachineError(f"“{place}” cannot be written: {error.strerror}.", help_line) from error


@contextmanager
def told_plainly(out: Path, state: str) -> Iterator[None]:
    """Turn an OSError into a MachineError about the site; `state` is a sentence on what the site is like now."""
    try:
        yield
    except OSError as error:
        raise writing_trouble(error, out, state) from error


def writing_trouble(error: OSError, out: Path, state: str) -> MachineError:
    """The sentence and the help for a file of the site that could not be written, moved or removed."""
    where = error.filename2 or error.filename or out
    # Our own unfinished files mean nothing to anybody; the folder they lie in does.
    place = out if str(where).startswith(str(out)) and "/.guidegen-" in Path(str(where)).as_posix() else where
    if error.errno in _FULL:
        return MachineError(
            f"The disk is full, so “{out}” could not be written. {state}", "Make room on it and build again."
        )
    if error.errno == errno.EROFS:
        return MachineError(
            f"“{out}” lies on a disk that can only be read. {state}", "Build to another folder with --out."
        )
    if error.errno in _FORBIDDEN:
        return MachineError(
            f"guidegen is not allowed to write to “{place}”. {state}",
            "Change who may write there, or build to another folder with --out.",
        )
    if error.errno == errno.ENAMETOOLONG:
        return MachineError(
            f"The name “{place}” is too long for this disk. {state}",
            "Give the guide or the file a shorter name.",
        )
    reason = error.strerror or type(error).__name__
    return MachineError(
        f"“{place}” could not be written: {reason}. {state}",
        "Look to the disk and the folder, and build again.",
    )


def reading_trouble(error: OSError, path: Path) -> MachineError:
    """The sentence and the help for a file that was there a moment ago and has to go into the site."""
    if isinstance(error, FileNotFoundError):
        return MachineError(f"“{path}” went away while the site was being built.", "Build again.")
    reason = error.strerror or type(error).__name__
    return MachineError(f"“{path}” could not be read: {reason}.", "See that it can be read, and build again.")
