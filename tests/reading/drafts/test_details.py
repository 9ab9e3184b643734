"""Technique, drying, parts and stops, sentence by sentence: `tests/cases/spoken/details.txt`."""

from __future__ import annotations

import re

import pytest
from support.paths import CASES
from support.recordings import town_palette

from guidegen.base.units import MINUTE
from guidegen.reading.drafts.notes import NoteReader
from guidegen.reading.drafts.pots import PotFinder
from guidegen.reading.drafts.prose import Teller
from guidegen.reading.drafts.records import Cue, DraftStop
from guidegen.reading.drafts.techniques import technique_said
from guidegen.words.spoken_words import spoken_words

LINES = [
    line
    for line in (CASES / "spoken/details.txt").read_text(encoding="utf-8").splitlines()
    if line and not line.startswith("#")
]
FINDERS = {code: PotFinder(town_palette(), spoken_words(code)) for code in ("en", "de")}
FIRST = {"en": "First the wall in Jetty Plank.", "de": "Zuerst die Wand in Jetty Plank."}
BEFORE = {"en": "First the roof in Kiln Row. ", "de": "Zuerst das Dach in Kiln Row. "}


@pytest.mark.parametrize("line", LINES)
def test_what_a_sentence_tells_of_its_step(line: str):
    head, text = line.split(" = ", 1)
    language, what, wanted = head.split(" ", 2)
    opening = (BEFORE[language] if wanted == "layer" else "") + FIRST[language]
    sentences = re.split(r"(?<=[.!?]) ", f"{opening} {text}")
    cues = [Cue(one, at, at * 4_000, at * 4_000 + 3_900) for at, one in enumerate(sentences)]
    draft = Teller(FINDERS[language], FINDERS[language].words).tell(cues)
    step = draft.steps[-1]
    if what == "stop":
        assert any(isinstance(entry, DraftStop) for entry in draft.entries) is (wanted == "yes")
        return
    assert "Kiln Row" in step.paints
    told = {
        "technique": step.technique,
        "dry": str(step.dry // MINUTE) if step.dry else "none",
        "parts": f"{step.parts.get('Kiln Row')} {step.parts.get('Toll Biscuit')}".replace("a touch", "touch"),
    }
    assert told[what] == wanted


@pytest.mark.parametrize(
    ("text", "technique"),
    [
        ("undercoat : wharf grey , 10 min", "spray undercoat"),
        ("primer first", "spray undercoat"),
        ("over the undercoat", ""),
    ],
)
def test_a_line_that_begins_with_the_undercoat_is_one(text: str, technique: str):
    assert technique_said(text, spoken_words("en")) == technique


@pytest.mark.parametrize(
    ("code", "text", "brush"),
    [
        ("en", "- roof: Kiln Row, sz 1", "size 1"),
        ("en", "- roof: Kiln Row, no. 2 brush", "number 2 brush"),
        ("de", "- Dach: Kiln Row, Gr. 1", "größe 1"),
    ],
)
def test_what_notes_cut_short_is_written_out(code: str, text: str, brush: str):
    steps = NoteReader(FINDERS[code], spoken_words(code)).read(f"{text}\n- door: Sluice Teal").steps
    assert [step.brush for step in steps] == [brush, ""]


@pytest.mark.parametrize(
    ("code", "text", "areas"),
    [
        (
            "en",
            "Bilge Wash over the coats and trousers, nice and even, then Silt Wash on the faces.",
            [["coats", "trousers"], ["faces"]],
        ),
        ("en", "The boots get Jetty Plank and the hats Eel Pie.", [["boots"], ["hats"]]),
        ("en", "Deckhand goes on the upper folds of the coat.", [["coat"]]),
        (
            "de",
            "Über die Mäntel kommt Bilge Wash, über die Gesichter Silt Wash.",
            [["mäntel"], ["gesichter"]],
        ),
    ],
)
def test_each_pot_of_a_sentence_has_its_own_areas(code: str, text: str, areas: list[list[str]]):
    draft = Teller(FINDERS[code], FINDERS[code].words).tell([Cue(text, 1, 0, 4_000)])
    assert [step.areas for step in draft.steps] == areas
