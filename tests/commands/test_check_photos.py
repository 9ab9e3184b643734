"""`guidegen check` opens photos too: what a build would say of them, it says, and it writes nothing."""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from support.content_folders import bytes_of, lay_out

from guidegen.commands.build import command as build
from guidegen.commands.check import command
from guidegen.imaging.develop import look_at
from guidegen.writing.cache import cache_folder

CONTENT = """
» palette.yaml
paints:
  - {name: Oilskin Ochre, colour: b8862f}
» guides/eel/guide.md
---
title: Eel seller
steps:
  - step: Apron
    area: apron
    paint: Oilskin Ochre
    each: 4 min
    photo: [{file: broken.jpg, alt: One}, {file: small.png, alt: Two}, {file: moves.webp, alt: Three}, {file: good.jpg, alt: Four}]
---
» guides/eel/broken.jpg = a broken photo
» guides/eel/small.png = a photo 300 × 200
» guides/eel/moves.webp = a moving picture
» guides/eel/good.jpg = a photo 800 × 600
"""


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "caches"))
    return lay_out(tmp_path / "content", CONTENT)


def lines() -> Result:
    return CliRunner().invoke(command, ["--format", "line"])


def test_photos_are_opened_and_nothing_is_written(tmp_path: Path):
    before = bytes_of(tmp_path)
    result = lines()
    assert result.exit_code == 1
    assert [code for code in ("bad-photo", "small-photo", "animated-photo") if code in result.stdout] == [
        "bad-photo", "small-photo", "animated-photo",
    ]  # fmt: skip
    assert "good.jpg" not in result.stdout
    assert bytes_of(tmp_path) == before


@pytest.mark.skipif(sys.platform != "linux", reason="photos are opened ahead where workers are forks")
def test_photos_are_opened_while_guides_are_read(monkeypatch: pytest.MonkeyPatch):
    opened: list[str] = []

    def look(originals, store):
        opened.extend(original.name for original in originals)
        return look_at([], store)

    monkeypatch.setattr("guidegen.building.photos.look_at", look)
    monkeypatch.setattr("guidegen.imaging.ahead.usable_cores", lambda: 2)
    result = lines()
    assert result.stdout.count("-photo") == 3, result.output
    assert opened == []


def test_it_says_what_a_build_says_whether_or_not_the_cache_knows_the_photos(here: Path):
    (here / "guides/eel/broken.jpg").write_bytes((here / "guides/eel/good.jpg").read_bytes())
    first = lines()
    assert first.exit_code == 0
    built = CliRunner().invoke(build, [])
    assert built.exit_code == 0, built.output
    assert built.stderr.count("-photo\n") == 2
    assert lines().stdout == first.stdout
    assert len(first.stdout.splitlines()) == 2


def test_where_a_cache_is_at_hand_no_photo_is_opened_twice(
    here: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    for file in here.rglob("*"):
        os.utime(file, (1_700_000_000, 1_700_000_000))
    cache_folder().mkdir(parents=True)
    first = lines()
    before = {path: data for path, data in bytes_of(tmp_path).items() if not path.startswith("caches/")}
    opened: list[str] = []

    def look(originals, store):
        every = [*originals]
        opened.extend(original.name for original in every)
        return look_at(every, store)

    monkeypatch.setattr("guidegen.building.photos.look_at", look)
    assert lines().stdout == first.stdout
    assert opened == []
    moves = here / "guides/eel/moves.webp"
    moves.write_bytes((here / "guides/eel/small.png").read_bytes())
    assert lines().stdout.count("small-photo") == 2
    assert opened == ["moves.webp"]
    assert {path for path in bytes_of(tmp_path) if not path.startswith("caches/")} == before.keys()
    # What was only opened is still to be developed.
    (here / "guides/eel/broken.jpg").write_bytes((here / "guides/eel/good.jpg").read_bytes())
    built = CliRunner().invoke(build, ["--json"])
    assert json.loads(built.stdout)["photos_encoded"] == 2
