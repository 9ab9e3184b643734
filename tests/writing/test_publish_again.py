"""Some files of a site exchanged by a process that knows how it left it; files made before their turn."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.made_sites import NEW, OLD, Failing, Site, artefacts_of, files_in, page, placeholder, put

from guidegen.base.errors import MachineError
from guidegen.writing.ahead import Ahead
from guidegen.writing.atomic import Disk
from guidegen.writing.left import Left
from guidegen.writing.manifest import read_manifest
from guidegen.writing.publish import Published, publish_again
from guidegen.writing.site_folder import STAGING


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "site"


def again(site: Site, left: Left, disk: Disk | None = None) -> Published | None:
    return publish_again(artefacts_of(site), left, placeholder=placeholder, disk=disk)


def test_some_files_are_exchanged_and_all_others_not_even_looked_at(out: Path):
    left = put(OLD, out).left
    pages = [path for path in OLD if path.endswith(".html")]
    changed = {path: page(path, "another word") for path in pages[:2]}
    done = again(changed, left)
    assert done is not None
    assert (done.written, done.unchanged, done.exchanged) == (2, len(OLD) - 2, tuple(sorted(changed)))
    assert files_in(out) == {**OLD, **changed}
    assert read_manifest(out) == done.left.manifest
    assert again(changed, done.left).written == 0
    # A whole build has nothing left to do, and knows the site as it is.
    assert put({**OLD, **changed}, out).unchanged == len(OLD)


@pytest.mark.parametrize("what", ["new", "altered", "gone", "built", "staged"])
def test_where_somebody_was_in_the_site_nothing_is_exchanged(what: str, out: Path):
    left = put(OLD, out).left
    home = {"index.html": page("index.html", "another word")}
    if what == "new":
        home["elsewhere.html"] = page("elsewhere.html", "new")
    elif what == "altered":
        (out / "index.html").write_text("mine")
    elif what == "gone":
        (out / "index.html").unlink()
    elif what == "built":
        put(NEW, out)
    else:
        (out / STAGING).mkdir()
    before = files_in(out)
    assert again(home, left) is None
    assert files_in(out) == before


def test_a_full_disk_while_some_files_are_exchanged_leaves_the_others(out: Path):
    left = put(OLD, out).left
    with pytest.raises(MachineError, match="disk is full"):
        again({"index.html": page("index.html", "another word")}, left, Failing(0))
    assert files_in(out) == OLD


def test_what_is_made_ahead_waits_on_the_disk_and_leaves_nothing(out: Path, tmp_path: Path):
    put({"index.html": b"<html></html>\n"}, out)
    entry = read_manifest(out).files["index.html"]
    folder = tmp_path / "cache"
    folder.mkdir()
    with Ahead(out, folder) as ahead:
        assert not ahead.lacks("index.html", entry.key)
        assert ahead.lacks("index.html", "another")
        assert ahead.lacks("new.html", entry.key)
        kept = [ahead.keep(bytes([n]) * n * 1000) for n in range(5)]
        assert [back() for back in reversed(kept)] == [bytes([n]) * n * 1000 for n in range(4, -1, -1)]
        assert list(folder.iterdir()) == []
    with Ahead(out, tmp_path / "not-there") as ahead:
        assert ahead.keep(b"one")() == b"one"
