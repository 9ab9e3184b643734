"""What a pot is named for, sentence by sentence: `tests/cases/spoken/roles.txt`."""

from __future__ import annotations

import pytest
from support.paths import CASES
from support.recordings import town_palette

from guidegen.reading.drafts.pot_marks import heard
from guidegen.reading.drafts.pot_roles import Around, Role, role_of
from guidegen.reading.drafts.pots import PotFinder
from guidegen.reading.drafts.records import Cue
from guidegen.words.spoken_words import spoken_words

LINES = [
    line.split(" ", 2)
    for line in (CASES / "spoken/roles.txt").read_text(encoding="utf-8").splitlines()
    if line and not line.startswith("#")
]
# Neither is painted with, and a draft tells both in a comment.
NOT_TAKEN = {"rejected", "mentioned"}
FINDERS = {code: PotFinder(town_palette(), spoken_words(code)) for code in ("en", "de")}


@pytest.mark.parametrize(("language", "role", "sentence"), LINES, ids=[line[2] for line in LINES])
def test_what_a_pot_is_named_for(language: str, role: str, sentence: str):
    finder = FINDERS[language]
    _, sentences = heard([Cue(sentence, 1, 0, 4_000)], finder)
    found, lacked = None, False
    for one in sentences:
        roles = [role_of(pot, one, finder.words, Around(lacked=lacked)) for pot in one.pots]
        lacked = Role.LACKING in roles
        found = roles[-1] if roles else found
    assert found is not None
    assert found.name.lower() == role or {found.name.lower(), role} == NOT_TAKEN
