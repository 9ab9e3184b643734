"""What is documented is so: every command has help with an example and stands in the README, whose blocks run."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import click
import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner
from support.paths import ROOT

from guidegen.cli import COMMANDS, guidegen

TOP = ROOT
SCREENS = TOP / "tests" / "screens"
README = (TOP / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```sh\n(.*?)^```", README, re.DOTALL | re.MULTILINE)
OURS = [line for block in BLOCKS for line in block.splitlines() if line.startswith("guidegen ")]


def command_named(name: str) -> click.Command:
    found = guidegen.get_command(click.Context(guidegen), name)
    assert found is not None
    return found


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_help_with_an_example(name: str):
    result = CliRunner().invoke(guidegen, [name, "--help"], prog_name="guidegen")
    assert result.exit_code == 0, result.output
    assert command_named(name).help
    examples = re.search(r"Examples?:\n((?: +guidegen .*\n)+)", result.output)
    assert examples is not None
    for line in examples[1].splitlines():
        assert line.split()[:2] == ["guidegen", name]


@pytest.mark.parametrize("name", COMMANDS)
def test_every_option_is_explained(name: str):
    for option in command_named(name).params:
        if isinstance(option, click.Option):
            assert option.help, option.name


def test_each_command_has_its_file_and_each_file_its_command():
    files = {path.stem for path in (TOP / "guidegen" / "commands").glob("*.py")}
    with_command = {
        name
        for name in files
        if "@click.command" in (TOP / "guidegen" / "commands" / f"{name}.py").read_text(encoding="utf-8")
    }
    assert with_command == set(COMMANDS)


def test_the_readme_lists_the_commands_and_no_others():
    listed = re.findall(r"^\| `guidegen ([a-z]+)` \|", README, re.MULTILINE)
    assert listed == list(COMMANDS)


def test_options_shown_in_the_readme_are_there():
    for line in OURS:
        options = {
            text for param in command_named(line.split()[1]).params for text in getattr(param, "opts", [])
        }
        assert set(re.findall(r"--[a-z-]+", line)) <= options, line


@pytest.mark.slow
def test_the_readmes_blocks_run(tmp_path: Path):
    """The demo is copied, so that what the blocks make stays away from the checkout."""
    assert len(OURS) > 6
    shutil.copytree(TOP / "content", tmp_path / "content")
    environment = os.environ | {
        "PATH": f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}",
        "XDG_CACHE_HOME": str(tmp_path / "cache"),
    }
    script = "set -eu\n" + "\n".join(OURS) + "\n"
    done = subprocess.run(
        ["sh", "-c", script], cwd=tmp_path, env=environment, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stderr
    for site in ("public", "club-site"):
        home = BeautifulSoup((tmp_path / site / "index.html").read_text(encoding="utf-8"), "html.parser")
        assert home.h1 is not None
    assert "Oilskin Ochre" in done.stdout


@pytest.mark.parametrize("file", ["README.md", "DEVELOPERS.md"])
def test_what_they_lead_to_is_there(file: str):
    led_to = re.findall(r"!?\[([^\]]*)\]\(([^)]+)\)", (TOP / file).read_text(encoding="utf-8"))
    assert led_to
    for words, place in led_to:
        assert words
        assert (TOP / place).is_file(), place


def test_the_developers_page_is_read_in_one_sitting():
    assert len((TOP / "DEVELOPERS.md").read_text(encoding="utf-8").split()) <= 1_000


def test_every_reference_says_where_it_is_from():
    folder = TOP / "tests" / "reference"
    rows = re.findall(
        r"^\| (\S+\.\w+) \| .+ \| .+ \|$", (folder / "README.md").read_text(encoding="utf-8"), re.MULTILINE
    )
    assert sorted(rows) == sorted(path.name for path in folder.iterdir() if path.name != "README.md")


def test_the_readmes_pictures_are_light():
    shown = re.findall(r"!\[[^\]]+\]\((tests/screens/[^)]+)\)", README)
    assert sorted(shown) == [path.relative_to(TOP).as_posix() for path in sorted(SCREENS.glob("*.webp"))]
    assert all((TOP / place).stat().st_size < 150_000 for place in shown)


def test_the_handbook_is_named_page_by_page():
    named = re.findall(r"\]\(content/guides/([a-z-]+)/guide\.md\)", README)
    there = {path.parent.name for path in (TOP / "content" / "guides").glob("handbook-*/guide.md")}
    assert there | {"draw-a-figure"} == {*named}
