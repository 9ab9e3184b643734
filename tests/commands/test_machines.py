"""Odd machines: no home, nothing to write to, no room, a terminal that knows only ASCII, nobody who listens."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from support.content_folders import bytes_of, lay_out
from support.waiting import PATIENCE

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(os.name != "posix", reason="made of what POSIX machines have"),
]

CONTENT = """
» site.yaml
title: Fährleute & Søn
author: Zoë
» palette.yaml
paints:
  - {name: Öl Ochre, colour: b8862f}
» guides/fähre/guide.md
---
title: Die Fähre – „nachts“
figures: 3
cover: {file: märz 1.jpg, alt: Wäsche}
steps:
  - {step: Mäntel, technique: base coat, area: coat, paint: Öl Ochre, each: 2 min, dry: 15 min}
---
Ünter “quotes”.
» guides/fähre/x.jpg = a photo 640 × 480
"""
MISTAKE = ("paint: Öl Ochre", "paint: Öl Okre")
PLACE = "Ordner mit Löchern & 'Zeichen' ☃"


@pytest.fixture
def top(tmp_path: Path) -> Path:
    """A folder with blanks, accents and signs in its name, with content in it."""
    top = tmp_path / PLACE
    lay_out(top / "content", CONTENT)
    (top / "content/guides/fähre/x.jpg").rename(top / "content/guides/fähre/märz 1.jpg")
    return top


def run(
    top: Path, *arguments: str, before: Callable[[], None] | None = None, shell: str = "", **env: str | None
) -> subprocess.CompletedProcess[bytes]:
    """Run guidegen in that folder; with a shell's redirections, if any are given."""
    known = os.environ | {"XDG_CACHE_HOME": str(top / "cache"), "LC_ALL": "C.UTF-8"} | env
    command = [sys.executable, "-m", "guidegen", *arguments]
    if shell:
        command = ["sh", "-c", f'"$@" {shell}', "sh", *command]
    return subprocess.run(
        command,
        cwd=top,
        env={name: value for name, value in known.items() if value is not None},
        capture_output=True,
        preexec_fn=before,
        check=False,
        timeout=PATIENCE,
    )


def assert_calm(done: subprocess.CompletedProcess[bytes], code: int) -> None:
    told = (done.stdout + done.stderr).decode(errors="replace")
    assert done.returncode == code, told
    for trace in ("Traceback", "Exception ignored", "guidegen itself", "Error:"):
        assert trace not in told, told


@pytest.mark.parametrize(
    "env",
    [
        {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONIOENCODING": "ascii"},
        {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0", "PYTHONIOENCODING": None},
        {"LC_ALL": "POSIX", "PYTHONIOENCODING": "latin-1"},
    ],
    ids=["ascii", "no-unicode", "latin"],
)
def test_without_unicode_everything_is_built_and_said(top: Path, env: dict[str, str | None]):
    done = run(top, "build", **env)
    assert_calm(done, 0)
    page = (top / "site/guides/fahre/index.html").read_text(encoding="utf-8")
    assert "Die Fähre – „nachts“" in page
    guide = top / "content/guides/fähre/guide.md"
    guide.write_text(guide.read_text(encoding="utf-8").replace(*MISTAKE), encoding="utf-8")
    for form in ("text", "line", "sarif"):
        told = run(top, "check", "--format", form, **env)
        assert_calm(told, 1)
        assert b"unknown-paint" in told.stdout
        if env["PYTHONIOENCODING"] == "ascii":
            assert told.stdout.isascii()


def test_without_a_home_a_site_is_built(top: Path):
    assert_calm(run(top, "build", HOME=None, XDG_CACHE_HOME=None, TMPDIR=str(top)), 0)
    sealed = top / "sealed"
    sealed.mkdir(mode=0o500)
    for home in (str(sealed), "/proc/nowhere", "relative"):
        assert_calm(run(top, "build", "--out", "again", HOME=home, XDG_CACHE_HOME=None, TMPDIR=str(top)), 0)
        assert bytes_of(top / "again").keys() == bytes_of(top / "site").keys()
    assert not (top / "relative").exists()


def test_content_that_can_only_be_read_is_enough(top: Path):
    before = bytes_of(top / "content")
    folders = [top / "content", *(path for path in (top / "content").rglob("*") if path.is_dir())]
    for folder in folders:
        folder.chmod(0o500)
    try:
        assert_calm(run(top, "build"), 0)
        assert_calm(run(top, "check"), 0)
        assert_calm(run(top, "send", "fahre", "--out", "sent.html"), 0)
        if os.geteuid() != 0:
            assert_calm(run(top, "start", "guides/new"), 2)
    finally:
        for folder in folders:
            folder.chmod(0o700)
    assert bytes_of(top / "content") == before


@pytest.mark.parametrize(
    "command", [("build",), ("send", "fahre", "--out", "sent.html"), ("start", "club", "--no-ask")]
)
@pytest.mark.parametrize("room", [0, 700, 9_000])
def test_without_room_it_says_so_and_leaves_nothing_half(top: Path, command: tuple[str, ...], room: int):
    """Files may not grow beyond so many bytes; writing more fails as it does on a full disk."""

    def small() -> None:
        resource.setrlimit(resource.RLIMIT_FSIZE, (room, room))

    done = run(top, *command, before=small)
    assert_calm(done, 2 if command[0] != "start" or room < 9_000 else done.returncode)
    if done.returncode == 2:
        assert done.stderr.count(b"\n") <= 3
        assert not (top / "club").exists()
        assert not (top / "sent.html").exists()
    assert not [path for path in top.rglob("*.part") if "cache" not in path.parts]
    assert_calm(run(top, *command), 0 if done.returncode == 2 else 2)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="there is no /dev/full")
def test_output_that_goes_nowhere_never_ends_in_a_trace(top: Path):
    for arguments, shell, code in (
        (("check",), ">&-", 0),
        (("check",), "2>&-", 0),
        (("check",), "<&- >&- 2>&-", 0),
        (("build",), ">&- 2>&-", 0),
        (("check",), "> /dev/full", 2),
        (("mix", "Öl Ochre: 1", "--json"), "> /dev/full", 2),
        (("--help",), "> /dev/full", 2),
        (("check",), "2> /dev/full", 0),
        (("check", "--why", "bad-yaml"), "| true", 0),
    ):
        assert_calm(run(top, *arguments, shell=shell), code)
    # The site is what it was, though the first file numbers were free.
    assert "</html>" in (top / "site/index.html").read_text(encoding="utf-8")


def test_a_pipe_that_nobody_reads_changes_no_exit_code(top: Path):
    guide = top / "content/guides/fähre/guide.md"
    guide.write_text(guide.read_text(encoding="utf-8").replace(*MISTAKE), encoding="utf-8")
    for arguments in (("check",), ("check", "--format", "json"), ("build",)):
        reading, writing = os.pipe()
        os.close(reading)
        done = subprocess.run(
            [sys.executable, "-m", "guidegen", *arguments],
            cwd=top,
            env=os.environ | {"XDG_CACHE_HOME": str(top / "cache")},
            stdout=writing,
            stderr=writing,
            check=False,
            timeout=PATIENCE,
        )
        os.close(writing)
        assert done.returncode == 1
