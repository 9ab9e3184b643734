"""The site's icon in pixels, for home screens that take no drawing: that of `templates/icon.svg`, filled to the edge."""

from __future__ import annotations

import struct
import zlib

# Its sides are whole multiples of the drawing's, so that no edge falls between two pixels.
DRAWN = 32
SIDES = (192, 512)

# As in the drawing; the last is its red, half over the ground.
GROUND = 0xF3F4F0
_COLOURS = (GROUND, 0x14201E, 0xB23A1E, 0xD39787)
# Left, top, right and bottom of each bar, and its colour.
_BARS = ((8, 4, 14, 28, 1), (17, 4, 20, 20, 2), (23, 10, 26, 24, 3))


def icon_png(side: int) -> bytes:
    """A PNG (W3C, Portable Network Graphics, third edition) of that side, with a palette of two bits a pixel."""
    scale = side // DRAWN
    rows = []
    for y in range(DRAWN):
        pixels = [_colour_at(x, y) for x in range(DRAWN)]
        wide = [colour for colour in pixels for _ in range(scale)]
        packed = (
            wide[at] << 6 | wide[at + 1] << 4 | wide[at + 2] << 2 | wide[at + 3] for at in range(0, side, 4)
        )
        rows.append((b"\0" + bytes(packed)) * scale)
    palette = b"".join(colour.to_bytes(3, "big") for colour in _COLOURS)
    return (
        b"\x89PNG\r\n\x1a\n"
        + _chunk(b"IHDR", struct.pack(">IIBBBBB", side, side, 2, 3, 0, 0, 0))
        + _chunk(b"PLTE", palette)
        + _chunk(b"IDAT", zlib.compress(b"".join(rows), 9))
        + _chunk(b"IEND", b"")
    )


def _chunk(name: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


def _colour_at(x: int, y: int) -> int:
    """The number of the colour that the drawing has at a place."""
    bars = (colour for left, top, right, bottom, colour in _BARS if left <= x < right and top <= y < bottom)
    return next(bars, 0)
