"""The same content makes the same bytes, whatever the machine around it is like."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from support.content_folders import bytes_of
from support.paths import CONTENT

# Since Python 3.12 `sum` adds floats with more care than before, so ours go through `math.fsum`, which is exact.
WITHOUT_SUMS_OF_FLOATS = """
import builtins, sys
from guidegen.__main__ import main

plain = sum

def guarded(items, /, start=0):
    items = list(items)
    if sys._getframe(1).f_globals["__name__"].startswith("guidegen."):
        assert not any(isinstance(item, float) for item in items), f"sum() over floats: {items}"
    return plain(items, start)

builtins.sum = guarded
main()
"""


def built(
    content: Path, at: Path, folder: Path, *, program: tuple[str, str] = ("-m", "guidegen"), **environ: str
) -> dict[str, bytes]:
    """The site that a process of its own makes, in another folder and another environment."""
    folder.mkdir(parents=True)
    places = [
        "--content",
        os.path.relpath(content, folder),
        "--out",
        str(at / "site"),
        "--cache",
        str(at / "cache"),
    ]
    run = subprocess.run(
        [sys.executable, *program, "build", *places],
        cwd=folder,
        env={**os.environ, **environ},
        capture_output=True,
        check=False,
    )
    assert run.returncode == 0, run.stderr.decode()
    return bytes_of(at / "site")


def written_backwards(content: Path, to: Path) -> Path:
    """The same files, made in the opposite order, all of today."""
    for file in sorted(content.rglob("*"), reverse=True):
        if file.is_file():
            target = to / file.relative_to(content)
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copyfile(file, target)
    return to


def test_two_machines_make_the_same_site(tmp_path: Path):
    one = built(
        CONTENT, tmp_path / "one", tmp_path / "here", PYTHONHASHSEED="1", LC_ALL="C", TZ="Pacific/Kiritimati"
    )
    copy = written_backwards(CONTENT, tmp_path / "copy")
    other = built(
        copy,
        tmp_path / "two",
        tmp_path / "far" / "away",
        PYTHONHASHSEED="4242",
        LC_ALL="tr_TR.UTF-8",
        TZ="America/Adak",
    )
    assert one.keys() == other.keys()
    assert [path for path in one if one[path] != other[path]] == []


def test_no_floats_are_added_by_sum(tmp_path: Path):
    assert built(CONTENT, tmp_path / "site", tmp_path / "here", program=("-c", WITHOUT_SUMS_OF_FLOATS))
