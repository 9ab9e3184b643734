"""What one build keeps for the next in the cache, as values of our own; and whether a site is as it was left."""

from __future__ import annotations

import hashlib
import os
import stat
import sys
from functools import cache
from pathlib import Path

from guidegen.base.own_files import PACKAGE
from guidegen.base.stamp import Stamp
from guidegen.writing.atomic import write_atomically
from guidegen.writing.plain import open_plain
from guidegen.writing.records import Records

# What a page's bytes hang on besides our own code.
_LIBRARIES = (
    "jinja2",
    "markdown-it-py",
    "mdit-py-plugins",
    "numpy",
    "pillow",
    "pillow-heif",
    "pyyaml",
    "icalendar",
)
_HEAD = 64
# A thousand guides come to twenty megabytes; beyond this it would be quicker to do the work again.
LARGEST_KEPT = 400_000_000


@cache
def program() -> str:
    """Stands for the program that is running: its own files as they looked at first, Python, and the libraries it
    writes with.
    """
    import importlib.metadata  # it brings a mail reader and more with it

    files = [
        (file.relative_to(PACKAGE).as_posix(), *Stamp.of(file.stat()))
        for file in sorted(path for ending in ("py", "toml", "txt") for path in PACKAGE.rglob(f"*.{ending}"))
    ]
    versions = [importlib.metadata.version(name) for name in _LIBRARIES]
    return hashlib.sha256(repr((sys.version, versions, files)).encode()).hexdigest()


def load_kept(file: Path | None, made_with: str, records: Records) -> object:
    """What the same program saved under that name; None for nothing, and what was spoilt or may be somebody else's."""
    data = _own_bytes(file) if file is not None else b""
    head, body = data[:_HEAD], memoryview(data)[_HEAD:]
    if file is None or head != _seal(body, file.name, made_with):
        return None
    try:
        return records.load(body)
    except Exception:  # noqa: BLE001 - whatever cannot be used costs no more than doing the work again
        return None


def save_kept(file: Path | None, made_with: str, kept: object, records: Records) -> OSError | None:
    """Save for the next build; what kept it from that, if anything did, which only costs that build some time."""
    if file is None:
        return None
    body = records.dump(kept)
    if _HEAD + len(body) > LARGEST_KEPT:
        return None
    try:
        file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        # One after the other: side by side they would be a copy of what can be as large as all that was read.
        write_atomically(file, _seal(body, file.name, made_with), body)
        # Whoever else could write to it would have a say in what the next build takes for granted.
        file.chmod(0o600)
    except OSError as error:
        return error
    return None


def _own_bytes(file: Path) -> bytes:
    """What is in a plain file that belongs to this user and that nobody else can write to; else nothing."""
    try:
        with open_plain(file) as kept:
            look = os.fstat(kept.fileno())
            if look.st_size > LARGEST_KEPT or not _is_ours_alone(look):
                return b""
            return kept.read(look.st_size)
    except OSError:
        return b""


def _is_ours_alone(look: os.stat_result) -> bool:
    if sys.platform == "win32":  # there the user's folders are closed to others
        return True
    return look.st_uid == os.geteuid() and not look.st_mode & (stat.S_IWGRP | stat.S_IWOTH)


def _seal(body: bytes | memoryview, name: str, made_with: str) -> bytes:
    made_of = hashlib.sha256(f"{made_with}\0{name}\0".encode())
    made_of.update(body)
    return made_of.hexdigest().encode("ascii")
