"""Whole builds where the cache or the site's folder is full, forbidden, or has strange things in it."""

from __future__ import annotations

import errno
import os
import shutil
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import IO

import pytest
from support.content_folders import bytes_of, lay_out
from support.odd_files import ODD, make_odd, patience

from guidegen.base.errors import GuidegenError
from guidegen.building.build import Built, Order, build
from guidegen.building.memory import RECORDS
from guidegen.writing.atomic import Disk
from guidegen.writing.cache_file import load_kept, program
from guidegen.writing.manifest import MANIFEST
from guidegen.writing.site_folder import STAGING

CONTENT = """
» site.yaml
title: The jetty
url: https://delta.example/
» palette.yaml
paints:
  - {name: Ochre, colour: b8862f}
» guides/eel/guide.md
---
title: Eel seller
figures: 3
cover: {file: coat.jpg, alt: the coat}
steps:
  - {step: Coat, paint: Ochre, each: 2 min, dry: 15 min}
---
By the jetty.
» guides/eel/coat.jpg = a photo 500 × 400
"""
pytestmark = [
    pytest.mark.skipif(os.name != "posix", reason="made of what POSIX machines have"),
]


@dataclass(frozen=True)
class Jetty:
    """Content, a site of it with its files as they are when all goes well, and a place for another and for its cache."""

    content: Path
    well: Path
    files: dict[str, bytes]
    out: Path
    cache: Path

    def build(self) -> Built:
        with patience():
            return build(Order(content=self.content, out=self.out, cache=self.cache, cache_bytes=10**9))

    def began(self) -> None:
        """Begin with that site, and with what was kept when it was made."""
        shutil.copytree(self.well / "site", self.out)
        shutil.copytree(self.well / "cache", self.cache)

    def as_it_should_be(self) -> bool:
        return bytes_of(self.out) == self.files


@pytest.fixture(scope="module")
def well(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Content, and the site and the cache of one build of it."""
    at = tmp_path_factory.mktemp("well")
    lay_out(at / "content", CONTENT)
    assert build(Order(content=at / "content", out=at / "site", cache=at / "cache")).note is None
    return at


@pytest.fixture
def jetty(well: Path, tmp_path: Path) -> Jetty:
    return Jetty(well / "content", well, bytes_of(well / "site"), tmp_path / "site", tmp_path / "cache")


@pytest.mark.parametrize("room", [0, 1, 2, 5, 9])
def test_a_cache_without_room_costs_only_time(room: int, jetty: Jetty, monkeypatch: pytest.MonkeyPatch):
    """After so many files of it nothing can be written to its disk, nor to that of temporary files."""
    places = (str(jetty.cache), f"{tempfile.gettempdir()}/guidegen-")
    written: list[Path] = []
    write = Disk.write

    def scarce(disk: Disk, path: Path, chunks: list[bytes], *, durable: bool = False) -> os.stat_result:
        if str(path).startswith(places):
            if len(written) >= room:
                raise OSError(errno.ENOSPC, "No space left on device")
            written.append(path)
        return write(disk, path, chunks, durable=durable)

    def full(mode: str = "w+b", buffering: int = -1, **_: object) -> IO[bytes]:
        return open("/dev/full", "r+b", buffering)  # noqa: PTH123

    with monkeypatch.context() as patched:
        patched.setattr(Disk, "write", scarce)
        patched.setattr(tempfile, "TemporaryFile", full)
        done = jetty.build()
    assert done.counts is not None
    assert jetty.as_it_should_be()
    assert done.note is not None
    assert str(jetty.cache) in done.note
    assert "No space left on device" in done.note
    assert jetty.build().note is None
    assert jetty.as_it_should_be()


@pytest.mark.parametrize("kind", [kind for kind in ODD if kind != "folder"])
def test_a_cache_that_is_no_folder_costs_only_time(kind: str, jetty: Jetty):
    make_odd(jetty.cache, kind)
    done = jetty.build()
    assert jetty.as_it_should_be()
    assert (done.note is None) == (kind == "full folder")
    assert done.note is None or str(jetty.cache) in done.note


@pytest.mark.parametrize("kind", ODD)
def test_whatever_lies_in_the_place_of_all_that_is_kept_costs_only_time(kind: str, jetty: Jetty):
    jetty.began()
    for file in [path for path in jetty.cache.rglob("*") if path.is_file()]:
        file.unlink()
        make_odd(file, kind)
    for path in jetty.out.rglob("*.jpg"):
        path.unlink()
    for _ in range(2):
        assert jetty.build().counts is not None
        assert jetty.as_it_should_be()


def test_a_memory_in_the_place_of_another_is_none(jetty: Jetty):
    jetty.build()
    (first,) = jetty.cache.glob("remembered-*/*.kept")
    second = first.with_name("content-of-another.kept")
    second.write_bytes(first.read_bytes())
    assert load_kept(second, program(), RECORDS) is None
    jetty.build()
    assert jetty.as_it_should_be()


@pytest.mark.parametrize("kind", [kind for kind in ODD if kind != "dangling link"])
@pytest.mark.parametrize(
    "place", [MANIFEST, STAGING, f"{STAGING}/1", "guides", "guides/eel/index.html", "more"]
)
def test_strange_things_in_the_site_are_healed_or_named(place: str, kind: str, jetty: Jetty):
    jetty.began()
    at = jetty.out / place
    if place.startswith(STAGING):
        at.parent.mkdir(exist_ok=True)
    elif at.exists():
        at.rename(jetty.out.with_name("away"))
    make_odd(at, kind)
    refused: GuidegenError | None = None
    try:
        jetty.build()
    except GuidegenError as error:
        refused = error
    if refused is None:
        assert jetty.as_it_should_be()
    else:
        assert str(at) in refused.message or f"“{place}" in refused.message
        assert refused.help_line
        assert os.path.lexists(at)


def test_a_folder_among_what_waits_for_its_place_is_named(jetty: Jetty):
    jetty.began()
    (jetty.out / STAGING / "1").mkdir(parents=True)
    with pytest.raises(GuidegenError, match=f"{STAGING}/1” is a folder"):
        jetty.build()


def test_a_manifest_that_leads_nowhere_is_none(jetty: Jetty):
    jetty.out.mkdir()
    make_odd(jetty.out / MANIFEST, "dangling link")
    jetty.build()
    assert jetty.as_it_should_be()
    assert not (jetty.out / MANIFEST).is_symlink()


@pytest.mark.parametrize("kind", [kind for kind in ODD if "folder" not in kind])
def test_a_site_that_is_no_folder_is_refused(kind: str, jetty: Jetty):
    make_odd(jetty.out, kind)
    with pytest.raises(GuidegenError) as refused:
        jetty.build()
    assert str(jetty.out) in refused.value.message
    assert refused.value.help_line
