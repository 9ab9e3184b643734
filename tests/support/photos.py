"""Photos for tests: real ones from scikit-image's wheel, painted ones, and files written by hand."""

from __future__ import annotations

import struct
import threading
import zlib
from io import BytesIO
from pathlib import Path

import numpy as np
import pillow_heif
from PIL import Image

from guidegen.base.source import Span
from guidegen.imaging.load import Loaded, decode, open_photo
from guidegen.imaging.trouble import Trouble

pillow_heif.register_heif_opener()

SPAN = Span(file="guides/ferry-watch/guide.md", line=27, column=12, end_line=27, end_column=21)

# The kinds that the site takes, by Pillow's name, with what keeps their colours close to the original's.
KINDS = {
    "JPEG": {"quality": 95, "subsampling": 0},
    "PNG": {},
    "WEBP": {"lossless": True},
    "TIFF": {},
    "AVIF": {"quality": 95, "subsampling": "4:4:4", "speed": 9},
    "HEIF": {"quality": 95, "chroma": 444},
}

RED, GREEN, BLUE, OCHRE = (200, 40, 40), (40, 160, 60), (40, 60, 190), (184, 134, 47)


def skimage_photo(name: str) -> Path:
    """A photograph that scikit-image carries: chelsea and coffee are CC0, rocket and astronaut public domain."""
    import skimage

    return Path(skimage.data_dir) / name


def corners(width: int = 64, height: int = 48) -> np.ndarray:
    """A picture of four patches, red top left, green top right, blue bottom left, ochre bottom right."""
    picture = np.empty((height, width, 3), np.uint8)
    picture[: height // 2, : width // 2] = RED
    picture[: height // 2, width // 2 :] = GREEN
    picture[height // 2 :, : width // 2] = BLUE
    picture[height // 2 :, width // 2 :] = OCHRE
    return picture


def corner_colours(image: Image.Image | np.ndarray) -> list[np.ndarray]:
    """The middle of each quarter: top left, top right, bottom left, bottom right."""
    pixels = np.asarray(image).astype(int)
    high, wide = pixels.shape[:2]
    return [pixels[high * row // 4, wide * column // 4] for row in (1, 3) for column in (1, 3)]


def flat(colour: object, size: tuple[int, int] = (64, 48), mode: str = "RGB") -> Image.Image:
    """One colour all over."""
    return Image.new(mode, size, colour)


def saved(image: Image.Image | np.ndarray, kind: str, **settings: object) -> bytes:
    """The picture as a file of a kind."""
    out = BytesIO()
    picture = Image.fromarray(image) if isinstance(image, np.ndarray) else image
    picture.save(out, kind, **{**KINDS.get(kind, {}), **settings})
    return out.getvalue()


def loaded(data: bytes, width: int | None = None) -> Loaded:
    """The photo, which must be fine."""
    found = load(data, width)
    assert isinstance(found, Loaded), found
    assert found.image.mode == "RGB"
    assert found.image.info == {}
    return found


def load(data: bytes, width: int | None = None) -> Loaded | Trouble:
    """The photo or its trouble."""
    opened = open_photo(data, width)
    return opened if isinstance(opened, Trouble) else decode(opened, width)


def png(
    width: int, height: int, *, depth: int = 8, colour: int = 2, body: bytes = b"", more: bytes = b""
) -> bytes:
    """A PNG written chunk by chunk (W3C PNG, third edition, §5); `body` is the picture before compression."""
    header = struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + png_chunk(b"IHDR", header)
        + more
        + png_chunk(b"IDAT", zlib.compress(body))
        + png_chunk(b"IEND", b"")
    )


def png_chunk(kind: bytes, data: bytes) -> bytes:
    """One chunk: length, kind, data, check sum."""
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def jpeg_segments(data: bytes) -> list[tuple[int, bytes]]:
    """The marker segments of a JPEG up to its first scan (ITU-T T.81 annex B): marker, content."""
    found, at = [], 2
    while data[at + 1] != 0xDA:
        assert data[at] == 0xFF
        length = int.from_bytes(data[at + 2 : at + 4], "big")
        found.append((data[at + 1], data[at + 4 : at + 2 + length]))
        at += 2 + length
    return found


def riff_chunks(data: bytes) -> list[bytes]:
    """The names of a WebP's chunks (RFC 9649 §2.3)."""
    assert data[:4] == b"RIFF"
    assert data[8:12] == b"WEBP"
    assert int.from_bytes(data[4:8], "little") == len(data) - 8
    found, at = [], 12
    while at < len(data):
        size = int.from_bytes(data[at + 4 : at + 8], "little")
        found.append(data[at : at + 4])
        at += 8 + size + size % 2
    return found


class Shelf:
    """A store in memory that counts what is put."""

    def __init__(self) -> None:
        self.kept: dict[str, bytes] = {}
        self.puts: list[str] = []
        self._lock = threading.Lock()

    def has(self, key: str) -> bool:
        return key in self.kept

    def get(self, key: str) -> bytes | None:
        return self.kept.get(key)

    def put(self, key: str, data: bytes) -> None:
        with self._lock:
            self.kept[key] = data
            self.puts.append(key)
