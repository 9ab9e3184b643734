"""Finds the marks of printed cards in a photo, and measures where their dots lie."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFilter

from guidegen.imaging.blobs import Blobs, Floats, dark_blobs
from guidegen.imaging.mark_code import (
    CIRCLES,
    DOT,
    PLACES,
    RING_INSIDE,
    RING_OUTSIDE,
    SMALL,
    Code,
    bits_of,
    code_of,
    place,
)

# The longer sides at which a photo is looked through: most cards are found in the first, a small card in a large photo
# in the second, one that is blurred or noisy in the third.
_SIDES = (2_000, 4_200, 1_000)

# Rings looked at closely, the largest first. A page has four; this is for pictures made to keep us busy.
MOST_MARKS = 400

# A disc's second moment along an axis is r²/4, a ring's (r₁² + r₂²)/4.
_RING_SPREAD = (RING_INSIDE**2 + RING_OUTSIDE**2) / 4.0
_RING_FULLNESS = (RING_OUTSIDE**2 - RING_INSIDE**2) / (RING_OUTSIDE**2 + RING_INSIDE**2)
_DOT_SHARE = DOT / (2.0 * _RING_SPREAD**0.5)

_ANGLES = 16  # samples from one place to the next


class Mark(NamedTuple):
    """A mark that was read: points of it (n, 2) in millimetres from its centre, and where they lie in the photo (n, 2)."""

    code: Code
    on_paper: Floats
    in_photo: Floats


class Marks(NamedTuple):
    """All marks that were read; `unread` rings looked like marks and say nothing."""

    marks: tuple[Mark, ...]
    unread: int


def find_marks(picture: NDArray[np.uint8]) -> Marks:
    """The marks in an upright photo, shape (height, width, 3)."""
    image = Image.fromarray(picture).convert("L")
    grey = np.asarray(image, dtype=np.float32)
    found: dict[tuple[Code, int, int], Mark] = {}
    unread = 0
    tried: set[tuple[int, int]] = set()
    for side in _SIDES:
        factor = max(1.0, max(image.size) / side)
        size = (max(1, round(image.width / factor)), max(1, round(image.height / factor)))
        if size in tried or min(size) < 40:
            continue
        tried.add(size)
        small = image if size == image.size else image.resize(size, Image.Resampling.BOX)
        scale = np.array([image.width / size[0], image.height / size[1]])
        here = 0
        for centre, shape in _rings(small, scale):
            mark = _read(grey, centre, shape)
            if mark is None:
                here += 1
                continue
            where = np.rint(centre / 20.0).astype(int).tolist()
            near = any(
                (mark.code, where[0] + dx, where[1] + dy) in found for dx in (-1, 0, 1) for dy in (-1, 0, 1)
            )
            if not near:
                found[mark.code, where[0], where[1]] = mark
        unread = max(unread, here)
        if _whole(found):
            break
    return Marks(tuple(found.values()), unread)


def _whole(found: dict[tuple[Code, int, int], Mark]) -> bool:
    """Whether every page met has four corners, so that nothing more is to be looked for."""
    corners: dict[tuple[str, int], set[int]] = {}
    for code, _, _ in found:
        corners.setdefault((code.card, code.page), set()).add(code.corner)
    return bool(corners) and all(len(seen) == 4 for seen in corners.values())


def _rings(small: Image.Image, scale: Floats) -> Iterator[tuple[Floats, Floats]]:
    """Rings with a dot in them, the largest first: the centre (2,) in the whole photo, and what takes mm to it (2, 2)."""
    blurred = small.filter(ImageFilter.GaussianBlur(0.8))
    around = small.filter(ImageFilter.BoxBlur(max(small.size) / 60.0))
    dark = np.asarray(blurred, dtype=np.int16) * 100 < np.asarray(around, dtype=np.int16) * 72 - 200
    blobs = dark_blobs(dark)
    breadth = np.maximum(blobs.spread[:, 0] * blobs.spread[:, 2] - blobs.spread[:, 1] ** 2, 1e-9) ** 0.5
    fullness = blobs.area / (4.0 * np.pi * breadth)
    long = (blobs.spread[:, 0] + blobs.spread[:, 2]) / 2.0
    # Askew by up to some 70 degrees.
    round_ = long < 1.6 * breadth
    dots = np.nonzero(round_ & (blobs.area >= 8) & (fullness > 0.85) & (fullness < 1.1))[0]
    rings = np.nonzero(
        round_ & (blobs.area >= 40) & (fullness > 0.55 * _RING_FULLNESS) & (fullness < 1.5 * _RING_FULLNESS)
    )[0]
    pairs = _pairs(blobs, breadth**0.5, dots, rings)
    for ring in pairs[:MOST_MARKS]:
        xx, xy, yy = blobs.spread[ring].tolist()
        root = _root(np.array([[xx, xy], [xy, yy]])) / _RING_SPREAD**0.5
        yield (blobs.centre[ring] + 0.5) * scale - 0.5, scale[:, None] * root


def _pairs(blobs: Blobs, breadth: Floats, dots: NDArray[np.intp], rings: NDArray[np.intp]) -> list[int]:
    """The rings with a dot at their centre that is as large as it should be."""
    dots = dots[np.argsort(blobs.centre[dots, 1], kind="stable")]
    height = blobs.centre[dots, 1]
    found = []
    for ring in rings[np.argsort(-blobs.area[rings], kind="stable")].tolist():
        reach = 0.35 * float(breadth[ring])
        x, y = blobs.centre[ring].tolist()
        near = dots[np.searchsorted(height, y - reach) : np.searchsorted(height, y + reach)]
        share = breadth[near] / breadth[ring] / _DOT_SHARE
        fits = (np.abs(blobs.centre[near, 0] - x) < reach) & (share > 0.6) & (share < 1.5)
        if fits.any():
            found.append(ring)
            if len(found) >= MOST_MARKS:
                break
    return found


def _root(matrix: Floats) -> Floats:
    """The square root of a symmetric positive (2, 2)."""
    values, vectors = np.linalg.eigh(matrix)
    root: Floats = vectors * np.sqrt(np.maximum(values, 1e-9)) @ vectors.T
    return root


def _read(grey: NDArray[np.float32], centre: Floats, shape: Floats) -> Mark | None:
    """What a ring's circles say. `shape` takes millimetres to pixels, but for a turn, which the dots tell."""
    angles = 2.0 * np.pi * np.arange(PLACES * _ANGLES) / (PLACES * _ANGLES)
    ways = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    profiles = []
    for radius in CIRCLES:
        across = [
            _sampled(grey, centre + (radius + off) * ways @ shape.T) for off in (-0.3, -0.15, 0.0, 0.15, 0.3)
        ]
        profiles.append(np.mean(across, axis=0))
    if not all(np.isfinite(profile).all() for profile in profiles):
        return None
    turns = sum(complex(profile @ np.exp(-1j * PLACES * angles)) for profile in profiles)
    # Dots are dark, so the wave's crest lies between them.
    first = ((np.pi - np.angle(turns)) / PLACES) % (2.0 * np.pi / PLACES)
    at = np.rint(first / (2.0 * np.pi) * len(angles)).astype(int)
    values = []
    for profile in profiles:
        smooth = np.mean([np.roll(profile, shift) for shift in (-2, -1, 0, 1, 2)], axis=0)
        values.append(smooth[(at + np.arange(PLACES) * _ANGLES) % len(angles)])
    for level in (0.5, 0.4, 0.6):
        bits = [_dark(each, level) for each in values]
        for turn in range(PLACES):
            turned = tuple(bool(bit) for each in bits for bit in np.roll(each, -turn))
            code = code_of(turned)
            if code is not None:
                angle = first + 2.0 * np.pi * turn / PLACES
                return _measured(grey, centre, shape, float(angle), code)
    return None


def _dark(values: Floats, level: float) -> NDArray[np.bool_]:
    """Which places are dark, by how dark and how light the darkest and the lightest of the circle are."""
    low, high = np.percentile(values, [4, 96])
    return np.asarray(values < high - level * (high - low), dtype=np.bool_)


def _measured(grey: NDArray[np.float32], centre: Floats, shape: Floats, angle: float, code: Code) -> Mark:
    """The dots' centres in the photo, each the middle of what is dark around it."""
    cos, sin = np.cos(angle), np.sin(angle)
    turned = shape @ np.array([[cos, -sin], [sin, cos]])
    places = np.array([place(number) for number, bit in enumerate(bits_of(code)) if bit])
    # Two rounds: from where the ring's shape has them, then by the plane that the first round found.
    guess = centre + places @ turned.T
    for _ in range(2):
        found, sure = _middles(grey, guess, turned)
        if sure.sum() < 8:
            break
        design = np.concatenate(
            [places, np.ones((len(places), 1)), places * (places @ np.ones((2, 1)))], axis=1
        )
        plane = np.linalg.lstsq(design[sure], found[sure], rcond=None)[0]
        guess = design @ plane
    off = np.linalg.norm(found - guess, axis=1)
    sure &= off < 0.25 * np.sqrt(abs(np.linalg.det(turned)))
    middle = _middles(grey, centre[None], turned, radius=DOT + 0.7)[0]
    return Mark(
        code,
        np.concatenate([places[sure], np.zeros((1, 2))]),
        np.concatenate([found[sure], middle]),
    )


def _middles(
    grey: NDArray[np.float32], guess: Floats, shape: Floats, radius: float = SMALL + 0.45
) -> tuple[Floats, NDArray[np.bool_]]:
    """The middles of dark spots near places (n, 2), and which of them can be told."""
    side = np.linspace(-radius, radius, 15)
    grid = np.stack(np.meshgrid(side, side), axis=-1).reshape(-1, 2)
    grid = grid[(grid**2).sum(axis=1) <= radius**2]
    found = guess.copy()
    sure = np.ones(len(guess), dtype=bool)
    for _ in range(2):
        points = found[:, None, :] + grid @ shape.T
        values = _sampled(grey, points.reshape(-1, 2)).reshape(len(guess), -1)
        sure = np.asarray(np.isfinite(values).all(axis=1), dtype=np.bool_)
        values = np.nan_to_num(values, nan=0.0)
        light = np.percentile(values, 88, axis=1)[:, None]
        weight = np.maximum(light - values - 0.1 * np.abs(light), 0.0)
        total = weight.sum(axis=1)
        sure = np.asarray(sure & (total > 0.0), dtype=np.bool_)
        found += np.where(
            sure[:, None],
            (weight[:, None, :] @ (grid @ shape.T))[:, 0] / np.maximum(total, 1e-9)[:, None],
            0.0,
        )
    return found, sure


def _sampled(grey: NDArray[np.float32], points: Floats) -> Floats:
    """The values between pixels at points (n, 2) of x and y; NaN outside the picture."""
    height, width = grey.shape
    x, y = points[:, 0], points[:, 1]
    inside = (x >= 0.0) & (y >= 0.0) & (x <= width - 1.001) & (y <= height - 1.001)
    x, y = np.where(inside, x, 0.0), np.where(inside, y, 0.0)
    left, top = x.astype(np.intp), y.astype(np.intp)
    across, down = x - left, y - top
    right, bottom = np.minimum(left + 1, width - 1), np.minimum(top + 1, height - 1)
    upper = grey[top, left] * (1.0 - across) + grey[top, right] * across
    lower = grey[bottom, left] * (1.0 - across) + grey[bottom, right] * across
    return np.where(inside, upper * (1.0 - down) + lower * down, np.nan)
