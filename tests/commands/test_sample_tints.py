"""`sample --card --write` with tints, washes and marked coats: each comes back as it was laid, and into the palette."""

from __future__ import annotations

import json
import re
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from support.card_photos import drawn, marked, noisy, painted, recoloured, seen_from

from guidegen.base.source import Source
from guidegen.cli import guidegen
from guidegen.computing.colour.layers import ReliefColours, film_over
from guidegen.computing.colour.spaces import decoded, delta_e_2000, encoded, hex_of_linear, lab_of, linear_of
from guidegen.reading.editing.card_file import read_card

pytestmark = pytest.mark.slow

SURE = ("#bd8f35", "#5e4c3b", "#e6e4dc", "#8f4a36", "#33566e", "#7f9144", "#232428", "#b9a67c", "#a03a34")
SURE_LINES = "".join(
    f'  - {{name: Jar {n}, colour: "{colour}", colour_from: maker}}\n' for n, colour in enumerate(SURE)
)
PALETTE = f"""\
# The shelf by the window.
paints:
{SURE_LINES}\
  - {{name: Samphire, colour: 3f7a2f, colour_from: eye}}   # by the lid
  - name: Bilge
    kind: wash
    colour: '403028'  # a guess
    note: smells
"""
TINT, WASH, STRENGTH = "#a8bd90", "#2a3a1c", 2.0


@pytest.fixture(scope="module")
def town(tmp_path_factory) -> tuple[Path, Path]:
    """The content folder, and the photo of its painted card."""
    folder = tmp_path_factory.mktemp("tints")
    content = folder / "content"
    content.mkdir()
    (content / "palette.yaml").write_text(PALETTE, encoding="utf-8")
    said = _run(content, "card", "--json", "--with", "tint,film", "--out", str(folder / "card.html"))
    path = content / "cards" / f"{json.loads(said)['card']}.yaml"
    card, _ = read_card(Source.from_bytes(path.name, path.read_bytes()), path.stem)
    assert card is not None
    paper = hex_of_linear(np.full(3, 0.88))[0]
    true = {**{f"Jar {n}": colour for n, colour in enumerate(SURE)}, "Samphire": "#4f6b3a"}
    colours = {}
    for box in card.boxes:
        if box.kind == "film":
            laid = film_over(
                ReliefColours.of_one(paper), WASH, strength=STRENGTH, technique="wash", coats=box.coats
            )
            colours[box.n] = linear_of([laid.flats])[0]
        else:
            colours[box.n] = linear_of([TINT if box.kind == "tint" else true[box.paint]])[0]
    levels = {n: tuple((encoded(light / 0.88) * 255.0).tolist()) for n, light in colours.items()}
    samphire = next(box.n for box in card.boxes if box.paint == "Samphire")
    page = marked(painted(drawn(card), card, levels), card, {samphire: 2})
    at = ((210.0, 200.0), (1340.0, 170.0), (1370.0, 1790.0), (160.0, 1730.0))
    photo = folder / "card.png"
    dim = recoloured(seen_from(page, at, (1500, 2000)), lambda values: encoded(decoded(values) * 0.85))
    noisy(dim, 2).save(photo)
    return content, photo


def _run(content: Path, *words: str) -> str:
    result = CliRunner().invoke(guidegen, [*words, "--content", str(content)])
    assert result.exit_code == 0, result.output
    return result.stdout


def _apart(one: str, other: str) -> float:
    return float(delta_e_2000(lab_of([one])[0], lab_of([other])[0]))


def test_json_tells_films_and_marked_coats(town):
    content, photo = town
    data = json.loads(_run(content, "sample", str(photo), "--card", "--json"))
    (film,) = data["films"]
    assert film["paint"] == "Bilge"
    assert film["strength"] == pytest.approx(STRENGTH, rel=0.35)
    assert _apart(film["colour"], WASH) < 6
    assert [(box["paint"], box["coats"]) for box in data["boxes"] if "coats" in box] == [("Samphire", 2)]


def test_coats_propose_how_well_a_paint_covers(town):
    content, photo = town
    assert "covers: fair for Samphire." in _run(content, "sample", str(photo), "--card")


def test_tints_and_washes_are_written_and_nothing_else(town):
    content, photo = town
    palette = content / "palette.yaml"
    try:
        _run(content, "sample", str(photo), "--card", "--write")
        lines = palette.read_text(encoding="utf-8").splitlines()
        assert json.loads(_run(content, "check", "--format", "json"))["errors"] == 0
    finally:
        palette.write_text(PALETTE, encoding="utf-8")
    written = re.compile(r', let_down: \{colour: "#\w+", parts: 1:4, white: Jar 2\}')
    assert len(written.findall("\n".join(lines))) == 9
    rest = [written.sub("", line) for line in lines]
    assert "    colour_from: photo" in rest
    assert any(re.fullmatch(r"    strength: [\d.]+", line) for line in rest)
    rest = [line for line in rest if not re.match(r"    (strength|colour_from): ", line)]
    for line, before in zip(rest, PALETTE.splitlines(), strict=True):
        if "Samphire" in before:
            assert (
                re.sub(r"colour: \w+, colour_from: photo", "colour: 3f7a2f, colour_from: eye", line) == before
            )
        elif "guess" in before:
            assert re.fullmatch(r"    colour: '\w{6}'  # a guess", line)
        else:
            assert line == before
