"""The help for editors that `guidegen start` lays beside the content, and the lines that lead to it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from jsonschema import Draft202012Validator
from support.content_folders import bytes_of, lay_out
from support.yaml_core_schema import as_an_editor_reads

from guidegen.base.errors import GuidegenError
from guidegen.building.build import Order, build
from guidegen.building.check import check
from guidegen.commands.start import command

LINE = re.compile(r"^(?:---\n)?# yaml-language-server: \$schema=(\S+)\n")


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*arguments: str) -> Result:
    return CliRunner().invoke(command, arguments)


def test_every_file_that_start_makes_leads_to_its_help_and_is_accepted_by_it():
    for arguments in ((), ("guides/ferry-watch",), ("plans/regatta",), ("shared/jetty-base",)):
        assert run(*arguments).exit_code == 0
    files = [path for path in Path("content").rglob("*") if path.suffix in {".md", ".yaml"}]
    assert len(files) == 6
    for file in files:
        text = file.read_text(encoding="utf-8")
        line = LINE.match(text)
        assert line is not None, file
        schema = json.loads((file.parent / line[1]).read_text(encoding="utf-8"))
        assert [e.message for e in Draft202012Validator(schema).iter_errors(as_an_editor_reads(text))] == []
    assert check(Path("content")).diagnostics == ()
    built = build(Order(content=Path("content"), out=Path("site"), cache=Path("cache")))
    assert built.counts is not None
    assert built.diagnostics == ()
    assert not any("editor" in path for path in bytes_of(Path("site")))


def test_a_list_of_steps_goes_into_a_guide():
    run()
    said = run("shared/Jetty base").stdout
    assert "- insert: jetty-base puts them among the steps of a guide." in said
    guide = Path("content/guides/first-guide/guide.md")
    text = guide.read_text(encoding="utf-8")
    guide.write_text(text.replace("steps:\n", "steps:\n  - insert: jetty-base\n", 1), encoding="utf-8")
    assert check(Path("content")).diagnostics == ()
    again = run("shared/jetty-base")
    assert isinstance(again.exception, GuidegenError)
    assert again.exception.message == "There is a list “jetty-base” already."


def test_a_palette_of_a_list_has_its_line_too():
    Path("paints.csv").write_text("name,colour\nOilskin Ochre,#b8862f\n", encoding="utf-8")
    assert run("--palette-from", "paints.csv").exit_code == 0
    assert LINE.match(Path("content/palette.yaml").read_text(encoding="utf-8"))
    assert check(Path("content")).diagnostics == ()


def test_an_older_folder_gets_it_and_nothing_else_of_it_changes():
    content = lay_out(Path("content"), "» site.yaml\ntitle: Old\n» palette.yaml\npaints: []\n")
    before = bytes_of(content)
    assert run("shared/one").exit_code == 0
    assert LINE.match(Path("content/shared/one.yaml").read_text(encoding="utf-8")) is None
    said = run("--editor-help").stdout
    assert "palette.yaml: # yaml-language-server: $schema=.editor-help/palette.json\n" in said
    after = bytes_of(content)
    assert {path: after[path] for path in before} == before
    Path("content/.editor-help/site.json").write_text("{}", encoding="utf-8")
    assert run("--editor-help", "content").exit_code == 0
    assert bytes_of(content) == after
    assert check(content).diagnostics == ()


def test_where_it_cannot_be():
    missing = run("--editor-help")
    assert isinstance(missing.exception, GuidegenError)
    lay_out(Path("content"), "» palette.yaml\npaints: []\n")
    Path("elsewhere").mkdir()
    Path("content/.editor-help").symlink_to(Path("elsewhere").resolve())
    assert isinstance(run("--editor-help").exception, GuidegenError)
    assert list(Path("elsewhere").iterdir()) == []
