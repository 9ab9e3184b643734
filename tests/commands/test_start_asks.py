"""`guidegen start` at a terminal: a few questions, names finished by the Tab key, and nothing half made."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest
from support.content_folders import bytes_of, lay_out

from guidegen.building.build import Order, build
from guidegen.building.check import check

if sys.platform == "win32":
    pytest.skip("there are no such terminals there", allow_module_level=True)

from support.terminal import Terminal

pytestmark = pytest.mark.slow

CONTENT = """\
» palette.yaml
paints:
  - {name: Oilskin Ochre, colour: b8862f}
  - {name: "Reed: #2", colour: 7f9144}
  - {name: Silt Wash, kind: wash, colour: 4a3b2a}
» guides/eel-seller.md
---
title: Eel seller
steps: [{step: Apron, area: apron, paint: Oilskin Ochre, each: 4 min}]
---
"""


@pytest.fixture
def here(tmp_path: Path) -> Path:
    lay_out(tmp_path / "content", CONTENT)
    return tmp_path


def clean_and_built(folder: Path) -> None:
    content = folder / "content"
    assert check(content).diagnostics == ()
    assert build(Order(content=content, out=folder / "site", cache=folder / "cache")).counts is not None


def test_a_guide_from_a_few_answers(here: Path):
    terminal = Terminal("start", "guides/ferry-watch", folder=here)
    terminal.answer("Title? [Ferry watch]:", "Ferry watch: by night #1")
    terminal.answer("How many figures? [5]:", "ten")
    terminal.answer("Write a number from 1", "12")
    terminal.answer("Which areas do you paint", "ap\t, hood,coat: inside , Apron, folds")
    terminal.answer("Which paint for apron? []:", "oil\t")
    terminal.answer("Which paint for hood? []:", "Oilskin Ocre")
    terminal.answer("There is no “Oilskin Ocre”. Oilskin Ochre? [yes]:", "")
    terminal.answer("Which paint for coat: inside? []:", "Mauve")
    terminal.answer("There is no “Mauve”. The Tab key shows", "reed: #2")
    terminal.answer("Which paint for folds? []:", "")
    assert terminal.finish() == 0, terminal.shown
    text = (here / "content/guides/ferry-watch/guide.md").read_text(encoding="utf-8")
    assert "\nfigures: 12\n" in text
    assert (
        "  - {step: Hood, technique: base coat, area: hood, paint: Oilskin Ochre, each: 3 min, dry: 15 min}\n"
        in text
    )
    assert "  # - {step: Folds, technique: base coat, area: folds, paint: the name of a paint, each" in text
    guide = check(here / "content").archive.guide("ferry-watch")
    assert guide is not None
    assert guide.title == "Ferry watch: by night #1"
    assert [[area.text for area in step.areas] for step in guide.steps] == [
        [],
        ["apron"],
        ["hood"],
        ["coat: inside"],
    ]
    assert [step.paint.parts[0].name.text for step in guide.steps[1:] if step.paint] == [
        "Oilskin Ochre",
        "Oilskin Ochre",
        "Reed: #2",
    ]
    clean_and_built(here)


def test_enter_alone_will_do(here: Path):
    terminal = Terminal("start", "guides/ferry-watch", folder=here)
    for question in ("Title?", "How many figures?", "Which areas"):
        terminal.answer(question, "")
    assert terminal.finish() == 0
    asked = (here / "content/guides/ferry-watch/guide.md").read_text(encoding="utf-8")
    quiet = Terminal("start", "guides/other", "--no-ask", folder=here)
    assert quiet.finish() == 0
    assert "?" not in quiet.shown
    other = (here / "content/guides/other/guide.md").read_text(encoding="utf-8")
    assert asked == other.replace("title: Other", "title: Ferry watch")
    clean_and_built(here)


def test_a_plan_from_a_few_answers(here: Path):
    terminal = Terminal("start", "plans/regatta", folder=here)
    terminal.answer("Title? [Regatta]:", "")
    terminal.answer("By which guide? [eel-seller]:", "Eel-sller")
    terminal.answer("There is no “Eel-sller”. eel-seller? [yes]:", "no")
    terminal.answer("By which guide? [eel-seller]:", "Eel seller")
    terminal.answer("How many figures? [10]:", "24")
    assert terminal.finish() == 0, terminal.shown
    text = (here / "content/plans/regatta.yaml").read_text(encoding="utf-8")
    assert "{guide: eel-seller, figures: 24, batch: 5}" in text
    clean_and_built(here)


def test_a_content_folder_from_two_answers(tmp_path: Path):
    terminal = Terminal("start", folder=tmp_path)
    terminal.answer("What is the site called? [Painting guides]:", 'Hob\'s "eels"')
    terminal.answer("Who paints and writes here?:", "")
    assert terminal.finish() == 0, terminal.shown
    found = check(tmp_path / "content")
    assert found.archive.site.title == 'Hob\'s "eels"'
    clean_and_built(tmp_path)


@pytest.mark.parametrize(("keys", "before"), [("\x03", 0), ("\x04", 1), ("half a name\x03", 2)])
def test_who_stops_leaves_nothing_half_made(here: Path, keys: str, before: int):
    files = bytes_of(here)
    terminal = Terminal("start", "guides/ferry-watch", folder=here)
    questions = ("Title?", "How many figures?", "Which areas")
    for question in questions[:before]:
        terminal.answer(question, "")
    terminal.wait_for(questions[before])
    assert terminal.stop(keys) == 130, terminal.shown
    assert "Traceback" not in terminal.shown
    assert bytes_of(here) == files
    assert not (here / "content/guides/ferry-watch").exists()


@pytest.mark.parametrize("answer", ["yes", ""])
def test_a_misheard_name_is_learned_where_that_is_wished(here: Path, answer: str):
    palette = here / "content/palette.yaml"
    before = palette.read_text(encoding="utf-8")
    (here / "film.txt").write_text("1. Coats: Oil Can Oker\n2. Wash: Silt Wash, 40 min\n", encoding="utf-8")
    terminal = Terminal("start", "guides/coats", "--from", "film.txt", folder=here)
    terminal.answer("Heard “Oil Can Oker”. Which paint is it? [Oilskin Ochre]:", "")
    terminal.answer("Keep these in the palette as aliases?", answer)
    assert terminal.finish() == 0, terminal.shown
    learned = before.replace("colour: b8862f}", "colour: b8862f, aliases: [Oil Can Oker]}")
    assert palette.read_text(encoding="utf-8") == (learned if answer else before)
    assert ("“Oil Can Oker” as aliases." in terminal.shown) is bool(answer)
