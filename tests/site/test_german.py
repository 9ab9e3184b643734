"""A whole site in German, built by the command: no word of the interface is left in English, and numbers are German."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from icalendar import Calendar
from support.languages import ENGLISH, GERMAN
from support.made_once import built_german

from guidegen.words.language import Phrase

SPOKEN = ("aria-label", "alt", "title", "placeholder")
# Files with keys and headings for programs, the same in every language, and what browsers alone read.
FOR_PROGRAMS = {"guide.json", ".guidegen-manifest.json", "offline.js", "sitemap.xml"}
# Names of others, and letters that German has too.
NO_ENGLISH = ("Health and Safety Executive",)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built_german(tmp_path_factory)


@cache
def page(site: Path, path: str) -> BeautifulSoup:
    return BeautifulSoup((site / path).read_text("utf-8"), "html.parser")


def said(soup: BeautifulSoup) -> Iterator[str]:
    """Everything that a reader sees, hears, or finds with a search engine."""
    for text in soup.find_all(string=True):
        if text.parent is not None and text.parent.name not in ("script", "style"):
            yield text
    for tag in soup.find_all(True):
        yield from (str(tag[name]) for name in SPOKEN if tag.has_attr(name))
        if tag.name == "meta" and str(tag.get("property", tag.get("name"))).split(":")[0] in {
            "og",
            "description",
        }:
            yield str(tag["content"])
    for block in soup.find_all("script", id=("clock-data", "bench-data")):
        data = json.loads(str(block.string))
        yield from map(str, data.get("words", data).values())


def fragments(phrase: Phrase) -> Iterator[str]:
    """The parts of a phrase between the values put in, those that are words."""
    for text in [phrase] if isinstance(phrase, str) else phrase.values():
        for part in re.split(r"\{\w+\}", text):
            bare = part.strip(" .,:;()·–")
            if len(re.findall(r"[^\W\d_]", bare)) > 2:
                yield bare


def test_no_word_of_the_interface_is_english(site: Path) -> None:
    german = " ".join(part for phrase in GERMAN.phrases.values() for part in fragments(phrase))
    parts = {
        part
        for phrase in ENGLISH.phrases.values()
        for part in fragments(phrase)
        if not re.search(rf"\b{re.escape(part)}\b", german)
    }
    assert len(parts) > 500
    english = re.compile("|".join(rf"\b{re.escape(part)}\b" for part in sorted(parts, key=len, reverse=True)))
    pages, left = 0, set()
    for file in sorted(site.rglob("*")):
        if file.suffix == ".html":
            texts = list(said(BeautifulSoup(file.read_text("utf-8"), "html.parser")))
            pages += 1
        elif file.suffix in (".txt", ".xml", ".webmanifest") and file.name not in FOR_PROGRAMS:
            texts = [re.sub(r"<[^>]*>", " ", file.read_text("utf-8"))]
        else:
            continue
        for text in texts:
            # Addresses, and the names by which values are put into a phrase, are no words of it.
            shown = re.sub(r"\{\w+\}|'\w+':|https?://\S+|tag:\S+", "", text)
            for name in NO_ENGLISH:
                shown = shown.replace(name, "")
            left |= {(file.name, found[0]) for found in english.finditer(shown)}
    assert pages > 30
    assert left == set()


def test_every_page_says_that_it_is_german(site: Path) -> None:
    for file in site.rglob("*.html"):
        soup = BeautifulSoup(file.read_text("utf-8"), "html.parser")
        assert soup.html is not None
        assert (soup.html["lang"], soup.html.get("dir", "ltr")) == ("de", "ltr"), file


def test_numbers_dates_and_money_of_a_guide(site: Path) -> None:
    text = page(site, "guides/faehrwache/index.html").get_text(" ")
    assert "14. März 2026" in text
    assert re.search(r"Was im Regal des Autors fehlt, kostet etwa \d+,\d\d\xa0€", text)
    assert "7 Tropfen, 0,37 ml" in text
    assert "1,5 Teile" in text
    assert not re.search(r"\d\.\d+ (?:ml|Teile|EUR)", text)


def test_a_technique_has_its_german_name_everywhere(site: Path) -> None:
    guide = page(site, "guides/faehrwache/index.html").get_text(" ")
    for name in ("Grundierung sprühen", "Kantenakzent", "Trockenbürsten", "Lasur", "Klarlack sprühen"):
        assert name in guide
        assert name in page(site, "techniques.html").get_text(" ")
    # What an author calls a technique that no table has stays the author's.
    assert "Föhnen" in guide


def test_cautions_come_without_an_english_word_in_the_guide(site: Path) -> None:
    text = page(site, "guides/faehrwache/index.html").get_text(" ")
    for caution in ("sprays", "blades", "super glue", "oily rags", "always"):
        assert str(GERMAN.phrases[f"care.{caution}.text"]) in text
    assert "Extrem entzündbares Aerosol." in text
    assert "Enthält 1,2-Benzisothiazol-3(2H)-on. Kann allergische Reaktionen hervorrufen." in text
    data = json.loads((site / "guides/faehrwache/guide.json").read_text("utf-8"))
    told = {caution["code"]: caution["text"] for caution in data["cautions"]}
    assert told["H222"] == "Extrem entzündbares Aerosol."


def test_a_plan_s_answers_and_its_calendar(site: Path) -> None:
    late = page(site, "plans/eilig/index.html").get_text(" ")
    assert re.search(r"Um \d+ Tage zu spät", late)
    assert "Frist, Mittwoch, 3. Juni 2026" in late
    assert "Rechtzeitig, mit" in page(site, "plans/regatta/index.html").get_text(" ")
    assert "Das wird nie fertig" in page(site, "plans/nie/index.html").get_text(" ")
    calendar = Calendar.from_ical((site / "plans/nie/plan.ics").read_bytes())
    (event,) = calendar.walk("VEVENT")
    assert str(event["description"]).startswith(
        "20:00 bis 20:14: Grundieren, Figuren 1–12 (Fährwache im nassen Ölzeug (Einheit 1))"
    )


def test_tables_keep_the_headings_that_programs_read(site: Path) -> None:
    for file in ("guides/faehrwache/materials.csv", "plans/nie/shopping.csv"):
        assert (site / file).read_text("utf-8-sig").startswith("what,name,edition,range,code,kind,colour,ml")


def test_the_list_for_under_a_film(site: Path) -> None:
    lines = (site / "guides/faehrwache/paints.txt").read_text("utf-8").splitlines()
    assert lines[2] == "Farben"
    assert "- Schilfbank / Ölzeugocker (7 Tropfen, 0,37 ml)" in lines
    assert lines[lines.index("Kapitel") + 1] == "0:00 Anfang"
