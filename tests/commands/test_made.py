"""`guidegen made`: a batch goes into the guide's file and nowhere else, and the page tells what has changed since."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.content_folders import lay_out
from support.small_palette import run

from guidegen.building.check import check
from guidegen.commands import made
from guidegen.model.guide import Guide
from guidegen.reading.editing.batches import with_batch
from guidegen.rendering.guide.changed_since import changed_since
from guidegen.words.language import language_of

GUIDE = """\
» guides/eels/guide.md
---
title: Eels
steps:
  - {step: Coat, paint: {Oilskin Ochre: 2, Ropewalk: 1}, each: 4 min}
---
Words.
"""


@pytest.fixture
def eels(content: Path) -> Path:
    lay_out(content, GUIDE)
    return content


def guide_in(content: Path) -> Guide:
    found = check(content).archive.guide("eels")
    assert found is not None
    return found


def test_a_batch_is_added_behind_the_others(eels: Path):
    before = (eels / "guides" / "eels" / "guide.md").read_text(encoding="utf-8")
    for figures, day in (("10", "2026-05-01"), ("4", "2026-05-02")):
        result = run(made.command, eels, "eels", "--figures", figures, "--by", "Odda", "--date", day)
        assert result.exit_code == 0, result.output
    after = (eels / "guides" / "eels" / "guide.md").read_text(encoding="utf-8")
    kept = [line for line in after.splitlines() if not line.startswith(("made:", "  - {date"))]
    assert kept == before.splitlines()
    first, second = guide_in(eels).made
    assert (first.figures, first.by, second.figures) == (10, "Odda", 4)
    assert [(one.paint, one.edition, one.colour) for one in first.used] == [
        ("Reedbank Acrylics / Oilskin Ochre", "", "#b8862f"),
        ("Reedbank Acrylics / Ropewalk", "", "#b09a72"),
    ]
    assert changed_since(first, check(eels).archive.palette, language_of("en")) == ()


@pytest.mark.parametrize(
    ("made_so_far", "expected"),
    [
        ("made: [{date: 2026-01-01, figures: 1}]", "made: [{date: 2026-01-01, figures: 1}, {NEW}]"),
        ("made: []", "made: [{NEW}]"),
        ("made: [{date: 2026-01-01, figures: 1},]", "made: [{date: 2026-01-01, figures: 1}, {NEW}]"),
        (
            "made: [\n  {date: 2026-01-01, figures: 1}, # so, far\n]",
            "made: [\n  {date: 2026-01-01, figures: 1}, # so, far\n{NEW}]",
        ),
        (
            "made: [\n  {date: 2026-01-01, figures: 1} # so, far\n]",
            "made: [\n  {date: 2026-01-01, figures: 1} # so, far\n, {NEW}]",
        ),
        (
            "made:\n- {date: 2026-01-01, figures: 1} # so",
            "made:\n- {date: 2026-01-01, figures: 1} # so\n- {NEW}",
        ),
        (
            "made:\n    - date: 2026-01-01\n      figures: 1",
            "made:\n    - date: 2026-01-01\n      figures: 1\n    - {NEW}",
        ),
    ],
)
def test_no_other_byte_changes(made_so_far: str, expected: str):
    for end in ("\n", "\r\n"):
        before = f"\ufeff---\ntitle: Eels\n{made_so_far}\nsteps: []\n---\nWords.".replace("\n", end)
        after = with_batch("guides/x.md", before.encode(), "{NEW}")
        assert after is not None
        assert after.decode() == f"\ufeff---\ntitle: Eels\n{expected}\nsteps: []\n---\nWords.".replace(
            "\n", end
        )
    assert with_batch("guides/x.md", b"---\nmade: ten\n---\n", "{NEW}") is None


@pytest.mark.parametrize("comma", ["", ","])
def test_a_guide_in_braces_gets_the_key(comma: str):
    after = with_batch("guides/x.md", f"---\n{{title: Eels, steps: []{comma}}}\n---\n".encode(), "{NEW}")
    assert after == b"---\n{title: Eels, steps: [], made: [{NEW}]}\n---\n"


def test_what_has_changed_since_is_told(eels: Path):
    assert run(made.command, eels, "eels", "--figures", "10", "--date", "2026-05-01").exit_code == 0
    palette = eels / "palette.yaml"
    text = palette.read_text(encoding="utf-8")
    text = text.replace('code: RB-05, colour: "#b8862f"', 'edition: new lids, colour: "#a87a28"')
    palette.write_text(text.replace("name: Ropewalk, range", "name: Rope, range"), encoding="utf-8")
    batch, now = guide_in(eels).made[0], check(eels).archive.palette
    assert changed_since(batch, now, language_of("en")) == (
        "Reedbank Acrylics / Oilskin Ochre is another edition today, 4.6 darker, duller",
        "Reedbank Acrylics / Ropewalk has left the palette",
    )
    assert "heute eine andere Ausgabe, 4,6 dunkler" in changed_since(batch, now, language_of("de"))[0]


def test_what_cannot_be_done_is_said(eels: Path):
    before = (eels / "guides" / "eels" / "guide.md").read_bytes()
    assert run(made.command, eels, "eel", "--figures", "1").exit_code == 1
    assert run(made.command, eels, "eels", "--figures", "0").exit_code == 2
    assert (eels / "guides" / "eels" / "guide.md").read_bytes() == before
