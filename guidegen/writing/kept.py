"""What one build keeps for the next in the cache, as values of our own; and whether a site is as it was left."""

from __future__ import annotations

import hashlib
import importlib.metadata
import pickle
import sys
from contextlib import suppress
from pathlib import Path

from guidegen.base.errors import GuidegenError
from guidegen.writing.atomic import write_atomically
from guidegen.writing.manifest import MANIFEST, read_manifest, recalled_looks
from guidegen.writing.prepare import folders_of
from guidegen.writing.remembered import FileStat
from guidegen.writing.site_folder import STAGING, look_through

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


def program() -> str:
    """Stands for the program that is running: its own files as they look, Python, and the libraries it writes with."""
    package = Path(__file__).resolve().parent.parent
    files = []
    for file in sorted(package.rglob("*.py")):
        found = file.stat()
        files.append((file.relative_to(package).as_posix(), found.st_size, found.st_mtime_ns))
    versions = [importlib.metadata.version(name) for name in _LIBRARIES]
    return hashlib.sha256(repr((sys.version, versions, files)).encode()).hexdigest()


def load_kept(file: Path | None, made_with: str) -> object:
    """What was saved by the same program; None where there is nothing, or it was spoilt.

    Python's own format runs whatever is in it, so this is for a file in the user's own cache folder alone.
    """
    if file is None:
        return None
    try:
        data = file.read_bytes()
    except OSError:
        return None
    head, body = data[:_HEAD], data[_HEAD:]
    if head != _seal(body, made_with):
        return None
    try:
        kept: object = pickle.loads(body)  # noqa: S301 - from our own cache, and sealed
    except Exception:  # noqa: BLE001 - whatever cannot be used costs no more than doing the work again
        return None
    return kept


def save_kept(file: Path | None, made_with: str, kept: object) -> None:
    """Save for the next build. A disk that does not take it only costs that build some time."""
    if file is None:
        return
    body = pickle.dumps(kept, protocol=5)
    with suppress(OSError):
        file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        write_atomically(file, _seal(body, made_with) + body)


def _seal(body: bytes, made_with: str) -> bytes:
    return hashlib.sha256(made_with.encode() + b"\0" + body).hexdigest().encode("ascii")


def as_it_was_left(out: Path, memory: Path | None, manifest_digest: str) -> bool:
    """Whether a site holds the files of that manifest and nothing else, every one looking as it did.

    `memory` is the one that `publish` keeps. Raises nothing: what is odd is for `publish` to tell.
    """
    try:
        if not manifest_digest or (out / STAGING).exists():
            return False
        manifest = read_manifest(out)
        if manifest.digest != manifest_digest:
            return False
        known = recalled_looks(memory, manifest)
        found = look_through(out, manifest.files)
    except (OSError, GuidegenError):
        return False
    if len(known) != len(manifest.files) or found.folders != folders_of(found.files):
        return False
    looks = {path: FileStat(manifest.files[path].size, *known[path]) for path in known}
    return found.files == looks


def left_as(out: Path) -> str:
    """The hash of the manifest of the site that was just put in place; empty where there is none."""
    try:
        return hashlib.sha256((out / MANIFEST).read_bytes()).hexdigest()
    except OSError:
        return ""
