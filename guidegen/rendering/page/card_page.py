"""A card as a page to print: codes, boxes, what goes in and how it is painted and photographed. All in millimetres."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from guidegen.computing.card.corner_codes import CornerCode, code_svg
from guidegen.model.card import (
    BAR,
    BARE,
    BOX,
    CODE_MODULES,
    CODE_QUIET,
    CODE_SIZE,
    MARK,
    MARK_AT,
    PAPERS,
    TINT_WHITE,
    BoxKind,
    Card,
    code_centres,
    corner_of_box,
    label_size,
    marks_of_box,
)
from guidegen.rendering.theme.templates import Templates
from guidegen.words.language import Language, PhraseKey


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeView:
    """A code with its quiet zone, and its top left corner."""

    x: float
    y: float
    svg: Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxView:
    """A box: its corner, where its label begins below it and the coats stand `beside` it, and what goes in.

    `bar` is where its bar begins, None for none; `marks` are the corners of the squares for one coat, two, three and four.
    """

    n: int
    paint: str
    what: PhraseKey
    white: str
    coats: int
    x: float
    y: float
    below: float
    beside: float
    bar: float | None
    marks: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CardPageView:
    """One page of it."""

    codes: tuple[CodeView, ...]
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
    code: float = round(CODE_SIZE * (1.0 + 2.0 * CODE_QUIET / CODE_MODULES), 3)
    bar: float = BAR[1] - BAR[0]
    mark: float = MARK
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
    codes = []
    reach = CODE_SIZE * (0.5 + CODE_QUIET / CODE_MODULES)
    for corner, (x, y) in enumerate(code_centres(card.paper)):
        svg = Markup(code_svg(CornerCode(card.id, page, corner, card.paper)))  # noqa: S704 - made of our own text
        codes.append(CodeView(x=_mm(x - reach), y=_mm(y - reach), svg=svg))
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
                beside=_mm(x + MARK_AT[0]),
                bar=_mm(x + BAR[0]) if box.kind is BoxKind.FULL else None,
                marks=tuple((_mm(left), _mm(top)) for left, top in marks_of_box(card.paper, box)),
            )
        )
    return CardPageView(codes=tuple(codes), boxes=tuple(boxes))
