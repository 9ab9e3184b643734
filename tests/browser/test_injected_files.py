"""What else is written of hostile content holds no line, event, cue, cell or element of an author's own."""

from __future__ import annotations

import csv
import io
import json
import re
from pathlib import Path

from abuse.injected_texts import TEXTS


def test_tables_hold_no_formula_and_no_line_of_another(made: Path):
    """Common practice among spreadsheets, no source: a cell that begins with one of these signs is reckoned."""
    tables = [*(made / "site").rglob("*.csv")]
    assert len(tables) > len(TEXTS)
    for path in tables:
        rows = list(csv.reader(io.StringIO(path.read_text(encoding="utf-8"), newline=""), strict=True))
        assert {len(row) for row in rows} == {len(rows[0])}, path
        for row in rows[1:]:
            for cell in row:
                number = re.fullmatch(r"-?[\d.]+", cell)
                assert number or not re.match(r"\s*[=+\-@\uff1d\uff0b\uff0d\uff20]|[\t\r\n]", cell), (
                    path,
                    cell,
                )


def test_calendars_hold_their_own_events_alone(made: Path):
    from icalendar import Calendar

    calendars = [*(made / "site").rglob("*.ics")]
    assert len(calendars) >= len(TEXTS)
    for path in calendars:
        data = path.read_bytes()
        lines = data.split(b"\r\n")
        assert b"\n" not in data.replace(b"\r\n", b"")
        assert b"\r" not in data.replace(b"\r\n", b"")
        assert all(len(line) <= 75 for line in lines)  # RFC 5545, section 3.1
        parsed = Calendar.from_ical(data)
        assert {one.name for one in parsed.walk()} <= {
            "VCALENDAR",
            "VEVENT",
            "VTIMEZONE",
            "STANDARD",
            "DAYLIGHT",
        }
        assert lines.count(b"BEGIN:VCALENDAR") == lines.count(b"END:VCALENDAR") == 1
        for event in parsed.walk("VEVENT"):
            assert not {"ATTACH", "ATTENDEE", "ORGANIZER", "RRULE"} & set(event)


def test_chapters_and_palettes_and_lists_hold_no_line_of_another(made: Path):
    """WebVTT, section 4: a cue is a number, a time and a text, and nothing else begins one."""
    for number in range(len(TEXTS)):
        folder = made / f"site/guides/text-{number:02}"
        cues = (folder / "chapters.vtt").read_text(encoding="utf-8").split("\n\n")
        assert cues[0] == "WEBVTT"
        assert all(re.fullmatch(r"\d+\n[\d:.]+ --> [\d:.]+\n[^\n<>]+\n?", cue) for cue in cues[1:]), cues
        assert len(cues) == 2
        for line in (folder / "palette.gpl").read_text(encoding="utf-8").splitlines()[1:]:
            assert re.match(r"(?:Name|Columns): |#|\s*\d+\s+\d+\s+\d+\t", line), line
        json.loads((folder / "guide.json").read_text(encoding="utf-8"))


def test_feed_and_list_of_pages_hold_their_own_elements_alone(made: Path):
    from lxml import etree

    for name, space in (
        ("feed.xml", "http://www.w3.org/2005/Atom"),
        ("sitemap.xml", "http://www.sitemaps.org/schemas/sitemap/0.9"),
    ):
        root = etree.parse(made / "site" / name).getroot()
        assert {etree.QName(one).namespace for one in root.iter(etree.Element)} == {space}
        assert not list(root.iter(etree.ProcessingInstruction, etree.Comment, etree.Entity))
        for one in root.iter(etree.Element):
            address = one.get("href") or (
                one.text if etree.QName(one).localname in {"loc", "id", "uri"} else None
            )
            if address:
                assert re.match(r"https://outside\.example/club/[\x21-\x7e]*$|tag:", address), address
            if one.get("type") == "html":
                assert "<script" not in (one.text or "")


def test_every_address_in_the_site_is_plain(made: Path):
    """File names that authors chose never show in the site's own."""
    for path in (made / "site").rglob("*"):
        name = path.relative_to(made / "site").as_posix()
        assert re.fullmatch(r"[a-z0-9/._-]+", name) or name.startswith(".guidegen"), name
