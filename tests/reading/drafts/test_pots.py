"""Pots in words: misheard, cut short, written in another way, and never where nobody named one."""

from __future__ import annotations

import pytest
from support.paths import CASES
from support.recordings import town_palette

from guidegen.base.name_sounds import sound_of
from guidegen.reading.drafts.pots import PotFinder
from guidegen.reading.drafts.records import Cue
from guidegen.reading.drafts.sentences import tokens_of
from guidegen.words.spoken_words import spoken_words

FINDER = PotFinder(town_palette(), spoken_words("en"))
LINES = [
    line
    for line in (CASES / "spoken/misheard.txt").read_text(encoding="utf-8").splitlines()
    if not line.startswith("#")
]
# What is too far from any name, and not put right.
MOST_LOST = 3


def named(text: str) -> list[tuple[str, bool]]:
    return [(mention.pot.name, mention.sure) for mention in FINDER.find(tokens_of([Cue(text, 1)]))]


def test_misheard_names_are_put_right():
    pairs = [line.split(" = ") for line in LINES if " = " in line]
    found = {heard: named(f"and then we take some {heard} and paint the next part") for heard, _ in pairs}
    lost = [
        heard for heard, name in pairs if found[heard] != [(name, False)] and found[heard] != [(name, True)]
    ]
    assert len(lost) <= MOST_LOST, lost
    assert all(found[heard] == [] for heard in lost), "another pot was taken for it"


@pytest.mark.parametrize("talk", [line.removeprefix("- ") for line in LINES if line.startswith("- ")])
def test_ordinary_talk_names_no_pot(talk: str):
    assert [name for name, sure in named(talk) if not sure] == []


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("mudlarks boots", ["Mudlark's Boots"]),
        ("MUDLARK’S BOOTS", ["Mudlark's Boots"]),
        ("Reedbank Acrylics Kiln Row", ["Kiln Row"]),
        ("RB-31", ["Kiln Row"]),
        ("ferry yellow", ["Oilskin Ochre"]),
        ("wet wool", ["Wet Wool wash"]),
        ("Kiln Row, then the row of tiles", ["Kiln Row"]),
        ("screw lid Plum Barge", ["Plum Barge"]),
        ("RB-39", []),
        ("Kiln Row 2", ["Kiln Row"]),
        ("the water, the sun and the boots", []),
    ],
)
def test_names_as_they_are_said(text: str, names: list[str]):
    assert [name for name, _ in named(text)] == names


def test_of_two_editions_the_one_that_is_sold_is_meant():
    mention = FINDER.find(tokens_of([Cue("Plum Barge", 1)]))[0]
    assert FINDER.label(mention.pot) == "Plum Barge (screw lid)"


def test_what_sounds_alike_has_one_key():
    assert sound_of("sluiceteal", "en") == sound_of("slewsteel", "en")
    assert sound_of("meyer", "de") == sound_of("maier", "de") == "67"
    assert sound_of("breschnew", "de") == "17863"
