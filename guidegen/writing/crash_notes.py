"""What may be looked at later, beside what the cache keeps."""

from __future__ import annotations

from pathlib import Path

from guidegen.writing.atomic import write_atomically
from guidegen.writing.cache import cache_folder


def keep_aside(name: str, data: bytes) -> Path | None:
    """Where a file of that name now lies in the user's cache folder; None where there is no room for it."""
    try:
        folder = cache_folder()
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        write_atomically(folder / name, data)
    except OSError:
        return None
    return folder / name
