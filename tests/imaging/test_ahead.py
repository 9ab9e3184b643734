"""Photos opened ahead: told of as ever, and left to be opened later where they could do harm."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from pathlib import Path

import pytest
from support.photos import flat, saved

from guidegen.base.source import Span
from guidegen.imaging import ahead
from guidegen.imaging.ahead import PhotosAhead, opened_ahead
from guidegen.imaging.develop import Developed, Original, look_at
from guidegen.writing.cache import Cache

pytestmark = pytest.mark.skipif(
    sys.platform != "linux", reason="photos are opened ahead where workers are forks"
)


@pytest.fixture(autouse=True)
def cores(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ahead, "usable_cores", lambda: 3)


@pytest.fixture
def photos(tmp_path: Path) -> dict[Path, int]:
    """Photos by the sizes of their files: a good one, a small, a broken one and one that is no more."""
    files = {
        tmp_path / "good.jpg": saved(flat("red", (800, 600)), "JPEG"),
        tmp_path / "small.png": saved(flat("red", (300, 200)), "PNG"),
        tmp_path / "broken.jpg": saved(flat("red", (800, 600)), "JPEG")[:300],
    }
    for file, data in files.items():
        file.write_bytes(data)
    return {file: len(data) for file, data in files.items()} | {tmp_path / "gone.jpg": 9}


def original(path: Path) -> Original:
    return Original(path=path, name=path.name, span=Span.of_file("guide.md"))


def looked(sizes: Mapping[Path, int]) -> dict[str, Developed | None]:
    with opened_ahead(sizes) as found:
        return {path.name: found.look_at(original(path)) for path in sizes}


def test_what_is_told_is_what_is_told_without(photos: dict[Path, int], tmp_path: Path) -> None:
    without = look_at([original(path) for path in photos], Cache(tmp_path / "cache"))
    assert looked(photos) == {path.name: done for path, done in zip(photos, without, strict=True)}


def test_nothing_is_known_of_a_photo_that_was_not_there(photos: dict[Path, int], tmp_path: Path) -> None:
    with opened_ahead(photos) as found:
        assert found.look_at(original(tmp_path / "another.jpg")) is None
    assert PhotosAhead().look_at(original(next(iter(photos)))) is None


def test_what_takes_much_memory_is_left(photos: dict[Path, int], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ahead, "MAX_AT_A_TIME", 3 * 300 * 200 - 1)
    assert [name for name, done in looked(photos).items() if done is None] == ["small.png"]


def test_only_as_many_are_opened_as_are_soon_done(
    photos: dict[Path, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    good, small, *_ = photos.values()
    monkeypatch.setattr(ahead, "_ENOUGH", (good + small + 1) / 2)
    assert [name for name, done in looked(photos).items() if done is not None] == ["good.jpg", "small.png"]


def test_a_library_that_crashes_takes_only_what_was_ahead(
    photos: dict[Path, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    def crash(photo: Original, *_more: object, **_named: object) -> None:
        raise SystemExit(photo.name)

    monkeypatch.setattr(ahead, "worked", crash)
    assert set(looked(photos).values()) == {None}
