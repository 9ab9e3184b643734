"""Notes on exceptions that name the file or page that was being worked on."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from guidegen.base.errors import GuidegenError

# Begins our notes on an exception (PEP 678); those of libraries mean nothing to an author.
_OURS = "guidegen: "


@contextmanager
def busy_with(what: str) -> Iterator[None]:
    """Note `what` on any exception from the block: the path of a content file or of a page."""
    try:
        yield
    except GuidegenError:
        raise
    except Exception as error:
        error.add_note(_OURS + what)
        raise


def activity_notes(error: BaseException | None) -> tuple[str, ...]:
    """What `busy_with` noted on an exception, innermost first, without repeats; () for None."""
    notes = getattr(error, "__notes__", ())
    return tuple(dict.fromkeys(note.removeprefix(_OURS) for note in notes if note.startswith(_OURS)))
