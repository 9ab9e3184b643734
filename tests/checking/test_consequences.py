"""One mistake is told once: what only follows from it is kept quiet."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.content_folders import lay_out

from guidegen.base.diagnostic import Diagnostic
from guidegen.building.check import check

PALETTE = """
» palette.yaml
paints:
  - {name: Slate Undercoat, kind: primer, colour: 6b737a}
  - {name: Oilskin Ochre, colour: b8862f}
  - {name: Ochre by Noon, colour: bb8a34}
"""
WASH = "» palette/wash.yaml\npaints: [{name: Silt Wash, kind: wash, colour: 4a3b2a}]\n"
PLAN = """
» plans/market.yaml
title: Market day
start: 2026-06-01
sittings: {sat: "10:00-12:00"}
units: [{guide: eel-seller, figures: 3}]
"""


def guide(*steps: str, head: str = "", name: str = "eel-seller") -> str:
    return f"» guides/{name}.md\n---\ntitle: {name}\n{head}steps:\n" + "".join(
        f"  - {{{step}}}\n" for step in steps
    ) + "---\n"  # fmt: skip


APRON = "step: Apron, area: apron, paint: Oilskin Ochre, each: 4 min"


def diagnostics(folder: Path, *texts: str) -> tuple[Diagnostic, ...]:
    for text in (PALETTE, *texts):
        lay_out(folder, text)
    return check(folder).diagnostics


def told(folder: Path, *texts: str) -> list[str]:
    return [f"{one.span.file}:{one.span.line} {one.code}" for one in diagnostics(folder, *texts)]


def test_the_content_by_itself_is_sound(tmp_path: Path):
    assert told(tmp_path, guide(APRON), PLAN) == []


@pytest.mark.parametrize(
    ("texts", "only"),
    [
        pytest.param(
            [guide(APRON.replace("each", "eachh"))],
            "guides/eel-seller.md:4 unknown-key",
            id="a step whose time has its key misspelt has a time",
        ),
        pytest.param(
            ["» palette/more.yaml\npaints:\n  - {name: Bell\n", guide(APRON.replace("Oilskin Ochre", "Bell"))],
            "palette/more.yaml:2 bad-yaml",
            id="a paint may stand in the palette file that cannot be read",
        ),
        pytest.param(
            ["» palette/more.yaml\nmixes: none\n", guide(APRON.replace("Oilskin Ochre", "Mud"))],
            "palette/more.yaml:1 bad-value",
            id="or in the list that is none",
        ),
        pytest.param(
            [guide(APRON, head="see: [heron]\n"), "» guides/heron.md\n---\ntitle: [\n---\n"],
            "guides/heron.md:2 bad-yaml",
            id="a guide that cannot be read is there",
        ),
        pytest.param(
            [PLAN, "» guides/eel-seller.md\n---\ntitle: [\n---\n"],
            "guides/eel-seller.md:2 bad-yaml",
            id="for plans as well",
        ),
        pytest.param(
            [guide(APRON), PLAN.replace('{sat: "10:00-12:00"}', "{sat: ten to twelve}")],
            "plans/market.yaml:3 bad-value",
            id="hours that cannot be read are not no hours",
        ),
        pytest.param(
            [guide(APRON), PLAN.replace('{sat: "10:00-12:00"}', "Saturdays")],
            "plans/market.yaml:3 bad-value",
            id="nor are days",
        ),
        pytest.param(
            [guide(APRON), PLAN.replace("start: 2026-06-01", "start: June")],
            "plans/market.yaml:2 bad-date",
            id="a start that cannot be read is no late start",
        ),
        pytest.param(
            [guide(APRON.replace("4 min", "4:00"))],
            "guides/eel-seller.md:4 bad-duration",
            id="a time that cannot be read is not none",
        ),
        pytest.param(
            [WASH + guide(APRON, "step: Shade, technique: wash, paint: Silt Wash, each: 1 min, dry: 0:40")],
            "guides/eel-seller.md:5 bad-duration",
            id="nor is a drying time a short one",
        ),
        pytest.param(
            [guide("step: Prime, technique: spray, paint: Slate Undercoat, area: apron, each: 1 min", "step: Apron, area: apron, each: 4 min")],
            "guides/eel-seller.md:5 no-paint",
            id="a step that does not say its paint may paint its area",
        ),
        pytest.param(
            [guide(APRON.replace("Oilskin Ochre", "[Oilskin Ochr]"))],
            "guides/eel-seller.md:4 unknown-paint",
            id="so may one with a paint that nobody knows",
        ),
        pytest.param(
            [guide(APRON.replace("Oilskin Ochre", "[[a, b]]"))],
            "guides/eel-seller.md:4 bad-value",
            id="and one with something unreadable",
        ),
        pytest.param(
            [guide(APRON, "insert: jetty"), "» shared/jetty.yaml\nsteps: [\n"],
            "shared/jetty.yaml:1 bad-yaml",
            id="a shared list that cannot be read is there",
        ),
        pytest.param(
            ["» palette/more.yaml\npaints: [{name: oilskin ochre, colour: fff}]\n", guide(APRON)],
            "palette/more.yaml:1 duplicate-paint",
            id="a name given twice is not ambiguous too",
        ),
    ],
)  # fmt: skip
def test_one_mistake_one_message(tmp_path: Path, texts: list[str], only: str):
    assert told(tmp_path, *texts) == [only]


def test_a_mistake_in_a_shared_list_is_told_once(tmp_path: Path):
    shared = "» shared/jetty.yaml\nsteps:\n  - {step: Boards, technique: sanding, area: base, paint: Bord, dry: x}\n"
    guides = [guide(APRON, "insert: jetty", name=name) for name in ("heron", "toll-house")]
    guides.append(guide("insert: jetty", APRON, name="eel-seller"))
    found = diagnostics(tmp_path, shared, *guides)
    assert [(one.code, one.span.file) for one in found] == [
        ("unknown-paint", "shared/jetty.yaml"),
        ("bad-duration", "shared/jetty.yaml"),
        ("step-without-time", "shared/jetty.yaml"),
        ("unknown-technique", "shared/jetty.yaml"),
    ]
    assert found[2].message == "Step “Boards” of jetty has no hands-on time."
    assert found[0].message == "Step “Boards” of jetty paints with “Bord”, which is not in the palette."


def test_what_depends_on_the_guide_says_in_which(tmp_path: Path):
    shared = "» shared/jetty.yaml\nsteps: [{step: Edges, technique: highlight, area: apron, paint: Ochre by Noon, each: 1 min}]\n"
    (found,) = diagnostics(tmp_path, shared, guide(APRON, "insert: jetty"))
    assert found.code == "highlight-too-close"
    assert found.message.startswith("Step “Edges” of jetty highlights “apron” only")
    assert found.notes[-1] == "That is so in “eel-seller”."


def test_steps_are_counted_with_those_inserted(tmp_path: Path):
    shared = "» shared/jetty.yaml\nsteps: [{step: A, paint: none, each: 1 min}, {step: B, paint: none, each: 1 min}]\n"
    (found,) = diagnostics(tmp_path, shared, guide("insert: jetty", APRON.replace("Ochre", "Ocre")))
    assert found.message.startswith("Step 3 paints with “Oilskin Ocre”")


def test_links_in_the_text_lead_to_guides_that_are_there(tmp_path: Path):
    text = "See [him](heron.md), [her](toll-house.md) and [it](../plans/market.yaml).\n\n## Apron\nAs [his](herron.md).\n"
    found = diagnostics(tmp_path, guide(APRON) + text, guide(APRON, name="heron"), PLAN)
    assert [(one.code, one.span.line, one.span.column, one.help) for one in found] == [
        ("unknown-guide", 6, 22, "There is eel-seller and heron."),
        ("unknown-guide", 9, 4, "Write heron."),
    ]


def test_a_substitute_is_called_one(tmp_path: Path):
    (found,) = diagnostics(tmp_path, guide(APRON + ", instead: [Noon]"))
    assert found.message == "Step 1 names as a substitute “Noon”, which is not in the palette."


def test_a_name_of_a_paint_without_a_range_that_another_has_too(tmp_path: Path):
    more = "» palette/more.yaml\npaints: [{name: Oilskin Ochre, range: Ninelock, colour: fff}]\n"
    (found,) = diagnostics(tmp_path, more, guide(APRON))
    assert found.code == "ambiguous-paint"
    assert found.help == "Write the one you mean in full, for instance Ninelock / Oilskin Ochre."
