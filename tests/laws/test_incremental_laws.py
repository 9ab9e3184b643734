"""However it came about, a site is the one that its content makes: builds after edits equal builds from nothing."""

from __future__ import annotations

import os
import random
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from folders import bytes_of
from growing import begun, built, edits, from_nothing, in_order_of, photo, settle

import guidegen.checked
import guidegen.press
from guidegen.build import Order, build
from guidegen.memory import RECORDS, Answer, Memory, running
from guidegen.writing.kept import load_kept
from guidegen.writing.remembered import TICK_NS

pytestmark = pytest.mark.slow

EDITS = edits()


@pytest.mark.parametrize("seed", [1, 2])
def test_builds_after_edits_equal_builds_from_nothing(seed: int, tmp_path: Path):
    content = begun(tmp_path / "content")
    # Else every file is too young for anything to be taken for granted.
    settle(content)
    draw = random.Random(seed)
    held = Memory()
    sites = 0
    for number, name in enumerate(in_order_of(seed)):
        EDITS[name](content, draw)
        site, told = from_nothing(content, tmp_path / f"fresh-{number}")
        kept = built(content, tmp_path / "kept", tmp_path / "cache")
        ram = built(content, tmp_path / "ram", tmp_path / "cache", held)
        assert kept.diagnostics == ram.diagnostics == told, name
        if site is not None:
            sites += 1
            assert bytes_of(tmp_path / "kept") == site, name
            assert bytes_of(tmp_path / "ram") == site, name
    assert sites >= len(EDITS) - 3


@pytest.fixture
def content(tmp_path: Path) -> Path:
    folder = begun(tmp_path / "content")
    settle(folder)
    return folder


def test_nothing_changed_is_answered_at_once(content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    first = built(content, tmp_path / "site", tmp_path / "cache")
    before = bytes_of(tmp_path / "site")
    monkeypatch.setattr("guidegen.build.check_found", None)
    again = built(content, tmp_path / "site", tmp_path / "cache")
    assert again.diagnostics == first.diagnostics
    assert again.counts is not None
    assert first.counts is not None
    assert (again.counts.pages, again.counts.unchanged) == (first.counts.pages, first.counts.written)
    assert (again.counts.photos_encoded, again.counts.written, again.counts.removed) == (0, 0, 0)
    assert bytes_of(tmp_path / "site") == before


@pytest.mark.parametrize("what", ["gone", "altered", "added", "staged"])
def test_a_site_that_somebody_touched_is_looked_at_again(what: str, content: Path, tmp_path: Path):
    out = tmp_path / "site"
    built(content, out, tmp_path / "cache")
    before = bytes_of(out)
    page = out / "guides" / "ferry-watch" / "index.html"
    if what == "gone":
        page.unlink()
    elif what == "altered":
        page.write_text("spoilt")
    elif what == "added":
        (out / "empty").mkdir()
    else:
        (out / ".guidegen-new").mkdir()
        (out / ".guidegen-new" / "1").write_text("half")
    built(content, out, tmp_path / "cache")
    assert bytes_of(out) == before


def test_only_the_edited_guide_is_read_and_made(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    memory = Memory()
    built(content, tmp_path / "site", tmp_path / "cache", memory)
    made, checked = [], []
    real, check = guidegen.press.guide_pages, guidegen.checked.check_guide
    monkeypatch.setattr(
        "guidegen.press.guide_pages", lambda guide, *rest: made.append(guide.slug) or real(guide, *rest)
    )
    monkeypatch.setattr(
        "guidegen.checked.check_guide", lambda case: checked.append(case.guide.slug) or check(case)
    )
    read = memory.reading.read
    file = content / "guides" / "lamp-boys" / "guide.md"
    file.write_text(file.read_text().replace("stands in", "stands about in"))
    outcome = built(content, tmp_path / "site", tmp_path / "cache", memory)
    assert made == checked == ["lamp-boys"]
    assert memory.reading.read == read + 1
    # Besides the page, what bears the version of everything that readers may have kept, and the words to search by.
    assert set(outcome.exchanged) == {"guides/lamp-boys/index.html", "offline.js", "search-index.js"}
    assert b"stands about in" in (tmp_path / "site/guides/lamp-boys/index.html").read_bytes()


def test_a_paint_changes_only_the_pages_that_show_it(content: Path, tmp_path: Path):
    built(content, tmp_path / "site", tmp_path / "cache")
    before = bytes_of(tmp_path / "site")
    file = content / "palette.yaml"
    file.write_text(file.read_text().replace("owned: 1", "owned: 1, note: thick as mud", 1))
    built(content, tmp_path / "site", tmp_path / "cache")
    after = bytes_of(tmp_path / "site")
    changed = {path for path in after if before.get(path) != after[path]} - {".guidegen-manifest.json"}
    assert "paints/oilskin-ochre.html" in changed
    assert not {path for path in changed if path.startswith("guides/")}


def test_a_photo_changed_in_place_within_the_clocks_tick_is_seen(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    file = content / "guides" / "ferry-watch" / "coat.jpg"
    file.write_bytes(photo(1))
    look = file.stat()
    # However long the builds take, for them it is half a tick after the photo was written.
    monkeypatch.setattr("time.time_ns", lambda: look.st_mtime_ns + TICK_NS // 2)
    memory = Memory()
    for held, out in ((None, tmp_path / "kept"), (memory, tmp_path / "ram")):
        file.write_bytes(photo(1))
        os.utime(file, ns=(look.st_atime_ns, look.st_mtime_ns))
        built(content, out, tmp_path / "cache", held)
        file.write_bytes(photo(5))
        os.utime(file, ns=(look.st_atime_ns, look.st_mtime_ns))
        after = file.stat()
        assert (after.st_size, after.st_mtime_ns, after.st_ino) == (
            look.st_size,
            look.st_mtime_ns,
            look.st_ino,
        )
        built(content, out, tmp_path / "cache", held)
        assert bytes_of(out) == from_nothing(content, tmp_path / f"fresh-{out.name}")[0]


def test_what_went_leaves_nothing_behind(content: Path, tmp_path: Path):
    built(content, tmp_path / "site", tmp_path / "cache")
    before = set(bytes_of(tmp_path / "site"))
    shutil.rmtree(content / "guides" / "toll-house")
    built(content, tmp_path / "site", tmp_path / "cache")
    gone = before - set(bytes_of(tmp_path / "site"))
    assert "guides/toll-house/index.html" in gone
    assert any(path.startswith("assets/photos/") for path in gone)
    assert not (tmp_path / "site" / "guides" / "toll-house").exists()


def test_all_that_is_kept_is_found_again(content: Path, tmp_path: Path):
    """Else every build would start afresh, and nobody would notice."""
    built(content, tmp_path / "site", tmp_path / "cache")
    kept = sorted((tmp_path / "cache").glob("remembered-*/*.kept"))
    assert [type(load_kept(file, running(), RECORDS)) for file in kept] == [Answer, Memory]


def test_the_whole_demo_is_kept_and_found_again(tmp_path: Path):
    content = Path(__file__).parents[2] / "content"
    memory = Memory()
    build(
        Order(content=content, out=tmp_path / "site", cache=tmp_path / "cache", leave_out_faulty=True), memory
    )
    kept = replace(memory, workshop=None, use=None, at_hand=None)
    assert RECORDS.load(RECORDS.dump(kept)) == kept


@pytest.mark.parametrize("spoil", [b"", b"short", None])
def test_a_spoilt_memory_only_costs_time(spoil: bytes | None, content: Path, tmp_path: Path):
    built(content, tmp_path / "site", tmp_path / "cache")
    before = bytes_of(tmp_path / "site")
    kept = sorted((tmp_path / "cache").glob("remembered-*/*.kept"))
    assert len(kept) == 2
    for file in kept:
        data = file.read_bytes()
        file.write_bytes(spoil if spoil is not None else data[:-1] + bytes([data[-1] ^ 1]))
    outcome = built(content, tmp_path / "site", tmp_path / "cache")
    assert outcome.counts is not None
    assert bytes_of(tmp_path / "site") == before
