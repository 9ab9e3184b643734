"""How files looked is kept apart from them; small files are put in place whole."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from guidegen.base.stamp import Stamp
from guidegen.writing.atomic import Disk, write_atomically
from guidegen.writing.stat_cache import file_hash, load_json, memory_file, save_json


def test_it_is_kept_on_disk(tmp_path: Path):
    file = memory_file(tmp_path / "cache", tmp_path / "site", "site")
    save_json(file, {"manifest": "é\udcff", "looks": [1, 2]})
    assert load_json(file) == {"format": 2, "manifest": "é\udcff", "looks": [1, 2]}


@pytest.mark.parametrize("broken", [b"", b"[]", b"{}", b'{"format": 3, "looks": []}', b"[" * 100_000])
def test_a_damaged_memory_is_none(tmp_path: Path, broken: bytes):
    (file := tmp_path / "memory.json").write_bytes(broken)
    assert load_json(file) == {}


def test_no_place_to_keep_it(tmp_path: Path):
    (tmp_path / "file").touch()
    save_json(tmp_path / "file" / "memory.json", {})
    save_json(None, {})
    assert load_json(None) == {} == load_json(tmp_path / "nothing.json")
    assert memory_file(None, tmp_path, "site") is None


def test_each_folder_has_its_own_whatever_way_it_is_named(tmp_path: Path):
    (tmp_path / "a").mkdir()
    (tmp_path / "way").symlink_to(tmp_path / "a")
    cache = tmp_path / "cache"
    assert memory_file(cache, tmp_path / "a", "inputs") == memory_file(cache, tmp_path / "way", "inputs")
    assert len({memory_file(cache, tmp_path / "a", w) for w in ("inputs", "site")}) == 2
    assert memory_file(cache, tmp_path / "a", "site") != memory_file(cache, tmp_path / "b", "site")


def test_how_a_file_looks_is_the_same_listed_and_asked(tmp_path: Path):
    (tmp_path / "a").write_bytes(b"abc")
    with os.scandir(tmp_path) as entries:
        (entry,) = entries
        assert Stamp.of(entry.stat()) == Stamp.of((tmp_path / "a").stat())
    # FIPS 180-4, the first example of SHA-256 in its companion document.
    assert file_hash(tmp_path / "a") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def test_the_same_bytes_are_not_written_again(tmp_path: Path):
    target = tmp_path / "a"
    assert write_atomically(target, b"one")
    os.utime(target, (1, 1))
    assert not write_atomically(target, b"one")
    assert target.stat().st_mtime == 1
    assert write_atomically(target, b"two", durable=True)
    assert target.read_bytes() == b"two"


def test_a_failure_leaves_the_old_file_and_no_other(tmp_path: Path):
    class Full(Disk):
        def replace(self, source, target):
            raise OSError(28, "No space left on device")

    target = tmp_path / "index.html"
    target.write_bytes(b"old")
    with pytest.raises(OSError, match="No space"):
        write_atomically(target, b"new", disk=Full())
    assert [path.name for path in tmp_path.iterdir()] == ["index.html"]
    assert target.read_bytes() == b"old"
