"""What steps leave out: their own values win over the guide's defaults, those over the site's."""

from __future__ import annotations

from pathlib import Path

from support.content_folders import lay_out

from guidegen.base.diagnostic import Diagnostic
from guidegen.building.check import check
from guidegen.model.guide import Dry, Step
from guidegen.model.site import Archive
from guidegen.reading.content.archive import read_archive

MIN = 60_000

PALETTE = """» palette.yaml
paints:
  - {name: Wharf Grey, kind: undercoat, colour: 71777a}
  - {name: Mustard Sail, colour: bd8f35}
  - {name: Wet Plank, colour: 5e4c3b}
  - {name: Gull, colour: e6e4dc}
  - {name: Old Rope, colour: b49a6c}
  - {name: Tar, colour: 2b2724}
  - {name: Brass Lamp, kind: metallic, colour: a8863f}
  - {name: Cheek, colour: d8a184}
  - {name: Ditchwater, kind: wash, colour: 40341f}
  - {name: Dry Matt, kind: varnish, finish: matt}
"""

SITE = """» site.yaml
defaults: {technique: layer, dry: 15 min, brush: size 2, thin: 2:1 water, holds: area}
"""


def content(tmp_path: Path, text: str) -> Path:
    lay_out(tmp_path, PALETTE)
    return lay_out(tmp_path, text)


def steps(archive: Archive) -> tuple[Step, ...]:
    (guide,) = archive.guides
    return guide.steps


def told(folder: Path) -> list[Diagnostic]:
    return list(check(folder).diagnostics)


def places(diagnostics: list[Diagnostic]) -> list[str]:
    return [f"{one.span.file}:{one.span.line} {one.code}" for one in diagnostics]


def test_the_nearest_wins(tmp_path: Path):
    guide = """» guides/a.md
---
title: A
defaults: {technique: base coat, dry: {air: 5 min, warm: 1 min}, figures: 4, scale: 1:35, base: 40 mm}
steps:
- {step: One, paint: Gull, each: 1 min}
- {step: Two, paint: Gull, each: 1 min, technique: wash, dry: none, holds: figure, brush: none, thin: 1:1 water}
---
"""
    archive, diagnostics = read_archive(content(tmp_path, SITE + guide))
    assert not diagnostics
    one, two = steps(archive)
    assert (one.technique, one.dry, one.brush, one.holds_area) == (
        "base coat",
        Dry(air=5 * MIN, warm=MIN),
        "size 2",
        True,
    )
    assert one.thin is not None
    assert one.thin.text == "2:1 water"
    assert (two.technique, two.dry, two.brush, two.holds_area) == ("wash", Dry(), "", False)
    assert two.thin is not None
    assert two.thin.text == "1:1 water"
    assert (archive.guides[0].figures, archive.guides[0].scale.text, archive.guides[0].base) == (
        4,
        "1:35",
        40.0,
    )


def test_the_guides_own_keys_win_over_its_defaults(tmp_path: Path):
    guide = "» guides/a.md\n---\ntitle: A\nfigures: 7\ndefaults: {figures: 4}\nsteps:\n- {step: One, paint: Gull}\n---\n"
    archive, _ = read_archive(content(tmp_path, guide))
    assert archive.guides[0].figures == 7


def test_inserted_steps_take_the_guides(tmp_path: Path):
    guide = "» guides/a.md\n---\ntitle: A\ndefaults: {technique: wash}\nsteps:\n- insert: base\n---\n"
    shared = "» shared/base.yaml\nsteps:\n- {step: Boards, paint: Gull, each: 1 min}\n"
    archive, diagnostics = read_archive(content(tmp_path, SITE + guide + shared))
    assert not diagnostics
    assert [(step.technique, step.brush) for step in steps(archive)] == [("wash", "size 2")]
    (entry,) = archive.shared[0].entries
    assert isinstance(entry, Step)
    assert entry.technique == "layer"


def test_where_no_paint_is_used_nothing_is_laid(tmp_path: Path):
    guide = "» guides/a.md\n---\ntitle: A\nsteps:\n- {step: Puddles, paint: none, each: 1 min}\n---\n"
    archive, _ = read_archive(content(tmp_path, SITE + guide))
    (step,) = steps(archive)
    assert (step.technique, step.brush, step.thin, step.dry) == ("", "", None, Dry(air=15 * MIN))


def test_mistakes_are_told_where_the_default_stands(tmp_path: Path):
    guide = """» guides/a.md
---
title: A
defaults:
  technique: glazee
  dry: 1:30
  coats: 2
  range: Reedbank
steps:
- {step: One, area: coat, paint: Ditchwater, each: 1 min}
- {step: Two, area: coat, paint: Gull, each: 1 min}
---
"""
    diagnostics = told(content(tmp_path, "» site.yaml\ndefaults: {holds: everything}\n" + guide))
    assert places(diagnostics) == [
        "guides/a.md:5 bad-duration",
        "guides/a.md:6 unknown-key",
        "guides/a.md:7 unknown-key",
        "site.yaml:1 bad-value",
        "guides/a.md:4 unknown-technique",
    ]
    assert diagnostics[-1].message.startswith("The defaults name the technique “glazee”")
    assert diagnostics[-1].help.startswith("Write ")


def test_advice_is_given_where_the_default_stands(tmp_path: Path):
    guide = "» guides/a.md\n---\ntitle: A\nsteps:\n- {step: Shade, technique: wash, paint: Ditchwater, each: 1 min}\n---\n"
    diagnostics = told(content(tmp_path, SITE + guide))
    assert places(diagnostics) == ["site.yaml:1 wash-dried-short"]


def test_a_default_that_moves_within_its_file_is_told_in_its_new_place(tmp_path: Path):
    from guidegen.reading.content.memory import ReadingMemory

    guide = "» guides/a.md\n---\ntitle: A\nsteps:\n- {step: One, paint: Gull, each: 1 min}\n---\n"
    folder = content(tmp_path, SITE + guide)
    memory = ReadingMemory()
    read_archive(folder, memory)
    site = folder / "site.yaml"
    site.write_text("# moved down\n\n" + site.read_text(encoding="utf-8"), encoding="utf-8")
    archive, _ = read_archive(folder, memory)
    assert steps(archive)[0].places["technique"].line == 3


TWENTY_STEPS = """» guides/watch.md
---
title: Deich watch in twelve evenings’ worth of steps
figures: 10
base: 25 mm
defaults: {technique: base coat, dry: 10-15 min, holds: area, brush: size 2, thin: 2:1 water}
steps:
  - {step: Prime, technique: spray, paint: Wharf Grey, once: a quarter of an hour, each: 20 s, dry: an hour, holds: figure, thin: none, rest: yes}
  - {step: Coat, area: coat, paint: Mustard Sail, each: 4-5 min, coats: 2}
  - {step: Boots, area: boots, paint: Wet Plank, each: 2 min}
  - {step: Trousers, area: trousers, paint: Wet Plank 2:1 Tar, each: 3 min}
  - {step: Face, area: face, paint: Cheek, each: two minutes}
  - {step: Hands, area: hands, paint: Cheek, each: about 1 min}
  - {step: Hair, area: hair, paint: Wet Plank, each: 1 min}
  - {step: Staff, area: staff, paint: Wet Plank + Old Rope, each: 1 min}
  - {step: Rope, area: rope, paint: Old Rope, each: 40 s}
  - {step: Shade, technique: wash, area: all, paint: Ditchwater, each: 70 s, dry: half an hour, holds: figure, thin: none}
  - stop: Fit to field
  - {step: Coat again, technique: layer, area: coat, paint: Mustard Sail, each: 3 min}
  - {step: Edges, technique: highlight, area: coat, paint: 2 parts Mustard Sail and 1 part Gull, each: 3 min}
  - {step: Trouser folds, technique: highlight, area: trousers, paint: Wet Plank + a touch of Gull, each: 2 min}
  - {step: Cheeks, technique: highlight, area: face, paint: Cheek 3:1 Gull, each: 2 min}
  - {step: Rope ends, technique: dry brush, area: rope, paint: Gull, each: 30 s, brush: worn flat, thin: none}
  - {step: Boards, area: base, paint: Old Rope, each: 1 min, brush: worn flat}
  - {step: Rim, area: rim, paint: Tar, each: 1 min}
  - {step: Puddles, paint: none, materials: [gloss gel], each: 1 min, dry: overnight}
  - {step: Seal, technique: brush varnish, paint: Dry Matt, each: 1 min, dry: 1h30, holds: figure, thin: none}
  - {step: Buckles, area: buckles, paint: Brass Lamp, each: 1 min, thin: none}
---
"""


def test_twenty_steps_take_few_lines(tmp_path: Path):
    folder = content(tmp_path, TWENTY_STEPS)
    assert [one.code for one in told(folder)] == ["card-would-help"]
    (guide,) = read_archive(folder)[0].guides
    assert len(guide.steps) == 20
    assert len(TWENTY_STEPS.splitlines()) <= 60
    prime, coat, _, trousers, *_ = guide.steps
    assert (prime.once, prime.dry.air, prime.thin) == (15 * MIN, 60 * MIN, None)
    assert (coat.each, coat.dry.air, coat.technique) == (4.5 * MIN, 15 * MIN, "base coat")
    assert trousers.paint is not None
    assert [(part.name.text, part.amount) for part in trousers.paint.parts] == [("Wet Plank", 2), ("Tar", 1)]
