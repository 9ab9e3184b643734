"""One decoded picture in; every size in both formats out, each size shrunk from the one above it."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING

from guidegen.imaging.pixels import shrunk

if TYPE_CHECKING:
    from PIL import Image

# Measured on 12-megapixel photos at 1600 pixels wide, milliseconds and kilobytes a picture, one core:
# WebP method 0: 35, 111; 2: 51, 91; 4 (the library's own choice): 123, 86; 6: 195, 85. Method 2 stands where
# more time buys little. JPEG plain: 4.6, 203; optimised: 8.9, 199; progressive: 21, 194.
_WEBP = {"quality": 78, "method": 2}
_JPEG = {"quality": 82}


@dataclass(frozen=True, slots=True, kw_only=True)
class Derived:
    """The encoded files of a photo by width and ending, and its average colour as `#rrggbb`."""

    files: dict[tuple[int, str], bytes]
    colour: str


def derive(image: Image.Image, sizes: tuple[tuple[int, int], ...]) -> Derived:
    """Shrink and encode an RGB picture without metadata, at least as wide as the widest of the sizes."""
    files: dict[tuple[int, str], bytes] = {}
    for size in sorted(sizes, reverse=True):
        if image.size != size:
            image = shrunk(image, size)
        files[size[0], "webp"] = _webp(image)
        files[size[0], "jpg"] = jpeg(image)
    return Derived(files=files, colour=_average_colour(image))


def _average_colour(image: Image.Image) -> str:
    """The mean of an RGB picture, shown while a photo has not yet arrived."""
    from PIL import Image

    mean = image.resize((1, 1), Image.Resampling.BOX).tobytes()
    return "#" + mean.hex()


def _webp(image: Image.Image) -> bytes:
    out = BytesIO()
    image.save(out, "WEBP", **_WEBP)
    return out.getvalue()


def jpeg(image: Image.Image) -> bytes:
    """The picture as JPEG, of the quality that all photos have."""
    out = BytesIO()
    image.save(out, "JPEG", **_JPEG)
    return out.getvalue()
