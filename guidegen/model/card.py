"""A printed card: which paint is in which box, and where the boxes lie on the paper. Lengths are millimetres."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class BoxKind(StrEnum):
    """What goes into a box: the paint until it hides, one part of it to four of white, or so many coats of a film."""

    FULL = "full"
    TINT = "tint"
    FILM = "film"


# One part of paint to so many of white: drops vary by a fifth, so a tint of 1:9 would be a guess.
TINT_WHITE = 4.0

# The coats of a film's two boxes.
FILM_COATS = (1, 3)

# A corner's code has room for two digits.
MOST_PAGES = 99

ACROSS, DOWN = 5, 5
PER_PAGE = ACROSS * DOWN

PAPERS: dict[str, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}

# The codes in the corners: how far their centres lie from the edges of the paper, how large they are, how many modules
# that is and how many of them the quiet zone takes around. ISO/IEC 18004: version 2, the least with an alignment pattern,
# by which readers tell the fourth corner.
CODE_INSET = 17.0
CODE_SIZE = 20.0
CODE_MODULES = 25
CODE_QUIET = 4

BOX = 20.0

# The black bar of a full box, from its left edge on, and the part of a box that is read: clear of bar, edge and brush.
BAR = (1.5, 5.5)
CLEAR_LEFT, CLEAR = 8.0, 2.5

# The squares beside a full box, one of which is filled: how many coats it took. The first one's corner from the box's, their
# side, and from one to the next.
MOST_COATS = 4
MARK_AT, MARK, MARK_STEP = (24.4, 3.0), 3.0, 4.5

# Bare paper around every box, and how far from its edge the part of it lies that is read.
BARE = 3.0
PAPER_FROM, PAPER_TO = 0.9, 2.7

_LEFT, _TOP, _BOTTOM = 13.0, 34.0, 31.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """One box. `n` counts from 1 over all pages; `white` is what a tint is let down with, `coats` a film's, else 0."""

    n: int
    paint: str
    kind: BoxKind
    white: str = ""
    coats: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """A card of one or more pages; `id` follows from all else, six hexadecimal digits."""

    id: str
    paper: str
    boxes: tuple[Box, ...]

    @property
    def pages(self) -> int:
        """How many pages it has."""
        return -(-len(self.boxes) // PER_PAGE)

    def page_of(self, box: Box) -> int:
        """The page a box is on, from 0."""
        return (box.n - 1) // PER_PAGE

    def on_page(self, page: int) -> tuple[Box, ...]:
        """The boxes of a page."""
        return self.boxes[page * PER_PAGE : (page + 1) * PER_PAGE]


def corner_of_box(paper: str, box: Box) -> tuple[float, float]:
    """A box's top left corner from the paper's."""
    width, height = PAPERS[paper]
    row, column = divmod((box.n - 1) % PER_PAGE, ACROSS)
    across = (width - 2.0 * _LEFT) / ACROSS
    down = (height - _TOP - _BOTTOM) / DOWN
    return _LEFT + BARE + column * across, _TOP + BARE + row * down


def marks_of_box(paper: str, box: Box) -> tuple[tuple[float, float], ...]:
    """The top left corners of a full box's squares, for one coat first; other boxes have none."""
    x, y = corner_of_box(paper, box)
    left, top = x + MARK_AT[0], y + MARK_AT[1]
    count = MOST_COATS if box.kind is BoxKind.FULL else 0
    return tuple((left, top + place * MARK_STEP) for place in range(count))


def label_size(paper: str) -> tuple[float, float]:
    """Width and height of what may be written below a box and the bare paper around it."""
    width, height = PAPERS[paper]
    return (width - 2.0 * _LEFT) / ACROSS - 1.0, (height - _TOP - _BOTTOM) / DOWN - BOX - 2.0 * BARE


def code_centres(paper: str) -> tuple[tuple[float, float], ...]:
    """Where the codes' centres lie, clockwise from the top left."""
    width, height = PAPERS[paper]
    right, bottom = width - CODE_INSET, height - CODE_INSET
    return (CODE_INSET, CODE_INSET), (right, CODE_INSET), (right, bottom), (CODE_INSET, bottom)


def code_corners(paper: str, corner: int) -> tuple[tuple[float, float], ...]:
    """Where a code's corners lie, clockwise from its top left."""
    x, y = code_centres(paper)[corner]
    reach = CODE_SIZE / 2.0
    return (x - reach, y - reach), (x + reach, y - reach), (x + reach, y + reach), (x - reach, y + reach)
