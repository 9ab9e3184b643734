"""What pages need to know of a developed photo: its sizes, the names of its files, a colour to stand in for it."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from guidegen.imaging.limits import MAX_SIDE

# The widths in pixels that a photo is offered in, as far as it has them.
WIDTHS = (480, 960, 1600)
SMALL = WIDTHS[0]

# Grows whenever the same photo would come out otherwise: other widths, filters, qualities, colours.
# Names carry it, so that neither a cache nor a reader's browser mixes two versions.
VERSION = 1

FOLDER = "assets/photos"
FORMATS = ("webp", "jpg")  # best first; JPEG is for readers that know no WebP
_DERIVATIVE = re.compile(rf"{FOLDER}/(.+)-(\d+)\.webp")


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A developed photo. `width` and `height` are the upright original's; `sizes` the derivatives', narrowest first.

    `key` names the content and the way it was developed; `colour` is the average colour, `#rrggbb`;
    `names` is whether the file names somebody as its maker or owner; `weight` are the bytes of the one derivative that is
    kept for where there is no network.
    """

    key: str
    width: int
    height: int
    sizes: tuple[tuple[int, int], ...]
    colour: str
    animated: bool = False
    names: bool = False
    weight: int = 0

    def file(self, width: int, ending: str) -> str:
        """The name of one derivative, which is also its key in the store."""
        return file_name(self.key, width, ending)

    def path(self, width: int, ending: str) -> str:
        """Where one derivative lies in the site, relative to its top."""
        return f"{FOLDER}/{self.file(width, ending)}"

    @property
    def files(self) -> tuple[tuple[str, str], ...]:
        """Every derivative: its path in the site and its key in the store."""
        return tuple(
            (self.path(width, ending), self.file(width, ending))
            for width, _ in self.sizes
            for ending in FORMATS
        )

    def record(self) -> dict[str, Any]:
        """As plain values that JSON can hold; `picture_from` reads them back."""
        return {
            "key": self.key,
            "width": self.width,
            "height": self.height,
            "sizes": [list(size) for size in self.sizes],
            "colour": self.colour,
            "animated": self.animated,
            "names": self.names,
            "weight": self.weight,
        }


def kept_width(widths: Sequence[int]) -> int:
    """Which of a photo's widths, narrowest first, is kept for where there is no network."""
    return widths[min(1, len(widths) - 1)]


def file_name(key: str, width: int, ending: str) -> str:
    """The name of one derivative of the photo that `key` names."""
    return f"{key}-{width}.{ending}"


def key_and_width(path: str) -> tuple[str, int] | None:
    """Which photo a WebP file of the site is a derivative of, and how wide; None for what is none."""
    found = _DERIVATIVE.fullmatch(path)
    return (found[1], int(found[2])) if found else None


def picture_from(record: Any) -> Picture | None:
    """The picture of a record, None where it is not one."""
    try:
        return Picture(
            key=str(record["key"]),
            width=int(record["width"]),
            height=int(record["height"]),
            sizes=tuple((int(width), int(height)) for width, height in record["sizes"]),
            colour=str(record["colour"]),
            animated=bool(record["animated"]),
            names=bool(record["names"]),
            weight=int(record["weight"]),
        )
    except (KeyError, TypeError, ValueError):
        return None


def facts_of(picture: Picture) -> bytes:
    """The record as bytes, for the store."""
    return json.dumps(picture.record(), separators=(",", ":"), sort_keys=True).encode()


def picture_of(facts: bytes) -> Picture | None:
    """The picture whose record these bytes are, None where they were spoilt."""
    try:
        return picture_from(json.loads(facts))
    except ValueError:
        return None


def digest_of(data: bytes) -> str:
    """The SHA-256 of a photo's content, in hexadecimal digits."""
    return hashlib.sha256(data).hexdigest()


def key_of(digest: str) -> str:
    """The key for a content's digest: 20 hexadecimal digits, so that two photos in 10^12 pairs never meet."""
    return hashlib.sha256(f"{VERSION}:{digest}".encode()).hexdigest()[:20]


def facts_key(key: str) -> str:
    """Where the store keeps what is known of a photo; written last, so its files are there once it is."""
    return f"{key}.json"


def sizes_for(width: int, height: int) -> tuple[tuple[int, int], ...] | None:
    """The derivatives of a photo of this size, narrowest first; None where one would be too high for WebP.

    Every offered width below the photo's own, and the photo's own width or the widest offered, whichever
    is less: nothing is ever enlarged.
    """
    widest = min(width, WIDTHS[-1])
    widths = [offered for offered in WIDTHS if offered < widest] + [widest]
    sizes = tuple((w, max(1, round(height * w / width))) for w in widths)
    return sizes if sizes[-1][1] <= MAX_SIDE else None
