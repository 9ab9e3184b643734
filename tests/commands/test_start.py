"""`guidegen start` from outside: what it makes has no mistakes and builds at once, and nothing is ever overwritten."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from support.content_folders import bytes_of, lay_out

from guidegen.base.diagnostic import Diagnostic, has_errors
from guidegen.base.errors import GuidegenError
from guidegen.building.build import Order, build
from guidegen.building.check import check
from guidegen.commands.start import command
from guidegen.reading.content.archive import read_archive

LIST = """\
name;range;kind;colour;owned
Oilskin Ochre;Reedbank Acrylics;;#b8862f;2
"Reed: cutter's #2";Reedbank Acrylics;;7f9144;
Clear Medium;Ninelock;medium;;1
Silt Wash;Ninelock;wash;;
"""


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*arguments: str) -> Result:
    return CliRunner().invoke(command, arguments)


def started(*arguments: str) -> str:
    result = run(*arguments)
    assert result.exit_code == 0, result.output
    return result.stdout


def refused(*arguments: str) -> str:
    """The sentence with which it is refused; such a failure ends the program with 2, see tests of the exit codes."""
    before = bytes_of(Path())
    result = run(*arguments)
    assert isinstance(result.exception, GuidegenError), result.output
    assert bytes_of(Path()) == before
    return result.exception.message


def test_nobody_is_named_as_the_author_unless_told():
    started("club")
    assert read_archive(Path("club"))[0].site.author == ""


def sound_and_built(content: str = "content") -> set[str]:
    """Check and build; the site's files."""
    told: tuple[Diagnostic, ...] = check(Path(content)).diagnostics
    assert not has_errors(told), [one.message for one in told]
    built = build(Order(content=Path(content), out=Path("site"), cache=Path("cache")))
    assert built.counts is not None
    return set(bytes_of(Path("site")))


def test_a_content_folder():
    said = started()
    assert said.index("content/palette.yaml") < said.index("guidegen build --open")
    assert check(Path("content")).diagnostics == ()
    assert "guides/first-guide/guide.json" in sound_and_built()


def test_a_content_folder_of_another_name():
    assert "guidegen build --content river-club --open" in started("river-club")
    assert "title: River club\n" in Path("river-club/site.yaml").read_text(encoding="utf-8")
    sound_and_built("river-club")


@pytest.mark.parametrize(
    ("name", "slug", "title"),
    [
        ("ferry-watch", "ferry-watch", "Ferry watch"),
        ("Ferry Watch: night", "ferry-watch-night", "Ferry Watch: night"),
        ("Öl & Reed #2", "ol-reed-2", "Öl & Reed #2"),
        ('"Quoted" \\ {{ title }}', "quoted-title", '"Quoted" \\ {{ title }}'),
        ("- no", "no", "- no"),
        ("ends ", "ends", "Ends"),
        ("yes", "yes", "Yes"),
        ("2026", "2026", "2026"),
    ],
)
def test_a_guide_with_any_title(name: str, slug: str, title: str):
    started()
    started(f"guides/{name}")
    found = check(Path("content"))
    assert not has_errors(found.diagnostics), [one.message for one in found.diagnostics]
    guide = found.archive.guide(slug)
    assert guide is not None
    assert guide.title.strip() == title
    assert f"guides/{slug}/index.html" in sound_and_built()


def test_a_plan_by_a_guide_that_is_there():
    started()
    started("guides/eel-seller")
    Path("content/guides/first-guide/guide.md").unlink()
    started("plans/regatta")
    assert "{guide: eel-seller, figures" in Path("content/plans/regatta.yaml").read_text(encoding="utf-8")
    assert "plans/regatta/plan.ics" in sound_and_built()


def test_in_a_content_folder_that_is_named_or_stood_in(monkeypatch: pytest.MonkeyPatch):
    started("club")
    started("guides/one", "--content", "club")
    started("club/guides/two")
    monkeypatch.chdir("club")
    started("guides/three.md")
    started("plans/regatta.yaml")
    made = set(bytes_of(Path()))
    assert made >= {f"guides/{name}/guide.md" for name in ("one", "two", "three")} | {"plans/regatta.yaml"}


def test_nothing_is_overwritten():
    started()
    started("plans/regatta")
    lay_out(Path("content"), "» guides/short.md\n---\ntitle: Short\n---\n")
    assert "files in it already" in refused()
    assert "files in it already" in refused("content")
    assert "a guide “first-guide” already" in refused("guides/First guide")
    assert "a guide “short” already" in refused("guides/short")
    assert "a plan “regatta” already" in refused("plans/regatta")
    Path("note.txt").write_text("mine", encoding="utf-8")
    assert "is no folder" in refused("note.txt")


def test_what_cannot_be_made():
    assert "no content folder" in refused("guides/ferry-watch")
    lay_out(Path("empty"), "» palette.yaml\npaints: []\n")
    assert "no guide that can be read" in refused("plans/regatta", "--content", "empty")
    assert "--palette-from" in refused("guides/x", "--palette-from", "paints.csv", "--content", "empty")
    assert "name a folder" in refused("one", "--content", "two")


def test_photos_that_lie_there_already_are_no_guide():
    started()
    lay_out(Path("content"), "» guides/ferry-watch/coats.jpg = a photo 800 × 600\n")
    started("guides/ferry-watch")
    assert "guides/ferry-watch/index.html" in sound_and_built()


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_a_palette_from_a_table(encoding: str):
    Path("list.csv").write_bytes(LIST.replace("Clear", "Réed").encode(encoding))
    result = run("--palette-from", "list.csv")
    assert result.exit_code == 0, result.output
    assert "4 paints taken over from list.csv" in result.stdout
    assert "line 5: “Ninelock / Silt Wash” has no colour" in result.stderr
    palette = check(Path("content")).archive.palette
    assert [paint.name for paint in palette.paints] == [
        "Oilskin Ochre",
        "Reed: cutter's #2",
        "Réed Medium",
        "Silt Wash",
    ]
    assert [paint.owned for paint in palette.paints] == [2, 0, 1, 0]


def test_paints_without_a_colour_are_taken_over_and_told():
    Path("list.csv").write_text(LIST, encoding="utf-8")
    started("--palette-from", "list.csv")
    found = check(Path("content"))
    assert [diagnostic.code for diagnostic in found.diagnostics] == ["colour-not-known"]
    bare = {paint.name for paint in found.archive.palette.paints if paint.colour is None}
    assert bare == {"Clear Medium", "Silt Wash"}


def test_a_palette_from_a_gimp_palette():
    Path("list.gpl").write_text(
        "GIMP Palette\nName: Mine\n#\n184 134  47\tReedbank / Oilskin Ochre\n", "utf-8"
    )
    started("club", "--palette-from", "list.gpl")
    palette = check(Path("club")).archive.palette
    assert [(paint.range, paint.name, paint.colour) for paint in palette.paints] == [
        ("Reedbank", "Oilskin Ochre", "#b8862f")
    ]
    sound_and_built("club")


@pytest.mark.parametrize("data", [b"", b"nothing,to,see\n1,2,3\n", b"name\n", b"\xff\xd8\xff\xe0\0\0"])
def test_a_list_with_nothing_in_it_makes_nothing(data: bytes):
    Path("list.csv").write_bytes(data)
    result = run("--palette-from", "list.csv")
    assert result.exit_code == 1
    assert "no paint that could be taken over" in result.stderr
    assert not Path("content").exists()


def test_a_list_that_is_not_there():
    result = run("--palette-from", "list.csv")
    assert (result.exit_code, Path("content").exists()) == (1, False)
    assert "There is no paint list “list.csv”." in result.stderr


@pytest.mark.parametrize(
    ("link", "target", "asked"),
    [
        ("guides", "../elsewhere", "guides/eel-seller"),
        ("guides", "nowhere", "guides/eel-seller"),
        ("guides", "guides", "guides/eel-seller"),
        ("guides/eel-seller", "../../elsewhere", "guides/eel-seller"),
        ("guides/eel-seller", "../../not-there", "guides/eel-seller"),
        ("plans", "../elsewhere", "plans/regatta"),
        ("shared", "../nowhere", "shared/jetty-base"),
        ("shared", "../elsewhere", "shared/jetty-base"),
    ],
)
def test_nothing_is_written_through_a_link_that_leads_out_of_content(link: str, target: str, asked: str):
    guide = "---\ntitle: A guide\nsteps: [{step: Coats, paint: none}]\n---\n"
    lay_out(
        Path(),
        f"» content/palette.yaml\npaints: []\n» {'all' if link == 'guides' else 'content/guides'}/a.md\n{guide}",
    )
    lay_out(Path(), "» elsewhere/b.txt\n")
    Path("content", link).symlink_to(target)
    assert f"“content/{link}” is a link that leads out of the content folder or nowhere" in refused(asked)
    assert sorted(path.name for path in Path("elsewhere").iterdir()) == ["b.txt"]


def test_a_link_to_another_folder_of_the_content_is_followed():
    started()
    Path("content/guides").rename("content/all")
    Path("content/guides").symlink_to("all")
    started("guides/eel-seller")
    assert Path("content/all/eel-seller/guide.md").is_file()


def test_the_help_of_editors_is_not_put_where_a_link_leads():
    Path("elsewhere").mkdir()
    Path("club").mkdir()
    Path("club/.editor-help").symlink_to("../elsewhere")
    assert "“club/.editor-help” is a link" in refused("club")
    assert "“club/.editor-help” is there already and is no folder" in refused("club", "--editor-help")
    assert not list(Path("elsewhere").iterdir())


def test_a_list_is_added_to_a_palette_that_is_there():
    lay_out(
        Path("content"),
        "» palette.yaml\npaints:\n  - {name: oilskin ochre, range: Reedbank Acrylics, colour: 000}  # mine\n\nmixes: []\n",
    )
    Path("list.csv").write_text(LIST, encoding="utf-8")
    said = started("--palette-from", "list.csv")
    assert "3 paints taken over from list.csv into content/palette.yaml; 1 is there already." in said
    text = Path("content/palette.yaml").read_text(encoding="utf-8")
    assert text.startswith(
        "paints:\n  - {name: oilskin ochre, range: Reedbank Acrylics, colour: 000}  # mine\n  - name:"
    )
    assert text.endswith("\n\nmixes: []\n")
    assert len(check(Path("content")).archive.palette.paints) == 4
    assert "All 4 paints of list.csv are in the palette already." in started("--palette-from", "list.csv")
    assert Path("content/palette.yaml").read_text(encoding="utf-8") == text


@pytest.mark.parametrize(
    "palette",
    [
        "» palette.yaml\npaints: [{name: Gull, colour: fff}]\n",
        "» palette/mine.yaml\npaints:\n- {name: Gull, colour: fff}\n",
    ],
)
def test_a_list_that_does_not_fit_in_lies_beside(palette: str):
    lay_out(Path("content"), palette)
    before = bytes_of(Path("content"))
    Path("list.csv").write_text(LIST, encoding="utf-8")
    assert "into content/palette/list.yaml" in started("--palette-from", "list.csv")
    after = bytes_of(Path("content"))
    assert {path: after[path] for path in before} == before
    assert len(check(Path("content")).archive.palette.paints) == 5


def test_a_workbook_becomes_a_palette():
    import openpyxl

    book = openpyxl.Workbook()
    for row in (["Unsere Farben"], ["Name", "Hersteller", "Hex"], ["Teer", "Ninelock", "2b2724"]):
        book.active.append(row)
    book.save("farben.xlsx")
    assert "1 paint taken over from farben.xlsx." in started("--palette-from", "farben.xlsx")
    assert [paint.full_name for paint in check(Path("content")).archive.palette.paints] == ["Ninelock / Teer"]
