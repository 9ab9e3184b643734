"""A slip alone in a good folder is told once, at its place, and doing what its help says leaves nothing to mend."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import pytest
from support.content_folders import lay_out

from guidegen.building.check import check
from guidegen.commands.fixes import apply_fixes

GUIDE, PLAN = "guides/lock.md", "plans/spring.yaml"

FOLDER = """\
» site.yaml
title: Sluice Street
meant: [card-would-help]
defaults: {scale: 1:56, base: 25 mm}
» palette.yaml
paints:
  - {name: Silt Undercoat, kind: primer, colour: 6a6a66}
  - {name: Duckweed, colour: 6c8a3a}
  - {name: Reed Light, colour: c9cf9a}
  - {name: Pale Cheek, colour: e0b090}
» guides/lock.md
---
title: Lock keepers
figures: 6
steps:
  - step: Undercoat
    technique: spray
    paint: Silt Undercoat
    each: 20 s
    dry: 30 min
  - step: Coats
    area: coat
    paint: Duckweed
    each: 4 min
    dry: 15 min
  - step: Faces
    area: face
    paint: Pale Cheek
    each: 2 min
---
Words before.
» plans/spring.yaml
title: Before the spring tide
start: 2026-05-04
sittings: {mon-fri: "20:00-22:00"}
units:
  - {guide: lock, figures: 6}
"""


class Slip(NamedTuple):
    """What is written in place of what, the one message that comes, and what its help makes of it."""

    file: str
    right: str
    wrong: str
    code: str
    line: int
    help: str
    mended: str = ""


EACH = "    each: 4 min\n    dry: 15 min\n"
SLIPS = {
    "a dash before one key": Slip(
        GUIDE, EACH, "    - each: 4 min\n    dry: 15 min\n", "bad-yaml", 13, "Write each: 4 min."
    ),
    "a dash before the last key": Slip(
        GUIDE, EACH, "    each: 4 min\n    - dry: 15 min\n", "bad-yaml", 14, "Write dry: 15 min."
    ),
    "a dash before the second key": Slip(
        GUIDE,
        "  - step: Coats\n    area: coat\n",
        "  - step: Coats\n    - area: coat\n",
        "bad-yaml",
        11,
        "Write area: coat.",
    ),
    "a dash in the column of the steps": Slip(
        GUIDE,
        EACH,
        "    each: 4 min\n  - dry: 15 min\n",
        "bad-yaml",
        14,
        "Put two spaces in its place: dry: 15 min.",
    ),
    "no colon": Slip(GUIDE, EACH, "    each 4 min\n    dry: 15 min\n", "bad-yaml", 13, "Write each: 4 min."),
    "an equals sign": Slip(
        GUIDE, EACH, "    each = 4 min\n    dry: 15 min\n", "bad-yaml", 13, "Write each: 4 min."
    ),
    "a semicolon for the colon": Slip(
        GUIDE, EACH, "    each; 4 min\n    dry: 15 min\n", "bad-yaml", 13, "Write each: 4 min."
    ),
    "two keys on a line": Slip(
        GUIDE,
        EACH,
        "    each: 4 min, dry: 15 min\n",
        "bad-yaml",
        13,
        "Begin a new line before dry:, and leave the , out.",
    ),
    "no colon in braces": Slip(
        GUIDE,
        EACH,
        EACH + "  - {step: Boots, paint: Duckweed, area: boots, each 1 min}\n",
        "unknown-key",
        15,
        "Write each: 1 min.",
        EACH + "  - {step: Boots, paint: Duckweed, area: boots, each: 1 min}\n",
    ),
    "a semicolon in braces": Slip(
        GUIDE,
        EACH,
        EACH + "  - {step: Boots, area: boots, paint: Duckweed; each: 1 min}\n",
        "bad-yaml",
        15,
        "Write a comma instead of the ; before each:.",
        EACH + "  - {step: Boots, area: boots, paint: Duckweed, each: 1 min}\n",
    ),
    "a title alone": Slip(
        GUIDE, "  - step: Faces\n", "  - Faces:\n", "missing-key", 15, "Write step: Faces."
    ),
    "some of another": Slip(
        GUIDE,
        "    paint: Duckweed\n",
        "    paint: Duckweed and some Reed Light\n",
        "unknown-paint",
        12,
        "Write {Duckweed: 1, Reed Light: a touch}.",
        "    paint: {Duckweed: 1, Reed Light: a touch}\n",
    ),
    "an empty paint": Slip(
        GUIDE,
        "    paint: Duckweed\n",
        "    paint:\n",
        "no-paint",
        12,
        "Write a name after paint:, or none where no paint is used.",
    ),
    "step for steps": Slip(GUIDE, "steps:\n", "step:\n", "unknown-key", 4, "Write steps."),
    "figure for figures": Slip(
        GUIDE, "figures: 6\n", "figure: 6\n", "bad-chart", 3, "Write figures: 6 for how many there are."
    ),
    "a closing line of two dashes": Slip(
        GUIDE, "---\nWords before.", "--\nWords before.", "bad-yaml", 19, "Write --- here."
    ),
    "until dry": Slip(
        GUIDE,
        EACH,
        "    each: 4 min\n    dry: until dry\n",
        "bad-duration",
        14,
        "Write how long that takes, as in 30 min, or overnight.",
        "    each: 4 min\n    dry: 30 min\n",
    ),
    "bis trocken": Slip(
        GUIDE,
        EACH,
        "    each: 4 min\n    dry: bis es trocken ist\n",
        "bad-duration",
        14,
        "Write how long that takes, as in 30 min, or overnight.",
        "    each: 4 min\n    dry: overnight\n",
    ),
    "the sign of minutes": Slip(
        GUIDE,
        EACH,
        "    each: 4'\n    dry: 15 min\n",
        "bad-duration",
        13,
        "Write 4 min.",
    ),
    "a day in German": Slip(
        PLAN,
        '{mon-fri: "20:00-22:00"}',
        '{mon-fri: "20:00-22:00", samstag: "10:00-12:00"}',
        "bad-value",
        3,
        "Write sat.",
        '{mon-fri: "20:00-22:00", sat: "10:00-12:00"}',
    ),
    "days in German": Slip(PLAN, "{mon-fri: ", "{mo-fr: ", "bad-value", 3, "Write mon-fri."),
    "a unit's guide in German": Slip(
        PLAN,
        "{guide: lock, figures: 6}",
        "{anleitung: lock, figures: 6}",
        "unknown-key",
        5,
        "Write guide (the guide, by its folder's or file's name, or by its title).",
    ),
    "pieces": Slip(GUIDE, "figures: 6\n", "figures: 6 Stück\n", "bad-value", 3, "Write 6."),
    "a unit without a guide": Slip(
        PLAN,
        "{guide: lock, figures: 6}",
        "{figures: 6}",
        "missing-key",
        5,
        "Add guide: and the guide, by its folder's or file's name, or by its title.",
        "{guide: lock, figures: 6}",
    ),
}


@pytest.mark.parametrize("slip", SLIPS.values(), ids=SLIPS)
def test_a_slip_is_told_once_and_its_help_mends_it(slip: Slip, tmp_path: Path):
    content = lay_out(tmp_path / "content", FOLDER)
    file = content / slip.file
    right = file.read_text(encoding="utf-8")
    assert right.count(slip.right) == 1
    file.write_text(right.replace(slip.right, slip.wrong), encoding="utf-8")
    told = check(content).diagnostics
    assert [(one.code, one.span.line, one.help) for one in told] == [(slip.code, slip.line, slip.help)]
    file.write_text(right.replace(slip.right, slip.mended or slip.right), encoding="utf-8")
    assert check(content).diagnostics == ()


READ = {
    "an hour or two": "    each: 4 min\n    dry: an hour or two\n",
    "a day or two": "    each: 4 min\n    dry: a day or two\n",
    "one or two hours": "    each: 4 min\n    dry: one or two hours\n",
    "ein oder zwei Stunden": "    each: 4 min\n    dry: ein oder zwei Stunden\n",
    "eine Stunde oder zwei": "    each: 4 min\n    dry: eine Stunde oder zwei\n",
}


@pytest.mark.parametrize("written", READ.values(), ids=READ)
def test_what_can_mean_one_thing_only_is_read(written: str, tmp_path: Path):
    content = lay_out(tmp_path / "content", FOLDER)
    file = content / GUIDE
    file.write_text(file.read_text(encoding="utf-8").replace(EACH, written), encoding="utf-8")
    assert check(content).diagnostics == ()


DASHES = ("a dash before one key", "a dash before the last key", "a dash before the second key")


@pytest.mark.parametrize("slip", [SLIPS[name] for name in DASHES], ids=DASHES)
def test_a_stray_dash_is_mended(slip: Slip, tmp_path: Path):
    content = lay_out(tmp_path / "content", FOLDER)
    file = content / slip.file
    right = file.read_text(encoding="utf-8")
    file.write_text(right.replace(slip.right, slip.wrong), encoding="utf-8")
    assert apply_fixes(content).checked.diagnostics == ()
    assert file.read_text(encoding="utf-8") == right


def test_a_list_of_the_author_s_own_keeps_its_dashes(tmp_path: Path):
    """A step that lacks its title repeats keys of the step above, and is no key of that."""
    content = lay_out(tmp_path / "content", FOLDER)
    file = content / GUIDE
    text = file.read_text(encoding="utf-8").replace("  - step: Faces\n    area: face\n", "  - area: face\n")
    file.write_text(text, encoding="utf-8")
    assert [one.code for one in check(content).diagnostics] == ["missing-key"]
    apply_fixes(content)
    assert file.read_text(encoding="utf-8") == text
