"""When a photo was taken: what cameras write of it, right and wrong."""

from __future__ import annotations

import datetime as dt
from io import BytesIO
from zoneinfo import ZoneInfo

import pytest
from PIL import Image

from guidegen.imaging.photo_time import Taken, taken

_EXIF, _ORIGINAL, _CHANGED, _OFFSET = 0x8769, 0x9003, 0x0132, 0x9011
EVENING = dt.datetime(2026, 3, 14, 20, 15, 30)  # noqa: DTZ001  cameras write no zone


def when(original: str, *, changed: str = "", offset: str = "") -> dt.datetime | None:
    exif = Image.Exif()
    if changed:
        exif[_CHANGED] = changed
    inner = exif.get_ifd(_EXIF)
    inner[_ORIGINAL] = original
    if offset:
        inner[_OFFSET] = offset
    saved = BytesIO()
    Image.new("RGB", (16, 16)).save(saved, "JPEG", exif=exif)
    found = taken(saved.getvalue())
    assert isinstance(found, Taken)
    return found.when


def test_the_time_and_its_offset_are_read():
    assert when("2026:03:14 20:15:30") == EVENING
    west = dt.timezone(dt.timedelta(hours=-9, minutes=-30))
    assert when("2026:03:14 20:15:30", offset="-09:30") == EVENING.replace(tzinfo=west)


@pytest.mark.parametrize("nothing", ["0000:00:00 00:00:00", "2026:13:14 20:15:30", "    :  :     :  :  "])
def test_a_clock_that_was_never_set_leaves_the_next_time(nothing: str):
    assert when(nothing) is None
    assert when(nothing, changed="2026:03:14 20:15:30") == EVENING


def test_an_offset_that_no_zone_has_is_left_out():
    assert when("2026:03:14 20:15:30", offset="+99:99") == EVENING


@pytest.mark.parametrize(
    ("text", "offset"), [("0001:01:01 00:00:00", "+14:00"), ("9999:12:31 23:59:59", "-12:00")]
)
def test_every_time_can_be_told_by_the_clock_of_any_zone(text: str, offset: str):
    found = when(text, offset=offset)
    assert found is None or found.astimezone(ZoneInfo("Europe/Berlin"))
