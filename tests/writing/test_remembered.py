"""Files are read again only where they may have changed."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from guidegen.writing.atomic import Disk, write_atomically
from guidegen.writing.remembered import (
    TICK_NS,
    FileStat,
    Remembered,
    file_hash,
    fingerprints,
    load,
    memory_file,
    save,
)

SECOND = 1_000_000_000
NOW = 1_000 * SECOND
OLD_STAT = FileStat(10, NOW - 60 * SECOND, 7)


class Reader:
    def __init__(self, *gone: str):
        self.read: list[str] = []
        self.gone = gone

    def __call__(self, path: str) -> str | None:
        self.read.append(path)
        return None if path in self.gone else f"hash of {path} by look {len(self.read)}"


def test_a_file_is_read_once():
    first, second = Reader(), Reader()
    hashes, remembered = fingerprints({"a.jpg": OLD_STAT}, Remembered(), first, now=NOW)
    assert first.read == ["a.jpg"]
    again, _ = fingerprints({"a.jpg": OLD_STAT}, remembered, second, now=NOW + SECOND)
    assert second.read == []
    assert again == hashes


@pytest.mark.parametrize(
    "changed", [OLD_STAT._replace(size=11), OLD_STAT._replace(mtime_ns=1), OLD_STAT._replace(inode=8)]
)
def test_whatever_looks_different_is_read(changed: FileStat):
    _, remembered = fingerprints({"a.jpg": OLD_STAT}, Remembered(), Reader(), now=NOW)
    reader = Reader()
    fingerprints({"a.jpg": changed}, remembered, reader, now=NOW)
    assert reader.read == ["a.jpg"]


@pytest.mark.parametrize(
    ("before_look", "read"),
    [(TICK_NS + 1, False), (TICK_NS, False), (TICK_NS - 1, True), (0, True), (-5 * SECOND, True)],
)
def test_what_changed_just_before_the_last_look_is_read(before_look: int, read: bool):
    fresh = OLD_STAT._replace(mtime_ns=NOW - before_look)
    _, remembered = fingerprints({"a.jpg": fresh}, Remembered(), Reader(), now=NOW)
    reader = Reader()
    _, settled = fingerprints({"a.jpg": fresh}, remembered, reader, now=NOW + 60 * SECOND)
    assert (reader.read == ["a.jpg"]) is read
    reader = Reader()
    fingerprints({"a.jpg": fresh}, settled, reader, now=NOW + 61 * SECOND)
    assert reader.read == []


def test_what_vanished_is_left_out_and_forgotten():
    stats = {"a.jpg": OLD_STAT, "b.jpg": OLD_STAT}
    hashes, remembered = fingerprints(stats, Remembered(), Reader("b.jpg"), now=NOW)
    assert hashes.keys() == remembered.files.keys() == {"a.jpg"}


def test_it_is_kept_on_disk(tmp_path: Path):
    file = memory_file(tmp_path / "cache", tmp_path / "content", "inputs")
    _, remembered = fingerprints({"guides/é\udcff.jpg": OLD_STAT}, Remembered(), Reader(), now=NOW)
    save(file, remembered)
    assert load(file) == remembered


@pytest.mark.parametrize(
    "broken",
    [b"", b"[]", b'{"format": 1}', b'{"format": 2, "looked_at": 1, "files": {}}', b'{"format": 1, "looked_at": "x", "files": {}}',
     b'{"format": 1, "looked_at": 1, "files": {"a": [1, 2]}}', b'{"format": 1, "looked_at": 1, "files": []}', b"[" * 100_000],
)  # fmt: skip
def test_a_damaged_memory_is_none(tmp_path: Path, broken: bytes):
    (file := tmp_path / "memory.json").write_bytes(broken)
    assert load(file) == Remembered()


def test_no_place_to_keep_it(tmp_path: Path):
    (tmp_path / "file").touch()
    save(tmp_path / "file" / "memory.json", Remembered())
    save(None, Remembered())
    assert load(None) == Remembered() == load(tmp_path / "nothing.json")
    assert memory_file(None, tmp_path, "inputs") is None


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
        assert FileStat.of(entry.stat()) == FileStat.of((tmp_path / "a").stat())
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
