"""Paint lists as clubs keep them: German headings, a title above, names alone, and workbooks, hostile ones too."""

from __future__ import annotations

import io
import zipfile
from typing import Any

import pytest

from guidegen.model.paint import Kind
from guidegen.reading.paint_lists import workbook
from guidegen.reading.paint_lists.any_list import read_palette_bytes, read_palette_text
from guidegen.reading.paint_lists.rows import PaintRow
from guidegen.reading.paint_lists.workbook import read_workbook

OCHRE = PaintRow(name="Oilskin Ochre", range="Reedbank Acrylics", colour="#b8862f", owned=2)


@pytest.mark.parametrize(
    "text",
    [
        "Name;Hersteller;Farbe;Bestand\nOilskin Ochre;Reedbank Acrylics;#b8862f;2\n",
        "Hersteller;Name;Farbton;Bestand\nReedbank Acrylics;Oilskin Ochre;#b8862f;2\n",
        "Farbname (deutsch);Hersteller / Reihe;Farbe (Hex);habe ich\nOilskin Ochre;Reedbank Acrylics;b8862f;2\n",
        "Farbton;Hersteller;Hex;Bestand\nOilskin Ochre;Reedbank Acrylics;b8862f;2\n",
        "Bezeichnung;Marke;Hex-Wert;Anzahl\nOilskin Ochre;Reedbank Acrylics;b8862f;2\n",
        "Farbe;Reihe;Rot;Grün;Blau;Stück\nOilskin Ochre;Reedbank Acrylics;184;134;47;2\n",
        "Farbname\tSerie\tFarbcode\tVorrat\nOilskin Ochre\tReedbank Acrylics\t#B8862F\t2 Stück\n",
        "Our paints\n\nName;Brand;Hex;Owned\nOilskin Ochre;Reedbank Acrylics;#b8862f;2\n",
        "Farben des Vereins;;;\nStand: März;;;\n;;;\nName;Marke;Hex;Bestand\nOilskin Ochre;Reedbank Acrylics;#b8862f;2\n",
    ],
)
def test_headings_in_german_and_below_a_title(text: str):
    found = read_palette_text(text)
    assert found.problems == ()
    assert found.paints == (OCHRE,)


def test_german_cells():
    (paint,) = read_palette_text(
        "Name;Art;Glanz;Deckkraft;Gebinde;Preis;Größe;eingestellt;Hex\n"
        "Teerschwarz;Grundierung;seidenmatt;gut;Dose;2,80 €;400 ml;ja;2b2724\n"
    ).paints
    assert (paint.kind, paint.finish, paint.covers, paint.comes_as) == (Kind.PRIMER, "satin", "well", "can")
    assert (paint.price, paint.size, paint.discontinued) == (2.8, 400.0, True)


def test_where_farbe_is_the_only_name():
    found = read_palette_text("Farbe;Marke\nOilskin Ochre;Reedbank Acrylics\n")
    assert [(paint.name, paint.range) for paint in found.paints] == [("Oilskin Ochre", "Reedbank Acrylics")]


def test_names_alone_one_a_line():
    found = read_palette_text("Oilskin Ochre\n\n- Ropewalk\n3. Fisherman's Cheek\nReedbank Acrylics / Fog\n")
    assert [(paint.name, paint.range) for paint in found.paints] == [
        ("Oilskin Ochre", ""),
        ("Ropewalk", ""),
        ("Fisherman's Cheek", ""),
        ("Fog", "Reedbank Acrylics"),
    ]
    assert [problem.message for problem in found.problems] == [
        f"“{name}” has no colour; add it in the palette."
        for name in ("Oilskin Ochre", "Ropewalk", "Fisherman's Cheek", "Reedbank Acrylics / Fog")
    ]


@pytest.mark.parametrize(
    "text",
    [
        "apples, pears\n",
        "<html>\n<body>\n",
        "A sentence that goes on and on for longer than any label of a pot has ever been.\n",
        "{name: Ochre}\n",
    ],
)
def test_other_text_is_no_list_of_names(text: str):
    found = read_palette_text(text)
    assert found.paints == ()
    assert "has to say what the columns are" in found.problems[0].message


def book(*sheets: list[list[Any]]) -> bytes:
    import openpyxl

    made = openpyxl.Workbook()
    made.remove(made.active)
    for rows in sheets:
        sheet = made.create_sheet()
        for row in rows:
            sheet.append(row)
    out = io.BytesIO()
    made.save(out)
    return out.getvalue()


def test_a_workbook():
    rows = [
        ["Our paints"],
        [],
        ["Name", "Marke", "Hex", "Bestand", "Preis"],
        ["Oilskin Ochre", "Reedbank Acrylics", "#b8862f", 2.0, None],
        ["Fog", "Reedbank Acrylics", "aab4b8", True, 2.8],
        [None, "Reedbank Acrylics"],
    ]
    found = read_palette_bytes(book([["nothing", "here"]], rows))
    assert found.paints == (
        OCHRE,
        PaintRow(name="Fog", range="Reedbank Acrylics", colour="#aab4b8", owned=1, price=2.8),
    )
    assert [problem.line for problem in found.problems] == [6]


def test_names_alone_in_a_workbook():
    found = read_palette_bytes(book([["Oilskin Ochre"], ["Fog"]]))
    assert [paint.name for paint in found.paints] == ["Oilskin Ochre", "Fog"]


def refused(data: bytes) -> str:
    found = read_palette_bytes(data)
    assert found.paints == ()
    (problem,) = found.problems
    return problem.message


def rebuilt(data: bytes, part: str, text: bytes) -> bytes:
    """A workbook with other bytes in one part."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for info in old.infolist():
            if info.filename != part:
                new.writestr(info.filename, old.read(info))
        new.writestr(part, text)
    return out.getvalue()


SOUND = book([["name", "hex"], ["Fog", "aab4b8"]])


def test_more_than_any_list_has_in_it(monkeypatch: pytest.MonkeyPatch):
    assert "There is more in the workbook" in refused(
        rebuilt(SOUND, "xl/media/blank.bin", bytes(workbook.LARGEST_UNPACKED + 1))
    )
    monkeypatch.setattr(workbook, "MOST_PARTS", 3)
    assert "There is more in the workbook" in refused(SOUND)


@pytest.mark.parametrize("coding", ["utf-8", "utf-16", "utf-16-le"])
def test_entities(coding: str):
    sheet = '<!DOCTYPE a [<!ENTITY b "Fog">]><worksheet><sheetData><row><c><v>&b;</v></c></row></sheetData></worksheet>'
    assert "a part that no list of paints has" in refused(
        rebuilt(SOUND, "xl/worksheets/sheet1.xml", sheet.encode(coding))
    )


def test_a_row_far_down_and_a_size_that_is_not_true():
    sheet = (
        b'<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><dimension ref="A1:XFD1048576"/>'
        b'<sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>name</t></is></c></row>'
        b'<row r="2"><c r="A2" t="inlineStr"><is><t>Fog</t></is></c></row>'
        b'<row r="999999999"><c r="A999999999" t="inlineStr"><is><t>Far</t></is></c></row></sheetData></worksheet>'
    )
    found = read_workbook(rebuilt(SOUND, "xl/worksheets/sheet1.xml", sheet))
    assert [paint.name for paint in found.paints] == ["Fog"]


@pytest.mark.parametrize(
    "data", [b"PK\x03\x04", SOUND[:200], SOUND[: len(SOUND) // 2], b"PK\x03\x04" + bytes(500)]
)
def test_a_broken_one(data: bytes):
    assert "cannot be read" in refused(data)


def test_another_kind_of_archive():
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("mimetype", "application/vnd.oasis.opendocument.spreadsheet")
    assert "cannot be read" in refused(out.getvalue())
