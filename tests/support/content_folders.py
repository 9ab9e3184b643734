"""Content folders written as one readable text, and laid out as files for a test.

A line `» path` begins a file, which lasts until the next such line. `» path = a photo 800 × 600` draws one
(`… by Marl` names its maker in the file), and
`» path = a moving picture` and `» path = a broken photo` make what their words say. Lines before the first file are
remarks.
"""

from __future__ import annotations

import io
import re
from collections.abc import Mapping
from pathlib import Path

_FILE = re.compile(r"^» (\S+)(?: = (.+))?$")
_SIZE = re.compile(r"a photo (\d+) × (\d+)")


def files_of(text: str) -> dict[str, bytes]:
    """The files that a text describes, by path."""
    found: dict[str, bytes] = {}
    path, lines = "", []

    def keep() -> None:
        if path and path not in found:
            found[path] = "".join(lines).encode()

    for line in text.splitlines(keepends=True):
        heading = _FILE.match(line.rstrip("\n"))
        if heading is None:
            lines.append(line)
            continue
        keep()
        path, lines = heading[1], []
        if heading[2]:
            found[path] = _picture(heading[2], path)
    keep()
    return found


def lay_out(folder: Path, text: str) -> Path:
    """Write the files of a text below a folder, and return it."""
    return put(folder, files_of(text))


def put(folder: Path, files: Mapping[str, bytes]) -> Path:
    """Write files below a folder by their paths, and return it."""
    for path, data in files.items():
        file = folder / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(data)
    return folder


def bytes_of(folder: Path) -> dict[str, bytes]:
    """Every file below a folder with its bytes, to see that nothing was touched."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def _picture(words: str, path: str) -> bytes:
    from PIL import Image

    if words == "a broken photo":
        return b"\xff\xd8\xff\xe0 and then nothing that a camera wrote"
    form = {"jpg": "JPEG", "png": "PNG", "webp": "WEBP"}[path.rpartition(".")[2]]
    out = io.BytesIO()
    if words == "a moving picture":
        frames = [Image.new("RGB", (600, 400), (60, 70, 80 + 60 * step)) for step in range(2)]
        frames[0].save(out, form, save_all=True, append_images=frames[1:], duration=200)
        return out.getvalue()
    words, _, by = words.partition(" by ")
    size = _SIZE.fullmatch(words)
    if size is None:
        raise ValueError(f"no such picture: {words}")
    exif = Image.Exif()
    if by:
        exif[0x013B] = by
    Image.new("RGB", (int(size[1]), int(size[2])), (108, 115, 122)).save(out, form, exif=exif)
    return out.getvalue()
