"""The hazard statements against their publications, and the ways in which authors write codes."""

from __future__ import annotations

import csv
import re
from pathlib import Path

import pytest

from guidegen.computing.hazards import EU_CLP, HAZARDS, UN_GHS, known, nearest_code, read_entry, statement

PUBLISHED = Path(__file__).parent.parent / "reference" / "ghs-statements.csv"

# Where the European words differ from the United Nations' by more than spelling.
TOLD_OTHERWISE = {"H200", "H261"}

# Not found in a publication at hand: from memory alone.
FROM_MEMORY = {"EUH001", "EUH006", "EUH059", "H210"}


def published() -> list[tuple[str, str]]:
    with PUBLISHED.open(encoding="utf-8", newline="") as lines:
        return [(row["code"], row["statement"]) for row in csv.DictReader(lines)]


def plain(text: str) -> str:
    """Without what a label fills in, punctuation, and British or American spelling."""
    bare = re.sub(r"<[^>]*>", "", text).lower().replace("ise", "ize").replace("ising", "izing")
    return " ".join(re.findall(r"[a-z()]+", bare))


@pytest.mark.parametrize(("code", "words"), published())
def test_the_official_words(code: str, words: str):
    if code == "EUH208":
        assert statement("EUH208 <name of sensitising substance>") == words
    elif code not in TOLD_OTHERWISE:
        assert plain(HAZARDS[code]) == plain(words)


def test_what_was_not_checked_is_listed():
    assert set(HAZARDS) - {code for code, _ in published()} == FROM_MEMORY


def test_every_statement_is_whole():
    for code, text in HAZARDS.items():
        assert text.endswith("."), code
        assert text[0].isupper(), code
        assert read_entry(code)[0].code == code


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("H222", ["H222"]),
        ("h222", ["H222"]),
        (" H 222 ", ["H222"]),
        ("euh 208", ["EUH208"]),
        ("EUH209a", ["EUH209A"]),
        ("H222: Extremely flammable aerosol", ["H222"]),
        ("H310 + H300", ["H300+H310"]),
        ("H222+H229", ["H222", "H229"]),
        ("H222, H229", ["H222", "H229"]),
        ("H360FD", ["H360FD"]),
        ("H360Fd", ["H360Fd"]),
        ("H361FD", ["H361fd"]),
        ("H350I", ["H350i"]),
    ],
)
def test_codes_as_typed(text: str, codes: list[str]):
    assert known(text)
    assert [found.code for found in read_entry(text)] == codes


@pytest.mark.parametrize(
    "text", ["", "H", "H999", "P210", "R10", "222", "H2222", "H222x", "EUH999", "H360fd", "H222 or so; H229"]
)
def test_codes_that_no_label_carries(text: str):
    assert not known(text)
    assert statement(text) is None


@pytest.mark.parametrize(
    "text",
    [
        "EUH208 1,2-benzisothiazolin-3-one",
        "EUH208: 1,2-benzisothiazolin-3-one",
        "EUH208: Contains 1,2-benzisothiazolin-3-one. May produce an allergic reaction.",
        "euh208 – 1,2-benzisothiazolin-3-one",
    ],
)
def test_euh208_names_its_substance(text: str):
    assert statement(text) == "Contains 1,2-benzisothiazolin-3-one. May produce an allergic reaction."


def test_euh208_without_a_substance_sends_to_the_label():
    assert "named on the label" in (statement("EUH208") or "")


def test_where_the_words_are_published():
    assert read_entry("H222")[0].source == UN_GHS
    assert read_entry("H360FD")[0].source == EU_CLP
    assert read_entry("EUH066")[0].source == EU_CLP


@pytest.mark.parametrize(
    ("text", "near"),
    [
        ("H2222", "H222"),
        ("EUH20", "EUH201"),
        ("HEU208", "EUH208"),
        ("H360fd", "H360FD"),
        ("P210", None),
        ("R10", None),
        ("", None),
        ("H999", None),
    ],
)
def test_the_nearest_code(text: str, near: str | None):
    assert nearest_code(text) == near
