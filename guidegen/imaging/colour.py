"""From the colours a photo was saved in to sRGB, by its ICC profile or by what else it says of itself."""

from __future__ import annotations

import struct
from collections.abc import Sequence
from functools import lru_cache
from io import BytesIO
from typing import TYPE_CHECKING

from guidegen.imaging.limits import MAX_PROFILE

if TYPE_CHECKING:
    from PIL import Image, ImageCms

# Chromaticities x, y of red, green and blue; white is D65 (0.3127, 0.3290) for all of them.
# ITU-T H.273 (2021) table 2: 9 is Rec. ITU-R BT.2020, 12 is SMPTE EG 432-1 (P3 with D65, "Display P3").
_H273_PRIMARIES = {
    9: ((0.708, 0.292), (0.170, 0.797), (0.131, 0.046)),
    12: ((0.680, 0.320), (0.265, 0.690), (0.150, 0.060)),
}
# ITU-T H.273 table 3: BT.709, unspecified, BT.601, sRGB and the two of BT.2020. High dynamic range curves (16,
# 18) are left out: they would need tone mapping, and phones write such photos with an ordinary base picture.
_ORDINARY_CURVES = frozenset((1, 2, 6, 13, 14, 15))

# Adobe RGB (1998) Color Image Encoding, May 2005: primaries, and the exponent 2 + 51/256.
_ADOBE_PRIMARIES = ((0.64, 0.33), (0.21, 0.71), (0.15, 0.06))
_ADOBE_CURVE = struct.pack(">4sIIH", b"curv", 0, 1, 0x0233) + b"\0\0"

# IEC 61966-2-1 as an ICC parametric curve of type 3 (ICC.1:2022 §10.18): g, a, b, c, d.
_SRGB_CURVE = struct.pack(">4sIHH5i", b"para", 0, 3, 0, *(round(v * 65536) for v in (
    2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045,
)))  # fmt: skip

_D65 = (0.3127, 0.3290)
_D50 = (0.9642, 1.0, 0.8249)  # the profile connection space's white, ICC.1:2022 §7.2.16
_BRADFORD = ((0.8951, 0.2664, -0.1614), (-0.7502, 1.7135, 0.0367), (0.0389, -0.0685, 1.0296))

# Colour spaces of ICC profiles (ICC.1:2022 table 19) by the Pillow mode whose pixels they describe.
_SPACES = {b"RGB ": "RGB", b"GRAY": "L", b"CMYK": "CMYK"}


def to_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """The image, mode L, RGB or CMYK, as RGB in sRGB. A profile that does not fit it or is broken is passed over.

    Media-relative colorimetric with black point compensation (ISO 18619): colours that sRGB can show keep
    their exact values (ICC.1:2022, "Rendering intents"), which a paint's colour read from a photo depends on;
    the perceptual intent may move all of them. Without a profile the image is taken for sRGB, as browsers do;
    CMYK then has only the plain complement.
    """
    if profile and len(profile) <= MAX_PROFILE:
        mode = _SPACES.get(profile[16:20], "")
        if mode == "RGB" and image.mode == "L":
            image = image.convert("RGB")
        if mode == image.mode:
            usable, transform = _transform(profile, mode)
            if transform is not None:
                converted = transform.apply(image)
                converted.info.clear()
                return converted
            if usable:
                return image
    return image if image.mode == "RGB" else image.convert("RGB")


@lru_cache(maxsize=8)
def _transform(profile: bytes, mode: str) -> tuple[bool, ImageCms.ImageCmsTransform | None]:
    """Whether the profile can be used, and its way to sRGB: None where that would change nothing.

    Cameras embed many forms of sRGB itself. Not converting those saves about 25 ms a photo, and the
    rounding. The little picture tried out holds every grey and the corners and edges of the colour cube.
    """
    from PIL import Image, ImageChops, ImageCms

    try:
        transform = ImageCms.buildTransform(
            ImageCms.ImageCmsProfile(BytesIO(profile)),
            ImageCms.createProfile("sRGB"),
            mode,
            "RGB",
            renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC,
            flags=ImageCms.Flags.BLACKPOINTCOMPENSATION,
        )
    except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
        return False, None
    if mode == "RGB":
        ramps = (bytes((v & r, v & g, v & b)) for v in range(256) for r, g, b in _CORNERS)
        tried = Image.frombytes("RGB", (len(_CORNERS), 256), b"".join(ramps))
        apart = ImageChops.difference(tried, transform.apply(tried))
        if max(apart.tobytes()) <= 1:
            return True, None
    return True, transform


_CORNERS = tuple((r, g, b) for r in (0, 255) for g in (0, 255) for b in (0, 255))


def named_profile(primaries: int, curve: int) -> bytes | None:
    """The ICC profile for the numbers of ITU-T H.273, None where they mean sRGB or nothing we convert."""
    if primaries not in _H273_PRIMARIES or curve not in _ORDINARY_CURVES:
        return None
    return _matrix_profile(_H273_PRIMARIES[primaries], _SRGB_CURVE)


def adobe_rgb_profile() -> bytes:
    """Adobe RGB (1998), for photos that say they are in it without carrying a profile."""
    return _matrix_profile(_ADOBE_PRIMARIES, _ADOBE_CURVE)


@lru_cache(maxsize=4)
def _matrix_profile(primaries: tuple[tuple[float, float], ...], curve: bytes) -> bytes:
    """A display profile of three primaries and one curve (ICC.1:2022 §8.3.3 and §9), white D65."""
    import numpy as np

    def xyz(x: float, y: float) -> tuple[float, float, float]:
        return x / y, 1.0, (1 - x - y) / y

    columns = np.array([xyz(*p) for p in primaries]).T
    white = np.array(xyz(*_D65))
    columns = columns * np.linalg.solve(columns, white)
    bradford = np.array(_BRADFORD)
    adapt = np.linalg.solve(bradford, np.diag((bradford @ _D50) / (bradford @ white)) @ bradford)
    columns = adapt @ columns

    def text(words: str) -> bytes:
        coded = words.encode("utf-16-be")
        return struct.pack(">4sIII2s2sII", b"mluc", 0, 1, 12, b"en", b"US", len(coded), 28) + coded

    tags: list[tuple[bytes, bytes]] = [
        (b"desc", text("RGB")),
        (b"cprt", text("none")),
        (b"wtpt", b"XYZ \0\0\0\0" + _s15(*_D50)),
        (b"chad", b"sf32\0\0\0\0" + _s15(*adapt.ravel())),
        *(
            (name, b"XYZ \0\0\0\0" + _s15(*columns[:, i]))
            for i, name in enumerate((b"rXYZ", b"gXYZ", b"bXYZ"))
        ),
        *((name, curve) for name in (b"rTRC", b"gTRC", b"bTRC")),
    ]
    return _profile(tags)


def _s15(*values: float) -> bytes:
    """Numbers in the format s15Fixed16Number."""
    return struct.pack(f">{len(values)}i", *(round(float(v) * 65536) for v in values))


def _profile(tags: Sequence[tuple[bytes, bytes]]) -> bytes:
    """The file of a profile: its header, the table of its tags, and the tags padded to four bytes."""
    at = 128 + 4 + 12 * len(tags)
    table, body = [struct.pack(">I", len(tags))], []
    for name, data in tags:
        table.append(struct.pack(">4sII", name, at, len(data)))
        padded = data + b"\0" * (-len(data) % 4)
        body.append(padded)
        at += len(padded)
    header = struct.pack(
        ">I4sI4s4s4s12s4s4sIIIQI12s48x",
        at, b"\0\0\0\0", 0x04300000, b"mntr", b"RGB ", b"XYZ ", b"\0" * 12, b"acsp", b"\0" * 4,
        0, 0, 0, 0, 1, _s15(*_D50),
    )  # fmt: skip
    return header + b"".join(table) + b"".join(body)
