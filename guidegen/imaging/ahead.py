"""Photos opened while the guides that show them are still being read: by their files alone, and told of by their guides."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from functools import cached_property
from pathlib import Path
from typing import Any

from guidegen.base.source import Span
from guidegen.base.workers import can_fork, meanwhile, usable_cores
from guidegen.imaging.develop import ALONE, ROOM, Developed, Original, Worked, developed_of, worked
from guidegen.imaging.limits import MAX_AT_A_TIME

# Bytes of photos that one worker opens ahead: about as long as its parent takes to read and check a few guides.
_ENOUGH = 4_000_000

Looks = Mapping[Path, Worked]


class PhotosAhead:
    """What is known of photos that were opened ahead."""

    def __init__(self, results: Callable[[], Iterable[Looks | None]] = lambda: ()) -> None:
        self._results = results

    def look_at(self, original: Original) -> Developed | None:
        """As `develop.look_at`, None for a photo that was not opened ahead. It may have to be waited for."""
        result = self._opened.get(original.path)
        return developed_of(original, result) if result is not None else None

    @cached_property
    def _opened(self) -> Looks:
        return {path: result for looks in self._results() if looks for path, result in looks.items()}


@contextmanager
def opened_ahead(sizes: Mapping[Path, int]) -> Iterator[PhotosAhead]:
    """Open the first of some photos, by the bytes of their files, on all cores but the one that goes on."""
    cores = usable_cores() - 1
    shares: list[list[Path]] = [[] for _ in range(cores)] if can_fork() else []
    room = _ENOUGH * cores
    for number, (path, size) in enumerate(sizes.items()):
        room -= size
        if not shares or room < 0:
            break
        shares[number % cores].append(path)
    with meanwhile(_looks, [tuple(share) for share in shares if share]) as results:
        yield PhotosAhead(results)


def _looks(paths: Iterable[Path]) -> Looks:
    """Runs in a worker: opens one photo after another, except those that may need more than its share of memory."""
    found = {}
    for path in paths:
        try:
            found[path] = worked(
                Original(path=path, name=path.name, span=Span.of_file(path.name)), _skip_large, keep=False
            )
        except _SkippedError:
            continue
    return found


def _skip_large(question: tuple[str, Any]) -> None:
    """Stands in for `Ask` where no parent answers: no photo is known, and one that needs much memory raises _SkippedError."""
    kind, what = question
    if kind == ALONE or (kind == ROOM and what * usable_cores() > MAX_AT_A_TIME):
        raise _SkippedError


class _SkippedError(Exception):
    """A photo that may need more than a worker's share of memory; it is opened later, where that is shared out."""
