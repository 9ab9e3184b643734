"""`send` from outside: a content folder in, one file out, and what stops it."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from support.sent_guides import GUIDE, club, sent

from guidegen.base.errors import MachineError, OutputRefusedError

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("cache")


@pytest.fixture(scope="module")
def content(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """For tests that change nothing in it."""
    return club(tmp_path_factory.mktemp("club") / "content")


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The current folder."""
    folder = tmp_path / "here"
    folder.mkdir()
    monkeypatch.chdir(folder)
    return folder


def read(html: str) -> BeautifulSoup:
    return BeautifulSoup(html, "html.parser")


def test_one_file_named_after_the_guide_and_nothing_else(content: Path, cache: Path, here: Path) -> None:
    before = sorted(content.rglob("*"))
    result = sent(content, cache, "ferry-watch")
    assert result.exit_code == 0, result.output
    assert [path.name for path in here.iterdir()] == ["ferry-watch.html"]
    assert re.fullmatch(r"ferry-watch\.html: \d+ kB with 2 photos in it\.\nIt opens .*\n", result.stdout)
    assert result.stderr == ""
    assert sorted(content.rglob("*")) == before


@pytest.mark.parametrize(
    "name",
    [
        "Ferry watch in wet oilskins",
        "ferry watch in WET oilskins",
        "guides/ferry-watch",
        "guides/ferry-watch/guide.md",
        "Ferry Watch",
    ],
)
def test_a_guide_is_found_by_what_it_is_called(content: Path, cache: Path, here: Path, name: str) -> None:
    assert sent(content, cache, name).exit_code == 0
    assert (here / "ferry-watch.html").is_file()


def test_a_guide_is_found_by_where_it_lies(content: Path, cache: Path, here: Path) -> None:
    for path, name in (("ferry-watch/guide.md", "ferry-watch"), ("toll-house.md", "toll-house")):
        assert sent(content, cache, os.path.relpath(content / "guides" / path)).exit_code == 0
        assert (here / f"{name}.html").is_file()


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("fery-watch", "Write “ferry-watch”, if that is meant."),
        ("Ferry watch in wet oilskin", "Write “Ferry watch in wet oilskins”, if that is meant."),
        ("ropewalk", "There are: ferry-watch, toll-house."),
    ],
)
def test_a_guide_that_is_not_there_ends_with_one(
    content: Path, cache: Path, here: Path, asked: str, told: str
) -> None:
    result = sent(content, cache, asked)
    assert result.exit_code == 1
    assert result.stdout == ""
    assert f"There is no guide “{asked}”.\n    {told}\n" == result.stderr
    assert not list(here.iterdir())


def test_of_two_guides_with_one_title_neither_is_guessed(tmp_path: Path, cache: Path, here: Path) -> None:
    content = club(tmp_path / "content")
    (content / "guides" / "night.md").write_text(
        "---\ntitle: The toll house\nsteps: [{step: Dark, paint: Ropewalk, each: 1 min}]\n---\n",
        encoding="utf-8",
    )
    result = sent(content, cache, "The toll house")
    assert result.exit_code == 1
    assert "Write one of night, toll-house." in result.stderr
    assert not list(here.iterdir())


@pytest.mark.parametrize(
    ("file", "old", "new", "told"),
    [
        ("guides/ferry-watch/guide.md", "paint: Ropewalk", "paint: Ropewak", "unknown-paint"),
        ("guides/ferry-watch/guide.md", "title: Ferry", "title: [Ferry", "bad-yaml"),
        ("guides/ferry-watch/guide.md", "file: coats.jpg", "file: coat.jpg", "missing-photo"),
        ("palette.yaml", "kind: wash", "kind: wish", "bad-value"),
        ("site.yaml", "", "language: [en]\n", "bad-value"),
    ],
)
def test_a_mistake_that_concerns_the_guide_stops_it(
    tmp_path: Path, cache: Path, here: Path, file: str, old: str, new: str, told: str
) -> None:
    content = club(tmp_path / "content")
    text = (content / file).read_text(encoding="utf-8") if old else ""
    assert old in text
    (content / file).write_text(text.replace(old, new) if old else new, encoding="utf-8")
    result = sent(content, cache, "ferry-watch")
    assert result.exit_code == 1
    assert told in result.stderr
    assert not list(here.iterdir())


def test_a_broken_photo_stops_it(tmp_path: Path, cache: Path, here: Path) -> None:
    content = club(tmp_path / "content")
    (content / "guides" / "ferry-watch" / "coats.jpg").write_bytes(b"\xff\xd8\xff\xe0 and then nothing")
    result = sent(content, cache, "ferry-watch")
    assert result.exit_code == 1
    assert "bad-photo" in result.stderr
    assert "Nothing was written." in result.stderr
    assert not list(here.iterdir())


def test_mistakes_elsewhere_are_no_matter(tmp_path: Path, cache: Path, here: Path) -> None:
    content = club(tmp_path / "content")
    for file in ("guides/patience.md", "plans/regatta.yaml", "shared/jetty.yaml"):
        (content / file).parent.mkdir(exist_ok=True)
        (content / file).write_text("title: [\n", encoding="utf-8")
    result = sent(content, cache, "ferry-watch")
    assert (result.exit_code, result.stderr) == (0, "")
    assert (here / "ferry-watch.html").is_file()


def test_a_mistake_in_an_inserted_list_stops_it(tmp_path: Path, cache: Path, here: Path) -> None:
    content = club(tmp_path / "content", GUIDE.replace("  - stop:", "  - insert: jetty\n  - stop:"))
    (content / "shared").mkdir()
    (content / "shared" / "jetty.yaml").write_text(
        "steps:\n  - {step: Boards, paint: Jetty Plonk, each: 1 min}\n", encoding="utf-8"
    )
    result = sent(content, cache, "ferry-watch")
    assert result.exit_code == 1
    assert "Jetty Plonk" in result.stderr
    assert not list(here.iterdir())


def test_only_the_same_guide_sent_before_is_written_over(
    tmp_path: Path, content: Path, cache: Path, here: Path
) -> None:
    file = here / "ferry-watch.html"
    assert sent(content, cache, "ferry-watch").exit_code == 0
    first = file.read_bytes()
    file.write_bytes(first + b"<!-- older -->")
    assert sent(content, cache, "ferry-watch").exit_code == 0
    assert file.read_bytes() == first
    for foreign in (
        b"<!doctype html>\n<title>Letters home</title>",
        b"",
        first.replace(b"send ferry", b"send f"),
    ):
        file.write_bytes(foreign)
        assert isinstance(sent(content, cache, "ferry-watch").exception, OutputRefusedError)
        assert file.read_bytes() == foreign
    other = sent(content, cache, "toll-house", "--out", str(file))
    assert isinstance(other.exception, OutputRefusedError)
    assert sent(content, cache, "ferry-watch", "--replace").exit_code == 0
    assert file.read_bytes() == first
    letters = tmp_path / "letters.txt"
    letters.write_bytes(b"Letters home")
    file.unlink()
    file.symlink_to(letters)
    assert isinstance(sent(content, cache, "ferry-watch").exception, OutputRefusedError)
    assert sent(content, cache, "ferry-watch", "--replace").exit_code == 0
    assert (file.is_symlink(), letters.read_bytes()) == (False, b"Letters home")
    assert [path.name for path in here.iterdir()] == ["ferry-watch.html"]


def test_where_it_cannot_be_written(content: Path, cache: Path, here: Path) -> None:
    result = sent(content, cache, "ferry-watch", "--out", "nowhere/ferry-watch.html")
    assert isinstance(result.exception, MachineError)
    assert result.exception.message == "There is no folder “nowhere” to write to."
    (here / "folder").mkdir()
    assert sent(content, cache, "ferry-watch", "--out", "folder").exit_code == 2


def test_a_draft_may_be_sent_and_says_so(tmp_path: Path, cache: Path, here: Path) -> None:
    content = club(tmp_path / "content", GUIDE.replace("figures: 4", "figures: 4\ndraft: yes"))
    result = sent(content, cache, "ferry-watch")
    assert result.exit_code == 0
    assert "It is still a draft, and says so." in result.stdout
    flag = read((here / "ferry-watch.html").read_text(encoding="utf-8")).find(class_="flag")
    assert flag is not None
    assert "Draft" in flag.get_text()


def test_of_the_variants_one_is_sent(content: Path, cache: Path, here: Path) -> None:
    assert sent(content, cache, "ferry-watch").exit_code == 0
    assert sent(content, cache, "ferry-watch", "--choose", "headgear=straw-hat").exit_code == 0
    pages = {path.name: read(path.read_text(encoding="utf-8")) for path in here.iterdir()}
    assert sorted(pages) == ["ferry-watch-with-straw-hat.html", "ferry-watch.html"]
    for page, option, steps in (
        (pages["ferry-watch.html"], "hood", ["Coats", "Seal"]),
        (pages["ferry-watch-with-straw-hat.html"], "straw hat", ["Coats", "Straw", "Seal"]),
    ):
        choice = page.find(class_="choice")
        assert choice is not None
        assert (choice.name, choice.get_text(" ", strip=True)) == ("div", f"headgear {option}")
        assert [" ".join(h.get_text().split()[1:]) for h in page.select(".step h3")] == steps


@pytest.mark.parametrize(
    ("chosen", "code", "told"),
    [
        ("headgear=bowler", 1, "It has: hood, straw hat."),
        ("headgaer=hood", 1, "Write headgear, if that is meant."),
        ("boots=none", 1, "It offers: headgear."),
        ("headgear", 2, "headgear=straw-hat"),
    ],
)
def test_what_is_not_offered_cannot_be_chosen(
    content: Path, cache: Path, here: Path, chosen: str, code: int, told: str
) -> None:
    result = sent(content, cache, "ferry-watch", "--choose", chosen)
    assert result.exit_code == code
    assert told in result.stderr
    assert not list(here.iterdir())
