"""`card` from outside: what is printed, and what is kept of it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner, Result

from guidegen.cli import guidegen
from guidegen.model.card import CODE_INSET, PAPERS

PALETTE = """\
paints:
  - {name: Oilskin Ochre, range: Reedbank, colour: b8862f, owned: 1}
  - {name: Saltpan White, range: Reedbank, colour: f4f2ea, owned: yes}
  - {name: Chalk, colour: f8f8f4}
  - {name: Brass Lamp, kind: metallic, colour: b09040}
  - {name: Wet Wool, kind: wash, colour: 4a3b2a, owned: yes}
  - {name: Float Orange Neon, colour: ff7020}
  - {name: Slack Water, kind: thinner}
  - {name: Kelp, range: Ninelock, colour: 3a4a2f, let_down: {colour: a0b090, parts: 1:9, white: Chalk}}
mixes:
  - {name: Mud, parts: {Kelp: 1, Oilskin Ochre: 1}}
"""


@pytest.fixture
def content(tmp_path: Path) -> Path:
    folder = tmp_path / "content"
    folder.mkdir()
    (folder / "palette.yaml").write_text(PALETTE, encoding="utf-8")
    return folder


def made(content: Path, *options: str, out: str = "card.html") -> Result:
    where = ["--content", str(content), "--out", str(content.parent / out)]
    return CliRunner().invoke(guidegen, ["card", *options, *where])


def boxes(content: Path, *options: str) -> list[dict]:
    result = made(content, *options, "--json")
    assert result.exit_code == 0, result.output
    data = json.loads(result.stdout)
    assert set(data) == {"card", "file", "boxes"}
    return data["boxes"]


def kinds(found: list[dict]) -> list[tuple[str, str]]:
    return [(box["paint"], box["kind"]) for box in found]


def test_covering_paints_get_a_box_each(content):
    found = boxes(content)
    assert kinds(found) == [(name, "full") for name in ("Oilskin Ochre", "Saltpan White", "Chalk", "Kelp")]
    assert found[0] == {
        "n": 1,
        "paint": "Oilskin Ochre",
        "kind": "full",
        "page": 1,
        "x_mm": 16.0,
        "y_mm": 37.0,
        "size_mm": 20.0,
    }


def test_it_says_why_paints_are_left_out(content):
    said = made(content).stderr
    for name, reason in {
        "Brass Lamp": "metal",
        "Float Orange Neon": "fluorescent",
        "Slack Water": "no colour",
        "Wet Wool": "--with film",
    }.items():
        (line,) = [line for line in said.splitlines() if name in line]
        assert reason in line


def test_scripts_hear_why_paints_are_left_out_beside_the_json(content):
    result = made(content, "--json")
    assert "metal" in result.stderr
    assert len(json.loads(result.stdout)["boxes"]) == 4


def test_tints_without_any_white_are_told(content):
    (content / "palette.yaml").write_text("paints: [{name: Kelp, colour: 3a4a2f}]\n", encoding="utf-8")
    result = made(content, "--with", "tint")
    assert "1 box on 1 page" in result.stdout
    assert "no white" in result.stderr
    assert "no white" not in made(content, "--with", "film").stderr


def test_tints_are_let_down_with_the_white_of_the_palette_or_ones_own(content):
    found = boxes(content, "--with", "tint,film")
    assert kinds(found) == [
        ("Oilskin Ochre", "full"),
        ("Oilskin Ochre", "tint"),
        ("Saltpan White", "full"),
        ("Chalk", "full"),
        ("Chalk", "tint"),
        ("Wet Wool", "film"),
        ("Wet Wool", "film"),
        ("Kelp", "full"),
        ("Kelp", "tint"),
    ]
    kept = next((content / "cards").glob("*.yaml")).read_text(encoding="utf-8")
    assert 'n: 2, paint: "Oilskin Ochre", kind: tint, white: "Saltpan White"' in kept
    assert 'n: 9, paint: "Kelp", kind: tint, white: "Chalk"' in kept
    assert [line.rpartition("coats: ")[2] for line in kept.splitlines() if "film" in line] == ["1}", "3}"]


@pytest.mark.parametrize(
    ("options", "names"),
    [
        (["Kelp", "chalk"], ["Kelp", "Chalk"]),
        (["--owned"], ["Oilskin Ochre", "Saltpan White"]),
        (["--range", "ninelock"], ["Kelp"]),
        (["--owned", "--range", "Reedbank", "Kelp", "Oilskin Ochre"], ["Oilskin Ochre"]),
    ],
)
def test_which_paints(content, options, names):
    assert [box["paint"] for box in boxes(content, *options)] == names


@pytest.mark.parametrize(
    ("options", "code", "words"),
    [
        (["Klep"], 1, "Write Kelp"),
        (["Mud"], 1, "house mix"),
        (["--range", "Ninelok"], 1, "Ninelock"),
        (["Brass Lamp"], 1, "no paint to make a box for"),
        (["--with", "tinnt"], 2, "tint,film"),
        (["--paper", "a3"], 2, "letter"),
    ],
)
def test_what_it_refuses(content, options, code, words):
    result = made(content, *options)
    assert result.exit_code == code
    assert words in result.stderr
    assert not (content / "cards").exists()


def test_the_id_follows_from_what_is_on_it(content):
    def names() -> set[str]:
        return {file.name for file in (content / "cards").iterdir()}

    made(content)
    first = names()
    made(content)
    assert names() == first
    made(content, "--paper", "letter")
    made(content, "Kelp")
    assert len(names()) == 3
    assert all(len(name) == len("0123ab.yaml") for name in names())


def test_other_files_are_never_written_over(content):
    (content.parent / "mine.html").write_text("<p>mine")
    result = made(content, out="mine.html")
    assert "is no card" in str(result.exception)
    assert (content.parent / "mine.html").read_text() == "<p>mine"
    assert made(content).exit_code == 0
    assert made(content, "Kelp").exit_code == 0


def style_of(tag) -> dict[str, str]:
    return dict(rule.split(":") for rule in tag["style"].split(";"))


@pytest.mark.parametrize("paper", PAPERS)
def test_the_page_has_boxes_codes_and_what_to_do(content, paper):
    found = boxes(content, "--with", "tint,film", "--paper", paper)
    page = BeautifulSoup((content.parent / "card.html").read_text(encoding="utf-8"), "html.parser")
    rects = {int(rect["data-box"]): rect for rect in page.select("[data-box]")}
    assert {n: (float(r["x"]), float(r["y"]), float(r["width"])) for n, r in rects.items()} == {
        box["n"]: (box["x_mm"], box["y_mm"], box["size_mm"]) for box in found
    }
    codes = page.select("section > div > svg")
    assert len(codes) == 4
    assert {svg["viewbox"] for svg in codes} == {"0 0 33 33"}
    assert {style_of(svg.parent)["width"] for svg in codes} == {"26.4mm"}
    assert {float(style_of(svg.parent)["left"].removesuffix("mm")) for svg in codes} == {
        round(CODE_INSET - 13.2, 3),
        round(PAPERS[paper][0] - CODE_INSET - 13.2, 3),
    }
    text = page.get_text(" ", strip=True)
    for words in (
        "matt paper",
        "laser",
        "overnight",
        "no flash",
        "1 part to 4 parts Saltpan White",
        "3 coats",
    ):
        assert words in text
    assert not page.select("[src], link[href^=http], script")


def test_the_page_speaks_the_sites_language(content):
    (content / "site.yaml").write_text("language: de\n", encoding="utf-8")
    made(content)
    assert "Trocken fotografieren" in (content.parent / "card.html").read_text(encoding="utf-8")


def test_twenty_five_boxes_a_page(content):
    lines = [f"  - {{name: Jar {n}, colour: 8090{n:02d}}}" for n in range(51)]
    (content / "palette.yaml").write_text("\n".join(["paints:", *lines]) + "\n", encoding="utf-8")
    found = boxes(content)
    assert [box["page"] for box in found] == [1] * 25 + [2] * 25 + [3]
    assert (found[0]["x_mm"], found[0]["y_mm"]) == (found[25]["x_mm"], found[25]["y_mm"])


def test_cards_are_no_mistake_of_the_content(content):
    made(content)
    assert CliRunner().invoke(guidegen, ["check", "--content", str(content)]).exit_code == 0


def test_a_full_disk_is_told_by_the_name_of_the_file(content, monkeypatch):
    def full(part: Path, data: bytes) -> int:
        raise OSError(28, "No space left on device", str(part))

    monkeypatch.setattr(Path, "write_bytes", full)
    result = made(content)
    assert result.exception.message.endswith(".yaml” cannot be written: No space left on device.")
    assert "/cards/." not in result.exception.message
