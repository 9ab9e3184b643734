"""A new site as it is handed over to be published: its files, and what each is made from."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import dataclass
from pathlib import Path

from guidegen.base.paths import clashes, why_unsafe

Data = bytes | Path


@dataclass(frozen=True, slots=True, kw_only=True)
class Artifact:
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
        """Whether it is a page, which may link to other pages and must be whole at every moment."""
        return is_page(self.path)


def is_page(path: str) -> bool:
    """Pages are told by their names, so that a page of an earlier build is one too."""
    return path.casefold().endswith((".html", ".htm"))


def check_paths(paths: Collection[str], home: str) -> None:
    """Raise ValueError for what no build of ours should hand over: an author's files are looked at long before.

    That is a path that is not safe, two that cannot lie side by side, and a site without its home page.
    """
    for path in paths:
        reason = why_unsafe(path)
        if reason is not None:
            raise ValueError(f"{path!r} {reason}")
    for first, second in clashes(paths):
        raise ValueError(f"{first!r} and {second!r} cannot lie side by side")
    if home not in paths or not is_page(home):
        raise ValueError(f"a site needs its home page, {home!r}")
