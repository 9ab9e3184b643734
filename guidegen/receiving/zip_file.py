"""A ZIP from anywhere: its names in whatever letters they were packed, nothing unpacked beyond the bounds."""

from __future__ import annotations

import stat
import struct
import zipfile
import zlib
from collections.abc import Iterator
from pathlib import Path

from guidegen.base.errors import GuidegenError
from guidegen.receiving.material import MOST_FILES, Unpacker, tidy

_CHUNK = 1 << 20
# The end of central directory record with its longest comment: PKWARE, APPNOTE.TXT 6.3.10, §4.3.16.
_END = struct.Struct("<4s4H2LH")
_LONGEST_END = _END.size + 65_535
# A name and its extra field take up some hundred bytes of the directory.
_LARGEST_DIRECTORY = MOST_FILES * 1_000
# Both need no more memory than a window of 32 kB: RFC 1951.
_METHODS = frozenset({zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED})
# §4.4.4: bit 0 says that a file is encrypted, bit 11 that its name is UTF-8.
_ENCRYPTED, _UTF_8 = 0x1, 0x800
# §4.6.9: the extra field with a file's name in UTF-8, and the checksum of the name that it goes with.
_UNICODE_PATH = 0x7075


def is_zip(start: bytes) -> bool:
    """Whether a file is a ZIP, by its first bytes."""
    return start.startswith((b"PK\x03\x04", b"PK\x05\x06"))


def unzip(path: Path, unpacker: Unpacker) -> None:
    """Lay down what lies in a ZIP. Raises GuidegenError where it is broken as a whole, or has too many files."""
    _check_directory(path)
    try:
        with zipfile.ZipFile(path) as archive:
            for entry in archive.infolist():
                _unpack(archive, entry, unpacker)
    except (zipfile.BadZipFile, struct.error, ValueError) as error:
        raise GuidegenError(
            f"“{path.name}” is no ZIP that can be opened.", "Ask for it once more."
        ) from error


def _check_directory(path: Path) -> None:
    """Refuse a directory of millions of names before it is read."""
    with path.open("rb") as file:
        size = file.seek(0, 2)
        file.seek(max(0, size - _LONGEST_END))
        tail = file.read()
    at = tail.rfind(b"PK\x05\x06")
    if at < 0 or len(tail) - at < _END.size:
        raise GuidegenError(f"“{path.name}” breaks off before its end.", "Ask for it once more.")
    _, _, _, _, entries, directory, _, _ = _END.unpack_from(tail, at)
    if entries > MOST_FILES or directory > _LARGEST_DIRECTORY:
        raise GuidegenError(
            f"“{path.name}” has more than {MOST_FILES:,} files in it.", "Ask for one guide at a time."
        )


def _unpack(archive: zipfile.ZipFile, entry: zipfile.ZipInfo, unpacker: Unpacker) -> None:
    name = tidy(_name(entry))
    if entry.is_dir() or name.endswith("/") or not name:
        return
    if not unpacker.takes(name):
        return
    kind = stat.S_IFMT(entry.external_attr >> 16)
    leave = unpacker.unpacked.leave
    if kind and not stat.S_ISREG(kind):
        leave(name, "is a link" if stat.S_ISLNK(kind) else "is no ordinary file")
    elif entry.flag_bits & _ENCRYPTED:
        leave(name, "is locked with a password")
    elif entry.compress_type not in _METHODS:
        leave(name, "is packed in a way that not every machine can open; an ordinary ZIP will do")
    else:
        try:
            unpacker.lay_down(name, _chunks(archive, entry))
        except (zipfile.BadZipFile, zlib.error, EOFError, RuntimeError, NotImplementedError):
            leave(name, "is broken in this ZIP")


def _chunks(archive: zipfile.ZipFile, entry: zipfile.ZipInfo) -> Iterator[bytes]:
    with archive.open(entry) as file:
        while chunk := file.read(_CHUNK):
            yield chunk


def _name(entry: zipfile.ZipInfo) -> str:
    """The name as it was meant: UTF-8 where that is said or is so, else the letters of the first PCs (§D.1)."""
    if entry.flag_bits & _UTF_8:
        return entry.filename
    raw = entry.orig_filename.encode("cp437", "replace")
    said = _unicode_path(entry.extra, raw)
    if said is not None:
        return said
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError:
        return entry.orig_filename.replace("\0", "")


def _unicode_path(extra: bytes, raw: bytes) -> str | None:
    at = 0
    while at + 4 <= len(extra):
        key, size = struct.unpack_from("<HH", extra, at)
        data = extra[at + 4 : at + 4 + size]
        if key == _UNICODE_PATH and len(data) > 5 and data[0] == 1:
            try:
                name = data[5:].decode("utf-8")
            except UnicodeDecodeError:
                return None
            return name if struct.unpack_from("<L", data, 1)[0] == zlib.crc32(raw) else None
        at += 4 + size
    return None
