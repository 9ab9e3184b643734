"""Small JSON files in the cache, one for each folder and purpose, and the SHA-256 of a file."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

from guidegen.writing.atomic import write_atomically
from guidegen.writing.plain import open_plain, read_plain

FORMAT = 2


def load_json(file: Path | None) -> dict[str, Any]:
    """What `save_json` wrote; empty where there is no file, or none that can be used."""
    if file is None:
        return {}
    try:
        saved = json.loads(read_plain(file))
    # RecursionError: hostile nesting is as useless as any other broken file.
    except (OSError, ValueError, RecursionError):
        return {}
    return saved if isinstance(saved, dict) and saved.get("format") == FORMAT else {}


def save_json(file: Path | None, memory: Mapping[str, Any]) -> None:
    """Write values that JSON can hold; a disk that does not take them is no failure."""
    if file is None:
        return
    with suppress(OSError):
        file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        text = json.dumps({"format": FORMAT, **memory}, separators=(",", ":"))
        write_atomically(file, text.encode("ascii"))


def memory_file(cache_folder: Path | None, folder: Path, what: str) -> Path | None:
    """The file in the cache for a folder, by the folder's real path, and for one purpose, `what`; None without a cache."""
    if cache_folder is None:
        return None
    place = hashlib.sha256(os.fsencode(os.path.realpath(folder))).hexdigest()[:32]
    return cache_folder / f"remembered-{FORMAT}" / f"{what}-{place}.json"


def file_hash(path: Path) -> str:
    """SHA-256 of a file's content, in hexadecimal. Raises OSError."""
    with open_plain(path) as file:
        return hashlib.file_digest(file, "sha256").hexdigest()
