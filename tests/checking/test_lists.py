"""A shared list that no guide inserts is checked all the same, and told once."""

from __future__ import annotations

from pathlib import Path

import pytest

from guidegen.building.check import check

PALETTE = 'paints:\n  - {name: Jetty Plank, colour: "#7b6650"}\n'
LIST = "steps:\n  - {step: Boards, technique: base coat, area: base, paint: Jetty Plonk, each: 1 min}\n"
GUIDE = "---\ntitle: Lamp boys\nsteps:\n  - insert: boards\n---\n"


@pytest.mark.parametrize("inserted", [False, True])
def test_a_wrong_paint_in_a_list_is_told_once(tmp_path: Path, inserted: bool):
    for folder in ("shared", "guides"):
        (tmp_path / folder).mkdir()
    (tmp_path / "palette.yaml").write_text(PALETTE, encoding="utf-8")
    (tmp_path / "shared" / "boards.yaml").write_text(LIST, encoding="utf-8")
    if inserted:
        (tmp_path / "guides" / "lamp-boys.md").write_text(GUIDE, encoding="utf-8")
    told = check(tmp_path).diagnostics
    assert [(d.code, d.span.file, d.span.line) for d in told] == [("unknown-paint", "shared/boards.yaml", 2)]
