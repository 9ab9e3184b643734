"""Folders that no site is written to."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.made_sites import OLD, put

from guidegen.base.errors import MachineError, OutputRefusedError
from guidegen.writing.lock import locked
from guidegen.writing.output_folder import check_place


@pytest.fixture
def town(tmp_path: Path) -> Path:
    for name in ("content/guides", "home/archive", "cache"):
        (tmp_path / name).mkdir(parents=True)
    return tmp_path


def check(town: Path, out: Path) -> None:
    check_place(out, content=town / "content", cache=town / "cache", home=town / "home")


@pytest.mark.parametrize("out", ["site", "home/archive/site", "home/site", "content-site", "deep/er/site"])
def test_a_folder_of_its_own(town: Path, out: str):
    check(town, town / out)


@pytest.mark.parametrize(
    ("out", "words"),
    [
        ("content", "has the content in it"),
        ("content/guides/site", "lies inside the content"),
        ("content/../content/site", "lies inside the content"),
        ("home", "has your home folder in it"),
        (".", "has your home folder in it"),
        ("cache/site", "lies inside the cache"),
        ("/", "is the root of the disk"),
    ],
)
def test_refused(town: Path, out: str, words: str):
    with pytest.raises(OutputRefusedError) as refused:
        check(town, town / out)
    assert words in refused.value.message
    assert "--out" in refused.value.help_line


def test_a_folder_around_the_content(town: Path):
    (town / "club" / "content").mkdir(parents=True)
    with pytest.raises(OutputRefusedError, match="has the content in it"):
        check_place(town / "club", content=town / "club" / "content")


def test_the_content_by_another_way(town: Path):
    (town / "way").symlink_to(town / "content")
    with pytest.raises(OutputRefusedError, match="lies inside the content"):
        check(town, town / "way" / "site")


def test_a_link_and_a_file(town: Path):
    (town / "link").symlink_to(town / "elsewhere")
    (town / "file").touch()
    with pytest.raises(OutputRefusedError, match="is a link"):
        check(town, town / "link")
    with pytest.raises(OutputRefusedError, match="is a file"):
        check(town, town / "file")


def test_files_of_others_before_any_work(town: Path):
    out = town / "site"
    out.mkdir()
    (out / ".gitignore").touch()
    check(town, out)
    (out / "notes.txt").touch()
    with pytest.raises(
        OutputRefusedError, match=r"files that guidegen did not write|a file that guidegen did not"
    ):
        check(town, out)


def test_a_site_of_ours_and_another_build(town: Path):
    put(OLD, town / "site")
    check(town, town / "site")
    with locked(town / "site"), pytest.raises(MachineError, match="Another guidegen"):
        check(town, town / "site")
