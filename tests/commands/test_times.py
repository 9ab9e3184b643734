"""`times` from outside: what it prints and its data."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.small_palette import data, run

from guidegen.commands import times

GUIDE = """\
---
title: Ferry watch
made:
  - {date: 2026-03-14, figures: 10, minutes: {Coats: 50}}
  - {date: 2026-04-14, figures: 20, minutes: {coats: 1 h 30 min}}
steps:
  - {step: Coats, paint: Ropewalk, once: 2 min, each: 3 min}
  - {step: Hoods, paint: Ropewalk, each: 1 min}
---
"""


@pytest.fixture
def watch(content: Path) -> Path:
    (content / "guides").mkdir()
    (content / "guides" / "ferry-watch.md").write_text(GUIDE, encoding="utf-8")
    return content


def test_the_data_by_hand(watch: Path):
    """50 and 90 minutes for 10 and 20 figures: 10 once and 4 each."""
    assert data(times.command, watch, "Ferry watch") == {
        "steps": [
            {
                "step": "Coats",
                "once_min": 2,
                "each_min": 3,
                "measured_once_min": 10,
                "measured_each_min": 4,
                "sessions": 2,
            },
            {
                "step": "Hoods",
                "once_min": 0,
                "each_min": 1,
                "measured_once_min": None,
                "measured_each_min": None,
                "sessions": 0,
            },
        ]
    }


def test_in_words(watch: Path):
    result = run(times.command, watch, "ferry-watch")
    assert result.exit_code == 0
    lines = [line.split("   ") for line in result.stdout.splitlines()]
    assert [cell.strip() for cell in lines[1] if cell.strip()] == [
        "Coats",
        "once 2 min, each 3 min",
        "once 10 min, each 4 min",
        "2",
    ]
    assert "not timed yet" in result.stdout


def test_a_guide_that_is_not_there_ends_with_one(watch: Path):
    result = run(times.command, watch, "fery-watch")
    assert result.exit_code == 1
    assert "There is no guide “fery-watch”." in result.stderr


def test_minutes_of_a_step_that_is_not_there_are_told(watch: Path):
    file = watch / "guides" / "ferry-watch.md"
    file.write_text(GUIDE.replace("{Coats: 50}", "{Goats: 50}"), encoding="utf-8")
    result = run(times.command, watch, "ferry-watch")
    assert result.exit_code == 1
    assert "unknown-step" in result.stderr


def written(content: Path) -> bytes:
    return (content / "guides" / "ferry-watch.md").read_bytes()


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_writing_keeps_every_other_byte(watch: Path, end: str):
    file = watch / "guides" / "ferry-watch.md"
    rest = "  - {step: Hoods, paint: Ropewalk, each: 1 min}   # not timed\n---\n\n## Coats\n\neach: 3 min\n"
    before = ("\ufeff" + GUIDE.partition("  - {step: Hoods")[0] + rest).replace("\n", end).encode()
    file.write_bytes(before)
    result = run(times.command, watch, "ferry-watch", "--write")
    assert result.exit_code == 0, result.stderr
    assert result.stdout == "Written:\n  Coats: once 2 min, each 3 min → once 10 min, each 4 min\n"
    assert written(watch) == before.replace(b"once: 2 min, each: 3 min", b"once: 10 min, each: 4 min")
    again = run(times.command, watch, "ferry-watch", "--write")
    assert again.stdout == "Nothing to write.\n"


BLOCK = """\
---
title: Ferry watch
made:
- date: 2026-03-14
  figures: 10
  minutes: {Coats: 50, Hoods: 20, Boots: 30, Lamps: 60}
- date: 2026-04-14
  figures: 20
  minutes: {Coats: 90, Hoods: 40, Boots: 60, Lamps: 40}
steps:
- step: Coats   # in the wet
  paint: Ropewalk
  each: "3 min"   # a guess
- step: Hoods
  paint: Ropewalk
  once: 5 min   # the whole batch
- step: Boots   # both
  paint: Ropewalk
- {step: Lamps, paint: Ropewalk, each: 1 min}
---
"""


def test_times_that_were_not_written_come_in_beside_the_others(watch: Path):
    """Lamps took less the more there were, so that nothing for each is measured, and stay."""
    file = watch / "guides" / "ferry-watch.md"
    file.write_text(BLOCK, encoding="utf-8")
    result = run(times.command, watch, "ferry-watch", "--write")
    assert result.exit_code == 0, result.stderr
    assert file.read_text(encoding="utf-8") == BLOCK.replace(
        '  each: "3 min"', "  once: 10 min\n  each: 4 min"
    ).replace("5 min   # the whole batch", "0 min   # the whole batch\n  each: 2 min").replace(
        "# both\n", "# both\n  each: 3 min\n"
    )
    assert "“Lamps” stays as it is: by its minutes a figure takes no time." in result.stdout


def test_nothing_timed_is_nothing_to_write(watch: Path):
    file = watch / "guides" / "ferry-watch.md"
    before = GUIDE.replace(", minutes: {Coats: 50}", "").replace(", minutes: {coats: 1 h 30 min}", "")
    file.write_text(before, encoding="utf-8")
    result = run(times.command, watch, "ferry-watch", "--write")
    assert result.stdout == "Nothing to write: no batch under made: says how long a step took.\n"
    assert file.read_text(encoding="utf-8") == before


def test_steps_of_a_shared_list_stay(watch: Path):
    (watch / "shared").mkdir()
    (watch / "shared" / "coats.yaml").write_text(
        "steps:\n  - {step: Coats, paint: Ropewalk, each: 3 min}\n", encoding="utf-8"
    )
    file = watch / "guides" / "ferry-watch.md"
    before = GUIDE.replace("{step: Coats, paint: Ropewalk, once: 2 min, each: 3 min}", "insert: coats")
    file.write_text(before, encoding="utf-8")
    result = run(times.command, watch, "ferry-watch", "--write")
    assert result.exit_code == 0, result.stderr
    assert "“Coats” comes from the shared list “coats” and stays as it is" in result.stdout
    assert file.read_text(encoding="utf-8") == before


def test_a_guide_that_is_a_link_is_left_alone(watch: Path, tmp_path_factory: pytest.TempPathFactory):
    file, elsewhere = watch / "guides" / "ferry-watch.md", tmp_path_factory.mktemp("else") / "watch.md"
    file.rename(elsewhere)
    file.hardlink_to(elsewhere)
    result = run(times.command, watch, "ferry-watch", "--write")
    assert result.exit_code == 1
    assert "by hand" in result.stderr
    assert elsewhere.read_text(encoding="utf-8") == GUIDE


def test_the_data_has_four_places(watch: Path):
    """50 minutes for 7 figures, 2 of them once: 6.857142… each."""
    file = watch / "guides" / "ferry-watch.md"
    text = file.read_text(encoding="utf-8").replace("figures: 10", "figures: 7")
    file.write_text(
        "\n".join(line for line in text.split("\n") if "2026-04-14" not in line), encoding="utf-8"
    )
    (coats, _) = data(times.command, watch, "Ferry watch")["steps"]
    assert (coats["measured_once_min"], coats["measured_each_min"]) == (2, 6.8571)
