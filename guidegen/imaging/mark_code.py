"""The marks in the corners of a printed card: a dot in a ring, and two circles of places for small dots around it.

A circle seen askew is an ellipse, so the dot and its ring are found however the paper lies, and the ring's shape tells
how. Which of the places have a dot says which card it is, which page, which corner and which paper. The small dots, each
with its place on the paper, are what the picture is then measured by. Lengths are millimetres, angles run clockwise as
the page is read.
"""

from __future__ import annotations

import math
from hashlib import sha256
from typing import NamedTuple

SIZE = 20.0
DOT, RING_INSIDE, RING_OUTSIDE = 2.0, 3.6, 5.4
CIRCLES = (7.1, 9.2)
PLACES = 24
SMALL = 0.6

PAPERS = ("a4", "letter")
MOST_PAGES = 64

_ID, _PAGE, _CORNER, _PAPER = 24, 6, 2, 1
_PAYLOAD = _ID + _PAGE + _CORNER + _PAPER
_CHECK = PLACES * len(CIRCLES) - _PAYLOAD
BITS = _PAYLOAD + _CHECK


# Turns half the bits round, so that small numbers too have dots on all sides of the ring.
_TURNED = int.from_bytes(sha256(b"on all sides").digest()[:16], "big") & ((1 << BITS) - 1)


class Code(NamedTuple):
    """What a mark says: the card's id as six hexadecimal digits, page and corner from 0 (clockwise from top left)."""

    card: str
    page: int
    corner: int
    paper: str


def bits_of(code: Code) -> tuple[bool, ...]:
    """The places with a dot, those of the inner circle first; a check makes up the last 15."""
    payload = int(code.card, 16)
    for value, width in ((code.page, _PAGE), (code.corner, _CORNER), (PAPERS.index(code.paper), _PAPER)):
        payload = payload << width | value
    whole = (payload << _CHECK | _check(payload)) ^ _TURNED
    return tuple(bool(whole >> (BITS - 1 - n) & 1) for n in range(BITS))


def code_of(bits: tuple[bool, ...]) -> Code | None:
    """What places with and without a dot say, None where the check does not hold."""
    whole = 0
    for bit in bits:
        whole = whole << 1 | bit
    whole ^= _TURNED
    payload = whole >> _CHECK
    if whole & ((1 << _CHECK) - 1) != _check(payload):
        return None
    paper = payload & 1
    corner = payload >> _PAPER & 3
    page = payload >> (_PAPER + _CORNER) & (MOST_PAGES - 1)
    return Code(f"{payload >> (_PAPER + _CORNER + _PAGE):06x}", page, corner, PAPERS[paper])


def _check(payload: int) -> int:
    digest = sha256(b"card" + payload.to_bytes(8, "big")).digest()
    return int.from_bytes(digest[:4], "big") & ((1 << _CHECK) - 1)


def place(number: int) -> tuple[float, float]:
    """Where a place lies from the mark's centre, x to the right and y down."""
    radius = CIRCLES[number // PLACES]
    angle = 2.0 * math.pi * (number % PLACES) / PLACES
    return radius * math.cos(angle), radius * math.sin(angle)
