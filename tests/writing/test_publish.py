"""Publishing: what is written, what is left alone, what is refused, and what is said when the machine will not."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest
from support.made_sites import (
    HOME,
    NEW,
    OLD,
    Failing,
    Hasty,
    Killed,
    Killing,
    Watched,
    artefacts_of,
    check_whole,
    files_in,
    folders_around,
    folders_in,
    page,
    placeholder,
    publish,
    put,
)

from guidegen.base.errors import MachineError
from guidegen.writing.artifact import Artifact
from guidegen.writing.manifest import MANIFEST, PENDING, read_manifest
from guidegen.writing.publication import Installed
from guidegen.writing.trouble import HALF_WAY, UNTOUCHED


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "site"


def operations(old, new, out: Path) -> int:
    """How many operations it takes from one site to the next."""
    put(old, out)
    counting = Failing(-1)
    put(new, out, disk=counting)
    return counting.count


def test_the_folder_holds_exactly_the_site(out: Path):
    assert counts(put(OLD, out)) == (len(OLD), 0, 0)
    assert files_in(out) == OLD
    result = put(NEW, out)
    assert files_in(out) == NEW
    assert folders_in(out) == folders_around(NEW)
    same = sum(OLD.get(path) == data for path, data in NEW.items())
    assert counts(result) == (len(NEW) - same, same, len(OLD.keys() - NEW.keys()))


def counts(result: Installed) -> tuple[int, int, int]:
    return len(result.changes.written), result.unchanged, result.removed


def test_first_build_is_whole_at_every_moment(out: Path):
    put(NEW, out, disk=Watched(lambda: check_whole(out, NEW)))


def test_every_moment_of_an_exchange_is_whole(out: Path):
    put(OLD, out)
    put(NEW, out, disk=(watched := Watched(lambda: check_whole(out, OLD, NEW))))
    assert watched.count > len(NEW)


def test_killed_at_each_operation(tmp_path: Path):
    count = operations(OLD, NEW, tmp_path / "counted")
    for at in range(count):
        out = tmp_path / str(at)
        put(OLD, out)
        with pytest.raises(Killed):
            put(NEW, out, disk=Killing(at))
        check_whole(out, OLD, NEW)
        # The author has changed their mind meanwhile.
        put(OLD, out, disk=Watched(lambda out=out: check_whole(out, OLD, NEW)))
        assert files_in(out) == OLD
        assert folders_in(out) == folders_around(OLD)


def test_nothing_is_taken_for_known_that_a_killed_build_may_have_changed(out: Path):
    """Two builds within one tick of a coarse clock may leave a file that looks as it did, and holds something else."""
    count = operations(OLD, NEW, out.parent / "counted")
    put(OLD, out)
    with pytest.raises(Killed):
        put(NEW, out, disk=Killing(count // 2))
    listed = read_manifest(out).files
    assert listed.keys() == OLD.keys() | NEW.keys()
    for path, entry in listed.items():
        assert (entry == PENDING) == (OLD.get(path) != NEW.get(path)), path


@pytest.mark.parametrize("once", [True, False])
def test_a_full_disk_at_each_operation(tmp_path: Path, once: bool):
    count = operations(OLD, NEW, tmp_path / "counted")
    said = set()
    for at in range(count):
        out = tmp_path / str(at)
        put(OLD, out)
        try:
            put(NEW, out, disk=Failing(at, once=once))
        except MachineError as error:
            said.add(error.message)
            check_whole(out, OLD, NEW)
            assert not [path for path in files_in(out) if path.startswith(".")]
            if error.message.endswith(UNTOUCHED):
                assert files_in(out) == OLD
        put(NEW, out)
        assert files_in(out) == NEW
    assert all(message.startswith("The disk is full, so “") for message in said)
    assert {message.endswith(UNTOUCHED) for message in said} == {True, False}
    assert any(message.endswith(HALF_WAY) for message in said)


def test_a_full_disk_at_the_first_build_leaves_nothing(out: Path):
    with pytest.raises(MachineError, match="The disk is full"):
        put(NEW, out, disk=Failing(5))
    assert not out.exists()


def test_interrupted_while_pages_are_made(out: Path):
    put(OLD, out)

    def interrupted() -> bytes:
        raise KeyboardInterrupt

    made = [*artefacts_of(NEW), Artifact(path="zander.html", key="", data=interrupted)]
    with pytest.raises(KeyboardInterrupt):
        publish(made, out, placeholder=placeholder, version="0.1.0", disk=Hasty())
    assert files_in(out) == OLD


def test_our_own_crash_is_not_taken_for_the_disks(out: Path):
    def broken() -> bytes:
        raise OSError(errno.ENOSPC, "from elsewhere")

    made = [Artifact(path=HOME, key="", data=broken)]
    with pytest.raises(OSError, match="from elsewhere"):
        publish(made, out, placeholder=placeholder, version="0.1.0", disk=Hasty())


# Work is done once


def test_what_has_its_key_is_neither_made_nor_written(out: Path, tmp_path: Path):
    put(OLD, out, memory=tmp_path / "m.json")
    before = {path: path.stat() for path in out.rglob("*")}

    def never() -> bytes:
        raise AssertionError("made again")

    lazy = [Artifact(path=a.path, key=a.key, data=never) for a in artefacts_of(OLD)]
    publish(lazy, out, placeholder=placeholder, version="0.1.0", disk=Failing(0), memory=tmp_path / "m.json")
    publish(lazy, out, placeholder=placeholder, version="0.1.0", disk=Failing(0), memory=None)
    assert {path: path.stat().st_mtime_ns for path in before} == {
        path: stat.st_mtime_ns for path, stat in before.items()
    }


def test_unchanged_bytes_keep_their_time_whatever_their_key(out: Path):
    put(OLD, out)
    for path in out.rglob("*.html"):
        os.utime(path, (1, 1))
    result = put(OLD, out, keys=False)
    assert result.changes.written == ()
    assert {path.stat().st_mtime for path in out.rglob("*.html")} == {1}


def test_files_touched_or_copied_are_known_by_their_content(out: Path, tmp_path: Path):
    memory = tmp_path / "m.json"
    put(OLD, out, memory=memory)
    for path in out.rglob("*.html"):
        os.utime(path, (1, 1))
    assert put(OLD, out, memory=memory).changes.written == ()


def test_a_file_altered_by_hand_is_put_right(out: Path, tmp_path: Path):
    memory = tmp_path / "m.json"
    put(OLD, out, memory=memory)
    page_file = out / "guides/toll-house/index.html"
    page_file.write_bytes(page_file.read_bytes().replace(b"one", b"eno"))
    (out / "photos/eel.webp").unlink()
    assert len(put(OLD, out, memory=memory).changes.written) == 2
    assert files_in(out) == OLD


def test_a_changed_key_alone_is_written_down(out: Path):
    put(OLD, out)
    relabelled = [Artifact(path=a.path, key="later", data=a.data) for a in artefacts_of(OLD)]
    result = publish(relabelled, out, placeholder=placeholder, version="0.1.0", disk=Hasty())
    assert result.changes.written == ()
    assert {entry.key for entry in read_manifest(out).files.values()} == {"later"}


def test_a_damaged_memory_only_costs_time(out: Path, tmp_path: Path):
    memory = tmp_path / "m.json"
    put(OLD, out, memory=memory)
    for damaged in (b"", b"[1", b'{"format": 1, "manifest": 3, "looks": {}}', b"[" * 100_000):
        memory.write_bytes(damaged)
        assert put(OLD, out, memory=memory).changes.written == ()


def test_files_are_copied_a_piece_at_a_time(out: Path, tmp_path: Path):
    photo = tmp_path / "coats.webp"
    photo.write_bytes(bytes(range(256)) * 10_000)
    made = [
        Artifact(path=HOME, key="", data=page(HOME, "one")),
        Artifact(path="photos/coats.webp", key="", data=photo),
        Artifact(path="photos/later.webp", key="", data=lambda: photo),
    ]
    publish(made, out, placeholder=placeholder, version="0.1.0", disk=Hasty())
    assert (
        (out / "photos/coats.webp").read_bytes()
        == photo.read_bytes()
        == (out / "photos/later.webp").read_bytes()
    )
    assert publish(made, out, placeholder=placeholder, version="0.1.0", disk=Failing(0)).unchanged == 3
    # A copy: what happens to one does not happen to the other.
    assert not (out / "photos/coats.webp").samefile(photo)


def test_a_file_to_copy_that_went_away(out: Path, tmp_path: Path):
    put(OLD, out)
    gone = [*artefacts_of(NEW), Artifact(path="map.pdf", key="", data=tmp_path / "map.pdf")]
    with pytest.raises(MachineError, match=r"map\.pdf” went away while"):
        publish(gone, out, placeholder=placeholder, version="0.1.0", disk=Hasty())
    assert files_in(out) == OLD


def test_data_is_let_go_before_the_next_is_made(out: Path):
    alive = []

    class Photo(bytes):
        __slots__ = ()

        def __del__(self):
            alive.remove(len(self))

    def make(size: int):
        def made() -> bytes:
            assert len(alive) <= 1, "two photos in memory besides the one being made"
            alive.append(size)
            return Photo(size)

        return made

    photos = [Artifact(path=f"photos/{n}.webp", key="", data=make(1000 + n)) for n in range(5)]
    home = Artifact(path=HOME, key="", data=page(HOME, "one"))
    publish([home, *photos], out, placeholder=placeholder, version="0.1.0", disk=Hasty())
    assert alive == []


def test_the_same_site_has_the_same_manifest(tmp_path: Path):
    put(OLD, tmp_path / "a")
    put(NEW, tmp_path / "a")
    put(dict(reversed(NEW.items())), tmp_path / "b")
    assert (tmp_path / "a" / MANIFEST).read_bytes() == (tmp_path / "b" / MANIFEST).read_bytes()


def test_files_are_readable_as_any_new_file(out: Path):
    put(OLD, out)
    (plain := out.parent / "plain").touch()
    assert {path.stat().st_mode for path in out.rglob("*.html")} == {plain.stat().st_mode}
