"""However it came about, a site is the one that its content makes: builds after edits equal builds from nothing."""

from __future__ import annotations

import os
import random
import shutil
import time
from dataclasses import replace
from pathlib import Path

import pytest
from support.content_folders import bytes_of
from support.edited_archive import begun, built, edit_unseen, edits, from_nothing, in_order_of, photo, settle
from support.paths import CONTENT

import guidegen.building.check
import guidegen.building.pages
from guidegen.base.stamp import Stamp
from guidegen.building.build import Order, build
from guidegen.building.memory import RECORDS, Memory
from guidegen.writing.cache_file import load_kept, program

pytestmark = pytest.mark.slow

EDITS = edits()

# What is not called where nothing changed.
NEVER_AGAIN = (
    "check.check_guide",
    "pages.guide_pages",
    "pages.archive_pages",
    "pages.shared_pages",
    "memory.save_kept",
)


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


def test_where_nothing_changed_nothing_is_done(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    first = built(content, tmp_path / "site", tmp_path / "cache")
    before = bytes_of(tmp_path / "site")
    for never in NEVER_AGAIN:
        monkeypatch.setattr(f"guidegen.building.{never}", None)
    again = built(content, tmp_path / "site", tmp_path / "cache")
    assert again.diagnostics == first.diagnostics
    assert again.counts is not None
    assert first.counts is not None
    assert (again.counts.pages, again.counts.unchanged) == (first.counts.pages, first.counts.written)
    assert (again.counts.photos_encoded, again.counts.written, again.counts.removed) == (0, 0, 0)
    assert bytes_of(tmp_path / "site") == before


def test_nor_for_what_other_files_say_of_guides_and_lists(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """Mixtures in one text need the palette, defaults the site, and old addresses all guides: each changes the record."""
    (content / "site.yaml").write_text("title: The delta bench\ndefaults: {technique: base coat}\n")
    base = content / "shared" / "jetty-base.yaml"
    base.write_text(base.read_text().replace(" technique: base coat,", ""))
    for name, old, new in (
        ("ferry-watch", "---\n", "---\nwas: [night-watch]\n"),
        ("lamp-boys", "see: [ferry-watch]", "see: [night-watch]"),
        ("toll-house", "paint: Ropewalk", "paint: Ropewalk 2:1 Oilskin Ochre"),
    ):
        guide = content / "guides" / name / "guide.md"
        text = guide.read_text()
        assert old in text
        guide.write_text(text.replace(old, new, 1))
    settle(content)
    first = built(content, tmp_path / "site", tmp_path / "cache")
    assert first.counts is not None, first.diagnostics
    for never in NEVER_AGAIN:
        monkeypatch.setattr(f"guidegen.building.{never}", None)
    again = built(content, tmp_path / "site", tmp_path / "cache")
    assert again.counts is not None, again.diagnostics
    assert again.counts.unchanged == first.counts.written


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
    real, check = guidegen.building.pages.guide_pages, guidegen.building.check.check_guide
    monkeypatch.setattr(
        "guidegen.building.pages.guide_pages",
        lambda guide, *rest: made.append(guide.slug) or real(guide, *rest),
    )
    monkeypatch.setattr(
        "guidegen.building.check.check_guide", lambda case: checked.append(case.guide.slug) or check(case)
    )
    read = memory.reading.read
    file = content / "guides" / "lamp-boys" / "guide.md"
    file.write_text(file.read_text().replace("stands in", "stands about in"))
    outcome = built(content, tmp_path / "site", tmp_path / "cache", memory)
    assert made == checked == ["lamp-boys"]
    assert memory.reading.read == read + 1
    # Besides the page and its data, what tells the version and the bytes of all that readers may have kept, and the
    # words to search by.
    page = {"guides/lamp-boys/index.html", "guides/lamp-boys/guide.json"}
    assert set(outcome.changes.written) == page | {"offline.js", "offline.json", "search-index.js"}
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
    """Also on a disk that does not say when a file was last changed."""
    of = Stamp.of
    monkeypatch.setattr(Stamp, "of", lambda status: of(status)._replace(ctime_ns=0))
    file = content / "guides" / "ferry-watch" / "coat.jpg"
    # By a clock that is ahead, so that however slow the machine is the tick has not gone by when the photo is looked at.
    when = time.time() + 3600
    for held, out in ((None, tmp_path / "kept"), (Memory(), tmp_path / "ram")):
        stamps = []
        for picture in (photo(1), photo(5)):
            file.write_bytes(picture)
            os.utime(file, (when, when))
            stamps.append(Stamp.of(file.stat()))
            built(content, out, tmp_path / "cache", held)
        assert stamps[0] == stamps[1]
        assert bytes_of(out) == from_nothing(content, tmp_path / f"fresh-{out.name}")[0]


@pytest.mark.parametrize("what", ["text", "photo", "loose", "palette"])
@pytest.mark.parametrize("held", [False, True])
def test_an_edit_that_leaves_size_and_time_as_they_were_is_published(
    held: bool, what: str, content: Path, tmp_path: Path
):
    """As when a reproducible archive is unpacked over an old one, which may get the old files' numbers."""
    guide = content / "guides" / "ferry-watch"
    file = {
        "text": guide / "guide.md",
        "photo": guide / "coat.jpg",
        "loose": content / "as-is" / "notes.txt",
        "palette": content / "palette.yaml",
    }[what]
    (content / "as-is").mkdir(exist_ok=True)
    (content / "as-is" / "notes.txt").write_bytes(b"reeds by the jetty")
    settle(content)
    old = file.read_bytes()
    new = old.replace(b"e", b"u") if what == "loose" else photo(5) if what == "photo" else _other_words(old)
    assert new != old
    out, cache, memory = tmp_path / "site", tmp_path / "cache", Memory() if held else None
    built(content, out, cache, memory)
    edit_unseen(file, new)
    assert built(content, out, cache, memory).changes.written
    assert bytes_of(out) == from_nothing(content, tmp_path / "fresh")[0]


def _other_words(text: bytes) -> bytes:
    """The same with a word changed that pages show."""
    return text.replace(b"the", b"his").replace(b"and", b"nor").replace(b"owned: 1", b"owned: 2")


@pytest.mark.parametrize("held", [False, True])
def test_a_file_of_the_site_altered_in_place_with_its_time_put_back_is_healed(
    held: bool, content: Path, tmp_path: Path
):
    out, memory = tmp_path / "site", Memory() if held else None
    built(content, out, tmp_path / "cache", memory)
    before = bytes_of(out)
    page = out / "guides" / "ferry-watch" / "index.html"
    edit_unseen(page, page.read_bytes().replace(b"<p>", b"<q>"))
    built(content, out, tmp_path / "cache", memory)
    assert bytes_of(out) == before


def test_other_permissions_and_names_cost_no_more_than_a_look(content: Path, tmp_path: Path):
    """They change the time of the last change to a file, and nothing that is in it."""
    out = tmp_path / "site"
    built(content, out, tmp_path / "cache")
    for folder in (content, out):
        for file in filter(Path.is_file, [*folder.rglob("*")]):
            file.chmod(0o640)
            os.link(file, tmp_path / "second")
            (tmp_path / "second").unlink()
    again = built(content, out, tmp_path / "cache").counts
    assert again is not None
    assert (again.photos_encoded, again.written, again.removed) == (0, 0, 0)


def test_a_site_just_put_in_place_is_known_without_being_read(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """Moving a file into its place changes the time of its last change too."""
    out = tmp_path / "site"
    built(content, out, tmp_path / "cache")
    read: list[Path] = []
    monkeypatch.setattr("guidegen.writing.prepare.file_hash", read.append)
    file = content / "guides" / "lamp-boys" / "guide.md"
    file.write_text(file.read_text().replace("stands in", "stands about in"))
    built(content, out, tmp_path / "cache")
    assert read == []


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
    assert [type(load_kept(file, program(), RECORDS)) for file in kept] == [Memory]


def test_the_whole_demo_is_kept_and_found_again(tmp_path: Path):
    content = CONTENT
    memory = Memory()
    build(
        Order(content=content, out=tmp_path / "site", cache=tmp_path / "cache", leave_out_faulty=True), memory
    )
    kept = replace(memory, palette_tools=None, use=None, templates=None)
    assert RECORDS.load(RECORDS.dump(kept)) == kept


@pytest.mark.parametrize("spoil", [b"", b"short", None])
def test_a_spoilt_memory_only_costs_time(spoil: bytes | None, content: Path, tmp_path: Path):
    built(content, tmp_path / "site", tmp_path / "cache")
    before = bytes_of(tmp_path / "site")
    kept = sorted((tmp_path / "cache").glob("remembered-*/*.kept"))
    assert len(kept) == 1
    for file in kept:
        data = file.read_bytes()
        file.write_bytes(spoil if spoil is not None else data[:-1] + bytes([data[-1] ^ 1]))
    outcome = built(content, tmp_path / "site", tmp_path / "cache")
    assert outcome.counts is not None
    assert bytes_of(tmp_path / "site") == before


class LeftOffError(Exception):
    """As if somebody had stopped a build."""


@pytest.mark.parametrize("stage", ["guides", "photos"])
def test_a_build_that_is_left_off_forgets_nothing(stage: str, content: Path, tmp_path: Path):
    out, held, guide = tmp_path / "site", Memory(), content / "guides" / "lamp-boys" / "guide.md"
    order = Order(content=content, out=out, cache=tmp_path / "cache")
    build(order, held)
    before, pages, text = bytes_of(out), held.pages.keys(), guide.read_text()
    guide.write_text(text.replace("title: Lamp boys", "title: Lamp girls"))
    (content / "guides" / "ferry-watch" / "coat.jpg").write_bytes(photo(7))

    def leave_off(name: str, _done: int, _of: int) -> None:
        if name == stage:
            raise LeftOffError

    with pytest.raises(LeftOffError):
        build(replace(order, progress=leave_off), held)
    assert bytes_of(out) == before
    assert held.pages.keys() == pages
    build(order, held)
    assert bytes_of(out) == from_nothing(content, tmp_path / "fresh")[0]
