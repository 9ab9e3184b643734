"""`guidegen check --fix` from outside: what is safe to mend is mended, and no byte beside it changes."""

from __future__ import annotations

import json
import os
import stat
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from support.content_folders import bytes_of, lay_out

from guidegen.commands.check import command

PALETTE = """\
» palette.yaml
# Ours, from the shelf by the window.
paints:
  - {name: Oilskin Ochre, colour: b8862f}   # the coats
  - {name: Sluice Wash, kind: wash, colour: 4a3b2a}
"""
GUIDE = """\
» guides/eel-seller.md
---
title: Eel seller
steps:
  - {step: Apron, area: apron, paint: Oilskin Ocre, each: 4 min}   # thin
---
"""


def run(*arguments: str) -> Result:
    return CliRunner().invoke(command, ["--fix", *arguments])


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def written(path: str, data: bytes) -> Path:
    file = Path("content") / path
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_bytes(data)
    return file


def test_it_says_what_it_did_and_what_is_left():
    lay_out(Path("content"), PALETTE + GUIDE.replace("each: 4 min", "eahc: 4 min, technique: wsh"))
    result = run()
    assert result.stdout == (
        "Mended:\n"
        "    content/guides/eel-seller.md, line 4     Oilskin Ocre → Oilskin Ochre\n"
        "    content/guides/eel-seller.md, line 4     eahc → each\n"
        "\n"
        "1 piece of advice\n"
        "\n"
        "Step 1 has the technique “wsh”, which guidegen does not know, so it takes a base\n"
        "coat's figures.\n"
        "    content/guides/eel-seller.md, line 4     …ach: 4 min, technique: wsh}   # t…\n"
        "                                                                     ~~~\n"
        "    Write wash.                                        advice: unknown-technique\n"
    )
    assert result.exit_code == 0
    assert run().stdout.startswith("1 piece of advice\n\nStep 1 has the technique")


def test_an_error_that_is_left_counts():
    lay_out(Path("content"), PALETTE + GUIDE.replace("title: Eel seller\n", ""))
    assert run().exit_code == 1
    assert "paint: Oilskin Ochre, each: 4 min}   # thin\n" in Path("content/guides/eel-seller.md").read_text(
        "utf-8"
    )


def test_without_it_a_check_writes_nothing():
    lay_out(Path("content"), PALETTE + GUIDE)
    before = bytes_of(Path())
    assert CliRunner().invoke(command, []).exit_code == 1
    assert bytes_of(Path()) == before
    assert CliRunner().invoke(command, ["--format", "line"]).stdout.count("\n") == 1


def test_for_other_programs_what_was_done_stands_beside_the_output():
    lay_out(Path("content"), PALETTE + GUIDE)
    result = run("--format", "json")
    assert json.loads(result.stdout) == {"diagnostics": [], "errors": 0, "warnings": 0, "advice": 0}
    assert "Oilskin Ocre → Oilskin Ochre" in result.stderr


KINDS = {
    "a paint": ("guides/a.md", "{step: A, paint: [Oilskin Ocre], each: 1}", "Oilskin Ocre", "Oilskin Ochre"),
    "a part": ("guides/a.md", "{step: A, paint: {Slucie Wash: 2}, each: 1}", "Slucie Wash", "Sluice Wash"),
    "in double quotes": (
        "guides/a.md",
        '{step: A, paint: "Slucie Wash", each: 1}',
        '"Slucie Wash"',
        '"Sluice Wash"',
    ),
    "in single quotes": (
        "guides/a.md",
        "{step: A, paint: 'Slucie Wash', each: 1}",
        "'Slucie Wash'",
        "'Sluice Wash'",
    ),
    "a key": ("guides/a.md", "{step: A, paint: none, eech: 1}", "eech", "each"),
    "a kind": ("palette/b.yaml", "paints: [{name: X, kind: varnsh}]\n", "varnsh", "varnish"),
    "a colour": ("palette/b.yaml", "paints:\n  - {name: X, colour: #445566}\n", "#445566", '"#445566"'),
    "a name with a #": (
        "palette/b.yaml",
        "paints:\n  - name: Grey #2   # from the tin\n    colour: 445566\n",
        "Grey #2",
        '"Grey #2"',
    ),
    "an insert": ("guides/a.md", "{insert: jtety}", "jtety", "jetty"),
    "a guide": (
        "plans/p.yaml",
        "title: P\nstart: 2026-06-01\nsittings: {sat: '8:00-9:00'}\nunits: [{guide: eel-selle, figures: 1}]\n",
        "eel-selle",
        "eel-seller",
    ),
    "a stop": (
        "plans/p.yaml",
        (
            "title: P\nstart: 2026-06-01\nsittings: {sat: '8:00-9:00'}\n"
            "units: [{guide: eel-seller, figures: 1, to: Fit to feild}]\n"
        ),
        "Fit to feild",
        "Fit to field",
    ),
    "an option": (
        "plans/p.yaml",
        (
            "title: P\nstart: 2026-06-01\nsittings: {sat: '8:00-9:00'}\n"
            "units: [{guide: eel-seller, figures: 1, choose: {headgear: kerchif}}]\n"
        ),
        "kerchif",
        "kerchief",
    ),
}
AROUND = (
    PALETTE
    + """\
» shared/jetty.yaml
steps: [{step: Boards, paint: none, each: 1 min}]
» guides/eel-seller.md
---
title: Eel seller
choose: {headgear: [kerchief, straw hat]}
steps: [{step: Apron, paint: Oilskin Ochre, each: 4 min}, {stop: Fit to field}]
---
"""
)


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind(kind: str):
    path, text, before, after = KINDS[kind]
    lay_out(Path("content"), AROUND)
    if path.endswith(".md"):
        text = f"---\ntitle: A\nsteps:\n  - {text}\n---\n"
    file = written(path, text.encode())
    result = run()
    assert result.exit_code == 0, result.output
    assert f"{before} → {after}\n" in result.stdout
    assert file.read_bytes() == text.replace(before, after, 1).encode()


def test_what_became_of_tabs_is_said():
    lay_out(Path("content"), AROUND)
    written(
        "guides/a.md", b"---\ntitle: A\nsteps:\n\t- {step: A, paint: none}\n\t- {step: B, paint: none}\n---\n"
    )
    result = run()
    assert result.exit_code == 0, result.output
    assert result.stdout.count("spaces put in the place of tabs\n") == 2
    assert "- → -" not in result.stdout


BODY = "\ttabs\tin a text — and ★ “signs” no code page has é"


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.parametrize("last", ["", "\n"])
def test_no_byte_beside_it_changes(end: str, mark: str, last: str):
    lay_out(Path("content"), PALETTE)
    before = (
        f"{mark}---\n# Größe — 🖌 first\ntitle:   Öl  # two  blanks\nsteps:\n"
        f"- {{step: ★ Apron, paint: Oilskin Ocre, each: 1,  brush: 'é' }}  # ü\t\n"
        f"- {{step: é, paint: [Slucie Wash,Oilskin Ocre], eech: 2}}\n---\n{BODY}{last}"
    ).replace("\n", end)
    file = written("guides/a.md", before.encode())
    assert run().exit_code == 0
    after = before.replace("Oilskin Ocre", "Oilskin Ochre").replace("Slucie Wash", "Sluice Wash")
    assert file.read_bytes() == after.replace("eech", "each").encode()
    assert run().stdout == "Nothing to mend.\n"


def test_the_file_keeps_its_permissions():
    lay_out(Path("content"), PALETTE + GUIDE)
    file = Path("content/guides/eel-seller.md")
    file.chmod(0o600)
    assert run().exit_code == 0
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert sorted(path.name for path in file.parent.iterdir()) == ["eel-seller.md"]


LEFT = {
    "two that can be meant": "{step: A, paint: Reed 3, each: 1}",
    "two spelt nearly the same": "{step: A, paint: Brindlel Reed, each: 1}",
    "nothing like it": "{step: A, paint: Weedraft, each: 1}",
    "a key that stands there already": "{step: A, paint: none, each: 1, eech: 2}",
    "two keys that mean the same": "{step: A, paint: none, eech: 1, eahc: 2}",
    "a step or a stop": "{stap: A, each: 1}",
    "a second # after it": "{step: A, paint: none, each: 1, brush: size #1 #2}",
    "a time with a # after it": "{step: A, paint: none, each: 1, dry: 5 min #long}",
}


@pytest.mark.parametrize("case", LEFT)
def test_what_is_not_sure_is_left(case: str):
    reeds = "paints: [{name: Reed 1, colour: aaa}, {name: Reed 2, colour: bbb}, "
    reeds += "{name: Brindle Reed, colour: ccc}, {name: Brindel Reed, colour: ddd}]\n"
    lay_out(Path("content"), PALETTE + "» palette/reeds.yaml\n" + reeds)
    written("guides/a.md", f"---\ntitle: A\nsteps:\n  - {LEFT[case]}\n---\n".encode())
    before = bytes_of(Path("content"))
    result = run()
    assert "Mended" not in result.output
    assert result.exit_code == 1
    assert bytes_of(Path("content")) == before


def test_hazards_and_photos_are_never_guessed():
    lay_out(
        Path("content"),
        "» palette.yaml\npaints: [{name: X, colour: aaa, hazards: [H2222]}]\n» guides/coats.jpg = a photo 8 × 8\n"
        "» guides/a.md\n---\ntitle: A\ncover: {file: coat.jpg, alt: A}\nsteps: [{step: A, paint: X, each: 1}]\n---\n",
    )
    before = bytes_of(Path("content"))
    assert run().exit_code == 1
    assert bytes_of(Path("content")) == before


def test_a_link_in_the_text_is_left():
    guide = GUIDE.replace("Ocre", "Ochre") + "See [the other](../eel-selle.md).\n"
    lay_out(Path("content"), PALETTE + guide)
    before = bytes_of(Path("content"))
    assert run().exit_code == 1
    assert bytes_of(Path("content")) == before


def test_a_fault_that_takes_an_author_is_left_and_the_others_are_mended():
    lay_out(Path("content"), "» palette.yaml\npaints:\n  - {name: Grey #2, colour: aaa}\n  - {name: [\n")
    assert run().exit_code == 1
    after = 'paints:\n  - {name: "Grey #2", colour: aaa}\n  - {name: [\n'
    assert Path("content/palette.yaml").read_text(encoding="utf-8") == after


@pytest.mark.skipif(os.name == "nt", reason="links need rights there")
@pytest.mark.parametrize("how", ["a link", "a second name"])
def test_a_file_with_two_names_is_left(how: str):
    lay_out(Path("content"), PALETTE)
    elsewhere = Path("content/kept.md") if how == "a link" else Path("kept.md")
    text = "---\ntitle: A\nsteps: [{step: A, paint: Oilskin Ocre, each: 1}]\n---\n"
    elsewhere.write_text(text, encoding="utf-8")
    file = Path("content/guides/a.md")
    file.parent.mkdir()
    if how == "a link":
        file.symlink_to(elsewhere.resolve())
    else:
        file.hardlink_to(elsewhere)
    result = run()
    assert result.exit_code == 1
    assert "Mended" not in result.output
    assert elsewhere.read_text(encoding="utf-8") == text
    assert file.is_symlink() == (how == "a link")


def test_a_list_that_two_guides_insert_is_not_bent_to_one_of_them():
    step = "{step: Hat, paint: none, each: 1, only: {headgear: kerchief}}"
    guide = "---\ntitle: T\nchoose: {headgear: [%s, hat]}\nsteps: [{insert: hats}, {step: A, paint: none, each: 1}]\n---\n"
    lay_out(Path("content"), PALETTE + f"» shared/hats.yaml\nsteps: [{step}]\n")
    written("guides/a.md", (guide % "kerchief").encode())
    written("guides/b.md", (guide % "kerchif").encode())
    before = bytes_of(Path("content"))
    assert run().exit_code == 1
    assert bytes_of(Path("content")) == before


def test_what_was_hidden_is_mended_too():
    lay_out(Path("content"), "» palette.yaml\npaintss:\n  - {nmae: X, color: aaa, kind: wsah}\n")
    assert run().exit_code == 0
    assert (
        Path("content/palette.yaml").read_text("utf-8") == "paints:\n  - {name: X, color: aaa, kind: wash}\n"
    )
