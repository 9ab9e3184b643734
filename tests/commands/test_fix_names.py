"""`check --fix` never changes what was meant: which near names are another name, and which are a slip of the pen."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from support.misspelt_names import laid_out
from support.paths import CASES

from guidegen.building.check import check
from guidegen.commands.fixes import apply_fixes
from guidegen.reading.content.archive import read_archive

_, ANOTHER, SLIPS = (CASES / "near-names.txt").read_text(encoding="utf-8").split("» ")


def pairs(table: str) -> list[tuple[str, str]]:
    rows = (re.split(" {2,}", line) for line in table.splitlines()[1:] if line)
    return [(typed, known) for typed, known in rows]


def written_instead(content: Path) -> list[str]:
    return [one.fix.text for one in check(content).diagnostics if one.fix is not None]


@pytest.mark.parametrize(("typed", "known"), pairs(ANOTHER))
def test_another_name_is_left(tmp_path: Path, typed: str, known: str):
    assert written_instead(laid_out(tmp_path, typed, known)) == []


@pytest.mark.parametrize(("typed", "known"), pairs(SLIPS))
def test_a_slip_is_mended(tmp_path: Path, typed: str, known: str):
    content = laid_out(tmp_path, typed, known)
    apply_fixes(content)
    archive, _ = read_archive(content)
    (part,) = archive.guides[0].steps[0].paint.parts
    assert archive.palette.find(part.name.text).name == known


def test_what_is_left_is_suggested_all_the_same(tmp_path: Path):
    (told,) = check(laid_out(tmp_path, "Skin 3", "Skin 2")).diagnostics
    assert told.help == "Write Skin 2, or add Skin 3 to the palette."


def test_other_digits_do_not_stand_in_the_way(tmp_path: Path):
    assert written_instead(laid_out(tmp_path, "Thistledwon 2", "Thistledown 1", "Thistledown 2")) == [
        '"Thistledown 2"'
    ]


@pytest.mark.parametrize("other", ["Ocre Sail", "Boiled Ocre"])
def test_a_word_of_another_paint_is_no_slip(tmp_path: Path, other: str):
    assert written_instead(laid_out(tmp_path, "Oilskin Ocre", "Oilskin Ochre", other)) == []


@pytest.mark.parametrize(
    "guide",
    [
        "title: The road to Ocre",
        "title: A\nchoose: {town: [Ocre, Sedgeby]}",
        "title: A\nfigures: 2\nsteps: [{step: Ocre, area: a, paint: none, each: 1}]",
        "title: A\nsteps: [{step: A, area: ocre, paint: none, each: 1}]",
        "title: A\nsteps: [{step: A, area: a, paint: none, each: 1}, {stop: Off to Ocre}]",
    ],
)
def test_a_word_of_the_guides_is_no_slip(tmp_path: Path, guide: str):
    content = laid_out(tmp_path, "Oilskin Ocre", "Oilskin Ochre")
    more = "" if "steps:" in guide else "\nsteps: [{step: A, area: a, paint: none, each: 1}]"
    (content / "guides" / "b.md").write_text(f"---\n{guide}{more}\n---\n", encoding="utf-8")
    assert written_instead(content) == []


def test_a_name_in_two_ranges_is_left(tmp_path: Path):
    content = laid_out(tmp_path, "Oilskin-Ochre")
    (content / "palette.yaml").write_text(
        "ranges: {Reedbank: {}, Sternpost: {}}\npaints:\n"
        "  - {name: Oilskin Ochre, range: Reedbank, colour: aaa}\n"
        "  - {name: Oilskin Ochre, range: Sternpost, colour: bbb}\n",
        encoding="utf-8",
    )
    assert written_instead(content) == []


@pytest.mark.parametrize(
    "paint",
    [
        "[Oilskin Ochre, Oilskin Ocre]",
        "{Oilskin Ocre: 1, Oilskin Ochre: 2}",
        "[Oilskin Ochre, Oilskin-Ochre]",
        "{Oilskin Ocre: 1, Oilskn Ochre: 2}",
        "Oilskin Ochre, instead: Oilskin Ocre",
    ],
)
def test_two_names_side_by_side_are_two_paints(tmp_path: Path, paint: str):
    content = laid_out(tmp_path, "none", "Oilskin Ochre")
    step = f"{{step: A, area: a, paint: {paint}, each: 1}}"
    (content / "guides" / "a.md").write_text(f"---\ntitle: A\nsteps: [{step}]\n---\n", encoding="utf-8")
    assert written_instead(content) == []


@pytest.mark.parametrize(
    "palette",
    [
        "mixes: [{name: Oilskin Ochre, parts: {Oilskin Ocre: 1, Reed: 1}}]",
        "mixes: [{name: Dusk, parts: {Oilskin Ocre: 1, Oilskin Ochre: 1}}]",
        "  - {name: Sail Ochre, colour: aaa, twin_of: Sail Ocre}",
    ],
)
def test_nothing_is_made_of_itself(tmp_path: Path, palette: str):
    content = laid_out(tmp_path, "none", "Reed", *(["Oilskin Ochre"] if "Dusk" in palette else []))
    with (content / "palette.yaml").open("a", encoding="utf-8") as file:
        file.write(f"{palette}\n")
    assert written_instead(content) == []


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        ("eahc: 1", "each"),
        ("eech: 1", "each"),
        ("technque: wash", "technique"),
        ("tecnique: wash", "technique"),
        ("tip: thin", None),
        ("notes: thin", None),
        ("mint: thin", None),
        ("coat: 2", "coats"),
        ("each2: 1", None),
    ],
)
def test_keys(tmp_path: Path, typed: str, written: str | None):
    content = laid_out(tmp_path, "none")
    step = f"{{step: A, area: a, paint: none, {typed}}}"
    (content / "guides" / "a.md").write_text(f"---\ntitle: A\nsteps: [{step}]\n---\n", encoding="utf-8")
    assert written_instead(content) == ([] if written is None else [written])


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        ("old-papers", []),
        ("../guides/heron-riders.md", ["heron-riders"]),
        ("heron-riders.md", ["heron-riders"]),
        ("Heron Riders", ["heron-riders"]),
        ("heron-rdiers", ["heron-riders"]),
        ("heron-rider", []),
        ("heron-riders-2", []),
        ("2019/heron-riders", []),
        ("old/heron-riders.md", []),
    ],
)
def test_guides(tmp_path: Path, typed: str, written: list[str]):
    content = laid_out(tmp_path, "none")
    guide = "---\ntitle: %s\n%ssteps: [{step: A, area: a, paint: none, each: 1}]\n---\n"
    (content / "guides" / "heron-riders.md").write_text(guide % ("B", ""), encoding="utf-8")
    (content / "guides" / "a.md").write_text(guide % ("A", f"see: [{typed}]\n"), encoding="utf-8")
    assert written_instead(content) == written
