"""What lies in a site's folder: our files as they look, and whether there are any that are not ours."""

from __future__ import annotations

import os
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from guidegen.base.errors import OutputRefusedError
from guidegen.base.listed import list_of_words
from guidegen.base.paths import LEFT_ALONE_AT_TOP, OWN_PREFIX, is_litter
from guidegen.base.stamp import Stamp

# What a build has written and not yet put in place. Nothing in it ends in .html.
STAGING = ".guidegen-new"

_NAMED_AT_MOST = 5
# The stamp of what is no plain file any more where one of ours was; equal to none that a build keeps.
_ODD = Stamp(-1, 0, 0, 0)


@dataclass(slots=True)
class Found:
    """Our files by path, with how they look; every folder; and the folders with a file manager's files in them."""

    files: dict[str, Stamp] = field(default_factory=dict)
    folders: set[str] = field(default_factory=set)
    littered: set[str] = field(default_factory=set)


def look_through(out: Path, ours: Collection[str]) -> Found:
    """Every file below the folder; links are not followed. Raises OutputRefusedError if one is not in `ours`."""
    found = Found()
    others: list[str] = []
    waiting = [("", str(out))]
    while waiting:
        before, folder = waiting.pop()
        with os.scandir(folder) as entries:
            for entry in entries:
                path = before + entry.name
                if not before and left_alone(entry.name):
                    continue
                if entry.is_dir(follow_symlinks=False):
                    found.folders.add(path)
                    waiting.append((path + "/", entry.path))
                elif path in ours:
                    plain = entry.is_file(follow_symlinks=False)
                    found.files[path] = Stamp.of(entry.stat(follow_symlinks=False)) if plain else _ODD
                elif is_litter(entry.name):
                    found.littered.add(before.rstrip("/"))
                else:
                    others.append(path)
    if others:
        raise foreign(out, sorted(others), counted=True)
    return found


def left_alone(name: str) -> bool:
    """Whether something at the top of a site is no part of it and not in its way."""
    return name in LEFT_ALONE_AT_TOP or name.startswith(OWN_PREFIX) or is_litter(name)


def foreign(out: Path, others: Sequence[str], *, counted: bool = False) -> OutputRefusedError:
    """The refusal, naming up to five; `counted` says that these are all there are."""
    named = [f"“{_printable(path)}”" for path in others[:_NAMED_AT_MOST]]
    if len(others) > len(named):
        named.append("more")
    count = "a file" if len(others) == 1 else f"{len(others)} files" if counted else "files"
    return OutputRefusedError(
        f"“{out}” holds {count} that guidegen did not write: {list_of_words(named)}.",
        "Move what is yours elsewhere (content/as-is is copied into the site), or build to another folder with --out.",
    )


def _printable(path: str) -> str:
    return path.encode("utf-8", "backslashreplace").decode()
