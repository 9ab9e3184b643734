"""The codes in the corners of a printed card (QR, ISO/IEC 18004): what they say, how they are drawn, where a photo has them."""

from __future__ import annotations

import re
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFilter

from guidegen.model.card import CODE_QUIET, PAPERS

# A photo is looked through at this size: the library gives places in whole pixels, so a small one is made larger, and its
# time grows with the pixels, so a large one is made smaller.
_PIXELS, _LARGEST = 8_000_000, 2.0
# It is read sharpened by several radii, since a module may be smaller than the blur, and once with its noise smoothed away
# before, all in pixels; places are the means of what was found.
_SHARPENED = ((0, 1), (0, 2), (0, 3), (1, 2))

# The library stops after so many codes (its `ReaderOptions::maxNumberOfSymbols`).
MOST_CODES = 255

# Its time grows with the square of the finder patterns, of which a code has three: 0.3 s for this many, 15 s for 100,000.
# A sensor's noise looks like 5,600 of them at most.
_MOST_PATTERNS = 8_000

_TEXT = re.compile(r"([0-9A-F]{6})-([1-9]\d?)-([1-4])-(" + "|".join(PAPERS).upper() + ")")


class CornerCode(NamedTuple):
    """What a code says: the card's id as six hexadecimal digits, page and corner from 0 (clockwise from top left)."""

    card: str
    page: int
    corner: int
    paper: str


class SeenCode(NamedTuple):
    """A code that was read, and where its corners lie in the photo (4, 2), clockwise from its top left."""

    code: CornerCode
    in_photo: NDArray[np.float64]


class SeenCodes(NamedTuple):
    """All codes of cards in a photo, how many others there are, and whether there is more than was looked at."""

    codes: tuple[SeenCode, ...]
    others: int
    too_many: bool = False


def text_of(code: CornerCode) -> str:
    """The text of a code, in which page and corner count from 1. QR codes store capitals and digits in the fewest modules."""
    return f"{code.card}-{code.page + 1}-{code.corner + 1}-{code.paper}".upper()


def code_of(text: str) -> CornerCode | None:
    """The inverse of `text_of`; None for a text of any other code."""
    found = _TEXT.fullmatch(text)
    if found is None:
        return None
    return CornerCode(found[1].lower(), int(found[2]) - 1, int(found[3]) - 1, found[4].lower())


def code_svg(code: CornerCode) -> str:
    """The code with its quiet zone as inline SVG, a module to the unit."""
    import segno

    drawn = segno.make(text_of(code), version=2, error="m", boost_error=False)
    return drawn.svg_inline(border=CODE_QUIET, omitsize=True, svgclass=None, lineclass=None)


def find_codes(picture: NDArray[np.uint8]) -> SeenCodes:
    """The codes in an upright photo, shape (height, width, 3)."""
    import zxingcpp

    image = Image.fromarray(picture).convert("L")
    factor = min(_LARGEST, (_PIXELS / (image.width * image.height)) ** 0.5)
    size = (max(1, round(image.width * factor)), max(1, round(image.height * factor)))
    large = image.resize(size, Image.Resampling.BICUBIC)
    if finder_patterns(large) > _MOST_PATTERNS:
        return SeenCodes((), 0, too_many=True)
    scale = np.array([image.width / size[0], image.height / size[1]])
    qr = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCode)
    found: list[tuple[CornerCode, list[NDArray[np.float64]]]] = []
    others, too_many = 0, False
    for smooth, radius in _SHARPENED:
        sharp = large.filter(ImageFilter.GaussianBlur(smooth)).filter(ImageFilter.UnsharpMask(radius, 200, 0))
        barcodes = zxingcpp.read_barcodes(np.asarray(sharp), formats=qr, try_invert=False)
        here = 0
        for barcode in barcodes:
            code = code_of(barcode.text)
            if code is None:
                here += 1
                continue
            at = barcode.position
            points = (at.top_left, at.top_right, at.bottom_right, at.bottom_left)
            # The library counts from the edge of the first pixel, we from its middle.
            corners = np.array([(point.x, point.y) for point in points]) * scale - 0.5
            same = [seen for known, seen in found if known == code and _near(corners, seen[0])]
            if same:
                same[0].append(corners)
            else:
                found.append((code, [corners]))
        others = max(others, here)
        if len(barcodes) >= MOST_CODES:
            too_many = True
            break
    codes = tuple(SeenCode(code, np.mean(seen, axis=0)) for code, seen in found)
    return SeenCodes(codes, others, too_many)


def finder_patterns(image: Image.Image) -> int:
    """About how many finder patterns a grey picture has: ISO/IEC 18004, 6.3.3.

    Along a row and along a column through its middle each shows dark, light, dark, light, dark as 1 : 1 : 3 : 1 : 1.
    """
    dark = np.asarray(image) < np.asarray(image.filter(ImageFilter.BoxBlur(12)))
    along_rows, along_columns = _middles(dark), _middles(np.ascontiguousarray(dark.T)).T
    # The two middles may lie a pixel apart.
    beside = np.roll(along_columns, 1, axis=1)
    return int(np.count_nonzero(along_rows & (along_columns | beside)))


def _middles(dark: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Where along a row (the second axis) the middles of five runs lie that have the proportion, within a half."""
    line = dark.ravel()
    begins = np.flatnonzero(line[1:] != line[:-1]) + 1
    runs = np.diff(begins).astype(np.float32)
    middles = np.zeros_like(line)
    if len(runs) >= 5:
        five = np.lib.stride_tricks.sliding_window_view(runs, 5)
        shares = np.array([1, 1, 3, 1, 1], dtype=np.float32)
        wanted = five.sum(axis=1, keepdims=True) / 7.0 * shares
        fits = line[begins[: len(five)]] & (np.abs(five - wanted) <= wanted / 2.0).all(axis=1)
        third = np.flatnonzero(fits) + 2
        middles[begins[third] + (runs[third] // 2).astype(np.intp)] = True
    return middles.reshape(dark.shape)


def _near(one: NDArray[np.float64], other: NDArray[np.float64]) -> bool:
    """Whether two readings are of the same print: their corners are nearer than a quarter of a side."""
    side = float(np.linalg.norm(other[0] - other[1]))
    return bool(np.linalg.norm(one - other, axis=1).max() < side / 4.0)
