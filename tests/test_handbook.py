"""The handbook is true: in an empty folder each page's story happens as it is told."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
import yaml
from support.handbook_pages import File, pages, run, story, tell
from support.paths import TEMPLATES

STARTERS = TEMPLATES / "start"
PAGES = {page.parent.name: page.read_text(encoding="utf-8") for page in pages()}


def test_which_pages_there_are():
    assert list(PAGES) == [
        "handbook-card",
        "handbook-club",
        "handbook-evenings",
        "handbook-film",
        "handbook-first-hour",
        "handbook-look",
        "handbook-palette",
        "handbook-publishing",
        "handbook-writing",
    ]


@pytest.mark.slow
@pytest.mark.parametrize("name", PAGES)
def test_a_page_happens_as_it_is_told(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    ended = [(line.split()[1], code, said) for line, code, said in tell(PAGES[name])]
    checks = [(code, said) for command, code, said in ended if command == "check"]
    assert checks[-1] == (0, "Nothing to mend.\n")
    assert [code for command, code, _ in ended if command == "build"][-1] == 0
    assert (tmp_path / "site" / "index.html").is_file()


def test_what_a_runner_is_told_to_do_can_be_done(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    files = {
        event.path: event.text for event in story(PAGES["handbook-publishing"]) if isinstance(event, File)
    }
    job = yaml.safe_load(files["publish.yaml"] or "")
    monkeypatch.chdir(tmp_path)
    (tmp_path / "content" / "guides").mkdir(parents=True)
    for path in ("content/palette.yaml", "content/guides/net-mender.md", "content/site.yaml"):
        Path(path).write_text(files[path] or "", encoding="utf-8")
    ours = [step.removeprefix("tools/bin/") for step in job["steps"] if "/guidegen " in step.split("#")[0]]
    commands = [line for line in ours if line.startswith("guidegen ")]
    assert [run(line)[0] for line in commands] == [0, 0]
    assert (tmp_path / "public" / "feed.xml").is_file()
    assert all((tmp_path / folder).is_dir() for folder in job["keep-between-runs"])


def test_every_page_leads_to_the_others():
    """By its foot, or by way of the first page of all."""
    for name, page in PAGES.items():
        see = yaml.safe_load(page.split("\n---\n", 1)[0])["see"]
        assert "handbook-first-hour" in see or name == "handbook-first-hour"
    first = yaml.safe_load(PAGES["handbook-first-hour"].split("\n---\n", 1)[0])["see"]
    assert {*PAGES} - {"handbook-first-hour"} == {*first}


@pytest.mark.parametrize(
    ("page", "words"),
    [
        ("```sh\nguidegen check --why nothing\n```\n", "said"),
        ("```sh\nguidegen check --why no-paint\n```\n\n```text\nnothing\n```\n", "said otherwise"),
        ("```sh\nls\n```\n", "no command of guidegen"),
        ("```text\nNothing to mend.\n```\n", "no command says this"),
        ("```yaml content/guides/x.md\n```\n", "yaml is not what"),
        ("```yaml ../palette.yaml\n```\n", "leads out"),
    ],
)
def test_a_page_that_is_not_true_is_seen(
    page: str, words: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(AssertionError, match=words):
        list(tell(f"---\ntitle: Untrue\n---\n{page}"))


def test_starters_name_pages_that_are_there():
    titles = {yaml.safe_load(page.split("\n---\n", 1)[0])["title"] for page in PAGES.values()}
    for file in sorted(path for path in STARTERS.rglob("*") if path.is_file()):
        remarks = [line for line in file.read_text(encoding="utf-8").splitlines() if "andbook" in line]
        named = re.findall("“([^”]+)”", " ".join(remarks))
        assert named, f"{file.name} names no page"
        assert {*named} <= titles
