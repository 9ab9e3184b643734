"""Keeps the details of a crash in the cache folder, for whoever looks into it later."""

from __future__ import annotations

from pathlib import Path

from guidegen.writing.atomic import write_atomically
from guidegen.writing.cache import cache_folder


def keep_aside(name: str, data: bytes) -> Path | None:
    """Write a file of that name into the user's cache folder. Its path, None where it cannot be written."""
    try:
        folder = cache_folder()
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        write_atomically(folder / name, data)
    except OSError:
        return None
    return folder / name
