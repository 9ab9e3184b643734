"""`guidegen build` from outside: what it prints, how it ends, and what it leaves in the folder."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner, Result
from support.content_folders import bytes_of, lay_out
from support.waiting import PATIENCE, free_port, until

from guidegen.commands.build import command

PALETTE = "\n» palette.yaml\npaints:\n  - {name: Oilskin Ochre, colour: b8862f}\n"
STEP = "\nsteps:\n  - {{step: Apron, area: apron, paint: {paint}, each: 4 min}}\n---\n"
GOOD = "» guides/eel-seller.md\n---\ntitle: Eel seller" + STEP.format(paint="Oilskin Ochre")
OTHER = "» guides/toll-house.md\n---\ntitle: Toll house" + STEP.format(paint="Oilskin Ochre")
FAULTY = "» guides/lamp-boys.md\n---\ntitle: Lamp boys" + STEP.format(paint="Oilskin Ocre")
PLACES = ("--content", "content", "--out", "site", "--cache", "cache")


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def build(*options: str) -> Result:
    return CliRunner().invoke(command, [*PLACES, *options])


def program(*arguments: str) -> subprocess.CompletedProcess[str]:
    """The whole program in a process of its own, for what only shows there: exit codes of failures."""
    return subprocess.run(
        [sys.executable, "-m", "guidegen", *arguments], capture_output=True, text=True, check=False
    )


def test_an_error_stops_it_before_anything_is_written():
    lay_out(Path("content"), PALETTE + GOOD + FAULTY)
    result = build()
    assert result.exit_code == 1
    assert "“Oilskin Ocre”, which is not in the palette" in result.stderr
    assert result.stderr.endswith("Nothing was written.\n")
    assert not Path("site").exists()


PHOTO = """» guides/boots/guide.md
---
title: Boots
steps:
  - {step: Boots, area: boots, paint: Oilskin Ochre, each: 4 min, photo: [{file: one.png, alt: One}, {file: two.png, alt: Two}]}
---
» guides/boots/one.png = a photo 500 × 400
» guides/boots/two.png = a photo 510 × 400
"""


def test_a_cache_that_cannot_be_written_to_is_told_once_and_stops_nothing():
    lay_out(Path("content"), PALETTE + GOOD + PHOTO)
    Path("in-the-way").write_text("mine")
    result = build("--cache", "in-the-way/cache")
    assert result.exit_code == 0
    assert result.stderr.count("The cache in “in-the-way/cache” cannot be written to") == 1
    assert Path("site/guides/boots/index.html").exists()
    assert "cannot be written to" not in build().stderr


def test_an_error_leaves_the_last_site_as_it_was():
    lay_out(Path("content"), PALETTE + GOOD)
    assert build().exit_code == 0
    before = bytes_of(Path("site"))
    lay_out(Path("content"), FAULTY)
    assert build().exit_code == 1
    assert bytes_of(Path("site")) == before


def test_the_faulty_may_be_left_out_and_it_still_ends_with_1():
    lay_out(Path("content"), PALETTE + GOOD + FAULTY)
    result = build("--leave-out-faulty")
    assert result.exit_code == 1
    site = bytes_of(Path("site"))
    assert "guides/eel-seller/index.html" in site
    assert not [path for path in site if "lamp-boys" in path]
    assert b"Lamp boys" not in b"".join(site.values())


def test_links_in_a_text_lead_to_what_is_there_and_else_are_words():
    """To a guide, to a file that is copied as it is, to a draft, and to a guide that was left out."""
    words = (
        "See [the toll house](../toll-house.md), [the sheet](../../as-is/sheet.txt), [the draft](../draft.md) and\n"
        "[the boys](../lamp-boys.md), or ![two figures](two.jpg) in a line.\n\n![alone](two.jpg)\n"
    )
    content = PALETTE + GOOD.replace("eel-seller.md", "eel/guide.md") + words + OTHER + FAULTY
    draft = "» guides/draft.md\n---\ntitle: Draft\ndraft: yes" + STEP.format(paint="Oilskin Ochre")
    lay_out(
        Path("content"),
        content + draft + "» as-is/sheet.txt\nfree\n» guides/eel/two.jpg = a photo 640 × 480\n",
    )
    assert build("--leave-out-faulty").exit_code == 1
    soup = BeautifulSoup(Path("site/guides/eel/index.html").read_text(encoding="utf-8"), "html.parser")
    links = {
        link.get_text(): link.get("href") for link in soup.find_all("a") if link.get_text().startswith("the ")
    }
    assert links == {"the toll house": "../toll-house/index.html", "the sheet": "../../sheet.txt"}
    assert "the draft and the boys" in " ".join(soup.get_text().split())
    assert Path("site/sheet.txt").read_text(encoding="utf-8") == "free\n"
    for alt in ("two figures", "alone"):
        image = soup.find("img", alt=alt)
        assert image.parent.name == "picture"
        assert image.parent.source["type"] == "image/webp"
        assert (image["width"], image["height"]) == ("640", "480")
    assert soup.find(attrs={"data-photo": True}) is None
    assert soup.find(attrs={"data-to": True}) is None


@pytest.mark.parametrize(
    "wrong", ["» site.yaml\nfomat: 1\n", PALETTE.replace("b8862f", "ochre")], ids=["site", "palette"]
)
def test_a_faulty_site_or_palette_stops_it_anyway(wrong: str):
    lay_out(Path("content"), PALETTE + GOOD)
    lay_out(Path("content"), wrong)
    assert build("--leave-out-faulty").exit_code == 1
    assert not Path("site").exists()


def test_a_broken_photo_is_an_authors_error():
    photo = "» guides/eel/apron.jpg = a broken photo\n"
    guide = GOOD.replace("eel-seller.md", "eel/guide.md").replace(
        "4 min}", "4 min, photo: apron.jpg, alt: Apron}"
    )
    lay_out(Path("content"), PALETTE + guide + photo + OTHER)
    result = build()
    assert (result.exit_code, Path("site").exists()) == (1, False)
    assert "bad-photo" in result.stderr
    assert build("--leave-out-faulty").exit_code == 1
    assert set(bytes_of(Path("site"))) >= {"guides/toll-house/index.html", "index.html"}
    assert not Path("site/guides/eel").exists()


def test_the_data_it_prints():
    lay_out(Path("content"), PALETTE + GOOD)
    first = json.loads(build("--json").stdout)
    assert list(first) == [
        "pages",
        "photos_encoded",
        "written",
        "unchanged",
        "removed",
        "seconds",
        "new",
        "changed",
        "removed_files",
        "kept",
        "left_out",
    ]
    assert first["pages"] == sum(path.endswith(".html") for path in bytes_of(Path("site")))
    assert (first["photos_encoded"], first["unchanged"], first["removed"]) == (0, 0, 0)
    second = json.loads(build("--json").stdout)
    assert (second["written"], second["unchanged"]) == (0, first["written"])
    lay_out(Path("content"), FAULTY)
    stopped = build("--json")
    assert stopped.exit_code == 1
    told = json.loads(stopped.stdout)
    lists = ("new", "changed", "removed_files", "kept", "left_out")
    assert [told.pop(name) for name in lists] == [[]] * len(lists)
    assert set(told.values()) == {0}


def test_a_second_build_touches_nothing():
    lay_out(Path("content"), PALETTE + GOOD)
    build()
    before = {path: path.stat() for path in Path("site").rglob("*.html")}
    assert "0 files written" in build().stdout
    assert {path: (found.st_mtime_ns, found.st_ino) for path, found in before.items()} == {
        path: (path.stat().st_mtime_ns, path.stat().st_ino) for path in before
    }


def test_the_same_content_gives_the_same_bytes_wherever_it_lies(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    lay_out(Path("content"), PALETTE + GOOD + OTHER)
    build()
    first = bytes_of(Path("site"))
    elsewhere = tmp_path / "else" / "where"
    lay_out(elsewhere / "content", OTHER + GOOD + PALETTE)
    monkeypatch.chdir(elsewhere)
    build()
    second = bytes_of(Path("site"))
    for site in (first, second):
        site.pop(".guidegen-manifest.json")  # it has the times of the files
    assert first == second


def test_a_removed_guide_leaves_nothing_behind():
    lay_out(Path("content"), PALETTE + GOOD + OTHER)
    build()
    with_both = set(bytes_of(Path("site")))
    Path("content/guides/toll-house.md").unlink()
    result = json.loads(build("--json").stdout)
    gone = with_both - set(bytes_of(Path("site")))
    assert result["removed"] == len(gone)
    assert {path.rsplit("/", 1)[0] for path in gone if path.startswith("guides/")} == {"guides/toll-house"}
    assert not Path("site/guides/toll-house").exists()
    assert b"Toll house" not in b"".join(bytes_of(Path("site")).values())


@pytest.mark.slow
@pytest.mark.parametrize("out", ["full", "content", "content/site", ".", "a-file"])
def test_a_refused_folder_ends_with_2(out: str):
    lay_out(Path("content"), PALETTE + GOOD)
    lay_out(Path(), "» full/note.txt\nmine\n» a-file\nmine\n")
    before = bytes_of(Path("content")), bytes_of(Path("full"))
    done = program("build", "--out", out, "--cache", "cache")
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith(f"“{out}” ")
    assert "Traceback" not in done.stderr
    assert (bytes_of(Path("content")), bytes_of(Path("full"))) == before


@pytest.mark.slow
def test_content_that_is_not_there_ends_with_2():
    done = program("build", "--content", "nowhere", "--cache", "cache")
    assert done.returncode == 2
    assert "nowhere" in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.slow
@pytest.mark.parametrize("wrong", [["--cache-size", "plenty"], ["--lot"], ["extra"]])
def test_misused_options_end_with_2(wrong: list[str]):
    assert program("build", *wrong).returncode == 2


@pytest.mark.slow
def test_a_folder_that_cannot_be_made_ends_with_2():
    lay_out(Path("content"), PALETTE + GOOD)
    lay_out(Path(), "» a-file\nmine\n")
    done = program("build", "--out", "a-file/site", "--cache", "cache")
    assert done.returncode == 2
    assert "a-file" in done.stderr
    assert "Traceback" not in done.stderr
    assert Path("a-file").read_text(encoding="utf-8") == "mine\n"


@pytest.mark.slow
@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may write anywhere")
def test_a_folder_that_cannot_be_written_to_ends_with_2():
    lay_out(Path("content"), PALETTE + GOOD)
    Path("shut").mkdir(mode=0o500)
    done = program("build", "--out", "shut/site", "--cache", "cache")
    assert done.returncode == 2
    assert "shut" in done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.slow
@pytest.mark.skipif(os.name != "posix", reason="sends the signal of Ctrl-C")
def test_ctrl_c_says_what_became_of_it():
    """The preview, since it runs until it is stopped; its builds are those of this command."""
    lay_out(Path("content"), PALETTE + GOOD)
    running = subprocess.Popen(
        [sys.executable, "-m", "guidegen", "preview", "--out", "shown", "--port", str(free_port())],
        stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=os.environ | {"XDG_CACHE_HOME": str(Path("cache").resolve())},
    )  # fmt: skip
    try:
        until(lambda: Path("shown/index.html").exists() or running.poll() is not None)
        running.send_signal(signal.SIGINT)
        said, complained = running.communicate(timeout=PATIENCE)
    finally:
        running.kill()
    assert (running.returncode, complained) in {(0, ""), (130, complained)}
    assert "The preview has ended." in said or "Stopped." in complained
    assert "Traceback" not in complained


@pytest.mark.parametrize("wrong", ["plenty", "-1", "9" * 400])
def test_a_size_that_no_disk_has_is_misuse(wrong: str):
    done = build("--cache-size", wrong)
    assert done.exit_code == 2
    assert "is no size" in done.output
