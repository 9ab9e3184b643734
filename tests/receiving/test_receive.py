"""Members' material taken in: nothing of the club's changes, nothing of theirs means something else or is lost."""

from __future__ import annotations

from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner
from support.submissions import CLUB, ODDA, bytes_of, lay_out, received, taken, zipped

from guidegen.base.diagnostic import has_errors
from guidegen.building.check import check
from guidegen.commands import send
from guidegen.computing.guide.computed_guide import compute_guide
from guidegen.computing.plan.units import unit_schemes
from guidegen.model.guide import Guide
from guidegen.model.paint import Paint
from guidegen.rendering.standalone.own_source import BLOCK


def guide_of(content: Path, address: str) -> Guide:
    found = check(content).archive.guide(address)
    assert found is not None
    return found


def numbers(content: Path, address: str) -> list[object]:
    checked = check(content)
    guide = checked.archive.guide(address)
    assert guide is not None
    computed = compute_guide(guide, checked.palette_tools)
    return [
        guide.scale.ratio,
        guide.base,
        guide.figures,
        computed.times,
        [
            (one.step.title, one.step.each, one.step.dry, one.step.technique or "base coat", one.step.brush)
            for one in computed.scheme.steps
        ],
        [(need.paint.colour, need.ml, need.drops) for need in computed.needs],
    ]


def test_nothing_is_written_until_it_is_asked_for(club: Path, tmp_path: Path):
    odda = lay_out(tmp_path / "odda", ODDA)
    before, hers = bytes_of(club), bytes_of(odda)
    said = received(club, odda)
    assert said.exit_code == 0, said.output
    assert "would be taken in as odda-lamp-boys" in said.output
    assert bytes_of(club) == before
    assert bytes_of(odda) == hers


def test_it_means_the_same_and_the_club_keeps_every_byte(club: Path, tmp_path: Path):
    odda = lay_out(tmp_path / "odda", ODDA)
    before = bytes_of(club)
    said = taken(club, odda, "--write")
    after = bytes_of(club)
    assert {path: after[path] for path in before} == before
    assert sorted(after.keys() - before.keys()) == said["files"]
    assert not has_errors(check(club).diagnostics)
    assert [(one["name"], one["title"]) for one in said["guides"]] == [
        ("odda-lamp-boys", "Lamp boys by daylight")
    ]
    assert [one["name"] for one in said["lists"]] == ["odda-jetty-base"]
    assert numbers(club, "odda-lamp-boys") == numbers(odda, "lamp-boys")
    guide = guide_of(club, "odda-lamp-boys")
    assert (guide.author, guide.figures, guide.scale.text, guide.base) == ("Odda", 3, "1:48", None)
    assert guide.inserts == ("odda-jetty-base",)


def test_a_pot_of_another_colour_never_becomes_the_clubs(club: Path, tmp_path: Path):
    said = taken(club, lay_out(tmp_path / "odda", ODDA), "--write")
    became = {one["name"]: (one["becomes"], one["new"]) for one in said["paints"]}
    assert became["Marsh Colours / Slate Ground"] == ("Reedbank Acrylics / Slate Ground", False)
    assert became["Marsh Colours / Eel Skin"] == ("Marsh Colours / Eel Skin", True)
    assert became["Marsh Colours / Harvest Gold"] == ("Marsh Colours / Harvest Gold (Odda)", True)
    assert became["Rained-on slate"] == ("Rained-on slate (Odda)", True)
    checked = check(club)
    palette = checked.archive.palette
    gold = palette.find("Harvest Gold")
    assert isinstance(gold, Paint)
    assert gold.colour == "#b8862f"
    step = guide_of(club, "odda-lamp-boys").steps[0]
    assert step.paint is not None
    hers = palette.find(step.paint.parts[0].name.text)
    assert isinstance(hers, Paint)
    assert (hers.colour, hers.owned, hers.size) == ("#d8b040", 0, 12.0)
    assert any("Never Opened" in note for note in said["notes"])


def test_every_file_that_is_not_taken_is_named(club: Path, tmp_path: Path):
    said = taken(club, lay_out(tmp_path / "odda", ODDA))
    left = {one["file"]: one["reason"] for one in said["not_taken"]}
    assert set(left) == {"guides/lamp-boys/notes.txt", "plans/winter.yaml"}
    assert "nobody-here" in " ".join(said["notes"])


def test_taken_in_twice_is_once(club: Path, tmp_path: Path):
    odda = lay_out(tmp_path / "odda", ODDA)
    taken(club, odda, "--write")
    before = bytes_of(club)
    said = taken(club, odda, "--write")
    assert said["files"] == []
    assert [one["already"] for one in (*said["guides"], *said["lists"])] == [True, True]
    assert bytes_of(club) == before


def test_a_zip_of_another_system(club: Path, tmp_path: Path):
    """Backslashes, a folder around it all, names in the letters of the first PCs, a file manager's leavings."""
    import zipfile

    path = zipped(tmp_path / "odda.zip", ODDA.replace("guides/lamp-boys/", "guides\\lamp-boys\\"), "Odda's\\")
    with zipfile.ZipFile(path, "a") as archive:
        archive.writestr("__MACOSX/Odda's/._site.yaml", b"\0")
        archive.writestr("Odda's/guides/lamp-boys/gr-n.jpg", b"\xff\xd8\xff\xe0 of a camera")
    path.write_bytes(path.read_bytes().replace(b"gr-n", b"gr\x81n"))
    said = taken(club, path, "--write")
    assert [one["name"] for one in said["guides"]] == ["odda-lamp-boys"]
    assert "__MACOSX/Odda's/._site.yaml" in {one["file"] for one in said["not_taken"]}
    assert numbers(club, "odda-lamp-boys")[2] == 3
    assert (club / "guides" / "odda-lamp-boys" / "grün.jpg").is_file()


@pytest.mark.parametrize(
    "name",
    [
        "__MACOSX/guides/lamp-boys/._guide.md",
        "pages/about.md",
        "guides/lamp-boys/README.md",
        ".trash/guide.md",
    ],
)
def test_files_that_are_no_guides_are_no_failure(club: Path, tmp_path: Path, name: str):
    import zipfile

    odda = zipped(tmp_path / "odda.zip", ODDA)
    with zipfile.ZipFile(odda, "a") as archive:
        archive.writestr(name, "# About me\n")
    result = received(club, odda)
    assert f"  {name} " in result.stdout
    assert result.exit_code == 0, result.output


def test_a_guide_with_an_error_that_was_saved_as_a_text_is_a_failure(club: Path, tmp_path: Path):
    odda = lay_out(tmp_path / "odda", ODDA)
    (odda / "guides" / "saved").mkdir()
    (odda / "guides" / "saved" / "guide.md.txt").write_text(
        "---\ntitle: Saved\nsteps: [\n---\n", encoding="utf-8"
    )
    result = received(club, odda)
    assert "guides/saved/guide.md.txt has an error" in result.stdout
    assert result.exit_code == 1


def test_one_guide_alone_is_read_by_the_clubs_palette(club: Path, tmp_path: Path):
    alone = lay_out(
        tmp_path / "Reed Cutter",
        """\
» guide.md
---
title: Reed cutter
author: Marl
cover: {file: Our Best.jpg, alt: A reed cutter}
steps:
  - {step: Coats, paint: 2 Harvest Gold + 1 Ropewalk, each: 4 min}
  - {step: Boots, paint: Marsh Boots, each: 1 min}
---
"""
        "» finished.jpg = a photo 600 × 400\n",
    )
    (alone / "finished.jpg").rename(alone / "Our Best.jpg")
    said = taken(club, alone, "--write")
    assert [one["name"] for one in said["guides"]] == ["reed-cutter"]
    assert (club / "guides" / "reed-cutter" / "Our Best.jpg").is_file()
    became = {one["name"]: (one["becomes"], one["new"]) for one in said["paints"]}
    assert became["Marsh Boots"] == ("Marl / Marsh Boots", True)
    assert not became["Reedbank Acrylics / Harvest Gold"][1]
    guide = guide_of(club, "reed-cutter")
    assert (guide.author, guide.scale.text, guide.figures, guide.base) == ("Marl", "1:56", 1, None)
    assert not has_errors(check(club).diagnostics)


def test_what_lies_askew_is_found_and_what_has_an_error_is_said(club: Path, tmp_path: Path):
    text = ODDA.replace("» guides/lamp-boys/guide.md", "» guides/2019/lamp-boys/guide.md.txt").replace(
        "» guides/lamp-boys/", "» guides/2019/lamp-boys/"
    )
    text += "» guides/broken/guide.md\n---\ntitle: Broken\nsteps: [{step: Coats, paint: Eel Skin, each: soon}]\n---\n"
    result = received(club, lay_out(tmp_path / "odda", text), "--json")
    assert result.exit_code == 1
    assert '"name": "odda-lamp-boys"' in result.stdout
    assert '"file": "guides/broken/guide.md"' in result.stdout
    assert "has an error in line 3" in result.stdout


def test_a_short_guide_saved_as_a_text_is_one_and_notes_are_none(club: Path, tmp_path: Path):
    guide = "---\ntitle: Eels\nsteps: [{step: Coat, paint: Ropewalk, each: 1 min}]\n---\n"
    text = f"» guides/eels.md.txt\n{guide}» guides/notes.txt\nBuy eels.\n"
    result = received(club, lay_out(tmp_path / "odda", text), "--write")
    assert result.exit_code == 0
    assert "guides/notes.txt is no guide, list, palette or photo." in result.output
    assert guide_of(club, "eels").title == "Eels"


def test_the_clubs_pages_and_their_pictures_are_no_hindrance(club: Path, tmp_path: Path):
    lay_out(
        club,
        "» pages/about.md\n---\ntitle: About\n---\n![The hall](hall.jpg)\n» pages/hall.jpg = a photo 60 × 40\n",
    )
    assert taken(club, lay_out(tmp_path / "odda", ODDA))["guides"]


def test_photos_without_a_guide_end_with_one(club: Path, tmp_path: Path):
    folder = lay_out(tmp_path / "only", "» one.jpg = a photo 600 × 400\n» notes.txt\nLook!\n")
    result = received(club, folder)
    assert result.exit_code == 1
    assert "one.jpg" in result.output
    assert "notes.txt" in result.output
    assert received(club, tmp_path / "nowhere").exit_code == 1


@pytest.mark.slow
def test_what_was_sent_comes_in_with_the_same_numbers(club: Path, tmp_path: Path):
    odda = lay_out(
        tmp_path / "odda",
        ODDA.replace("see: [nobody-here]\n", "").replace("../nobody-here/guide.md", "#coats"),
    )
    page = tmp_path / "lamp-boys.html"
    result = CliRunner().invoke(
        send.command,
        ["lamp-boys", "--content", str(odda), "--out", str(page), "--cache", str(tmp_path / "cache")],
    )
    assert result.exit_code == 0, result.output
    source = BeautifulSoup(page.read_text(encoding="utf-8"), "lxml").find(id=BLOCK)
    assert source is not None
    assert "Never Opened" not in source.get_text()
    said = taken(club, page, "--write")
    assert [one["name"] for one in said["guides"]] == ["odda-lamp-boys"]
    assert numbers(club, "odda-lamp-boys") == numbers(odda, "lamp-boys")
    assert (club / "guides" / "odda-lamp-boys" / "finished.webp").read_bytes()[8:12] == b"WEBP"
    before = bytes_of(club)
    assert taken(club, page, "--write")["files"] == []
    assert bytes_of(club) == before


def test_the_clubs_own_material_stays_its_own(club: Path, tmp_path: Path):
    copy = lay_out(tmp_path / "again", CLUB)
    for file in copy.rglob("*.*"):
        file.write_bytes(file.read_bytes().replace(b"\n", b"\r\n"))
    said = taken(club, copy)
    assert said["files"] == []
    assert all(not one["new"] for one in said["paints"])
    assert [one["already"] for one in (*said["guides"], *said["lists"])] == [True, True]
    elsewhere = lay_out(tmp_path / "other", CLUB.replace("figures: 5", "figures: 6"))
    assert [one["name"] for one in taken(club, elsewhere, "--by", "Marl")["guides"]] == ["marl-lamp-boys"]


def test_people_come_by_name_and_licences_with_their_guides(club: Path, tmp_path: Path):
    text = ODDA.replace("author: Odda\n", "author: Odda\npeople: {m: {name: Marl}}\nlicence: ask her\n")
    text = text.replace(
        "title: Lamp boys by daylight\n",
        "title: Lamp boys by daylight\nauthor: [m, Odda]\nmade: [{date: 2026-01-01, figures: 2, by: m}]\n",
    )
    taken(club, lay_out(tmp_path / "odda", text), "--write")
    guide = guide_of(club, "odda-lamp-boys")
    assert (guide.authors, guide.licence, guide.made[0].by) == (("Marl", "Odda"), "ask her", "Marl")


def test_a_name_that_is_nearly_the_archives_is_told(club: Path, tmp_path: Path):
    text = ODDA.replace("Slate Ground", "Slate-Ground")
    said = taken(club, lay_out(tmp_path / "odda", text))
    became = {one["name"]: one["becomes"] for one in said["paints"]}
    assert became["Marsh Colours / Slate-Ground"] == "Marsh Colours / Slate-Ground"
    assert any("is nearly “Reedbank Acrylics / Slate Ground”" in note for note in said["notes"])


RAFT = """\
» guide.md
---
title: Raft folk
author: [{authors}]
steps: [{{step: Coats, paint: Straw Dust, each: 4 min}}]
---
"""


@pytest.mark.parametrize(
    ("authors", "by", "note"),
    [
        ("Marl, Wenna", "Marl", "Marl and Wenna made this, and what is new comes under Marl"),
        ("hob", "Hob of the lock", ""),
        ("hob, Wenna", "Hob of the lock", "Hob of the lock and Wenna made this"),
    ],
)
def test_one_guide_of_several_comes_under_who_is_named_first(
    club: Path, tmp_path: Path, authors: str, by: str, note: str
):
    site = club / "site.yaml"
    site.write_text(
        site.read_text(encoding="utf-8") + "people: {hob: {name: Hob of the lock}}\n", encoding="utf-8"
    )
    said = taken(club, lay_out(tmp_path / "New Folder", RAFT.format(authors=authors)), "--write")
    assert said["by"] == by
    assert [one["becomes"] for one in said["paints"]] == [f"{by} / Straw Dust"]
    assert any(one.startswith(note) for one in said["notes"]) is bool(note)
    assert guide_of(club, "new-folder").authors == tuple(
        authors.replace("hob", "Hob of the lock").split(", ")
    )


def test_who_is_named_by_every_guide_is_the_member(club: Path, tmp_path: Path):
    text = "".join(
        RAFT.replace("guide.md", f"guides/{name}.md").format(authors=authors)
        for name, authors in (("one", "Marl, Wenna"), ("two", "Wenna"), ("three", "Wenna, Marl"))
    )
    assert taken(club, lay_out(tmp_path / "New Folder", text))["by"] == "Wenna"
    nobody = text.replace("author: [Wenna]", "author: [Osk]")
    said = taken(club, lay_out(tmp_path / "Folder of all", nobody))
    assert said["by"] == "Folder of all"
    assert any("Since several people made this" in note and "--by" in note for note in said["notes"])
    assert taken(club, lay_out(tmp_path / "Named", nobody), "--by", "Osk")["by"] == "Osk"


def test_a_range_of_which_the_member_says_nothing_is_the_clubs_of_that_name(club: Path, tmp_path: Path):
    text = ODDA.replace("{name: Eel Skin, ", "{name: Eel Skin, range: Reedbank Acrylics, ")
    said = taken(club, lay_out(tmp_path / "odda", text), "--write")
    became = {one["name"]: one["becomes"] for one in said["paints"]}
    assert became["Reedbank Acrylics / Eel Skin"] == "Reedbank Acrylics / Eel Skin"
    other = text.replace("ranges:\n", "ranges:\n  Reedbank Acrylics: {thinner: white spirit}\n").replace(
        "3f4a40", "704a40"
    )
    said = taken(club, lay_out(tmp_path / "other", other), "--by", "Marl")
    became = {one["name"]: one["becomes"] for one in said["paints"]}
    assert became["Reedbank Acrylics / Eel Skin"] == "Reedbank Acrylics (Marl) / Eel Skin (Marl)"


@pytest.mark.parametrize(
    ("hers", "ours", "batch"),
    [("batch: 2, ", "", 2), ("", "batch: 4, ", None), ("batch: 2, ", "batch: 2, ", 2)],
)
def test_how_many_are_painted_at_a_time_comes_along(
    club: Path, tmp_path: Path, hers: str, ours: str, batch: int | None
):
    site = club / "site.yaml"
    site.write_text(
        site.read_text(encoding="utf-8").replace("figures: 5", f"{ours}figures: 5"), encoding="utf-8"
    )
    plan = 'title: Winter\nstart: 2026-01-05\nsittings: {mon: "20:00-22:00"}\nunits: [{guide: GUIDE, figures: 6}]\n'
    odda = lay_out(
        tmp_path / "odda",
        ODDA.replace("{figures: 3", f"{{{hers}figures: 3").replace(
            "title: Winter\n", plan.replace("GUIDE", "lamp-boys")
        ),
    )
    taken(club, odda, "--write")
    lay_out(club, f"» plans/winter.yaml\n{plan.replace('GUIDE', 'odda-lamp-boys')}")
    sizes = []
    for content in (odda, club):
        archive = check(content).archive
        guides = {guide.slug: guide for guide in archive.guides}
        sizes += [one.batches for one in unit_schemes(archive.plans[0], guides, archive.palette)]
    assert sizes == [(2, 2, 2) if batch else (6,)] * 2
