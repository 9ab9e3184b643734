"""Colours: sRGB, linear light, XYZ, CIELAB, adaptation to another white, and the CIEDE2000 difference."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from guidegen.words.language import PhraseKey

Floats = NDArray[np.float64]

# Chromaticities of the primaries and of the white D65, IEC 61966-2-1:1999 (after ITU-R BT.709).
_PRIMARIES = ((0.64, 0.33), (0.30, 0.60), (0.15, 0.06))
_D65 = (0.3127, 0.3290)


def _xyz_of_chromaticity(x: float, y: float) -> tuple[float, float, float]:
    return x / y, 1.0, (1.0 - x - y) / y


def _matrix_from_primaries() -> Floats:
    primaries = np.array([_xyz_of_chromaticity(*xy) for xy in _PRIMARIES]).T
    scaled: Floats = primaries * np.linalg.solve(primaries, np.array(_xyz_of_chromaticity(*_D65)))
    return scaled


# Linear sRGB to XYZ, worked out from the chromaticities: the standard prints it with four decimals only, which
# moves CIELAB by up to 0.01.
TO_XYZ: Floats = _matrix_from_primaries()
TO_LINEAR: Floats = np.linalg.inv(TO_XYZ).astype(np.float64)

# The white is what the matrix makes of (1, 1, 1), so that greys have exactly a* = b* = 0.
WHITE: Floats = TO_XYZ.sum(axis=1)

# Bradford's cone responses, the linear form of ICC.1 annex E.
BRADFORD: Floats = np.array([[0.8951, 0.2664, -0.1614], [-0.7502, 1.7135, 0.0367], [0.0389, -0.0685, 1.0296]])

# CIE 15:2018: the cube root gives way to a straight line below (6/29)³.
_BEND = 6.0 / 29.0

# Rounding in the last bits is no reason to call a colour clipped.
_OUTSIDE = 1e-6


def as_floats(values: ArrayLike) -> Floats:
    """Numbers in double precision, but those that are in single precision as they are."""
    array = np.asarray(values)
    floats: Floats = array if array.dtype == np.float32 else np.asarray(array, dtype=float)
    return floats


def encoded(linear: ArrayLike) -> Floats:
    """Linear light 0..1 to sRGB values 0..1 (IEC 61966-2-1)."""
    light = np.asarray(linear, dtype=float)
    curve = 1.055 * np.power(np.maximum(light, 0.0), 1.0 / 2.4) - 0.055
    return np.where(light <= 0.0031308, 12.92 * light, curve)


def decoded(values: ArrayLike) -> Floats:
    """Values of sRGB, 0..1, to linear light 0..1 (IEC 61966-2-1)."""
    value = np.asarray(values, dtype=float)
    curve = np.power((np.maximum(value, 0.0) + 0.055) / 1.055, 2.4)
    return np.where(value <= 0.04045, value / 12.92, curve)


def linear_of(hexes: Iterable[str]) -> Floats:
    """`#rrggbb` colours to linear sRGB, shape (n, 3)."""
    levels = np.frombuffer(bytes.fromhex("".join(colour[1:] for colour in hexes)), dtype=np.uint8)
    return decoded(levels.reshape(-1, 3) / 255.0)


def hex_of_linear(rgb: ArrayLike) -> tuple[str, bool]:
    """The nearest `#rrggbb` to one linear colour, and whether it had to be clipped to what sRGB can show."""
    light = np.asarray(rgb, dtype=float)
    inside = np.clip(light, 0.0, 1.0)
    clipped = bool(np.abs(light - inside).max() > _OUTSIDE)
    levels = np.floor(encoded(inside) * 255.0 + 0.5).astype(int)
    return "#" + "".join(f"{level:02x}" for level in levels.tolist()), clipped


def lab_of_xyz(xyz: ArrayLike, white: ArrayLike = WHITE) -> Floats:
    """XYZ (white's Y = 1) to CIELAB against `white`, shape (..., 3)."""
    ratio = np.asarray(xyz, dtype=float) / np.asarray(white, dtype=float)
    f = np.where(ratio > _BEND**3, np.cbrt(ratio), ratio / (3.0 * _BEND**2) + 4.0 / 29.0)
    fx, fy, fz = f[..., 0], f[..., 1], f[..., 2]
    return np.stack([116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)], axis=-1)


def lab_of_linear(rgb: ArrayLike) -> Floats:
    """Linear sRGB to CIELAB D65, shape (..., 3)."""
    return lab_of_xyz(np.asarray(rgb, dtype=float) @ TO_XYZ.T)


def lab_of(hexes: Iterable[str]) -> Floats:
    """`#rrggbb` colours to CIELAB D65, shape (n, 3)."""
    return lab_of_linear(linear_of(hexes))


def near_light(lab: Floats) -> tuple[Floats, Floats]:
    """The linear sRGB of one CIELAB colour, and how CIELAB moves with linear sRGB there.

    The second is the derivative (3, 3): a small difference of linear sRGB times it is one of CIELAB.
    """
    lightness, a, b = lab.tolist()
    middle = (lightness + 16.0) / 116.0
    f = np.array([middle + a / 500.0, middle, middle - b / 200.0])
    rises = f > _BEND
    ratio = np.where(rises, f**3, 3.0 * _BEND**2 * (f - 4.0 / 29.0))
    slope = 1.0 / (3.0 * np.where(rises, f, _BEND) ** 2)
    moves = np.array([[0.0, 500.0, 0.0], [116.0, -500.0, 200.0], [0.0, 0.0, -200.0]])
    return TO_LINEAR @ (ratio * WHITE), (TO_XYZ / WHITE[:, None] * slope[:, None]).T @ moves


def hex_of_lab(lab: ArrayLike) -> str:
    """The nearest `#rrggbb` to one CIELAB colour, clipped to what sRGB can show."""
    return hex_of_linear(near_light(np.asarray(lab, dtype=float))[0])[0]


@lru_cache(maxsize=8_192)  # a palette's colours come up again and again
def lightness(colour: str) -> float:
    """L* of one `#rrggbb` colour."""
    return float(lab_of([colour])[0, 0])


def adaptation(source: ArrayLike, target: ArrayLike = WHITE) -> Floats:
    """The Bradford matrix, shape (3, 3), that takes XYZ seen under the white `source` to the white `target`."""
    gains = (BRADFORD @ np.asarray(target, dtype=float)) / (BRADFORD @ np.asarray(source, dtype=float))
    return np.linalg.solve(BRADFORD, gains[:, None] * BRADFORD)


# CIEDE2000 differences are compared, told and printed to this many decimals.
DECIMALS = 4

# Opposite hues count as half a turn apart whatever the last bits of an arctangent say, so that every machine has the
# same difference there, where (14) jumps.
_HALF_TURN = np.pi + 1e-9


def delta_e_2000(lab1: ArrayLike, lab2: ArrayLike) -> Floats:
    """CIEDE2000 difference of CIELAB colours, arrays (..., 3) that broadcast; kL = kC = kH = 1.

    Sharma, Wu, Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary test data, and
    mathematical observations", Color Research and Application 30 (2005) 21–30; the numbers are its equations.
    """
    one, two = np.asarray(lab1, dtype=float), np.asarray(lab2, dtype=float)
    l1, a1, b1 = one[..., 0], one[..., 1], one[..., 2]
    l2, a2, b2 = two[..., 0], two[..., 1], two[..., 2]
    mean_c7 = (0.5 * (np.hypot(a1, b1) + np.hypot(a2, b2))) ** 7  # (2), (3)
    stretch = 1.5 - 0.5 * np.sqrt(mean_c7 / (mean_c7 + 25.0**7))  # 1 + G, (4)
    a1, a2 = stretch * a1, stretch * a2  # (5)
    c1, c2 = np.hypot(a1, b1), np.hypot(a2, b2)  # (6)
    h1, h2 = np.arctan2(b1, a1) % (2 * np.pi), np.arctan2(b2, a2) % (2 * np.pi)  # (7)
    both = c1 * c2
    turn = h2 - h1
    far = np.abs(turn) > _HALF_TURN
    # (10): the short way round. Where a colour is grey the hue difference is of no weight, see (11).
    dh = turn - np.where(far, np.copysign(2 * np.pi, turn), 0.0)
    dl, dc = l2 - l1, c2 - c1  # (8), (9)
    big_dh = 2.0 * np.sqrt(both) * np.sin(0.5 * dh)  # (11)
    mean_l, mean_c = 0.5 * (l1 + l2), 0.5 * (c1 + c2)  # (12), (13)
    total = h1 + h2
    around = np.where(far, np.where(total < 2 * np.pi, 2 * np.pi, -2 * np.pi), 0.0)
    mean_h = np.where(both == 0.0, total, 0.5 * (total + around))  # (14)
    t = (
        1.0
        - 0.17 * np.cos(mean_h - np.pi / 6)
        + 0.24 * np.cos(2.0 * mean_h)
        + 0.32 * np.cos(3.0 * mean_h + np.pi / 30)
        - 0.20 * np.cos(4.0 * mean_h - np.radians(63.0))
    )  # (15)
    tilt = np.radians(30.0) * np.exp(-(((np.degrees(mean_h) - 275.0) / 25.0) ** 2))  # (16)
    power = mean_c**7
    rc = 2.0 * np.sqrt(power / (power + 25.0**7))  # (17)
    off = (mean_l - 50.0) ** 2
    sl = 1.0 + 0.015 * off / np.sqrt(20.0 + off)  # (18)
    sc = 1.0 + 0.045 * mean_c  # (19)
    sh = 1.0 + 0.015 * mean_c * t  # (20)
    x, y, z = dl / sl, dc / sc, big_dh / sh
    # (21), (22). Rounding may leave a hair less than nought under the root.
    difference: Floats = np.sqrt(np.maximum(x * x + y * y + z * z - np.sin(2.0 * tilt) * rc * y * z, 0.0))
    return difference


# What a difference under a limit means to the eye, as the end of a phrase's key and in English: common practice, no source.
DIFFERENCES = (
    (1.0, "same", "can't be told apart"),
    (2.0, "side-by-side", "only side by side"),
    (5.0, "near", "near"),
    (10.0, "related", "related"),
)


def difference_words(de00: float) -> str:
    """A CIEDE2000 difference in English words."""
    return next((words for limit, _, words in DIFFERENCES if de00 < limit), "unlike")


def difference_phrase(de00: float) -> PhraseKey:
    """The phrase that says the same in the site's language."""
    return PhraseKey(f"close.{next((key for limit, key, _ in DIFFERENCES if de00 < limit), 'unlike')}")
