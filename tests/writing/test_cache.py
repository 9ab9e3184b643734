"""The cache: kept between builds, shared by builds, never trusted blindly, never in the way."""

from __future__ import annotations

import multiprocessing
import os
import tempfile
import threading
import time
from pathlib import Path

import pytest

from guidegen.base.errors import MachineError
from guidegen.writing import cache as module
from guidegen.writing.cache import NAME, Cache, cache_folder


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "cache"


def files_of(folder: Path) -> list[Path]:
    return sorted(path for path in folder.glob("??/*"))


def age(folder: Path, key: str, days: float) -> None:
    then = time.time() - days * 86_400
    os.utime(Cache._place(folder, key), (then, then))


def test_what_is_put_is_got_by_any_later_build(folder: Path):
    with Cache.opened(folder) as cache:
        assert not cache.has("coats-480.webp")
        assert cache.get("coats-480.webp") is None
        cache.put("coats-480.webp", b"photo")
        cache.put("nothing", b"")
    later = Cache(folder)
    assert later.has("coats-480.webp")
    assert later.get("coats-480.webp") == b"photo"
    assert later.get("nothing") == b""
    assert later.note is None


@pytest.mark.parametrize("spoilt", [b"", b"short", b"\0" * 80])
def test_a_spoilt_file_is_dropped_and_made_anew(folder: Path, spoilt: bytes):
    cache = Cache(folder)
    cache.put("coats", b"photo")
    (kept,) = files_of(folder)
    kept.write_bytes(spoilt)
    assert cache.get("coats") is None
    assert not cache.has("coats")
    cache.put("coats", b"photo")
    assert cache.get("coats") == b"photo"


def test_a_file_emptied_by_a_power_cut_is_not_there(folder: Path):
    cache = Cache(folder)
    cache.put("coats", b"photo")
    files_of(folder)[0].write_bytes(b"")
    assert not cache.has("coats")


def test_it_is_kept_within_its_limit_by_what_was_used_last(folder: Path):
    with Cache.opened(folder, limit=10 * 132) as cache:
        for number in range(10):
            cache.put(f"photo-{number}", bytes(100))
            age(folder, f"photo-{number}", 30 - number)
        assert cache.get("photo-0") is not None
    assert len(files_of(folder)) == 10
    with Cache.opened(folder, limit=10 * 132) as cache:
        cache.put("photo-10", bytes(100))
    left = {path.name for path in files_of(folder)}
    assert len(left) == 9
    assert {"photo-0", "photo-10"} <= left
    assert not {"photo-1", "photo-2"} & left


def test_a_smaller_limit_counts_without_anything_new(folder: Path):
    with Cache.opened(folder, limit=10_000) as cache:
        for number in range(10):
            cache.put(f"photo-{number}", bytes(100))
    with Cache.opened(folder, limit=500):
        pass
    assert sum(path.stat().st_size for path in files_of(folder)) <= 500


def test_nothing_is_looked_through_when_nothing_was_added(folder: Path, monkeypatch: pytest.MonkeyPatch):
    with Cache.opened(folder, limit=1000) as cache:
        cache.put("coats", b"photo")
    monkeypatch.setattr(Cache, "_files", lambda self: pytest.fail("looked through"))
    with Cache.opened(folder, limit=1000) as cache:
        assert cache.get("coats") == b"photo"


def test_a_build_at_work_keeps_what_it_counts_on(folder: Path):
    with Cache.opened(folder) as at_work:
        at_work.put("coats", bytes(1000))
        with Cache.opened(folder, limit=10) as other:
            other.put("hood", bytes(1000))
        assert at_work.has("coats")
    with Cache.opened(folder, limit=10):
        pass
    assert files_of(folder) == []


def test_unfinished_files_of_a_killed_build_go_after_a_day(folder: Path):
    with Cache.opened(folder, limit=10_000) as cache:
        cache.put("coats", b"photo")
        drawer = files_of(folder)[0].parent
        (drawer / f".coats.1-ab{module.PART}").write_bytes(b"half")
        (drawer / f".coats.2-cd{module.PART}").write_bytes(b"half")
        os.utime(drawer / f".coats.1-ab{module.PART}", (1, 1))
    assert [path.name for path in files_of(folder)] == [f".coats.2-cd{module.PART}", "coats"]


def _fill(folder: str) -> None:
    with Cache.opened(Path(folder), limit=1_000_000) as cache:
        for number in range(60):
            key = f"photo-{number % 20}"
            if (kept := cache.get(key)) is not None:
                assert kept == key.encode() * 500
            cache.put(key, key.encode() * 500)


def test_two_builds_at_once(folder: Path):
    spawn = multiprocessing.get_context("spawn")
    processes = [spawn.Process(target=_fill, args=(str(folder),)) for _ in range(2)]
    for process in processes:
        process.start()
    for process in processes:
        process.join()
    assert [process.exitcode for process in processes] == [0, 0]
    cache = Cache(folder)
    assert all(cache.get(f"photo-{number}") == f"photo-{number}".encode() * 500 for number in range(20))
    assert len(files_of(folder)) == 20


def unwritable(folder: Path) -> Path:
    """A place where no folder can be made, for root too."""
    folder.write_text("in the way")
    return folder / "cache"


def test_a_cache_that_cannot_be_written_costs_only_time(folder: Path):
    with Cache.opened(unwritable(folder), limit=100) as cache:
        threads = [threading.Thread(target=cache.put, args=(f"photo-{n}", bytes(1000))) for n in range(8)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert all(cache.has(f"photo-{n}") and cache.get(f"photo-{n}") == bytes(1000) for n in range(8))
        assert cache.note is not None
        assert "cannot be written to" in cache.note
        spare = Path(cache._spare.name)
        assert spare.is_dir()
    assert not spare.exists()


def test_no_room_anywhere_is_told_plainly(folder: Path, monkeypatch: pytest.MonkeyPatch):
    def full(place: str, data: bytes) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(module, "_write", full)
    with (
        pytest.raises(MachineError, match=r"Neither the cache in .* can be written to"),
        Cache.opened(folder) as cache,
    ):
        cache.put("coats", b"photo")


def test_where_it_lies(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    home = tmp_path / "home"
    home.mkdir()
    monkeypatch.setattr(module.sys, "platform", "linux")
    assert cache_folder({"XDG_CACHE_HOME": str(tmp_path / "x"), "HOME": str(home)}) == tmp_path / "x" / NAME
    assert cache_folder({"XDG_CACHE_HOME": "x", "HOME": str(home)}) == home / ".cache" / NAME
    assert cache_folder({"HOME": str(home)}) == home / ".cache" / NAME
    monkeypatch.setattr(module.sys, "platform", "darwin")
    assert cache_folder({"HOME": str(home)}) == home / "Library/Caches" / NAME
    monkeypatch.setattr(module.sys, "platform", "win32")
    assert cache_folder({"LOCALAPPDATA": str(tmp_path / "local")}) == tmp_path / "local" / NAME


@pytest.mark.parametrize("home", ["/nowhere/at/all", "not/absolute"])
def test_without_a_home_it_lies_among_the_temporary_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, home: str
):
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    folder = cache_folder({"HOME": home})
    assert folder == tmp_path / f"{NAME}-{os.getuid()}"
    assert folder.stat().st_mode & 0o777 == 0o700
    assert cache_folder({"HOME": home}) == folder


def test_a_temporary_folder_open_to_others_is_not_used(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    theirs = tmp_path / f"{NAME}-{os.getuid()}"
    theirs.mkdir()
    theirs.chmod(0o777)
    folder = cache_folder({"HOME": "/nowhere"})
    assert folder != theirs
    assert folder.stat().st_mode & 0o777 == 0o700
    theirs.rmdir()
    theirs.symlink_to(folder)
    assert cache_folder({"HOME": "/nowhere"}) != theirs
