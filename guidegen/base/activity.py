"""What is being worked at, so that a failure of the tool can name it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from guidegen.base.errors import GuidegenError

# Begins our notes on an exception (PEP 678); those of libraries mean nothing to an author.
_OURS = "guidegen: "


@contextmanager
def busy_with(what: str) -> Iterator[None]:
    """Whatever fails in here failed over that: a file of the author's by its path in content, or a page by its own."""
    try:
        yield
    except GuidegenError:
        raise
    except Exception as error:
        error.add_note(_OURS + what)
        raise


def busy_when(error: BaseException | None) -> tuple[str, ...]:
    """What was being worked at when it failed, the nearest first, each once."""
    notes = getattr(error, "__notes__", ())
    return tuple(dict.fromkeys(note.removeprefix(_OURS) for note in notes if note.startswith(_OURS)))
