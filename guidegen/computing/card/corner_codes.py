"""The codes in the corners of a printed card (QR, ISO/IEC 18004): what they say, how they are drawn, where a photo has them."""

from __future__ import annotations

import re
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFilter

from guidegen.model.card import CODE_QUIET, PAPERS

# A photo is looked through at this size: the library gives places in whole pixels, so a small one is made larger, and a
# picture made of finder patterns takes time that grows with the square of its pixels, so a large one is made smaller.
_PIXELS, _LARGEST = 8_000_000, 2.0
# It is read as it is and sharpened, since a module may be smaller than the blur; places are the means of what was found.
_SHARPEN = (0, 1, 2, 3)

# The library stops after so many codes (its `ReaderOptions::maxNumberOfSymbols`).
MOST_CODES = 255

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
    """All codes of cards in a photo, and how many others there are."""

    codes: tuple[SeenCode, ...]
    others: int


def text_of(code: CornerCode) -> str:
    """What is written in a code; page and corner count from 1 there. Capitals and digits take the fewest modules."""
    return f"{code.card}-{code.page + 1}-{code.corner + 1}-{code.paper}".upper()


def code_of(text: str) -> CornerCode | None:
    """What a text says, None where it is no card's."""
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
    scale = np.array([image.width / size[0], image.height / size[1]])
    qr = zxingcpp.BarcodeFormats(zxingcpp.BarcodeFormat.QRCode)
    found: list[tuple[CornerCode, list[NDArray[np.float64]]]] = []
    others = 0
    for radius in _SHARPEN:
        sharp = np.asarray(large.filter(ImageFilter.UnsharpMask(radius, 200, 0)))
        barcodes = zxingcpp.read_barcodes(sharp, formats=qr, try_invert=False)
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
            break
    return SeenCodes(tuple(SeenCode(code, np.mean(seen, axis=0)) for code, seen in found), others)


def _near(one: NDArray[np.float64], other: NDArray[np.float64]) -> bool:
    """Whether two readings are of the same print: their corners are nearer than a quarter of a side."""
    side = float(np.linalg.norm(other[0] - other[1]))
    return bool(np.linalg.norm(one - other, axis=1).max() < side / 4.0)
