"""What lies in the content folder, as values: which files there are, and which of them a typed path means."""

from __future__ import annotations

import posixpath
import re
import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import Enum
from types import MappingProxyType
from typing import NamedTuple

from guidegen.base.stamp import Stamp

# As many as an operating system follows before it gives up (Linux, path_resolution(7): 40).
_MOST_LINKS = 40


class Why(Enum):
    """Why a path leads to no file of the content folder."""

    ABSENT = "absent"  # no such file
    OUTSIDE = "outside"  # it leaves the content folder
    ELSEWHERE = "elsewhere"  # an address in the web


class ResolvedPath(NamedTuple):
    """What a typed path leads to: a file's path relative to content, or why there is none."""

    path: str | None
    why: Why | None = None


@dataclass(frozen=True, slots=True)
class Listing:
    """Every file of a content folder by its path relative to it, with forward slashes.

    `links` leads from a linked folder to the folder of content that it shows; `outside` are links that leave content.
    """

    files: Mapping[str, Stamp] = field(default_factory=dict)
    links: Mapping[str, str] = field(default_factory=dict)
    outside: frozenset[str] = frozenset()
    folders: Mapping[str, tuple[str, ...]] = field(init=False, repr=False, compare=False)
    composed: Mapping[str, str] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Index the files of each folder, and names with accents by their composed form."""
        folders: dict[str, list[str]] = {}
        composed: dict[str, str] = {}
        for path in sorted(self.files):
            folder, _, name = path.rpartition("/")
            folders.setdefault(folder, []).append(name)
            if not path.isascii():
                composed[unicodedata.normalize("NFC", path)] = path
        object.__setattr__(self, "folders", {key: tuple(names) for key, names in folders.items()})
        object.__setattr__(self, "composed", composed)

    def find(self, folder: str, typed: str) -> ResolvedPath:
        """The file that a path typed in a file of `folder` means; both kinds of slash and of accent will do."""
        if re.match(r"[A-Za-z][A-Za-z0-9+.-]+:", typed) or typed.startswith("//"):
            return ResolvedPath(None, Why.ELSEWHERE)
        for candidate in dict.fromkeys((typed, typed.replace("\\", "/"))):
            if candidate.startswith("/") or re.match(r"[A-Za-z]:", candidate):
                return ResolvedPath(None, Why.OUTSIDE)
            path = self._walk(f"{folder}/{candidate}" if folder else candidate)
            if path is None or path in self.outside:
                return ResolvedPath(None, Why.OUTSIDE)
            if path in self.files:
                return ResolvedPath(path)
            same = self.composed.get(unicodedata.normalize("NFC", path))
            if same is not None:
                return ResolvedPath(same)
        return ResolvedPath(None, Why.ABSENT)

    def beside(self, folder: str) -> tuple[str, ...]:
        """The names of the files in a folder."""
        return self.folders.get(folder, ())

    def _walk(self, path: str) -> str | None:
        """The path without `.` and `..` and with linked folders followed; None once it leaves content."""
        followed = 0
        done: list[str] = []
        ahead = path.split("/")[::-1]
        while ahead:
            part = ahead.pop()
            if part in {"", "."}:
                continue
            if part == "..":
                if not done:
                    return None
                done.pop()
                continue
            done.append(part)
            here = "/".join(done)
            if here in self.outside and ahead:
                return None
            if here in self.links:
                followed += 1
                if followed > _MOST_LINKS:
                    return None
                done = [piece for piece in self.links[here].split("/") if piece]
        return "/".join(done)


EMPTY = Listing(MappingProxyType({}))


def relative_to(folder: str, path: str) -> str:
    """A path as an author in `folder` would type it."""
    return posixpath.relpath(path, folder or ".")
