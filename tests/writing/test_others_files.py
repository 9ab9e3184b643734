"""Files in a site that guidegen did not write, or whose names stand in the way, and what the manifest may reach."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from support.made_sites import (
    HOME,
    NEW,
    OLD,
    Failing,
    Watched,
    check_whole,
    files_in,
    folders_around,
    folders_in,
    page,
    put,
)

from guidegen.base.errors import OutputRefusedError
from guidegen.writing.manifest import MANIFEST


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "site"


@pytest.mark.parametrize(
    "other", ["notes.txt", "guides/ferry-watch/mine.txt", ".well-known/x", "guides/.gitignore"]
)
def test_a_folder_with_others_files_is_refused(out: Path, other: str):
    put(OLD, out)
    (out / other).parent.mkdir(exist_ok=True)
    (out / other).write_text("mine")
    before = files_in(out)
    with pytest.raises(OutputRefusedError) as refused:
        put(NEW, out, disk=Failing(0))
    assert refused.value.message == f"“{out}” holds a file that guidegen did not write: “{other}”."
    assert "--out" in refused.value.help_line
    assert files_in(out) == before


def test_the_refusal_names_five(out: Path):
    out.mkdir()
    for number in range(14):
        (out / f"{number:02}.txt").touch()
    with pytest.raises(OutputRefusedError, match=r"14 files .*: “00.txt”, “01.txt”, .*“04.txt” and more\."):
        put(NEW, out)


def test_a_file_of_ours_that_became_a_link_is_replaced_and_its_target_left(out: Path, tmp_path: Path):
    put(OLD, out)
    (diary := tmp_path / "diary").write_text("private")
    for name in ("404.html", "photos/eel.webp"):
        (out / name).unlink()
        (out / name).symlink_to(diary)
    put(NEW, out)
    assert files_in(out) == NEW
    assert diary.read_text() == "private"


def test_a_folder_of_ours_that_became_a_link_is_refused(out: Path, tmp_path: Path):
    put(OLD, out)
    (out / "photos").rename(tmp_path / "elsewhere")
    (out / "photos").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(OutputRefusedError, match="“photos”"):
        put(NEW, out)
    assert sorted(path.name for path in (tmp_path / "elsewhere").iterdir()) == ["coats.webp", "eel.webp"]


def test_a_leftover_that_is_a_link_is_not_followed(out: Path, tmp_path: Path):
    out.mkdir()
    (kept := tmp_path / "kept").mkdir()
    (kept / "diary").touch()
    (out / ".guidegen-new").symlink_to(kept)
    put(NEW, out)
    assert (kept / "diary").exists()
    assert files_in(out) == NEW


def test_version_control_and_file_managers_are_left_alone(out: Path):
    (out / ".git").mkdir(parents=True)
    left = {".gitignore": b"*\n", ".git/HEAD": b"x", ".DS_Store": b"y", "guides/Thumbs.db": b"z"}
    put(OLD, out)
    for path, data in left.items():
        (out / path).write_bytes(data)
    put(NEW, out)
    assert files_in(out) == {**NEW, **left}


def test_litter_keeps_the_folder_it_lies_in(out: Path):
    put(OLD, out)
    (out / "guides/eel-seller/.DS_Store").touch()
    put(NEW, out)
    assert (out / "guides/eel-seller/.DS_Store").exists()


def test_litter_where_a_file_has_to_be_is_refused_before_anything_changes(out: Path):
    put({**OLD, "key/map.txt": b"x"}, out)
    (out / "key/.DS_Store").touch()
    before = files_in(out)
    with pytest.raises(OutputRefusedError, match="“key/”"):
        put({**OLD, "key": b"y"}, out)
    assert files_in(out) == before


@pytest.mark.parametrize(
    "broken", [b"", b"{", b"[]", b'{"format": 1}', b'{"format": 1, "files": {"a": [1]}}']
)
def test_a_damaged_manifest_is_refused(out: Path, broken: bytes):
    put(OLD, out)
    (out / MANIFEST).write_bytes(broken)
    with pytest.raises(OutputRefusedError, match="is damaged"):
        put(NEW, out)
    assert files_in(out) == OLD


def test_a_later_manifest_is_refused(out: Path):
    put(OLD, out)
    (out / MANIFEST).write_text(json.dumps({"format": 2, "guidegen": "9.0"}))
    with pytest.raises(OutputRefusedError, match=r"later guidegen, 9\.0"):
        put(NEW, out)


def test_a_manifest_cannot_reach_out_of_the_site(out: Path, tmp_path: Path):
    put(OLD, out)
    (tmp_path / "diary").touch()
    saved = json.loads((out / MANIFEST).read_text())
    saved["files"] |= {"../diary": ["", "", 0], str(tmp_path / "diary"): ["", "", 0]}
    (out / MANIFEST).write_text(json.dumps(saved))
    put(NEW, out)
    assert (tmp_path / "diary").exists()


# Making room


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (["loose"], ["loose/inner.txt"]),
        (["loose/inner.txt", "loose/deep/page.html"], ["loose"]),
        (["Map.html"], ["map.html"]),
        (["map.html"], ["map.html/key.txt"]),
        (["map.html/key.txt", "map.html/a/b.html"], ["map.html"]),
    ],
)
def test_a_name_that_has_to_make_room(out: Path, before: list[str], after: list[str]):
    def site(words: str, more: list[str]) -> dict[str, bytes]:
        made = {path: page(path, words, [HOME]) for path in more}
        return {
            **made,
            HOME: page(HOME, words, ["404.html", *more]),
            "404.html": page("404.html", "same", [HOME]),
        }

    old, new = site("one", before), site("two", after)
    put(old, out)
    put(new, out, disk=Watched(lambda: check_whole(out, old, new)))
    assert files_in(out) == new
    assert folders_in(out) == folders_around(new)
