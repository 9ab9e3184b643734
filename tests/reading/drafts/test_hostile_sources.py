"""Files of each kind that nobody wrote in good faith: a sentence with a line, never more work than a bound allows."""

from __future__ import annotations

import io
import zipfile

import pytest
from support.recordings import town_palette

from guidegen.base.source import Source
from guidegen.reading.content.guide import read_guide
from guidegen.reading.drafts import sources
from guidegen.reading.drafts.captions import MOST_CUES, read_captions
from guidegen.reading.drafts.guide_text import Heading, give_titles, guide_text
from guidegen.reading.drafts.records import Draft, DraftStep
from guidegen.reading.drafts.sources import MOST_ENTRIES, FromFile, read_source


def read(name: str, data: bytes | str) -> FromFile:
    return read_source(name, data.encode() if isinstance(data, str) else data, town_palette())


def packed(**parts: bytes) -> bytes:
    """A ZIP archive of these parts; `__` in a name stands for a slash, `_dot_` for a dot."""
    file = io.BytesIO()
    with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in parts.items():
            archive.writestr(name.replace("__", "/").replace("_dot_", "."), data)
    return file.getvalue()


@pytest.mark.parametrize("ending", sources.ENDINGS)
@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\0",
        b"\0" * 5_000,
        b"\xff\xfe\xff",
        b"\xff" * 3_000,
        b"PK\x03\x04",
        b"<" * 9_000,
        b"-->\n" * 2_000,
        b"\x1b[31m" * 900,
        b"a" * 100_000,
        b"1. " * 5_000,
        b"\xc2\xa73 \xc2\xa40 \n" * 300,
        b'"' * 5_000,
        b"\r" * 3_000,
    ],
    ids=[str(n) for n in range(14)],
)
def test_nothing_that_a_file_contains_raises(ending: str, data: bytes):
    found = read(f"x{ending}", data)
    assert found.problems or found.draft is not None
    assert all(problem.line >= 1 and problem.message.endswith(".") for problem in found.problems)


@pytest.mark.parametrize(
    ("name", "data", "line", "words"),
    [
        ("film.vtt", "WEBVTT\n\nno times here\n", 1, "no captions"),
        ("film.srt", "1\n00:99:99,000 --> 00:01:00,000\nhello\n", 2, "time of the caption"),
        ("notes.txt", "one\ntwo\0\n", 2, "NUL"),
        ("notes.md", b"first\nsecond\n" + bytes(range(1, 9)) * 9 + b"\xff", 3, "no text"),
        ("table.csv", "one,two\n1,2\n", 1, "No row says what the columns are"),
        ("table.csv", 'step,paint\n"Coat,Kiln Row\n', 2, "quotation mark"),
        ("log.csv", "step,begun,ended,figures\nCoats,yesterday,today,5\n", 1, "No row of the log"),
        ("notes.docx", b"no archive", 1, "cannot be read"),
        ("table.xlsx", b"PK\x03\x04 broken", 1, "cannot be read"),
    ],
)
def test_what_cannot_be_read_is_told_with_its_line(name: str, data: bytes | str, line: int, words: str):
    problems = read(name, data).problems
    assert [(problem.line, words in problem.message) for problem in problems] == [(line, True)]


def test_a_million_captions_are_not_read():
    text = "WEBVTT\n\n" + "".join(
        f"{n // 3600:02}:{n // 60 % 60:02}:{n % 60:02}.000 --> {n // 3600:02}:{n // 60 % 60:02}:{n % 60:02}.900\nword{n}\n\n"
        for n in range(MOST_CUES + 5)
    )
    found = read_captions(text)
    assert len(found.cues) == MOST_CUES
    assert "more than 20,000 captions" in found.problems[0].message


def test_a_text_that_is_too_long_is_refused(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(sources, "LARGEST_TEXT", 50)
    monkeypatch.setattr(sources, "MOST_WORDS", 5)
    assert "larger than 50 bytes" in read("notes.txt", "Kiln Row " * 20).problems[0].message
    assert "more than 5 words" in read("notes.txt", "1 2 3 4 5 6").problems[0].message
    assert "More than 5 words" in read("f.srt", "00:01,000 --> 00:02,000\n1 2 3 4 5 6").problems[0].message


@pytest.mark.parametrize("name", ["bomb.docx", "bomb.xlsx"])
def test_a_packed_file_that_becomes_huge_is_not_unpacked(name: str):
    part = b"<w>" + b" " * 40_000_000 + b"</w>"
    data = packed(word__document_dot_xml=part, xl__workbook_dot_xml=part)
    assert len(data) < 200_000
    assert "more in the" in read(name, data).problems[0].message


@pytest.mark.parametrize("name", ["laughs.docx", "laughs.xlsx"])
def test_entities_are_refused(name: str):
    part = b'<!DOCTYPE x [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]><x>&b;</x>'
    data = packed(word__document_dot_xml=part, xl__workbook_dot_xml=part)
    assert len(read(name, data).problems) == 1


def test_marks_of_patterns_and_yaml_do_no_harm():
    found = read("notes.txt", "1. Coat: Kiln Row --- § ¤ {x: [\n2. Hat: Eel Pie\n---\n")
    assert found.draft is not None
    assert [step.paints for step in found.draft.steps] == [["Kiln Row"], ["Eel Pie"]]


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("table.csv", "step,paint,dry\nCoats,Kiln Row,{}\n"),
        ("table.csv", "step,paint,coats\nCoats,Kiln Row,{}\n"),
        ("notes.txt", "Kiln Row on the coats.\nThe other {} got the same, twenty minutes or so.\n"),
    ],
    ids=["dry", "coats", "others"],
)
def test_a_number_past_all_numbers_is_none(name: str, text: str):
    found = read(name, text.format("9" * 400))
    assert found.draft is not None
    assert [step.each for step in found.draft.steps] == [None]


def test_a_cell_that_names_no_paint_beside_its_or():
    found = read("table.csv", "step,paint\nCoats,(or )\n")
    assert found.draft is not None
    assert [step.paints for step in found.draft.steps] == [[]]


def test_as_many_steps_as_a_draft_has_get_a_title_each():
    draft = Draft(language="en", entries=[DraftStep(technique="wash") for _ in range(MOST_ENTRIES)])
    give_titles(draft)
    assert len({step.title for step in draft.steps}) == MOST_ENTRIES


@pytest.mark.parametrize(
    ("name", "text"),
    [
        ("notes.txt", "1. Coat: 99999 parts Kiln Row and 1 part Eel Pie\n"),
        ("notes.txt", "1. Coat: 0 parts Kiln Row and 1 part Eel Pie\n"),
        ("table.csv", "step,paint,parts\nCoat,Kiln Row + Eel Pie,0:1\n"),
        ("table.csv", "step,paint,parts\nCoat,Kiln Row + Eel Pie,99999:1\n"),
    ],
    ids=["too many said", "none said", "none written", "too many written"],
)
def test_a_draft_has_only_parts_that_a_guide_can_have(name: str, text: str):
    draft = read(name, text).draft
    assert draft is not None
    written = guide_text(draft, Heading(title="Eels", date="2026-03-14"))
    _, told = read_guide(Source.from_bytes("guides/eels.md", written.encode()), slug="eels")
    assert [one.message for one in told] == []
