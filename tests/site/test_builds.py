"""Builds that are killed, meet another at work, or have a cache too small for them."""

from __future__ import annotations

import os
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner
from support.content_folders import bytes_of
from support.edited_archive import begun, built, write_guide
from support.paths import TESTS

from guidegen.building.build import Order, build
from guidegen.building.memory import Memory
from guidegen.commands.build import command
from guidegen.writing.lock import locked

sys.path.insert(0, str(TESTS / "abuse"))

from killing import Ground, faults, kill_at

# `python tests/abuse/killing.py` kills at 200.
MOMENTS = int(os.environ.get("GUIDEGEN_TEST_KILLS", "15"))


@pytest.mark.skipif(sys.platform == "win32", reason="there is no SIGKILL")
def test_killed_at_any_moment_every_page_is_whole_and_every_link_leads_on(tmp_path: Path):
    came_to = kill_at(Ground(tmp_path), MOMENTS)
    assert came_to.total() == MOMENTS
    # That the kills met the work at all: that before the site is touched takes longest.
    assert came_to["untouched"] + came_to["beside the site"] > 0


def test_faults_are_seen(tmp_path: Path):
    (tmp_path / "index.html").write_text(
        '<a href="a.html">a</a><img src="b.png" srcset="b.png 1x, c.png 2x">'
    )
    told = faults(tmp_path)
    assert told[0] == "index.html is not whole"
    assert [line.split()[3] for line in told[1:]] == ["a.html,", "b.png,", "b.png,", "c.png,"]


def test_of_two_builds_at_once_one_is_told_to_wait(tmp_path: Path):
    content, out = begun(tmp_path / "content"), tmp_path / "site"
    places = ["--content", str(content), "--out", str(out), "--cache", str(tmp_path / "cache")]
    built(content, out, tmp_path / "cache")
    before = bytes_of(out)
    write_guide(content, "lamp-boys", 3, title="Boys with lamps")
    with locked(out):
        refused = CliRunner().invoke(command, places)
    assert isinstance(refused.exception, Exception)
    assert "build" in str(refused.exception)
    assert bytes_of(out) == before
    assert CliRunner().invoke(command, places).exit_code == 0
    assert bytes_of(out) != before


@pytest.mark.parametrize("held", [None, Memory()])
def test_a_cache_too_small_for_the_build_is_kept_to_after_it(held: Memory | None, tmp_path: Path):
    content, out, cache = begun(tmp_path / "content"), tmp_path / "site", tmp_path / "cache"
    built(content, tmp_path / "plenty", tmp_path / "large")
    order = Order(content=content, out=out, cache=cache, cache_bytes=1)
    first = build(order, held)
    assert first.counts is not None
    assert first.counts.photos_encoded == 4
    assert bytes_of(out) == bytes_of(tmp_path / "plenty")
    assert not [file for file in cache.rglob("*.webp") if file.is_file()]
    # What went from the cache and is wanted again is made again.
    for file in (out / "assets" / "photos").iterdir():
        file.unlink()
    assert build(order, held).counts is not None
    assert bytes_of(out) == bytes_of(tmp_path / "plenty")
