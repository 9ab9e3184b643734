"""When a photo was taken, by what the camera wrote (Exif 2.32: DateTimeOriginal, OffsetTimeOriginal), and how sharp it is."""

from __future__ import annotations

import datetime as dt
import re
from contextlib import suppress
from typing import NamedTuple

from guidegen.imaging.load import decode, open_photo
from guidegen.imaging.trouble import Trouble

_EXIF, _ORIGINAL, _DIGITISED, _CHANGED = 0x8769, 0x9003, 0x9004, 0x0132
_OFFSETS = (0x9011, 0x9010, 0x9012)
# A clock that was never set says the year 0 or 1, which is no time at all.
_MOMENT = re.compile(r"((?:19|20)\d\d):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)")
_OFFSET = re.compile(r"([+-])([01]\d|2[0-3]):?([0-5]\d)")
# Sharpness is compared at this width, so that a large photo is not sharper for being large.
_WIDTH = 320


class Taken(NamedTuple):
    """The camera's clock, with an offset where it wrote one; None where it wrote none. `sharpness` only compares."""

    when: dt.datetime | None
    sharpness: float


def taken(data: bytes) -> Taken | Trouble:
    """What a photo's bytes say. Nothing that a file contains makes this raise."""
    opened = open_photo(data, _WIDTH)
    if isinstance(opened, Trouble):
        return opened
    try:
        when = _when(opened.image)
    except Exception:  # noqa: BLE001  broken metadata make the readers raise anything at all
        when = None
    loaded = decode(opened, _WIDTH)
    if isinstance(loaded, Trouble):
        return loaded
    import numpy as np

    grey = np.asarray(loaded.image.convert("L"), dtype=float)
    if min(grey.shape) < 3:
        return Taken(when, 0.0)
    # The variance of the Laplacian: Pech-Pacheco et al., “Diatom autofocusing in brightfield microscopy”, ICPR 2000.
    laplacian = 4 * grey[1:-1, 1:-1] - grey[:-2, 1:-1] - grey[2:, 1:-1] - grey[1:-1, :-2] - grey[1:-1, 2:]
    return Taken(when, round(float(laplacian.var()), 3))


def _when(image: object) -> dt.datetime | None:
    exif = image.getexif()  # type: ignore[attr-defined]
    inner = exif.get_ifd(_EXIF)
    offset = _OFFSET.fullmatch(next((str(inner[tag]) for tag in _OFFSETS if inner.get(tag)), "").strip("\0 "))
    zone = None
    if offset:
        away = dt.timedelta(hours=int(offset[2]), minutes=int(offset[3]))
        zone = dt.timezone(away if offset[1] == "+" else -away)
    for tag in (_ORIGINAL, _DIGITISED, _CHANGED):
        found = _MOMENT.fullmatch(str(inner.get(tag) or exif.get(tag) or "").strip("\0 "))
        if found:
            with suppress(ValueError):  # as of a month 13
                year, month, day, hour, minute, second = map(int, found.groups())
                return dt.datetime(year, month, day, hour, minute, second, tzinfo=zone)
    return None
