"""The table of techniques: complete, sane, and found under the words that painters use."""

from __future__ import annotations

import pytest

from guidegen.base.suggest import folded
from guidegen.model.technique import (
    AIRBORNE,
    ALSO,
    BASE_COAT,
    KNOWN_WORDS,
    TECHNIQUES,
    Role,
    Technique,
    is_known,
    technique_of,
)

# The table as it was settled: role, share in % (None: the base), wet µm (None: no film), loss, dry minutes, brush.
# Common practice or from memory, no source: what is tested is that nobody changes it by accident.
SETTLED: dict[str, tuple[str, int | None, int | None, float, int, str]] = {
    "spray undercoat": ("cover", 100, 50, 40, 30, "can"),
    "brush undercoat": ("cover", 100, 60, 1.5, 60, "flat"),
    "airbrush": ("cover", 60, 25, 4, 10, ""),
    "base coat": ("cover", 20, 50, 2, 10, "2"),
    "layer": ("cover", 8, 35, 3, 5, "1"),
    "freehand": ("cover", 2, 30, 6, 5, "00"),
    "stipple": ("cover", 5, 20, 8, 5, "foam"),
    "sponge": ("cover", 5, 20, 8, 5, "foam"),
    "wash": ("film", 100, 60, 1.5, 40, "2"),
    "pin wash": ("film", 5, 60, 3, 20, "0"),
    "glaze": ("film", 10, 20, 3, 10, "1"),
    "stain": ("film", 20, 80, 1.3, 45, "2"),
    "oil wash": ("film", 100, 40, 2, 1440, "flat"),
    "dry brush": ("edges", 15, 5, 10, 1, "old flat"),
    "edge highlight": ("edges", 3, 30, 4, 3, "0"),
    "highlight": ("edges", 2, 30, 5, 3, "0"),
    "spray varnish": ("finish", 100, 40, 30, 60, "can"),
    "brush varnish": ("finish", 100, 50, 1.5, 60, "soft flat"),
    "pigment": ("finish", 10, None, 1, 30, "old soft"),
    "paste": ("ground", None, 1500, 1.2, 480, "spatula"),
    "sand on glue": ("ground", None, 400, 1.3, 240, "old"),
    "water gel": ("ground", None, 1000, 1.1, 1440, ""),
}


def test_no_row_is_missing_or_added():
    assert list(TECHNIQUES) == list(SETTLED)


@pytest.mark.parametrize("name", SETTLED)
def test_rows(name: str):
    row = TECHNIQUES[name]
    share = None if row.share is None else round(row.share * 100)
    assert (row.role.value, share, row.wet, row.loss, row.dry, row.brush) == SETTLED[name]
    assert row.name == name


@pytest.mark.parametrize("row", TECHNIQUES.values(), ids=TECHNIQUES)
def test_every_row_makes_sense(row: Technique):
    assert row.share is None or 0 < row.share <= 1
    assert (row.share is None) == (row.role is Role.GROUND)
    assert row.wet is None or row.wet > 0
    assert row.loss >= 1


@pytest.mark.parametrize("word", ["Base Coat", "basecoat", " base  coat", "BASE COAT"])
def test_words_are_compared_as_names_are(word: str):
    assert technique_of(word) is BASE_COAT
    assert is_known(word)


@pytest.mark.parametrize(
    ("word", "varnish", "name"),
    [
        ("spray", False, "spray undercoat"),
        ("Spray", True, "spray varnish"),
        ("prime", False, "brush undercoat"),
        ("prime", True, "brush undercoat"),
        ("tidy up", False, "base coat"),
        ("drybrush", False, "dry brush"),
        ("wash", True, "wash"),
        ("", False, "base coat"),
        ("dabbing", False, "base coat"),
    ],
)
def test_what_a_word_means(word: str, varnish: bool, name: str):
    assert technique_of(word, varnish=varnish).name == name


def test_what_is_known():
    assert is_known("")
    assert all(is_known(word) for word in KNOWN_WORDS)
    assert not is_known("dabbing")
    assert not is_known("washes")


def test_other_words_lead_to_rows_and_hide_none():
    assert set(ALSO.values()) <= set(TECHNIQUES)
    assert not {folded(word) for word in ALSO} & {folded(name) for name in TECHNIQUES} - {
        folded("dry brush"),
        folded("base coat"),
    }


def test_what_goes_into_the_air():
    assert set(TECHNIQUES) >= AIRBORNE
    assert {name for name in TECHNIQUES if "spray" in name or "airbrush" in name} == AIRBORNE
