"""A draft is checked, but what is wrong with it stops neither the site nor `check`."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner
from support.content_folders import lay_out

from guidegen.base.codes import Severity
from guidegen.building.build import Order, build
from guidegen.building.check import check, check_with_photos
from guidegen.commands.send import command as send

CONTENT = """
» palette.yaml
paints: [{name: Oilskin Ochre, colour: b8862f}]
» guides/eel-seller.md
---
title: Eel seller
steps: [{step: Apron, area: apron, paint: Oilskin Ochre, each: 4 min}]
---
» guides/draft.md
---
title: Not yet
draft: yes
"""

FAULTS = {
    "no steps": "---\n",
    "no paint": "steps: [{step: Apron, area: apron, each: 1 min}]\n---\n",
    "another paint": "steps: [{step: Apron, area: apron, paint: Ebb, each: 1 min}]\n---\n",
    "no photo": "steps: [{step: Apron, area: a, paint: none, each: 1, photo: {file: a.jpg, alt: A}}]\n---\n",
    "a tab": "steps:\n\t- {step: Apron, area: apron, paint: none, each: 1 min}\n---\n",
    "a bracket": "tags: [a\nsteps: [{step: Apron, area: apron, paint: none, each: 1 min}]\n---\n",
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_faulty_draft_stops_nothing(tmp_path: Path, fault: str):
    content, out = lay_out(tmp_path / "content", CONTENT + FAULTS[fault]), tmp_path / "site"
    told = check_with_photos(content, tmp_path / "cache").diagnostics
    faults = [one for one in told if one.is_fault]
    assert {(one.span.file, one.severity) for one in faults} == {("guides/draft.md", Severity.WARNING)}
    assert all("The guide is a draft: the site is written without it." in one.notes for one in faults)
    built = build(Order(content=content, out=out, cache=tmp_path / "cache"))
    assert built.counts is not None
    assert built.diagnostics == told
    assert (built.kept, built.left_out) == ((), ())
    assert (out / "guides/eel-seller/index.html").exists()
    assert not (out / "guides/draft").exists()


def test_what_is_shown_is_told_in_full(tmp_path: Path):
    content = lay_out(tmp_path / "content", CONTENT + FAULTS["no paint"])
    assert {one.severity for one in check(content, drafts=True).diagnostics} == {Severity.ERROR}
    built = build(Order(content=content, out=tmp_path / "site", cache=tmp_path / "cache", drafts=True))
    assert built.counts is None
    result = CliRunner().invoke(send, ["draft", "--content", str(content), "--out", str(tmp_path / "d.html")])
    assert result.exit_code == 1


def test_another_guides_faults_stop_the_site(tmp_path: Path):
    content = lay_out(
        tmp_path / "content", CONTENT.replace("paint: Oilskin Ochre, each", "each") + FAULTS["no paint"]
    )
    assert {one.severity for one in check(content).diagnostics} == {Severity.ERROR, Severity.WARNING}
