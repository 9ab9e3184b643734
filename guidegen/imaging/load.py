"""Photo in, upright 8-bit sRGB picture out. Limits are checked from the header, before anything is decoded."""

from __future__ import annotations

import logging
import re
import stat
import warnings
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Span
from guidegen.imaging import trouble
from guidegen.imaging.kinds import Kind, Other, kind_of
from guidegen.imaging.limits import (
    MAX_BYTES,
    MAX_PIXELS,
    MAX_PIXELS_JPEG,
    MAX_PIXELS_WEBP,
    MAX_SCANNED,
    MAX_SCANS,
)
from guidegen.imaging.pixels import (
    declared_profile,
    names_somebody,
    orientation_of,
    plain,
    shrunk,
    turned,
    without_alpha,
)
from guidegen.imaging.trouble import Trouble

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from PIL import Image

_PILLOW = re.compile(r"(PIL|pillow_heif)\b")
# Bytes a pixel of the thirstiest photo of the kind, over 10.
_WEIGHTS = {Kind.JPEG: 0.4, Kind.WEBP: 1.7}
_TURNED_SIDEWAYS = frozenset((5, 6, 7, 8))  # Exif orientations that swap width and height


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A photo whose header was read and found fit. `pixels` is how many will be in memory, `weight` in 10 bytes each."""

    kind: Kind
    data: bytes
    image: Image.Image
    pixels: int
    size: tuple[int, int]
    orientation: int | None
    animated: bool

    @property
    def weight(self) -> int:
        """What decoding it takes, as measured, in pixels of 10 bytes."""
        return round(self.pixels * _WEIGHTS.get(self.kind, 1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """An upright sRGB picture, mode RGB, without any metadata, and what was found on the way.

    `width` and `height` are the upright photo's own; the picture is smaller where a width was asked for.
    """

    image: Image.Image
    width: int
    height: int
    animated: bool
    names: bool = False


def read_bytes(path: Path) -> bytes | Trouble:
    """The file's content, if it is an ordinary file of a bearable size."""
    try:
        about = path.stat()
        if not stat.S_ISREG(about.st_mode):  # opening a pipe would wait for ever
            return trouble.NO_FILE
        if about.st_size > MAX_BYTES:
            return trouble.too_many_bytes(about.st_size, MAX_BYTES)
        return path.read_bytes()
    except OSError as error:
        return trouble.unreadable(error.strerror or "no reason given")


def open_photo(data: bytes, width: int | None = None) -> Opened | Trouble:
    """Read the header, check it, and choose how to decode to at least `width` upright; None is full size.

    Nothing that a file contains makes this raise.
    """
    if not data:
        return trouble.EMPTY
    kind = kind_of(data)
    if isinstance(kind, Other):
        return trouble.unusable_kind(kind.called)
    from PIL import Image

    _hush_pillow()
    try:
        return _open(kind, data, width)
    except Image.DecompressionBombError:
        return trouble.too_many_pixels(_most_pixels(kind), None)
    except MemoryError:
        return trouble.NO_MEMORY
    except Exception:  # noqa: BLE001  broken files make the readers raise anything at all
        return trouble.BROKEN


def decode(opened: Opened, width: int | None = None) -> Loaded | Trouble:
    """Decode, shrink to `width` if wider, turn upright, convert to sRGB, and lay on white what is see-through.

    Nothing that a file contains makes this raise. The photo's own size is right for files whose
    orientation is only known once they are decoded.
    """
    from PIL import Image

    _hush_pillow()
    try:
        return _decode(opened, width)
    except Image.DecompressionBombError:
        return trouble.too_many_pixels(_most_pixels(opened.kind), None)
    except MemoryError:
        return trouble.NO_MEMORY
    except Exception:  # noqa: BLE001  as above
        return trouble.BROKEN


def load_full(path: Path, name: str, span: Span) -> tuple[NDArray[np.uint8] | None, tuple[Diagnostic, ...]]:
    """The whole photo, upright, as an array of height × width × 3 sRGB values from 0 to 255, or what is wrong."""
    import numpy as np

    data = read_bytes(path)
    opened = data if isinstance(data, Trouble) else open_photo(data)
    loaded = opened if isinstance(opened, Trouble) else decode(opened)
    if isinstance(loaded, Trouble):
        return None, (loaded.diagnostic(name, span),)
    found = (trouble.animated(name, span),) if loaded.animated else ()
    return np.asarray(loaded.image), found


def _hush_pillow() -> None:
    """Keep Pillow's remarks on odd files off the terminal; what matters comes back as a Trouble.

    What libraries write straight to the standard error stream goes nowhere in a worker process.
    """
    if not any(module == _PILLOW for _, _, _, module, _ in warnings.filters):
        warnings.filterwarnings("ignore", module=_PILLOW.pattern)
    logging.getLogger("PIL").setLevel(logging.CRITICAL)


def _most_pixels(kind: Kind) -> int:
    return {Kind.JPEG: MAX_PIXELS_JPEG, Kind.WEBP: MAX_PIXELS_WEBP}.get(kind, MAX_PIXELS)


def _open(kind: Kind, data: bytes, width: int | None) -> Opened | Trouble:
    image = _reader(kind, data)
    wide, high = image.size
    if wide * high > _most_pixels(kind):
        return trouble.too_many_pixels(_most_pixels(kind), image.size)
    if wide < 1 or high < 1:
        return trouble.BROKEN
    if kind is Kind.TIFF and (found := _tiff_trouble(image)):
        return found
    orientation = None
    progressive = kind is Kind.JPEG and "progressive" in image.info
    if kind is Kind.JPEG:
        scans = data.count(b"\xff\xda") if progressive else 1
        if scans > MAX_SCANS or scans * wide * high > MAX_SCANNED:
            return trouble.TOO_MANY_SCANS
        # Known before decoding, so the decoder can be asked for a half, quarter or eighth of the size.
        orientation = orientation_of(image)
        if width is not None:
            _ask_for_less(image, width, orientation)
    # The second picture of an MPO, a HEIC or a TIFF is a preview, a depth map or a page, and nothing that moves.
    moves = kind in (Kind.PNG, Kind.WEBP, Kind.AVIF) and bool(getattr(image, "is_animated", False))
    return Opened(
        kind=kind,
        data=data,
        image=image,
        # A progressive JPEG is gathered in full before it is brought down to the size asked for.
        pixels=wide * high if progressive else image.size[0] * image.size[1],
        size=(wide, high),
        orientation=orientation,
        animated=moves,
    )


def _reader(kind: Kind, data: bytes) -> Image.Image:
    """Pillow's reader for this kind alone, so that no other one ever looks at the bytes."""
    from PIL import Image

    if kind is Kind.HEIC:
        import pillow_heif

        pillow_heif.register_heif_opener(thumbnails=False, depth_images=False, aux_images=False)
    elif kind is Kind.WEBP:
        from PIL import WebPImagePlugin  # noqa: F401  importing registers it
    elif kind is Kind.AVIF:
        from PIL import AvifImagePlugin  # noqa: F401
    elif kind is Kind.TIFF:
        from PIL import TiffImagePlugin  # noqa: F401
    return Image.open(BytesIO(data), formats=(kind.value,))


def _ask_for_less(image: Image.Image, width: int, orientation: int) -> None:
    """Have a JPEG decoded at a half, quarter or eighth of its size if that is still `width` wide when upright.

    A 12-megapixel photo takes 26 ms at half size and 56 ms in full.
    """
    wide, high = image.size
    upright = high if orientation in _TURNED_SIDEWAYS else wide
    if upright > width:
        across = -(-wide * width // upright), -(-high * width // upright)
        image.draft(None, across)  # type: ignore[no-untyped-call, unused-ignore]


def _tiff_trouble(image: Image.Image) -> Trouble | None:
    """What makes a TIFF unfit: a camera's raw file with its preview in front, or tiles that dwarf the picture."""
    from PIL.TiffImagePlugin import TiffImageFile

    if not isinstance(image, TiffImageFile):
        return trouble.BROKEN
    tags = image.tag_v2
    # TIFF 6.0: NewSubfileType (254) bit 0 marks a reduced copy of another picture. Raw files of many
    # cameras are TIFFs that begin with one; DNGVersion (50706) marks the open raw format.
    if tags.get(50706) is not None or _number(tags.get(254)) & 1:
        return trouble.CAMERA_RAW
    if _number(tags.get(322)) * _number(tags.get(323)) > MAX_PIXELS:  # TileWidth, TileLength
        return trouble.too_many_pixels(MAX_PIXELS, None)
    return None


def _number(value: object) -> int:
    return value if isinstance(value, int) else 0


def _decode(opened: Opened, width: int | None) -> Loaded | Trouble:
    image = opened.image
    image.load()
    orientation = orientation_of(image) if opened.orientation is None else opened.orientation
    sideways = orientation in _TURNED_SIDEWAYS
    # Pillow turns a TIFF as it loads it, so only JPEG still has the size found in the header.
    wide, high = opened.size if opened.kind is Kind.JPEG else image.size
    own_width, own_height = (high, wide) if sideways else (wide, high)
    names = names_somebody(image)
    profile = declared_profile(opened.kind, opened.data, image)
    picture = plain(image)
    if isinstance(picture, Trouble):
        return picture
    if width is not None and own_width > width:
        height = max(1, round(own_height * width / own_width))
        picture = shrunk(picture, (height, width) if sideways else (width, height))
    # Turning and converting come after shrinking: both cost by the pixel, and neither mixes pixels.
    image = turned(without_alpha(picture, profile), orientation)
    image.info.clear()
    return Loaded(image=image, width=own_width, height=own_height, animated=opened.animated, names=names)
