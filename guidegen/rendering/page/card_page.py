"""A card as a page to print: marks, boxes, what goes in and how it is painted and photographed. All in millimetres."""

from __future__ import annotations

from dataclasses import dataclass

from guidegen.imaging.mark_code import DOT, RING_INSIDE, RING_OUTSIDE, SMALL, Code, bits_of, place
from guidegen.model.card import (
    BAR,
    BARE,
    BOX,
    PAPERS,
    TINT_WHITE,
    BoxKind,
    Card,
    corner_of_box,
    label_size,
    mark_centres,
)
from guidegen.rendering.theme.templates import Templates
from guidegen.words.language import Language, PhraseKey


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkView:
    """A mark: its centre, its ring's middle radius and stroke, its dot, and the small dots around."""

    x: float
    y: float
    dots: tuple[tuple[float, float], ...]
    ring: float = round((RING_INSIDE + RING_OUTSIDE) / 2.0, 3)
    stroke: float = round(RING_OUTSIDE - RING_INSIDE, 3)
    dot: float = DOT
    small: float = SMALL


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxView:
    """A box: its corner, where its label begins, and what goes in; `bar` is where its bar begins, None for none."""

    n: int
    paint: str
    what: PhraseKey
    white: str
    coats: int
    x: float
    y: float
    below: float
    bar: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CardPageView:
    """One page of it."""

    marks: tuple[MarkView, ...]
    boxes: tuple[BoxView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CardView:
    """The whole card."""

    language: str
    id: str
    size: str
    width: float
    height: float
    label_width: float
    label_height: float
    pages: tuple[CardPageView, ...]
    box: float = BOX
    bar: float = BAR[1] - BAR[0]
    tint: float = TINT_WHITE


def card_html(card: Card, language: Language) -> bytes:
    """The page, with nothing else needed to show it."""
    width, height = PAPERS[card.paper]
    label = label_size(card.paper)
    view = CardView(
        language=language.code,
        id=card.id,
        size="A4" if card.paper == "a4" else "letter",
        width=width,
        height=height,
        label_width=_mm(label[0]),
        label_height=_mm(label[1]),
        pages=tuple(_page(card, page) for page in range(card.pages)),
    )
    return Templates(language).render("card.html", {"card": view})


def _mm(value: float) -> float:
    return round(value, 3)


def _page(card: Card, page: int) -> CardPageView:
    marks = []
    for corner, (x, y) in enumerate(mark_centres(card.paper)):
        bits = bits_of(Code(card.id, page, corner, card.paper))
        places = [place(number) for number, bit in enumerate(bits) if bit]
        marks.append(MarkView(x=x, y=y, dots=tuple((_mm(x + dx), _mm(y + dy)) for dx, dy in places)))
    boxes = []
    for box in card.on_page(page):
        x, y = corner_of_box(card.paper, box)
        boxes.append(
            BoxView(
                n=box.n,
                paint=box.paint,
                what=PhraseKey(f"card.{box.kind}"),
                white=box.white,
                coats=box.coats,
                x=_mm(x),
                y=_mm(y),
                below=_mm(y + BOX + BARE),
                bar=_mm(x + BAR[0]) if box.kind is BoxKind.FULL else None,
            )
        )
    return CardPageView(marks=tuple(marks), boxes=tuple(boxes))
