"""What is known of files from their last look, so that an unchanged file is not read again."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, NamedTuple

from guidegen.writing.atomic import write_atomically

FORMAT = 1

# A file changed within one tick of its file system's clock after it was read looks unchanged. The coarsest clock in
# use ticks every two seconds (FAT: Microsoft, "File Times").
TICK_NS = 2_000_000_000


_NUMBERED = os.name != "nt"


class FileStat(NamedTuple):
    """How a file looks from outside: bytes, time of the last change in nanoseconds, number on its disk."""

    size: int
    mtime_ns: int
    inode: int

    @classmethod
    def of(cls, found: os.stat_result) -> FileStat:
        """From what the system says. Windows gives no number when it lists a folder, so there none counts."""
        return cls(found.st_size, found.st_mtime_ns, found.st_ino if _NUMBERED else 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Remembered:
    """Files as they were at the last build: how each looked and the hash of its content.

    `looked_at` is the time, in nanoseconds, just before they were looked at.
    """

    looked_at: int = 0
    files: Mapping[str, tuple[FileStat, str]] = field(default_factory=dict)

    def hash_of(self, path: str, stat: FileStat) -> str | None:
        """The content's hash if the file looks as it did, and had settled by then; None if it has to be read."""
        known = self.files.get(path)
        if known is None or known[0] != stat or stat.mtime_ns > self.looked_at - TICK_NS:
            return None
        return known[1]


def fingerprints(
    stats: Mapping[str, FileStat],
    remembered: Remembered,
    hash_of: Callable[[str], str | None],
    *,
    now: int,
) -> tuple[dict[str, str], Remembered]:
    """The content hash of each file, and what to remember for the next build.

    `stats` says how each file looks, `now` is the time in nanoseconds before they were looked at. Only a file that
    looks different, or that changed within two seconds of the last look, is given to `hash_of`; one for which that
    returns None (it has vanished since) is left out.
    """
    hashes: dict[str, str] = {}
    for path, stat in stats.items():
        digest = remembered.hash_of(path, stat) or hash_of(path)
        if digest is not None:
            hashes[path] = digest
    return hashes, Remembered(looked_at=now, files={path: (stats[path], hashes[path]) for path in hashes})


def load(file: Path | None) -> Remembered:
    """What was saved; nothing if there is no such file, or it is broken or of another format."""
    saved = load_json(file)
    try:
        return Remembered(
            looked_at=int(saved["looked_at"]),
            files={
                path: (FileStat(size, mtime_ns, inode), digest)
                for path, (size, mtime_ns, inode, digest) in saved["files"].items()
            },
        )
    except (KeyError, TypeError, ValueError, AttributeError):
        return Remembered()


def save(file: Path | None, remembered: Remembered) -> None:
    """Save for the next build. A disk that does not take it only costs that build some time."""
    files = {path: [*stat, digest] for path, (stat, digest) in remembered.files.items()}
    save_json(file, {"looked_at": remembered.looked_at, "files": files})


def load_json(file: Path | None) -> dict[str, Any]:
    """A small memory of ours; empty where there is none that can be used."""
    if file is None:
        return {}
    try:
        saved = json.loads(file.read_bytes())
    # RecursionError: hostile nesting is as useless as any other broken file.
    except (OSError, ValueError, RecursionError):
        return {}
    return saved if isinstance(saved, dict) and saved.get("format") == FORMAT else {}


def save_json(file: Path | None, memory: Mapping[str, Any]) -> None:
    """Keep a small memory; a disk that does not take it is no failure."""
    if file is None:
        return
    with suppress(OSError):
        file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        text = json.dumps({"format": FORMAT, **memory}, separators=(",", ":"))
        write_atomically(file, text.encode("ascii"))


def memory_file(cache_folder: Path | None, folder: Path, what: str) -> Path | None:
    """Where the memory of a folder (`what`: `inputs`, `site`) is kept, by the folder's real place."""
    if cache_folder is None:
        return None
    place = hashlib.sha256(os.fsencode(os.path.realpath(folder))).hexdigest()[:32]
    return cache_folder / f"remembered-{FORMAT}" / f"{what}-{place}.json"


def file_hash(path: Path) -> str:
    """SHA-256 of a file's content, in hexadecimal. Raises OSError."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()
