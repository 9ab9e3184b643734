"""`guidegen check` from outside: its four forms, its exit codes, and how files are named from wherever it is run."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from support.content_folders import bytes_of, lay_out

from guidegen.base.codes import CODES
from guidegen.commands.check import command

PALETTE = """
» palette.yaml
paints:
  - {name: Oilskin Ochre, colour: b8862f}
  - {name: Silt Wash, kind: wash, colour: 4a3b2a}
"""
SOUND = (
    PALETTE
    + """
» guides/eel-seller.md
---
title: Eel seller
steps:
  - {step: Apron, area: apron, paint: Oilskin Ochre, each: 4 min}
---
"""
)
# A slip of the pen (with a second place), a missing time, and a wash that dries too short.
FAULTY = (
    PALETTE
    + """
» guides/eel-seller.md
---
title: Eel seller
steps:
  - {step: Apron, area: apron, paint: Oilskin Ocre, each: 4 min}
  - {step: Sleeves, area: sleeves, paint: Oilskin Ochre}
  - {step: Folds, technique: wash, paint: Silt Wash, each: 1 min, dry: 5 min}
---
"""
)
WARNED = FAULTY.replace("Ocre", "Ochre")

GUIDE = "content/guides/eel-seller.md"


def run(*arguments: str) -> Result:
    return CliRunner().invoke(command, arguments)


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def test_nothing_to_mend(here: Path):
    lay_out(here / "content", SOUND)
    result = run()
    assert (result.exit_code, result.stdout, result.stderr) == (0, "Nothing to mend.\n", "")
    assert run("--format", "line").stdout == ""
    assert json.loads(run("--format", "json").stdout) == {
        "diagnostics": [],
        "errors": 0,
        "warnings": 0,
        "advice": 0,
    }


def test_warnings_and_advice_do_not_count(here: Path):
    lay_out(here / "content", WARNED)
    result = run()
    assert result.exit_code == 0
    assert result.stdout.startswith("1 warning, 1 piece of advice\n")


def test_an_error_counts(here: Path):
    content = lay_out(here / "content", FAULTY)
    before = bytes_of(content)
    for form in ("text", "line", "json", "sarif"):
        assert run("--format", form).exit_code == 1
    assert bytes_of(content) == before
    assert [path.name for path in here.iterdir()] == ["content"]


def test_the_text_is_a_sentence_first(here: Path):
    lay_out(here / "content", FAULTY)
    assert run().stdout.split("\n\n")[1] == (
        "Step 1 paints with “Oilskin Ocre”, which is not in the palette.\n"
        "    content/guides/eel-seller.md, line 4     …a: apron, paint: Oilskin Ocre, ea…\n"
        "                                                               ~~~~~~~~~~~~\n"
        "    content/palette.yaml, line 2 has “Oilskin Ochre”.\n"
        "    Write Oilskin Ochre, or add Oilskin Ocre to the palette.       unknown-paint"
    )


def test_lines(here: Path):
    lay_out(here / "content", FAULTY)
    assert run("--format", "line").stdout.splitlines() == [
        f"{GUIDE}:4:39: error: Step 1 paints with “Oilskin Ocre”, which is not in the palette. [unknown-paint]",
        f"{GUIDE}:5:12: warning: Step 2, “Sleeves”, has no hands-on time. [step-without-time]",
        f"{GUIDE}:6:72: advice: Step 3 is a wash over everything and has 5 min to dry. [wash-dried-short]",
    ]


def test_json_has_these_keys_of_these_types(here: Path):
    lay_out(here / "content", FAULTY)
    for asked in (("--format", "json"), ("--json",)):
        found = json.loads(run(*asked).stdout)
        assert list(found) == ["diagnostics", "errors", "warnings", "advice"]
        assert (found["errors"], found["warnings"], found["advice"]) == (1, 1, 1)
        first = found["diagnostics"][0]
        assert first == {
            "code": "unknown-paint",
            "severity": "error",
            "message": "Step 1 paints with “Oilskin Ocre”, which is not in the palette.",
            "file": GUIDE,
            "line": 4,
            "column": 39,
            "end_line": 4,
            "end_column": 51,
            "help": "Write Oilskin Ochre, or add Oilskin Ocre to the palette.",
            "notes": [],
            "related": [
                {"file": "content/palette.yaml", "line": 2, "column": 12, "message": "has “Oilskin Ochre”."}
            ],
        }
        assert [d["severity"] for d in found["diagnostics"]] == ["error", "warning", "advice"]
        for diagnostic in found["diagnostics"]:
            assert list(diagnostic) == list(first)
            assert {key: type(value) for key, value in diagnostic.items()} == {
                key: type(value) for key, value in first.items()
            }


def test_sarif_names_every_rule_and_place(here: Path):
    lay_out(here / "content", FAULTY)
    log = json.loads(run("--format", "sarif").stdout)
    assert log["version"] == "2.1.0"
    (one,) = log["runs"]
    assert {rule["id"] for rule in one["tool"]["driver"]["rules"]} == set(CODES)
    first = one["results"][0]
    assert (first["ruleId"], first["level"]) == ("unknown-paint", "error")
    place = first["locations"][0]["physicalLocation"]
    assert place["artifactLocation"] == {"uri": GUIDE}
    assert place["region"] == {"startLine": 4, "startColumn": 39, "endLine": 4, "endColumn": 51}


@pytest.mark.parametrize(
    ("where", "asked", "shown"),
    [
        ("", "content", "content/guides/eel-seller.md"),
        ("", "./content/", "content/guides/eel-seller.md"),
        ("content", ".", "guides/eel-seller.md"),
        ("content/guides", "..", "eel-seller.md"),
        ("elsewhere", "../content", "guides/eel-seller.md"),
    ],
)
def test_files_are_named_from_where_one_is(
    here: Path, monkeypatch: pytest.MonkeyPatch, where: str, asked: str, shown: str
):
    lay_out(here / "content", FAULTY)
    (here / "elsewhere").mkdir()
    monkeypatch.chdir(here / where)
    found = json.loads(run("--content", asked, "--format", "json").stdout)
    assert {d["file"] for d in found["diagnostics"]} == {shown}
    assert run("--content", asked, "--format", "line").stdout.startswith(f"{shown}:4:39:")
    assert f"    {shown}, line 4" in run("--content", asked).stdout


def test_an_absolute_folder_is_named_from_here_too(here: Path):
    content = lay_out(here / "content", FAULTY)
    assert run("--content", str(content), "--format", "line").stdout.startswith(f"{GUIDE}:4:39:")


def test_a_linked_folder_is_the_folder_it_leads_to(here: Path):
    (here / "club").symlink_to(lay_out(here / "archive" / "content", FAULTY))
    found = run("--content", "club", "--format", "line")
    assert found.exit_code == 1
    assert found.stdout.startswith("archive/content/guides/eel-seller.md:4:39:")


@pytest.mark.parametrize("slug", CODES)
def test_why_explains_every_kind(here: Path, slug: str):
    result = run("--why", slug)
    assert result.exit_code == 0
    first, _, rest = result.stdout.partition("\n\n")
    assert first == f"{slug} ({CODES[slug].severity})"
    assert " ".join(rest.split()) == CODES[slug].explanation


def test_why_knows_a_slip_of_the_pen(here: Path):
    result = run("--why", "unknown-pain")
    assert result.exit_code == 2
    assert "unknown-paint" in result.stderr


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["check", "--format", "xml"], "--format"),
        (["check", "--content", "nowhere"], "There is no content folder at nowhere."),
        (["check", "--content", "palette.txt"], "palette.txt is a file, not a folder."),
        (["check", "--content", "empty"], "has no guides, no palette and no site.yaml in it."),
    ],
)
def test_misuse_ends_with_two(here: Path, arguments: list[str], words: str):
    (here / "palette.txt").write_text("no folder", encoding="utf-8")
    (here / "empty").mkdir()
    result = subprocess.run(
        [sys.executable, "-m", "guidegen", *arguments], capture_output=True, encoding="utf-8", check=False
    )
    assert result.returncode == 2
    assert words in result.stderr
    assert "Traceback" not in result.stderr
    assert result.stdout == ""


def test_a_pipe_gets_no_colour_and_ends_with_one(here: Path):
    lay_out(here / "content", FAULTY)
    result = subprocess.run(
        [sys.executable, "-m", "guidegen", "check"], capture_output=True, encoding="utf-8", check=False
    )
    assert result.returncode == 1
    assert not re.search("\x1b", result.stdout)
    assert result.stdout.startswith("1 error, 1 warning, 1 piece of advice\n")
    assert result.stderr == ""


def test_a_message_that_is_not_there_names_those_that_are():
    near = CliRunner().invoke(command, ["--why", "unknwon-paint"])
    assert (near.exit_code, "Did you mean unknown-paint?" in near.stderr) == (2, True)
    result = CliRunner().invoke(command, ["--why", "nonsense"])
    assert result.exit_code == 2
    assert set(CODES) <= set(" ".join(result.stderr.split()).replace(",", " ").replace(".", " ").split())
