"""Paint lists from elsewhere: headings, separators, numbers as people write them, and what is said of the rest."""

from __future__ import annotations

import pytest
import yaml
from support.paints import named, pot

from guidegen.model.paint import Kind
from guidegen.reading.paint_lists.any_list import read_palette_text
from guidegen.reading.paint_lists.csv_list import read_csv, write_csv
from guidegen.reading.paint_lists.gimp_palette import read_gpl, write_gpl
from guidegen.reading.paint_lists.palette_file import palette_yaml
from guidegen.reading.paint_lists.rows import PaintRow, row_of

OCHRE = PaintRow(name="Oilskin Ochre", range="Reedbank Acrylics", colour="#b8862f")


@pytest.mark.parametrize(
    "text",
    [
        "name,range,colour\nOilskin Ochre,Reedbank Acrylics,#b8862f\n",
        "Paint;Brand;Hex\r\nOilskin Ochre;Reedbank Acrylics;B8862F\r\n",
        "PAINT NAME\tMaker\tHex code\nOilskin Ochre\tReedbank Acrylics\t#B8862F",
        "\ufeffHex|Line|Name\n#b8862f|Reedbank Acrylics|Oilskin Ochre",
        "sep=;\nColour;Manufacturer;HTML\nOilskin Ochre;Reedbank Acrylics;b8862f",
        "Colour name,Series,R,G,B\nOilskin Ochre,Reedbank Acrylics,184,134,47",
        'Paint,Range,RGB\nOilskin Ochre,Reedbank Acrylics,"184, 134, 47"',
        'Paint,Range,Color\nOilskin Ochre,Reedbank Acrylics,"rgb(184, 134, 47)"',
        "Couleur?,Name,Range,colour\nx,  Oilskin   Ochre ,Reedbank Acrylics,b8862f",
        '"name","range","colour"\n\n"Oilskin Ochre","Reedbank Acrylics","#b8862f"\n\n',
    ],
)
def test_one_paint_under_many_headings(text: str):
    found = read_palette_text(text)
    assert found.problems == ()
    assert found.paints == (OCHRE,)


def cell(heading: str, text: str) -> tuple[PaintRow, list[str]]:
    found = read_csv(f'name;colour;{heading}\nOilskin Ochre;b8862f;"{text}"\n')
    return found.paints[0], [problem.message for problem in found.problems]


@pytest.mark.parametrize(
    ("heading", "text", "key", "value"),
    [
        ("Size", "12 ml", "size", 12.0),
        ("Volume (ml)", "17", "size", 17.0),
        ("contents", "0,5 l", "size", 500.0),
        ("Price", "2,80", "price", 2.8),
        ("Price", "€ 2.80", "price", 2.8),
        ("RRP", "1.234,50 EUR", "price", 1234.5),
        ("price", "1,234.50", "price", 1234.5),
        ("Owned", "yes", "owned", 1),
        ("Qty.", "3", "owned", 3),
        ("In stock", "2 pots", "owned", 2),
        ("have", "", "owned", 0),
        ("have", "no", "owned", 0),
        ("stock", "0.5", "owned", 1),
        ("Type", "Washes", "kind", Kind.WASH),
        ("type", "undercoat", "kind", Kind.PRIMER),
        ("category", "METALLIC", "kind", Kind.METALLIC),
        ("type", "enamel", "binder", "enamel"),
        ("finish", "Matt", "finish", "matt"),
        ("Discontinued", "x", "discontinued", True),
        ("Code", "'=7", "code", "=7"),
        ("Notes", "thin it", "note", "thin it"),
        ("hazards", "H222, H229", "hazards", ("H222", "H229")),
        (
            "hazards",
            "EUH208 1,2-benzisothiazolin-3-one; H317",
            "hazards",
            ("EUH208 1,2-benzisothiazolin-3-one", "H317"),
        ),
        ("aliases", "ochre coat; coat", "aliases", ("ochre coat", "coat")),
    ],
)
def test_cells_as_people_write_them(heading: str, text: str, key: str, value: object):
    row, problems = cell(heading, text)
    assert getattr(row, key) == value
    assert problems == []


@pytest.mark.parametrize(
    ("heading", "text", "message"),
    [
        ("size", "a lot", "The size of “Oilskin Ochre” is “a lot”; a volume such as 12 ml was expected."),
        ("size", "0", "The size of “Oilskin Ochre” is “0”; a volume such as 12 ml was expected."),
        (
            "size",
            "0.00001 ml",
            "The size of “Oilskin Ochre” is “0.00001 ml”; a volume such as 12 ml was expected.",
        ),
        ("size", "200000", "The size of “Oilskin Ochre” is “200000”; a volume such as 12 ml was expected."),
        ("price", "9999999", "The price of “Oilskin Ochre” is “9999999”; a sum such as 2.80 was expected."),
        ("price", "-2", "The price of “Oilskin Ochre” is “-2”; a sum such as 2.80 was expected."),
        (
            "owned",
            "-1",
            "The number of pots of “Oilskin Ochre” is “-1”; a number of pots, or yes or no was expected.",
        ),
        ("finish", "shiny", "The finish of “Oilskin Ochre” is “shiny”; matt or satin or gloss was expected."),
        (
            "discontinued",
            "maybe",
            "The discontinued mark of “Oilskin Ochre” is “maybe”; yes or no was expected.",
        ),
    ],
)
def test_cells_that_make_no_sense_are_said_and_left_out(heading: str, text: str, message: str):
    row, problems = cell(heading, text)
    assert row == PaintRow(name="Oilskin Ochre", colour="#b8862f")
    assert problems == [message]


def test_an_unknown_kind_is_taken_as_paint_and_said():
    row, problems = cell("kind", "hull")
    assert row.kind is Kind.PAINT
    assert "“hull”" in problems[0]


def test_what_is_left_out_is_said_with_its_line():
    text = (
        "name,range,colour,kind\n"
        "Oilskin Ochre,Reedbank Acrylics,b8862f,\n"
        ",Reedbank Acrylics,000000,\n"
        '"Two\nlines",,123456,\n'
        "oilskin ochre,Reedbank acrylics,ffffff,\n"
        "Ropewalk,,,\n"
        "Fog,,greyish,\n"
        "Clear Medium,,,medium\n"
    )
    found = read_csv(text)
    assert [row.name for row in found.paints] == [
        "Oilskin Ochre",
        "Two lines",
        "Ropewalk",
        "Fog",
        "Clear Medium",
    ]
    assert [(problem.line, problem.message) for problem in found.problems] == [
        (3, "The row names no paint, so it was left out."),
        (6, "“Reedbank acrylics / oilskin ochre” comes a second time; the first is kept."),
        (7, "“Ropewalk” has no colour; add it in the palette."),
        (8, "The colour of “Fog” is “greyish”; a colour such as #b8862f was expected."),
    ]


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("", 1, "nothing in the file"),
        ("\n\n", 1, "nothing in the file"),
        ("apples,pears\n1,2\n", 1, "found “apples”, “pears”"),
        ("\nOilskin Ochre,b8862f\n", 2, "has to say what the columns are"),
        ("R,G,B\n1,2,3\n", 1, "has to say what the columns are"),
    ],
)
def test_a_list_without_a_heading(text: str, line: int, words: str):
    found = read_csv(text)
    assert found.paints == ()
    assert [problem.line for problem in found.problems] == [line]
    assert words in found.problems[0].message


def test_a_name_that_no_palette_takes():
    found = read_csv(f"name,hex\n{'x' * 201},123456\n{'y' * 200},123456\n")
    assert [len(row.name) for row in found.paints] == [200]
    assert "more than 200 letters" in found.problems[0].message


def test_a_quotation_mark_left_open():
    found = read_csv('name,colour\nOilskin Ochre,b8862f\n"Ropewalk,b09a72\nFog,aab4b8\n')
    assert [row.name for row in found.paints] == ["Oilskin Ochre"]
    assert [(problem.line, "not closed" in problem.message) for problem in found.problems] == [(3, True)]


GPL = """GIMP Palette
Name: Quay
Columns: 4
#
# a remark
184 134  47\tReedbank Acrylics / Oilskin Ochre
 32  33  36 Caulker's Pitch
  0   0   0\tUntitled
300   1   2\tToo much
1 2\tToo few
"""


def test_a_gimp_palette():
    found = read_palette_text(GPL)
    assert found.title == "Quay"
    assert found.paints == (OCHRE, PaintRow(name="Caulker's Pitch", colour="#202124"))
    assert [problem.line for problem in found.problems] == [8, 9, 10]


def test_a_gimp_palette_from_another_system_and_an_old_one():
    assert read_palette_text("\ufeff" + GPL.replace("\n", "\r\n")).paints == read_gpl(GPL).paints
    assert read_gpl("GIMP Palette\n#\n1 2 3\tNames: a remark\n").paints[0].name == "Names: a remark"


def test_writing_a_gimp_palette():
    text = write_gpl("Ferry\nwatch", [("Oilskin Ochre", "#b8862f"), ("Two\tlines", "#000000")], columns=3)
    assert (
        text
        == "GIMP Palette\nName: Ferry watch\nColumns: 3\n#\n184 134  47\tOilskin Ochre\n  0   0   0\tTwo lines\n"
    )


FULL = PaintRow(
    name='Ferryman\'s "Slate": #1, {new}',
    range="Reedbank Acrylics",
    code="=007",
    edition="2nd",
    aliases=("slate", "no"),
    kind=Kind.METALLIC,
    colour="#4c5660",
    finish="satin",
    covers="well",
    binder="acrylic",
    comes_as="pot",
    size=12.5,
    price=2.8,
    owned=3,
    discontinued=True,
    hazards=("EUH208 1,2-benzisothiazolin-3-one", "H317"),
    note="- thin\\it",
)


def test_a_table_comes_back_whole():
    back = read_csv(write_csv([FULL, OCHRE]))
    assert back.problems == ()
    assert back.paints == (FULL, OCHRE)


def test_a_palette_of_the_archive_as_rows():
    paint = pot("Kelp Wash", "#3b4427", "wash", range="Ninelock", hazards=(named("EUH210"),), owned=2)
    assert row_of(paint) == PaintRow(
        name="Kelp Wash", range="Ninelock", colour="#3b4427", kind=Kind.WASH, hazards=("EUH210",), owned=2
    )


def test_a_palette_file_says_what_was_meant():
    text = palette_yaml([FULL, PaintRow(name="no")], ["From quay.csv", "with # and\nlines"])
    assert text.startswith("# From quay.csv\n# with # and lines\npaints:\n  - name: ")
    first, second = yaml.safe_load(text)["paints"]
    assert second == {"name": "no"}
    assert first["name"] == FULL.name
    assert first["code"] == "=007"
    assert first["aliases"] == ["slate", "no"]
    assert (first["colour"], first["size"], first["price"]) == ("#4c5660", "12.5 ml", 2.8)
    assert (first["owned"], first["discontinued"], first["note"]) == (3, True, "- thin\\it")
    assert first["hazards"] == list(FULL.hazards)


def test_a_palette_file_of_nothing():
    assert yaml.safe_load(palette_yaml([])) == {"paints": []}


def test_a_number_of_thousands_of_digits_is_no_colour():
    found = read_gpl(f"GIMP Palette\n{'9' * 5_000} 0 0 Deckhand\n0 0 0 Kiln Row\n")
    assert [paint.name for paint in found.paints] == ["Kiln Row"]
    assert "is no colour" in found.problems[0].message
