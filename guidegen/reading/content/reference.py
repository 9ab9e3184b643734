"""Pictures that a scheme follows, and the colours read off them."""

from __future__ import annotations

from guidegen.model.guide import Reference, Swatch
from guidegen.reading.types.base import SHORT_TEXT, TEXT, Fields, list_of
from guidegen.reading.types.keys import Key, Record, record_of
from guidegen.reading.types.photos import PHOTO, photo_from
from guidegen.reading.types.values import Colour

SWATCH = Record(
    noun="swatch",
    about="A colour read off the picture.",
    keys=(
        Key("name", SHORT_TEXT, "What has this colour in the picture.", required=True, example="coat"),
        Key("colour", Colour(), "The colour.", required=True, also=("color",)),
    ),
)


def _swatch(fields: Fields) -> Swatch | None:
    return Swatch(**fields.values) if {"name", "colour"} <= fields.values.keys() else None


REFERENCE = Record(
    noun="reference picture",
    about="A picture that the scheme follows.",
    keys=(
        *PHOTO.keys[:2],
        Key("source", TEXT, "Where the picture comes from.", example="the ferry house's album"),
        Key(
            "swatches",
            list_of(record_of(SWATCH, _swatch), "a list of {name, colour}"),
            "Colours read off it.",
            example="[{name: coat, colour: b8862f}]",
        ),
    ),
)


def _reference(fields: Fields) -> Reference | None:
    photo = photo_from(fields)
    if photo is None:
        return None
    values = fields.values
    return Reference(photo=photo, source=values.get("source", ""), swatches=values.get("swatches", ()))


REFERENCES = list_of(record_of(REFERENCE, _reference), "a list of {file, alt, source, swatches}")
