"""A fault of the tool's own: said to be its own, with the file at hand, with the details kept, and the site as it was."""

from __future__ import annotations

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest
from support.content_folders import bytes_of
from support.sent_guides import club
from support.waiting import PATIENCE

from guidegen.base.activity import activity_notes, busy_with
from guidegen.base.errors import GuidegenError
from guidegen.building.crash import failure_of

pytestmark = pytest.mark.slow

# A fault at one place of the tool, as an edit of ours might bring it.
FAULTY = """
import sys
import {module} as faulty
from guidegen.__main__ import main
kept = {owner}.{name}
def fails(*given, **named):
    if {when}:
        raise {error}
    return kept(*given, **named)
{owner}.{name} = fails
sys.argv = ["guidegen", *sys.argv[1:]]
main()
"""
GUIDE = "guides/ferry-watch/guide.md"
PHOTO = "guides/ferry-watch/finished.jpg"


def run(top: Path, *arguments: str, **fault: str) -> subprocess.CompletedProcess[str]:
    program = FAULTY.format(
        **{"owner": "faulty", "when": "True", "error": "ZeroDivisionError('a brush too many')"} | fault
    )
    return subprocess.run(
        [sys.executable, "-c", program, *arguments],
        cwd=top,
        env=os.environ | {"XDG_CACHE_HOME": str(top / "caches")},
        capture_output=True,
        text=True,
        check=False,
        timeout=PATIENCE,
    )


READING = {
    "module": "guidegen.reading.content.archive",
    "name": "read_guide",
    "when": "'ferry-watch' in given[0].file",
}
CHECKING = {"module": "guidegen.building.check", "name": "check_guide"}
PAGES = {
    "module": "guidegen.building.pages",
    "name": "guide_pages",
    "when": "given[0].slug == 'ferry-watch'",
}
RENDERING = {"module": "guidegen.rendering.theme.templates", "owner": "faulty.Templates", "name": "render"}
ENCODING = {"module": "guidegen.imaging.develop", "name": "derive"}


@pytest.mark.parametrize(
    ("command", "fault", "over"),
    [
        ("build", READING, GUIDE),
        ("check", READING, GUIDE),
        ("check", CHECKING, ".md"),
        ("build", PAGES, "ferry-watch"),
        ("build", ENCODING, "guides/ferry-watch/"),
        ("send", ENCODING, "guides/ferry-watch/"),
        ("build", RENDERING, ".html"),
    ],
)
def test_it_says_that_it_is_the_tools_fault_and_over_what(
    tmp_path: Path, command: str, fault: dict[str, str], over: str
):
    club(tmp_path / "content")
    site = tmp_path / "site"
    site.mkdir()
    arguments = ["send", "ferry-watch"] if command == "send" else [command]
    done = run(tmp_path, *arguments, **fault)
    assert done.returncode == 2
    assert done.stdout == ""
    lines = done.stderr.splitlines()
    assert lines[0] == "guidegen itself has failed. This is a fault of the tool, not of your content."
    assert lines[1].startswith("    It was busy with ")
    assert over in lines[1]
    assert "Traceback" not in done.stderr
    assert "a brush too many" in done.stderr
    details = tmp_path / "caches/guidegen-2/last-crash.txt"
    assert f"The details are in “{details}”" in done.stderr
    kept = details.read_text(encoding="utf-8")
    assert "Traceback" in kept
    assert over in kept
    assert bytes_of(site) == {}


def test_the_site_stays_as_it_was(tmp_path: Path):
    club(tmp_path / "content")
    never = {"module": "guidegen.building.pages", "name": "guide_pages", "when": "False"}
    assert run(tmp_path, "build", **never).returncode == 0
    before = bytes_of(tmp_path / "site")
    guide = tmp_path / "content" / GUIDE
    guide.write_text(
        guide.read_text(encoding="utf-8").replace("wet oilskins", "dry oilskins"), encoding="utf-8"
    )
    assert run(tmp_path, "build", **PAGES).returncode == 2
    assert bytes_of(tmp_path / "site") == before
    assert run(tmp_path, "build", **never).returncode == 0


def test_where_the_details_cannot_be_kept_it_says_how_to_see_them(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
):
    (tmp_path / "cache").write_text("no folder", encoding="utf-8")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    told = failure_of(ZeroDivisionError("x" * 5000 + "\n\x1b[2J"))
    assert "Set GUIDEGEN_TRACE=1" in told.help_line
    assert max(map(len, told.help_line.splitlines())) < 300


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES, errno.EMFILE, errno.EIO])
def test_what_the_machine_refuses_is_no_fault_of_anybodys(number: int):
    told = failure_of(OSError(number, os.strerror(number), "/delta/x"))
    assert told.message == f"The machine has trouble with “/delta/x”: {os.strerror(number)}."
    assert "guidegen itself" not in told.message
    assert failure_of(MemoryError()).message == "This machine has no memory left to go on with."


def test_what_it_was_busy_with_is_named_from_the_inside_out():
    error = ZeroDivisionError()
    error.add_note("a library's own remark")
    with (
        pytest.raises(ZeroDivisionError) as caught,
        busy_with("the page"),
        busy_with(GUIDE),
        busy_with(GUIDE),
    ):
        raise error
    assert activity_notes(caught.value) == (GUIDE, "the page")
    with pytest.raises(GuidegenError) as told, busy_with(GUIDE):
        raise GuidegenError("The disk is full.")
    assert activity_notes(told.value) == ()
