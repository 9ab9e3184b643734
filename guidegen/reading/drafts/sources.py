"""A file of whatever kind as a draft: which kind it is shows in its name and in how it begins."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import PurePath

from guidegen.model.paint import Palette
from guidegen.reading.drafts.bench_log import Logged, add_times, is_log, read_log, steps_of_log
from guidegen.reading.drafts.captions import read_captions
from guidegen.reading.drafts.documents import text_of_document
from guidegen.reading.drafts.joined_drafts import joined
from guidegen.reading.drafts.notes import NoteReader
from guidegen.reading.drafts.pots import PotFinder
from guidegen.reading.drafts.prose import Teller
from guidegen.reading.drafts.records import Draft
from guidegen.reading.drafts.tables import headings_found, language_of_table, read_step_table
from guidegen.reading.paint_lists.csv_list import Line, tables_of
from guidegen.reading.paint_lists.rows import Problem
from guidegen.reading.paint_lists.workbook import is_workbook, sheets_of
from guidegen.words.spoken_words import language_of_words, spoken_words

# Hours of captions, or a thick book of notes.
LARGEST_FILE = 10_000_000
LARGEST_TEXT = 2_000_000
# Words beyond these are not looked at.
MOST_WORDS = 60_000
# No guide has so many steps; what follows them is left out, and said.
MOST_ENTRIES = 500

CAPTIONS = (".vtt", ".srt")
NOTES = (".txt", ".md", ".docx")
TABLES = (".csv", ".tsv", ".xlsx")
ENDINGS = (*CAPTIONS, *NOTES, *TABLES)


@dataclass(slots=True, kw_only=True)
class FromFile:
    """What one file gives: a draft or a log, what could not be read, or, of a guide, its text as it is."""

    name: str
    kind: str = ""
    draft: Draft | None = None
    log: tuple[Logged, ...] = ()
    guide: str = ""
    problems: list[Problem] = field(default_factory=list)


def read_source(name: str, data: bytes, palette: Palette, chart: Sequence[str] = ()) -> FromFile:
    """The draft of one file. Nothing that a file contains makes this raise."""
    ending = PurePath(name).suffix.lower()
    found = FromFile(name=name)
    if ending == ".docx":
        document = text_of_document(data)
        if isinstance(document, str):
            return _from_notes(found, document, palette, chart)
        found.problems.append(document)
        return found
    if ending == ".xlsx" or (ending in TABLES and is_workbook(data)):
        sheets = sheets_of(data)
        if isinstance(sheets, str):
            found.problems.append(Problem(1, f"{sheets} Save the table as CSV."))
            return found
        return _from_tables(found, [sheet for sheet in sheets if sheet], palette)
    text = _decoded(data, found)
    if text is None:
        return found
    if ending in CAPTIONS or text.lstrip("\ufeff").startswith("WEBVTT"):
        return _from_captions(found, text, palette, chart)
    if ending in TABLES:
        return _from_tables(found, [lines for lines in tables_of(text) if lines], palette)
    if ending == ".md" and _is_guide(text):
        found.kind, found.guide = "guide", text
        return found
    return _from_notes(found, text, palette, chart)


def _decoded(data: bytes, found: FromFile) -> str | None:
    """Text as programs save it: UTF-8, UTF-16 with its mark, or the code page of Western Windows."""
    if len(data) > LARGEST_TEXT:
        found.problems.append(Problem(1, f"The file is larger than {LARGEST_TEXT:,} bytes."))
        return None
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        text = data.decode("utf-16", errors="replace")
    else:
        try:
            text = data.decode("utf-8-sig")
        except UnicodeDecodeError as error:
            text = data.decode("cp1252", errors="replace")
            line = data.count(b"\n", 0, error.start) + 1
            if sum(byte < 9 or 13 < byte < 32 for byte in data[:4_000]) > 20:
                found.problems.append(Problem(line, "This is no text."))
                return None
    if "\0" in text:
        line = text.count("\n", 0, text.index("\0")) + 1
        found.problems.append(Problem(line, "There is a NUL character in it, so it is no text."))
        return None
    return text


def _from_captions(found: FromFile, text: str, palette: Palette, chart: Sequence[str]) -> FromFile:
    found.kind = "captions"
    captions = read_captions(text)
    found.problems += captions.problems
    said = [word for cue in captions.cues[:5_000] for word in cue.text.lower().split()]
    words = spoken_words(captions.language or language_of_words(said))
    if captions.cues:
        if sum(len(cue.text.split()) for cue in captions.cues) > MOST_WORDS:
            found.problems.append(Problem(1, f"More than {MOST_WORDS:,} words are said, which is no film."))
            return found
        found.draft = Teller(PotFinder(palette, words), words, chart).tell(captions.cues)
    return found


def _from_notes(found: FromFile, text: str, palette: Palette, chart: Sequence[str]) -> FromFile:
    found.kind = "notes"
    said = text.lower().split()
    if len(said) > MOST_WORDS:
        found.problems.append(
            Problem(1, f"There are more than {MOST_WORDS:,} words in it, which are no notes.")
        )
        return found
    if not said:
        found.problems.append(Problem(1, "There is nothing in the file."))
        return found
    words = spoken_words(language_of_words([re.sub(r"\W", "", word) for word in said[:20_000]]))
    found.draft = NoteReader(PotFinder(palette, words), words, chart).read(text)
    return found


def _from_tables(
    found: FromFile, tables: list[list[Line]] | list[Sequence[Line]], palette: Palette
) -> FromFile:
    found.kind = "table"
    if not tables:
        found.problems.append(Problem(1, "There is nothing in the file."))
        return found
    log = next((lines for lines in tables if is_log(lines)), None)
    if log is not None:
        found.kind, found.log = "log", read_log(log)
        if not found.log:
            found.problems.append(
                Problem(1, "No row of the log has a step with times such as 2026-03-14T20:05.")
            )
        return found
    lines = max(tables, key=headings_found)
    words = spoken_words(language_of_table(lines))
    found.draft, problems = read_step_table(lines, PotFinder(palette, words), words)
    found.problems += problems
    return found


def _is_guide(text: str) -> bool:
    """Whether a Markdown file begins with front matter that has steps."""
    front = re.match(r"\ufeff?\s*---[ \t]*\r?\n(.*?)\r?\n---[ \t]*(?:\r?\n|\Z)", text, re.DOTALL)
    return front is not None and re.search(r"^steps\s*:", front[1], re.MULTILINE) is not None


def draft_of(sources: Sequence[FromFile]) -> Draft | None:
    """One draft out of all files: captions first, then notes, then tables, then the bench's log."""
    order = {"captions": 0, "notes": 1, "table": 2}
    told = sorted((one for one in sources if one.draft is not None), key=lambda one: order[one.kind])
    draft: Draft | None = None
    for source in told:
        assert source.draft is not None  # noqa: S101  chosen by it
        draft = source.draft if draft is None else joined(draft, source.draft, wins=source.kind == "table")
    if draft is not None and len(draft.entries) > MOST_ENTRIES:
        draft.remarks.append(
            f"There were {len(draft.entries):,} steps and stops; the first {MOST_ENTRIES} are here."
        )
        del draft.entries[MOST_ENTRIES:]
    log = [one for source in sources for one in source.log]
    if log and draft is None:
        return steps_of_log(log, "en")
    if log and draft is not None:
        add_times(draft, log)
    return draft


def as_draft(text: str) -> str:
    """A guide's file with `draft: yes` in its front matter, and otherwise as it is."""
    opening = re.match(r"\ufeff?\s*---[ \t]*\r?\n", text)
    if opening is None:
        return text
    begin, rest = text[: opening.end()], text[opening.end() :]
    end = re.search(r"^---[ \t]*\r?$", rest, re.MULTILINE)
    front = rest[: end.start()] if end else ""
    marked, count = re.subn(r"^draft\s*:.*$", "draft: yes", front, count=1, flags=re.MULTILINE)
    return f"{begin}{marked}{rest[len(front) :]}" if count else f"{begin}draft: yes\n{rest}"
