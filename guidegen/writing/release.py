"""A new site as it is handed over to be published: its files, and what each is made from."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

from guidegen.base.paths import clashes, why_unsafe

Data = bytes | Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Artefact:
    """One file of the site.

    `path` is relative to the site, with forward slashes. `key` stands for everything that the bytes depend on (short,
    the same on every machine): while it stays the same and the file is as it was left, `data` is not asked for. An
    empty key means that nobody knows. `data` is the bytes, a file to copy, or a function that makes either; functions
    are called one at a time, and what they return is let go before the next.
    """

    path: str
    key: str
    data: Data | Callable[[], Data]

    @property
    def page(self) -> bool:
        """Whether readers open it: it may link to other pages, and must be whole at every moment."""
        return is_page(self.path)


def is_page(path: str) -> bool:
    """Pages are told by their names, so that a page of an earlier build is one too."""
    return path.casefold().endswith((".html", ".htm"))


def listed(artefacts: Iterable[Artefact], home: str) -> dict[str, Artefact]:
    """The files of a site by path, sorted.

    Raises ValueError, as for any mistake of our own, for a path that is not safe, two that cannot lie side by side,
    and a site without its home page: an author's files are looked at long before.
    """
    by_path: dict[str, Artefact] = {}
    for artefact in sorted(artefacts, key=lambda a: a.path):
        reason = why_unsafe(artefact.path)
        if reason is not None:
            raise ValueError(f"{artefact.path!r} {reason}")
        if artefact.path in by_path:
            raise ValueError(f"{artefact.path!r} is written twice")
        by_path[artefact.path] = artefact
    for first, second in clashes(by_path):
        raise ValueError(f"{first!r} and {second!r} cannot lie side by side")
    if home not in by_path or not is_page(home):
        raise ValueError(f"a site needs its home page, {home!r}")
    return by_path
