"""The ways in which authors write the codes of hazard statements."""

from __future__ import annotations

import pytest

from guidegen.computing.guide.hazards import HAZARDS, Statement, known, nearest_code, read_entry


def test_every_code_is_read_as_itself():
    for code in HAZARDS:
        assert read_entry(code) == (Statement(code),)


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
    assert read_entry(text) == ()


@pytest.mark.parametrize(
    "text",
    [
        "EUH208 1,2-benzisothiazolin-3-one",
        "EUH208: 1,2-benzisothiazolin-3-one",
        "EUH208: Contains 1,2-benzisothiazolin-3-one. May produce an allergic reaction.",
        "euh208 – 1,2-benzisothiazolin-3-one",
        "EUH208: Enthält 1,2-benzisothiazolin-3-one. Kann allergische Reaktionen hervorrufen.",
    ],
)
def test_euh208_names_its_substance(text: str):
    assert read_entry(text) == (Statement("EUH208", "1,2-benzisothiazolin-3-one"),)


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
