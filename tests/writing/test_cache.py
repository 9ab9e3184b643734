"""The cache: kept between builds, shared by builds, never trusted blindly, never in the way."""

from __future__ import annotations

import multiprocessing
import os
import tempfile
import threading
import time
from pathlib import Path

import pytest
from support.odd_files import ODD, make_odd, patience

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


def full(*_: object, **__: object) -> None:
    raise OSError(28, "No space left on device")


def test_no_room_anywhere_costs_only_time_and_little_memory(folder: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(module, "write_atomically", full)
    with Cache.opened(folder, limit=100) as cache:
        for number in range(20):
            cache.put(f"photo-{number}", bytes([number]) * (module.AT_HAND // 8))
            assert cache.has(f"photo-{number}")
        kept = [number for number in range(20) if cache.has(f"photo-{number}")]
        # What was put last is there; what is gone has to be made once more.
        assert kept == list(range(12, 20))
        assert [cache.get(f"photo-{number}") is not None for number in range(20)] == [
            number in kept for number in range(20)
        ]
        assert cache.get("photo-19") == bytes([19]) * (module.AT_HAND // 8)
    assert cache.note is not None
    assert str(folder) in cache.note
    assert "No space left on device" in cache.note


def test_two_entries_that_were_swapped_are_no_entries(folder: Path):
    cache = Cache(folder)
    cache.put("coats", b"photo of coats")
    cache.put("hoods", b"photo of hoods")
    coats, hoods = (Path(Cache._place(folder, key)) for key in ("coats", "hoods"))
    data = coats.read_bytes()
    coats.write_bytes(hoods.read_bytes())
    hoods.write_bytes(data)
    assert cache.get("coats") is None
    assert cache.get("hoods") is None
    cache.put("coats", b"photo of coats")
    assert cache.get("coats") == b"photo of coats"


@pytest.mark.skipif(os.name != "posix", reason="made of what POSIX machines have")
@pytest.mark.parametrize("kind", ODD)
def test_what_is_no_file_in_an_entrys_place_costs_only_time(folder: Path, kind: str):
    with Cache.opened(folder, limit=1000) as cache:
        cache.put("coats", b"photo")
    place = Path(Cache._place(folder, "coats"))
    place.unlink()
    make_odd(place, kind)
    with patience(), Cache.opened(folder, limit=1) as cache:
        assert cache.get("coats") is None
        assert not cache.has("coats")
        cache.put("coats", b"photo")
        assert cache.has("coats")
        assert cache.get("coats") == b"photo"
        cache.put("hoods", b"photo")


@pytest.mark.skipif(os.name != "posix", reason="made of what POSIX machines have")
@pytest.mark.parametrize("kind", [kind for kind in ODD if "folder" not in kind])
def test_what_is_no_folder_in_the_caches_place_costs_only_time(folder: Path, kind: str):
    make_odd(folder, kind)
    with patience(), Cache.opened(folder, limit=1) as cache:
        assert cache.get("coats") is None
        cache.put("coats", b"photo")
        assert cache.get("coats") == b"photo"
    assert str(folder) in str(cache.note)


@pytest.mark.parametrize("call", ["shared", "taken_alone"])
def test_a_cache_that_cannot_be_locked_serves_all_the_same(
    folder: Path, monkeypatch: pytest.MonkeyPatch, call: str
):
    monkeypatch.setattr(module, call, full)
    with Cache.opened(folder, limit=1000) as cache:
        cache.put("coats", b"photo")
    assert Cache(folder).get("coats") == b"photo"


def test_a_cache_that_cannot_be_trimmed_says_so(folder: Path, monkeypatch: pytest.MonkeyPatch):
    with Cache.opened(folder) as cache:
        cache.put("coats", bytes(1000))

    def refused(path: Path, missing_ok: bool = False) -> None:
        raise PermissionError(13, "Permission denied", str(path))

    monkeypatch.setattr(Path, "unlink", refused)
    with Cache.opened(folder, limit=10) as cache:
        pass
    assert cache.note is not None
    assert str(folder) in cache.note
    assert "Permission denied" in cache.note


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


def test_with_no_place_for_temporary_files_either_nothing_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    (tmp_path / "file").touch()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "file"))
    with Cache.opened(cache_folder({"HOME": "/nowhere"})) as cache:
        cache.put("coats", b"photo")
        assert cache.get("coats") == b"photo"
    assert cache.note is not None
