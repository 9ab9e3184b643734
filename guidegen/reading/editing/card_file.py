"""cards/<id>.yaml: which paint is in which box of a printed card. Written by `guidegen card`, read with its photos."""

from __future__ import annotations

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source
from guidegen.model.card import MOST_PAGES, PAPERS, PER_PAGE, Box, BoxKind, Card
from guidegen.reading.paint_lists.palette_file import double_quoted
from guidegen.reading.types.base import NAME_TEXT, Fields, OneOf, list_of
from guidegen.reading.types.keys import Key, Record, read_whole, record_of
from guidegen.reading.types.names import PAINT_NAME
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.types.values import Whole

MOST_BOXES = MOST_PAGES * PER_PAGE

BOX = Record(
    noun="box",
    about="A box of a card.",
    keys=(
        Key("n", Whole(high=MOST_BOXES), "Its number on the card.", required=True),
        Key("paint", PAINT_NAME, "The paint in it.", required=True),
        Key(
            "kind",
            OneOf(words={kind.value: kind for kind in BoxKind}),
            "Whether it is painted in full, let down with white, or a film.",
            default="full",
        ),
        Key("white", NAME_TEXT, "The white that it is let down with."),
        Key("coats", Whole(high=9), "How many coats of the film."),
    ),
)


def _box(fields: Fields) -> Box | None:
    values = fields.values
    if not {"n", "paint"} <= values.keys():
        return None
    return Box(
        n=values["n"],
        paint=values["paint"].text,
        kind=values.get("kind", BoxKind.FULL),
        white=values.get("white", ""),
        coats=values.get("coats", 0),
    )


CARD = Record(
    noun="card",
    about="A printed card.",
    keys=(
        Key(
            "paper",
            OneOf(words={paper: paper for paper in PAPERS}),
            "The paper it was printed for.",
            required=True,
        ),
        Key(
            "boxes",
            list_of(record_of(BOX, _box), "a list of boxes", lone=False, most=MOST_BOXES),
            "What is in which box.",
            required=True,
            example="[{n: 1, paint: Oilskin Ochre, kind: full}]",
        ),
    ),
)


def read_card(source: Source, card_id: str) -> tuple[Card | None, tuple[Diagnostic, ...]]:
    """A card; None where its file cannot be read in full, since boxes would then be taken for others."""
    context = ParseContext(source)
    fields = read_whole(
        CARD, context, empty="This card has no boxes.", help_line="Print it again: guidegen card."
    )
    found = fields.values.get("boxes", ()) if fields is not None else ()
    numbers = [box.n for box in found]
    if (
        fields is None
        or context.diagnostics
        or not found
        or "paper" not in fields.values
        or numbers != list(range(1, len(found) + 1))
    ):
        return None, tuple(context.diagnostics)
    return Card(id=card_id, paper=fields.values["paper"], boxes=tuple(found)), ()


def card_yaml(card: Card) -> str:
    """The text of a card's file."""
    lines = [
        "# A printed card: which paint is in which box. guidegen sample PHOTO --card reads it; leave it as it is.",
        f"paper: {card.paper}",
        "boxes:",
    ]
    for box in card.boxes:
        more = f", white: {double_quoted(box.white)}" if box.white else ""
        more += f", coats: {box.coats}" if box.coats else ""
        lines.append(f"  - {{n: {box.n}, paint: {double_quoted(box.paint)}, kind: {box.kind}{more}}}")
    return "\n".join(lines) + "\n"
