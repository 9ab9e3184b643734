"""The one size that a photo travels in: smaller in bytes than the site's own file, no further from the photo, kept once made."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import numpy as np
import pytest
from PIL import Image
from support.photos import SPAN, Shelf, saved, skimage_photo

from guidegen.base.errors import MachineError
from guidegen.imaging.dense import dense, fitting
from guidegen.imaging.develop import Original, develop


def photo_in(folder: Path, width: int, height: int) -> Original:
    with Image.open(skimage_photo("coffee.png")) as photo:
        data = saved(photo.convert("RGB").resize((width, height)), "JPEG")
    (folder / "cup.jpg").write_bytes(data)
    return Original(path=folder / "cup.jpg", name="cup.jpg", span=SPAN)


def pixels(data: bytes) -> np.ndarray:
    with Image.open(BytesIO(data)) as photo:
        return np.asarray(photo.convert("RGB")).astype(float)


@pytest.mark.parametrize(("width", "expected"), [(1900, 960), (1000, 960), (700, 700), (300, 300)])
def test_it_is_the_sites_photo_in_fewer_bytes(tmp_path: Path, width: int, expected: int) -> None:
    original, shelf = photo_in(tmp_path, width, width * 2 // 3), Shelf()
    (done,) = develop([original], shelf)
    assert done.picture is not None
    assert fitting(done.picture) == (expected, round(width * 2 // 3 * expected / width))
    data = dense([(original, done.picture)], shelf)[done.picture]
    known = shelf.kept[done.picture.file(expected, "webp")]
    assert len(data) < len(known)
    with Image.open(original.path) as photo:
        true = np.asarray(photo.resize(fitting(done.picture), Image.Resampling.BICUBIC)).astype(float)
    ours, theirs = (np.sqrt(np.square(pixels(one) - true).mean()) for one in (data, known))
    assert ours < 1.05 * theirs


def test_it_is_made_once(tmp_path: Path) -> None:
    original, shelf = photo_in(tmp_path, 500, 400), Shelf()
    (done,) = develop([original], shelf)
    assert done.picture is not None
    first = dense([(original, done.picture)], shelf)
    puts = len(shelf.puts)
    original.path.unlink()
    assert dense([(original, done.picture)], shelf) == first
    assert len(shelf.puts) == puts


def test_another_photo_is_not_taken_for_it(tmp_path: Path) -> None:
    original, shelf = photo_in(tmp_path, 500, 400), Shelf()
    (done,) = develop([original], shelf)
    assert done.picture is not None
    photo_in(tmp_path, 501, 400)
    with pytest.raises(MachineError):
        dense([(original, done.picture)], shelf)
    assert not [key for key in shelf.kept if "dense" in key]
