"""After an edit the preview first exchanges the pages of guides alone; these are what a build from nothing makes."""

from __future__ import annotations

import os
import random
import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from support.content_folders import bytes_of
from support.edited_archive import begun, edits, from_nothing, in_order_of, settle

from guidegen.building.build import Order, build
from guidegen.building.memory import Memory
from guidegen.building.retouch import retouch

pytestmark = pytest.mark.slow

EDITS = edits()


@pytest.fixture
def content(tmp_path: Path) -> Path:
    folder = begun(tmp_path / "content")
    settle(folder)
    return folder


@pytest.mark.parametrize("seed", [3])
def test_retouched_guides_are_those_of_a_build_from_nothing(seed: int, tmp_path: Path):
    """After an edit the preview first exchanges the pages of guides alone, and builds the whole site in time."""
    content, out = begun(tmp_path / "content"), tmp_path / "site"
    settle(content)
    draw = random.Random(seed)
    held = Memory()
    order = Order(content=content, out=out, cache=tmp_path / "cache")
    build(order, held)
    retouched = 0
    for number, name in enumerate([*in_order_of(seed), *["a guide is edited", "only places change"] * 3]):
        before = looks(content)
        EDITS[name](content, draw)
        after = looks(content)
        changed = {path for path in {*before, *after} if before.get(path) != after.get(path)}
        site, told = from_nothing(content, tmp_path / f"fresh-{number}")
        outcome = retouch(order, held, changed)
        if outcome is not None:
            retouched += outcome.counts is not None
            assert outcome.diagnostics == told, name
            if site is not None:
                assert retouched_in(bytes_of(out)) == retouched_in(site), name
                assert bytes_of(out).keys() == site.keys(), name
        if outcome is None or draw.random() < 0.5:
            assert build(order, held).diagnostics == told, name
            assert site is None or bytes_of(out) == site, name
    assert retouched >= 5


class LeftOffError(Exception):
    """As the preview leaves a build off."""


@pytest.mark.parametrize("stage", ["guides", "pages"])
def test_a_build_that_is_left_off_forgets_nothing(stage: str, content: Path, tmp_path: Path):
    out, held, guide = tmp_path / "site", Memory(), content / "guides" / "lamp-boys" / "guide.md"
    order = Order(content=content, out=out, cache=tmp_path / "cache")
    build(order, held)
    text = guide.read_text()
    guide.write_text(text.replace("title: Lamp boys", "title: Lamp girls"))
    assert retouch(order, held, {"guides/lamp-boys/guide.md"}) is not None
    before, pages = bytes_of(out), held.pages.keys()

    def leave_off(name: str, _done: int, _of: int) -> None:
        if name == stage:
            raise LeftOffError

    with pytest.raises(LeftOffError):
        build(replace(order, progress=leave_off), held)
    assert bytes_of(out) == before
    assert held.pages.keys() == pages
    guide.write_text(text.replace("title: Lamp boys", "title: Lamp folk"))
    assert retouch(order, held, {"guides/lamp-boys/guide.md"}) is not None
    build(order, held)
    assert bytes_of(out) == from_nothing(content, tmp_path / "fresh")[0]


def test_a_mistake_is_told_and_mended_without_a_look_at_everything(content: Path, tmp_path: Path):
    out, held, guide = tmp_path / "site", Memory(), "guides/lamp-boys/guide.md"
    order = Order(content=content, out=out, cache=tmp_path / "cache")
    build(order, held)
    before, text = bytes_of(out), (content / guide).read_text()
    (content / guide).write_text(text.replace("paint: Ropewalk", "paint: Ropewark"))
    faulty = retouch(order, held, {guide})
    assert faulty is not None
    assert faulty.counts is None
    assert "unknown-paint" in {told.code for told in faulty.diagnostics}
    assert build(order, held).diagnostics == faulty.diagnostics
    assert bytes_of(out) == before
    (content / guide).write_text(text.replace("stands in", "waits in"))
    mended = retouch(order, held, {guide})
    assert mended is not None
    assert mended.exchanged == ("guides/lamp-boys/index.html", "search-index.js")
    build(order, held)
    assert bytes_of(out) == from_nothing(content, tmp_path / "fresh")[0]


def looks(content: Path) -> dict[str, tuple[int, ...]]:
    """How each file looks from outside."""
    return {
        file.relative_to(content).as_posix(): (
            file.stat().st_size,
            file.stat().st_mtime_ns,
            file.stat().st_ino,
        )
        for file in content.rglob("*")
        if file.is_file()
    }


def retouched_in(site: dict[str, bytes]) -> dict[str, bytes]:
    """The files of the guides alone, and what the home page searches by."""
    return {
        path: data for path, data in site.items() if path.startswith("guides/") or path == "search-index.js"
    }


@pytest.mark.parametrize("what", ["altered", "built", "linked", "a folder"])
def test_where_more_than_guides_changed_nothing_is_retouched(what: str, content: Path, tmp_path: Path):
    out, held = tmp_path / "site", Memory()
    order = Order(content=content, out=out, cache=tmp_path / "cache")
    guide = "guides/lamp-boys/guide.md"
    if what == "linked":
        os.link(content / guide, tmp_path / "its-other-name")
    build(order, held)
    page = out / "guides" / "lamp-boys" / "index.html"
    text = (content / guide).read_text()
    if what == "altered":
        page.write_text("spoilt")
    elif what == "built":
        (content / guide).write_text(text.replace("stands in", "stands about in"))
        build(order)
    elif what == "a folder":
        shutil.copytree(content / "guides" / "lamp-boys", content / "guides" / "new")
    (content / guide).write_text(text.replace("stands in", "waits in"))
    before = bytes_of(out)
    assert retouch(order, held, {guide, "guides/new/guide.md"}) is None
    assert bytes_of(out) == before
    build(order, held)
    assert b"waits in" in page.read_bytes()
