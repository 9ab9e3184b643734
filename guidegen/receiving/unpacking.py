"""Opening what a member gave: a folder, a ZIP, a file that was sent, and files that were sent within the first two."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from pathlib import Path

from guidegen.base.errors import GuidegenError, MachineError
from guidegen.receiving.material import Unpacked, Unpacker, tidy, why_not
from guidegen.receiving.sent_file import files_of, is_sent
from guidegen.receiving.zip_file import is_zip, unzip

_CHUNK = 1 << 20
_LOOKED_AT = 4_096
# A guide with a hundred photos in it.
LARGEST_SENT = 200_000_000
# Pages that were sent, in one folder or ZIP.
_MOST_SENT = 100


def unpack(path: Path, scratch: Path) -> tuple[Unpacked, ...]:
    """What there is of a member's material, each page that was sent by itself.

    Raises GuidegenError where it is nothing that can be opened.
    """
    name = path.resolve().name
    if path.is_dir():
        return _with_sent(_folder(path, _unpacker(name, scratch)), scratch)
    try:
        with path.open("rb") as file:
            start = file.read(_LOOKED_AT)
    except OSError as error:
        raise MachineError(
            f"“{path}” cannot be opened: {error.strerror}.", "Look at who may read it."
        ) from error
    stem = name.rpartition(".")[0] or name
    unpacker = _unpacker(stem, scratch)
    if is_zip(start):
        unzip(path, unpacker)
        return _with_sent(unpacker.unpacked, scratch)
    if is_sent(start):
        return (_sent(path, unpacker),)
    raise GuidegenError(
        f"“{path}” is no folder, no ZIP, and no file made by guidegen send.",
        "Give the member's content folder, the folder of one guide, a ZIP of either, or a file that was sent.",
    )


def _unpacker(name: str, scratch: Path) -> Unpacker:
    folder = scratch / f"came-{sum(1 for _ in scratch.iterdir())}"
    folder.mkdir()
    return Unpacker(name, folder)


def _folder(path: Path, unpacker: Unpacker) -> Unpacked:
    """The files of a folder, copied, so that nothing changes them meanwhile. No link is followed."""
    ahead = [""]
    while ahead:
        folder = ahead.pop()
        try:
            entries = sorted(os.scandir(path / folder), key=lambda entry: entry.name)
        except OSError as error:
            unpacker.unpacked.leave(f"{folder}/", f"cannot be opened: {error.strerror}")
            continue
        for entry in entries:
            name = f"{folder}/{entry.name}" if folder else entry.name
            if entry.is_dir(follow_symlinks=False):
                reason = why_not(tidy(name))
                if reason is None:
                    ahead.append(name)
                else:
                    unpacker.unpacked.leave(f"{tidy(name)}/", reason)
            elif unpacker.takes(tidy(name)):
                _copy(path / name, tidy(name), unpacker)
    return unpacker.unpacked


def _copy(file: Path, name: str, unpacker: Unpacker) -> None:
    status = file.lstat()
    if stat.S_ISLNK(status.st_mode):
        unpacker.unpacked.leave(name, "is a link")
    elif not stat.S_ISREG(status.st_mode):
        unpacker.unpacked.leave(name, "is no ordinary file")
    else:
        try:
            unpacker.lay_down(name, _chunks(file))
        except OSError as error:
            unpacker.unpacked.leave(name, f"cannot be opened: {error.strerror}")


def _chunks(path: Path) -> Iterator[bytes]:
    # Neither followed nor waited for, should it have become a link or a pipe meanwhile.
    ways = (getattr(os, way, 0) for way in ("O_NONBLOCK", "O_NOFOLLOW", "O_BINARY"))
    with os.fdopen(os.open(path, os.O_RDONLY | sum(ways)), "rb") as file:
        while chunk := file.read(_CHUNK):
            yield chunk


def _with_sent(unpacked: Unpacked, scratch: Path) -> tuple[Unpacked, ...]:
    """The material, and each page that was sent and lies in it as material of its own."""
    several = [unpacked]
    for name, place in list(unpacked.files.items()):
        if not name.casefold().endswith((".html", ".htm")) or len(several) > _MOST_SENT:
            continue
        with place.open("rb") as file:
            start = file.read(_LOOKED_AT)
        if is_sent(start):
            del unpacked.files[name]
            several.append(_sent(place, _unpacker(name.rpartition("/")[2].rpartition(".")[0], scratch), name))
    return tuple(several)


def _sent(path: Path, unpacker: Unpacker, name: str = "") -> Unpacked:
    name = name or path.name
    if path.stat().st_size > LARGEST_SENT:
        unpacker.unpacked.leave(name, f"is larger than {LARGEST_SENT // 1_000_000} MB")
        return unpacker.unpacked
    found = files_of(path.read_bytes())
    if found is None:
        unpacker.unpacked.leave(name, "does not hold what it was made from; let it be sent once more")
        return unpacker.unpacked
    for file, data in found.items():
        if unpacker.takes(tidy(file)):
            unpacker.lay_down(tidy(file), iter((data,)))
    return unpacker.unpacked
