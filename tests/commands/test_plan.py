"""`plan` from outside: what it prints, its data, its exit codes, and whose mistakes stop it."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.small_palette import data, run

from guidegen.commands import plan

GUIDE = """\
---
title: Ferry watch in wet oilskins
scale: 1:56
surface: 10 cm2
steps:
  - {step: Prime, technique: spray, paint: Ropewalk, amount: 10 ml, once: 10 min, each: 2 min, dry: 30 min}
  - stop: Fit to look at
  - {step: Coats, technique: base coat, paint: Oilskin Ochre, amount: 1.2 ml, each: 8 min, dry: 15 min, coats: 2}
---
"""

PLAN = """\
title: Regatta
start: 2026-04-06
deadline: 2026-04-08
sittings: {mon: "20:00-21:00", wed: "20:00-22:00", 2026-04-08: "19:00-19:40"}
spraying: {mon: "20:10-20:40"}
units:
  - {guide: ferry-watch, figures: 5, batch: 3}
  - {guide: ferry-watch, figures: 3, to: Fit to look at}
"""


@pytest.fixture
def regatta(content: Path) -> Path:
    for folder, name, text in (("guides", "ferry-watch.md", GUIDE), ("plans", "regatta.yaml", PLAN)):
        (content / folder).mkdir()
        (content / folder / name).write_text(text, encoding="utf-8")
    return content


def test_the_plan_as_data_by_hand(regatta: Path) -> None:
    """Spraying from 20:10: 16 minutes for batch 1, and with the can set up 4 for batch 2 and 6 for unit 2.

    Figure 1 is dry at 20:52, when the pot is changed, and coated until 21:00. Wednesday by its date, 19:00-19:40: 2 and
    3, then 4 and 5 while these dry, and figure 1 once more. Monday: 2 and 3 until 20:16, 4 and 5 until 20:32, dry
    at 20:47.
    """
    found = data(plan.command, regatta, "regatta")
    assert list(found) == [
        "title",
        "finish",
        "deadline",
        "slack_days",
        "short_hours",
        "changes",
        "change_min",
        "sittings",
        "shopping",
    ]
    assert [(sitting["date"], sitting["start"], sitting["end"]) for sitting in found["sittings"]] == [
        ("2026-04-06", "2026-04-06T20:00:00", "2026-04-06T21:00:00"),
        ("2026-04-08", "2026-04-08T19:00:00", "2026-04-08T19:40:00"),
        ("2026-04-13", "2026-04-13T20:00:00", "2026-04-13T21:00:00"),
    ]
    jobs = [
        (job["unit"], job["batch"], job["step"], job["figures"], job["start"][8:16], job["end"][8:16])
        for sitting in found["sittings"]
        for job in sitting["jobs"]
    ]
    assert jobs == [
        (1, 1, "Prime", [1, 3], "06T20:10", "06T20:26"),
        (1, 2, "Prime", [4, 5], "06T20:26", "06T20:30"),
        (2, 1, "Prime", [1, 3], "06T20:30", "06T20:36"),
        (1, 1, "Coats", [1, 1], "06T20:52", "06T21:00"),
        (1, 1, "Coats", [2, 3], "08T19:00", "08T19:16"),
        (1, 2, "Coats", [4, 5], "08T19:16", "08T19:32"),
        (1, 1, "Coats", [1, 1], "08T19:32", "08T19:40"),
        (1, 1, "Coats", [2, 3], "13T20:00", "13T20:16"),
        (1, 2, "Coats", [4, 5], "13T20:16", "13T20:32"),
    ]
    assert (found["finish"], found["deadline"]) == ("2026-04-13T20:47:00", "2026-04-08")
    assert (found["slack_days"], found["short_hours"]) == (-5, round(32 / 60, 4))
    assert (found["changes"], found["change_min"]) == (1, 2)


def test_paint_is_summed_over_the_units_before_pots_are_counted(regatta: Path) -> None:
    """10 ml for each of 8 figures in pots of 17 ml, none owned; 1.2 ml for 5 figures in two coats, one pot owned."""
    found = data(plan.command, regatta, "regatta")
    assert found["shopping"] == [
        {"name": "Ropewalk", "range": "Reedbank Acrylics", "ml": 80, "pots": 5, "cost": None},
        {"name": "Oilskin Ochre", "range": "Reedbank Acrylics", "ml": 12, "pots": 0, "cost": None},
    ]


def test_in_words_a_late_plan_is_no_error(regatta: Path) -> None:
    result = run(plan.command, regatta, "regatta")
    assert result.exit_code == 0
    assert result.stderr == ""
    assert result.stdout.startswith("Regatta\n\nMonday, 6 April 2026, 20:00 to 21:00\n  20:10   Prime")
    assert "Too late by " in result.stdout
    assert "Ferry watch in wet oilskins" in result.stdout
    assert "Reedbank Acrylics / Ropewalk   5 pots" in result.stdout


@pytest.mark.parametrize("name", ["plans/regatta.yaml", "Regatta", "regatta.yaml"])
def test_a_plan_is_found_by_its_file(regatta: Path, name: str) -> None:
    assert data(plan.command, regatta, name)["title"] == "Regatta"


def test_a_plan_that_is_not_there_ends_with_one(regatta: Path) -> None:
    result = run(plan.command, regatta, "regata")
    assert result.exit_code == 1
    assert result.stdout == ""
    assert "There is no plan “regata”." in result.stderr
    assert "Write regatta, if that is meant." in result.stderr
    (regatta / "plans" / "regatta.yaml").unlink()
    assert "guidegen start plans/NAME" in run(plan.command, regatta, "regatta").stderr


def test_names_with_control_characters_do_no_harm(regatta: Path) -> None:
    file = regatta / "plans" / "regatta.yaml"
    file.write_text(PLAN.replace("title: Regatta", 'title: "Re\\e[2Jgatta"'), encoding="utf-8")
    assert "\x1b" not in run(plan.command, regatta, "regatta").stdout


@pytest.mark.parametrize(
    ("file", "old", "new", "told"),
    [
        (
            "plans/regatta.yaml",
            "guide: ferry-watch, figures: 5",
            "guide: ferry-wach, figures: 5",
            "unknown-guide",
        ),
        ("plans/regatta.yaml", "to: Fit to look at", "to: Fit to boast of", "unknown-stop"),
        ("plans/regatta.yaml", "start: 2026-04-06", "start: 2026-04-31", "bad-date"),
        ("plans/regatta.yaml", 'mon: "20:10-20:40"', 'mon: "20:10-20:21"', "step-longer-than-any-sitting"),
        ("guides/ferry-watch.md", "paint: Ropewalk", "paint: Ropewak", "unknown-paint"),
        ("palette.yaml", "kind: wash", "kind: wish", "bad-value"),
    ],
)
def test_a_mistake_that_concerns_the_plan_is_told(
    regatta: Path, file: str, old: str, new: str, told: str
) -> None:
    text = (regatta / file).read_text(encoding="utf-8")
    assert old in text
    (regatta / file).write_text(text.replace(old, new), encoding="utf-8")
    result = run(plan.command, regatta, "regatta", "--json")
    assert result.exit_code == 1
    assert result.stdout == ""
    assert told in result.stderr


def test_mistakes_elsewhere_are_no_matter(regatta: Path) -> None:
    (regatta / "guides" / "patience.md").write_text("---\ntitle: [\n---\n", encoding="utf-8")
    (regatta / "plans" / "night.yaml").write_text("title: Night\n", encoding="utf-8")
    (regatta / "shared").mkdir()
    (regatta / "shared" / "jetty.yaml").write_text("steps: nothing\n", encoding="utf-8")
    result = run(plan.command, regatta, "regatta", "--json")
    assert result.exit_code == 0
    assert result.stderr == ""


def test_a_mistake_in_an_inserted_list_concerns_the_plan(regatta: Path) -> None:
    guide = regatta / "guides" / "ferry-watch.md"
    guide.write_text(GUIDE.replace("  - stop: Fit", "  - insert: jetty\n  - stop: Fit"), encoding="utf-8")
    (regatta / "shared").mkdir()
    (regatta / "shared" / "jetty.yaml").write_text(
        "steps:\n  - {step: Boards, paint: Jetty Plonk, each: 1 min}\n", encoding="utf-8"
    )
    result = run(plan.command, regatta, "regatta")
    assert result.exit_code == 1
    assert "Jetty Plonk" in result.stderr


def test_a_guide_can_be_named_by_its_title(regatta: Path) -> None:
    before = data(plan.command, regatta, "regatta")
    file = regatta / "plans" / "regatta.yaml"
    text = file.read_text(encoding="utf-8")
    file.write_text(
        text.replace("guide: ferry-watch", "guide: ferry watch in WET oilskins"), encoding="utf-8"
    )
    assert data(plan.command, regatta, "regatta") == before


def test_a_title_of_two_guides_names_neither(regatta: Path) -> None:
    (regatta / "guides" / "other.md").write_text(GUIDE, encoding="utf-8")
    file = regatta / "plans" / "regatta.yaml"
    text = file.read_text(encoding="utf-8")
    file.write_text(
        text.replace("guide: ferry-watch", "guide: Ferry watch in wet oilskins"), encoding="utf-8"
    )
    result = run(plan.command, regatta, "regatta")
    assert result.exit_code == 1
    assert "unknown-guide" in result.stderr


def test_within_the_content_folder_it_need_not_be_named(
    regatta: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from click.testing import CliRunner

    monkeypatch.chdir(regatta)
    result = CliRunner().invoke(plan.command, ["regatta"])
    assert result.exit_code == 0, result.output
