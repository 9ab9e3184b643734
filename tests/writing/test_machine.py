"""What a painter is told when the machine will not, and sites that no build of ours hands over."""

from __future__ import annotations

import errno
from pathlib import Path

import pytest
from support.made_sites import HOME, NEW, OLD, Failing, files_in, placeholder, publish, put

from guidegen.base.errors import MachineError
from guidegen.writing.artifact import Artifact
from guidegen.writing.manifest import MANIFEST


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "site"


@pytest.mark.parametrize(
    ("number", "words"),
    [
        (errno.EROFS, "lies on a disk that can only be read. The site is as it was."),
        (errno.EACCES, "guidegen is not allowed to write to “"),
        (errno.EDQUOT, "The disk is full"),
        (errno.ENAMETOOLONG, "is too long for this disk"),
        (errno.EIO, "could not be written: Input/output error. The site is as it was."),
    ],
)
def test_trouble_is_told_plainly(out: Path, number: int, words: str):
    put(OLD, out)
    with pytest.raises(MachineError) as told:
        put(NEW, out, disk=Failing(0, number, once=False))
    assert words in told.value.message
    assert ".guidegen-" not in told.value.message
    assert told.value.help_line
    assert files_in(out) == OLD


def test_a_read_only_site_that_is_as_it_should_be_is_no_trouble(out: Path):
    put(OLD, out)
    assert put(OLD, out, disk=Failing(0, errno.EROFS, once=False)).changes.written == ()


@pytest.mark.parametrize(
    ("paths", "words"),
    [
        (["404.html"], "home page"),
        ([HOME, "../x.html"], "no path inside"),
        ([HOME, ".gitignore"], "leaves alone"),
        ([HOME, MANIFEST], "leaves alone"),
        ([HOME, "nul.html"], "device"),
        ([HOME, "a", "a/b"], "side by side"),
        ([HOME, "A.txt", "a.txt"], "side by side"),
        ([HOME, HOME], "twice"),
    ],
)
def test_a_site_that_no_build_hands_over(out: Path, paths: list[str], words: str):
    made = [Artifact(path=path, key="", data=b"") for path in paths]
    with pytest.raises(ValueError, match=words):
        publish(made, out, placeholder=placeholder, version="0.1.0")
    assert not out.exists()
