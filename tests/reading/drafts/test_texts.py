"""What a draft reads like: whose words are its text, what its steps are called, and what stands nowhere twice."""

from __future__ import annotations

from support.recordings import town_palette

from guidegen.reading.drafts.guide_text import Heading, guide_text
from guidegen.reading.drafts.sources import draft_of, read_source

HEADING = Heading(title="Rope makers", date="2026-03-14")


def written(name: str, text: str) -> str:
    draft = draft_of([read_source(name, text.encode(), town_palette())])
    assert draft is not None
    return guide_text(draft, HEADING)


def film(*cues: str) -> str:
    timed = (f"00:00:{at * 3:02}.000 --> 00:00:{at * 3 + 2:02}.900\n{cue}\n" for at, cue in enumerate(cues))
    return "WEBVTT\n\n" + "\n".join(timed)


def test_whoever_asks_by_arrows_writes_no_text_and_sets_no_time():
    guide = written(
        "film.vtt",
        film(
            ">> so rope makers",
            ">> are they grey already?",
            ">> Slate Undercoat, from the can. Then the smocks in Sluice Teal.",
            ">> an hour?",
            ">> Twenty minutes.",
            ">> I only have Pilot's Jersey",
            ">> that'll do as well.",
        ),
    )
    front, body = guide.split("\n---\n")
    assert "dry: 20 min" in front
    assert "instead: [Pilot's Jersey]" in front
    assert "an hour" not in body.lower()
    assert "I only have" not in body


def test_what_the_figures_are_called_is_no_area_of_their_undercoat():
    guide = written("film.vtt", film("First the rope makers.", "They're in Slate Undercoat, from the can."))
    assert "area: rope" not in guide


def test_a_negation_is_not_cut_off_where_captions_have_no_full_stops():
    cues = (
        "so first the skirts and they are Tidewrack now",
        "right so shade time Kelp Wash on the skirts",
        "don't let it pool at the hem and um",
        "then we take all the faces in Deckhand and",
        "and then we also do the aprons in Ropewalk",
        "and that is it for now thank you all",
    )
    guide = written("film.vtt", film(*cues))
    assert "don't let it pool" in guide.lower()


def test_a_sentence_that_is_talked_over_is_no_caution():
    guide = written("film.vtt", film(">> The hands are Deckhand. Don't go over the", ">> Oops."))
    assert "mind:" not in guide
    assert "# also said: Don't go over the" in guide


def test_a_table_with_one_task_in_many_rows_has_titles_that_tell_them_apart():
    guide = written(
        "tabelle.csv",
        "Arbeitsgang,Teil,Farbe,Werkzeug,Anmerkung\nGrundfarbe,Rumpf,Night Crossing,Pinsel 4,zwei Schichten\n"
        "Grundfarbe,Deck,Jetty Plank,Pinsel 2,Ropewalk\nLackieren,alles,Calm Matt,Dose,\n",
    )
    assert 'step: "Grundfarbe: Rumpf"' in guide
    assert "area: Deck" in guide
    assert "coats: 2" in guide
    assert "mind:" not in guide
    assert "instead: [Ropewalk]" in guide
    assert "brush: Dose" not in guide


def test_an_area_has_one_name_throughout():
    guide = written(
        "notes.md", "- Hoods: Jetty Plank\n- Caps: Eel Pie\n- Cape: Kiln Row\n- Hood edges: Toll Biscuit\n"
    )
    assert guide.count("area: hoods") == 2
    assert "area: cape" in guide


def test_a_remark_beside_substitutes_is_none():
    guide = written(
        "table.csv",
        "Step,Paint,Alternative\nCoats,Night Crossing,Pilot's Jersey\nVarnish,Calm Matt,outdoors!\n",
    )
    assert "instead: [Pilot's Jersey]" in guide
    assert "mind: outdoors!" in guide


def test_a_heading_over_two_columns_of_paints_and_hours_are_read():
    guide = written(
        "table.csv",
        "Part,Paint,,Ratio,Dry [h]\n,first,second,,\nCoat,Kiln Row,Toll Biscuit,3:1,0.5\nHat,Eel Pie,Kiln Row,2:1,1\n",
    )
    assert "paint: {Kiln Row: 3, Toll Biscuit: 1}" in guide
    assert "dry: 30 min" in guide
    assert "dry: 60 min" in guide


def test_a_question_tells_neither_thinning_nor_an_area():
    guide = written(
        "film.vtt",
        film(
            ">> First the dresses in Pilot's Jersey.",
            ">> Do I water it down?",
            ">> A little. Two of them get Jetty Plank hair.",
            ">> Heron's Back for the others.",
            ">> And is the skin Deckhand again?",
            ">> Yes.",
        ),
    )
    assert "thin: do i" not in guide
    assert "area: skin\n    paint: Heron's Back" not in guide
