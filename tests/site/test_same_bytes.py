"""The same content makes the same bytes, whatever the machine around it is like."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

from folders import bytes_of

CONTENT = Path(__file__).parents[2] / "content"


def built(content: Path, at: Path, folder: Path, **environ: str) -> dict[str, bytes]:
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
        [sys.executable, "-m", "guidegen", "build", *places],
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
