"""ICC profiles written byte by byte from published numbers (ICC.1:2022), to try the conversion of colours with."""

from __future__ import annotations

import itertools
import struct

import numpy as np

# Chromaticities of red, green and blue. sRGB: IEC 61966-2-1; P3: SMPTE EG 432-1; Adobe RGB (1998) Color Image Encoding, May 2005;
# Rec. ITU-R BT.2020. White is D65 in all.
PRIMARIES = {
    "sRGB": ((0.64, 0.33), (0.30, 0.60), (0.15, 0.06)),
    "Display P3": ((0.680, 0.320), (0.265, 0.690), (0.150, 0.060)),
    "Adobe RGB (1998)": ((0.64, 0.33), (0.21, 0.71), (0.15, 0.06)),
    "ITU-R BT.2020": ((0.708, 0.292), (0.170, 0.797), (0.131, 0.046)),
}
WHITE = (0.3127, 0.3290)
D50 = np.array([0.9642, 1.0, 0.8249])  # ICC.1:2022 §7.2.16
BRADFORD = np.array([[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]])


def _fixed(values: object) -> bytes:
    return b"".join(struct.pack(">i", round(float(v) * 65536)) for v in np.ravel(values))


def _words(tag: bytes) -> bytes:
    """A version 2 text description with nothing in it but a name."""
    if tag == b"cprt":
        return b"text\0\0\0\0none\0"
    return b"desc\0\0\0\0" + struct.pack(">I", 5) + b"test\0" + b"\0" * (4 + 4 + 2 + 1 + 67)


def _profile(kind: bytes, space: bytes, connection: bytes, tags: dict[bytes, bytes]) -> bytes:
    tags = {
        b"desc": _words(b"desc"),
        b"cprt": _words(b"cprt"),
        b"wtpt": b"XYZ \0\0\0\0" + _fixed(D50),
        **tags,
    }
    table, body, at = b"", b"", 132 + 12 * len(tags)
    for name, data in tags.items():
        padded = data + b"\0" * (-len(data) % 4)
        table += name + struct.pack(">II", at + len(body), len(data))
        body += padded
    header = (
        struct.pack(">I", at + len(body)) + b"\0\0\0\0\x02\x40\0\0" + kind + space + connection + b"\0" * 12
    )
    header += b"acsp" + b"\0" * 28 + _fixed(D50)
    return header.ljust(128, b"\0") + struct.pack(">I", len(tags)) + table + body


def _white_xyz() -> np.ndarray:
    x, y = WHITE
    return np.array([x / y, 1, (1 - x - y) / y])


def rgb_profile(name: str, gamma: float | None = None, black: float = 0) -> bytes:
    """A display profile of one of PRIMARIES, with the sRGB curve in 1,024 points, or a plain exponent.

    `black` is the share of white's light that its black still gives.
    """
    columns = np.array([[x / y, 1, (1 - x - y) / y] for x, y in PRIMARIES[name]]).T
    columns = columns * np.linalg.solve(columns, _white_xyz())
    cone = np.diag((BRADFORD @ D50) / (BRADFORD @ _white_xyz()))
    columns = np.linalg.inv(BRADFORD) @ cone @ BRADFORD @ columns
    tags = {
        name: b"XYZ \0\0\0\0" + _fixed(columns[:, i]) for i, name in enumerate((b"rXYZ", b"gXYZ", b"bXYZ"))
    }
    tags |= dict.fromkeys((b"rTRC", b"gTRC", b"bTRC"), _curve(gamma, black))
    return _profile(b"mntr", b"RGB ", b"XYZ ", tags)


def grey_profile(gamma: float) -> bytes:
    """A display profile of one channel with a plain exponent."""
    return _profile(b"mntr", b"GRAY", b"XYZ ", {b"kTRC": _curve(gamma)})


def _curve(gamma: float | None, black: float = 0) -> bytes:
    if gamma is not None:
        return b"curv\0\0\0\0" + struct.pack(">IH", 1, round(gamma * 256))
    v = np.linspace(0, 1, 1024)
    linear = np.where(v <= 0.04045, v / 12.92, ((v + 0.055) / 1.055) ** 2.4)  # IEC 61966-2-1
    return (
        b"curv\0\0\0\0"
        + struct.pack(">I", 1024)
        + np.round((black + (1 - black) * linear) * 65535).astype(">u2").tobytes()
    )


def press_lab(cmyk: tuple[float, float, float, float]) -> np.ndarray:
    """An invented press: the CIELAB D50 colour of inks from 0 to 1 at the corners, every overprint of them.

    Black ink alone reaches L* 0, as does every overprint with it.
    """
    c, m, y, k = cmyk
    light = 100 - 45 * c - 50 * m - 8 * y
    lab = np.array([light, -34 * c + 70 * m - 5 * y, -48 * c - 4 * m + 90 * y])
    return np.array([0.0, 0.0, 0.0]) if k == 1 else np.maximum(lab, [5, -128, -128])


def press_profile() -> bytes:
    """A printer profile of that press: a table of the 16 corners (lut8Type, ICC.1:2022 §10.11).

    Its paper is yellowish, and its perceptual table holds other colours than the colorimetric one.
    """
    identity = bytes(range(256))
    grid = b""
    for inks in itertools.product((0, 1), repeat=4):
        light, a, b = press_lab(inks)
        grid += bytes((round(light * 2.55), round(a) + 128, round(b) + 128))
    start = b"mft1\0\0\0\0" + bytes((4, 3, 2, 0)) + _fixed(np.eye(3)) + identity * 4
    tags = {
        b"A2B0": start + bytes((128, 128, 128)) * 16 + identity * 3,
        b"A2B1": start + grid + identity * 3,
        b"wtpt": b"XYZ \0\0\0\0" + _fixed((0.80, 0.83, 0.55)),
    }
    return _profile(b"prtr", b"CMYK", b"Lab ", tags)
