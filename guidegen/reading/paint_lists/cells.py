"""What a paint list's columns may be called, and what stands in their cells."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from guidegen.base.suggest import folded
from guidegen.base.units import read_colour, read_volume
from guidegen.model.paint import Kind
from guidegen.reading.paint_lists.rows import PaintRow, Problem
from guidegen.reading.types.values import MOST_MONEY, MOST_POTS, MOST_VOLUME

# Compared without case, accents, spaces and punctuation; English, then German.
HEADINGS: dict[str, tuple[str, ...]] = {
    "name": (
        "name", "paint", "paint name", "title", "pot", "product", "colour name", "color name",
        "farbname", "name der farbe", "farbe name", "bezeichnung", "produkt", "artikel",
    ),
    "range": (
        "range", "brand", "maker", "make", "manufacturer", "line", "series", "collection", "company",
        "reihe", "serie", "marke", "hersteller", "linie", "sortiment", "firma",
    ),
    "code": (
        "code", "number", "no", "nr", "ref", "reference", "sku", "item", "item number", "article", "paint code",
        "nummer", "artikelnummer", "artikel nr", "art nr", "bestellnummer", "farbnummer",
    ),
    "edition": ("edition", "version", "ausgabe", "auflage"),
    "aliases": ("aliases", "alias", "also", "other names", "andere namen", "auch"),
    "kind": ("kind", "type", "category", "class", "art", "typ", "sorte", "kategorie"),
    "hex": (
        "hex", "hex code", "hex colour", "hex color", "colour hex", "color hex", "html", "web", "srgb",
        "farbe hex", "hexwert", "farbcode", "farbwert",
    ),
    "colour": ("colour", "color", "swatch", "farbe", "farbton"),
    "rgb": ("rgb",),
    "red": ("r", "red", "rot"),
    "green": ("g", "green", "grün", "gruen"),
    "blue": ("b", "blue", "blau"),
    "finish": ("finish", "sheen", "glanz", "glanzgrad", "oberfläche"),
    "covers": ("covers", "coverage", "opacity", "deckkraft"),
    "binder": ("binder", "medium", "bindemittel"),
    "comes_as": ("comes as", "container", "packaging", "gebinde", "behälter"),
    "size": (
        "size", "size ml", "volume", "volume ml", "contents", "pot size", "pot size ml",
        "größe", "groesse", "größe ml", "inhalt", "inhalt ml", "füllmenge", "menge ml",
    ),
    "price": ("price", "unit price", "price each", "rrp", "preis", "stückpreis", "preis eur"),
    "owned": (
        "owned", "own", "have", "qty", "quantity", "count", "pots", "stock", "in stock", "on the shelf", "shelf",
        "bestand", "anzahl", "besitz", "vorhanden", "vorrat", "stück", "töpfe", "im regal", "habe ich",
    ),
    "discontinued": ("discontinued", "out of production", "no longer sold", "eingestellt", "ausgelaufen"),
    "hazards": ("hazards", "hazard codes", "h codes", "gefahrenhinweise", "h sätze"),
    "note": (
        "note", "notes", "remark", "remarks", "comment", "comments",
        "notiz", "notizen", "bemerkung", "bemerkungen", "anmerkung", "anmerkungen", "kommentar",
    ),
    "what": ("what",),
}  # fmt: skip
_FIELD = {folded(heading): key for key, headings in HEADINGS.items() for heading in headings}

_IN_BRACKETS = re.compile(r"\([^()]*\)|\[[^\[\]]*\]")
_IN_A_UNIT = re.compile(r"\s+in\s+\S{1,6}\s*$", re.IGNORECASE)

CHOICES: dict[str, tuple[str, ...]] = {
    "finish": ("matt", "satin", "gloss"),
    "covers": ("well", "fair", "poor"),
    "binder": ("acrylic", "enamel", "oil", "lacquer"),
    "comes_as": ("pot", "can", "airbrush"),
}

# What a cell is called in a sentence where its key would read oddly.
_SAID = {
    "hex": "colour",
    "rgb": "colour",
    "owned": "number of pots",
    "comes_as": "container",
    "discontinued": "discontinued mark",
}

# Words for a kind of paint besides its own.
_KINDS: dict[str, Kind] = {kind.value: kind for kind in Kind} | {
    "undercoat": Kind.PRIMER,
    "shade": Kind.WASH,
    "metal": Kind.METALLIC,
    "oilpaint": Kind.OIL,
    "texture": Kind.PASTE,
    "acrylic": Kind.PAINT,
    "enamel": Kind.PAINT,
    "lacquer": Kind.PAINT,
    "farbe": Kind.PAINT,
    "acryl": Kind.PAINT,
    "grundierung": Kind.PRIMER,
    "lasur": Kind.GLAZE,
    "tusche": Kind.INK,
    "tinte": Kind.INK,
    "beize": Kind.STAIN,
    "metallfarbe": Kind.METALLIC,
    "pigmente": Kind.PIGMENT,
    "effekt": Kind.EFFECT,
    "olfarbe": Kind.OIL,
    "malmittel": Kind.MEDIUM,
    "verdunner": Kind.THINNER,
    "verduenner": Kind.THINNER,
    "lack": Kind.VARNISH,
    "klarlack": Kind.VARNISH,
    "firnis": Kind.VARNISH,
}
# German words for the choices, folded.
_GERMAN_CHOICES = {
    "seidenmatt": "satin", "glanzend": "gloss", "glaenzend": "gloss", "gut": "well", "mittel": "fair", "schlecht": "poor",
    "acryl": "acrylic", "emaille": "enamel", "ol": "oil", "oel": "oil", "lack": "lacquer", "topf": "pot",
    "flaschchen": "pot", "dose": "can", "spruhdose": "can",
}  # fmt: skip
_YES = frozenset({"yes", "y", "true", "on", "x", "1", "✓", "✔", "ja", "j", "wahr"})
_NO = frozenset({"", "no", "n", "false", "off", "0", "-", "–", "nein", "falsch"})

_HAZARD_ENDS = re.compile(r"\s*[;|]\s*|[,\s]\s*(?=(?:EU)?H\s?\d{3})", re.IGNORECASE)


def fields_of(headings: Sequence[str]) -> dict[int, str]:
    """What each column holds, by its heading; of two that hold the same, the first counts.

    Where no column is called a name, `colour` beside a hex code or numbers is the colour's name, and so is `Farbe`.
    """
    found: dict[int, str] = {}
    for at, heading in enumerate(headings):
        key = _field_of(heading)
        if key and key not in found.values():
            found[at] = key
    keys = set(found.values())
    alone = [heading for at, heading in enumerate(headings) if found.get(at) == "colour"]
    if "name" not in keys and len(found) > 1 and alone and folded(alone[0]) in {"farbe", "farbton"}:
        keys.add("hex")
    if "name" not in keys and ({"hex", "rgb"} & keys or {"red", "green", "blue"} <= keys):
        found = {at: "name" if key == "colour" else key for at, key in found.items()}
    return found


def _field_of(heading: str) -> str | None:
    """What a column holds: by its whole heading, by that without `(ml)` or `in ml`, or by the parts around a slash."""
    for words in (heading, _IN_BRACKETS.sub(" ", heading), _IN_A_UNIT.sub("", heading)):
        if key := _field(words):
            return key
    parts = {_field(part) for part in heading.split("/")} - {None}
    return parts.pop() if len(parts) == 1 else None


def _field(words: str) -> str | None:
    return _FIELD.get(folded(re.sub(r"[\W_]+", " ", words)))


@dataclass(frozen=True, slots=True)
class Cells:
    """One row's cells by what they hold; trouble with them goes to `problems`."""

    held: Mapping[str, str]
    line: int
    problems: list[Problem]

    def row(self) -> PaintRow:
        """The paint of this row; a cell that makes no sense is left out and said."""
        return PaintRow(
            name=self._text("name"),
            range=self._text("range"),
            code=self._text("code"),
            edition=self._text("edition"),
            aliases=tuple(filter(None, re.split(r"\s*[;|]\s*", self._text("aliases")))),
            kind=self._kind(),
            colour=self._colour(),
            finish=self._choice("finish"),
            covers=self._choice("covers"),
            binder=self._choice("binder") or self._binder_as_kind(),
            comes_as=self._choice("comes_as"),
            size=self._size(),
            price=self._price(),
            owned=self._owned(),
            discontinued=self._discontinued(),
            hazards=tuple(filter(None, _HAZARD_ENDS.split(self._text("hazards")))),
            note=self._text("note"),
        )

    def _text(self, key: str) -> str:
        return self.held.get(key, "")

    def _trouble(self, key: str, expected: str) -> None:
        what = _SAID.get(key, key)
        self.problems.append(
            Problem(
                self.line,
                f"The {what} of “{self._text('name')}” is “{self._text(key)}”; {expected} was expected.",
            )
        )

    def _kind(self) -> Kind:
        word = folded(self._text("kind"))
        if not word:
            return Kind.PAINT
        for singular in (word, word.removesuffix("s"), word.removesuffix("es")):
            if singular in _KINDS:
                return _KINDS[singular]
        self._trouble("kind", f"one of {', '.join(Kind)}")
        return Kind.PAINT

    def _binder_as_kind(self) -> str:
        word = self._text("kind").casefold()
        return word if word in CHOICES["binder"] and word not in list(Kind) else ""

    def _choice(self, key: str) -> str:
        word = self._text(key).casefold()
        word = word if word in CHOICES[key] else _GERMAN_CHOICES.get(folded(word), word)
        if word and word not in CHOICES[key]:
            self._trouble(key, " or ".join(CHOICES[key]))
            return ""
        return word

    def _colour(self) -> str | None:
        for key in ("hex", "colour"):
            text = self._text(key)
            colour = read_colour(text) or colour_of(re.findall(r"\d+", text) if "," in text else [])
            if colour:
                return colour
        colour = colour_of(re.findall(r"\d+", self._text("rgb")))
        colour = colour or colour_of([self._text(key) for key in ("red", "green", "blue")])
        if colour is None:
            for key in ("hex", "colour", "rgb"):
                if self._text(key):
                    self._trouble(key, "a colour such as #b8862f")
                    break
        return colour

    def _size(self) -> float | None:
        text = self._text("size")
        amount = _decimal(text)
        if amount is None and text:
            amount = read_volume(text.replace(",", "."))
        if text and not 0 < round(amount or 0, 4) <= MOST_VOLUME:  # four decimals are written
            self._trouble("size", "a volume such as 12 ml")
            return None
        return amount

    def _price(self) -> float | None:
        text = self._text("price")
        bare = re.sub(r"^[^\d.,+-]+|[^\d.,]+$", "", text)
        amount = _decimal(bare)
        if text and (amount is None or amount > MOST_MONEY):
            self._trouble("price", "a sum such as 2.80")
            return None
        return amount

    def _owned(self) -> int:
        text = self._text("owned").casefold()
        if text in _NO:
            return 0
        if text in _YES:
            return 1
        amount = _decimal(re.sub(r"\s*(?:pots?|pcs|bottles?|st(?:k|ück)\.?|t[oö]pfe?)$", "", text))
        if amount is None or amount > MOST_POTS:
            self._trouble("owned", "a number of pots, or yes or no")
            return 0
        return math.ceil(amount)

    def _discontinued(self) -> bool:
        word = self._text("discontinued").casefold()
        if word not in _YES | _NO:
            self._trouble("discontinued", "yes or no")
        return word in _YES


def colour_of(numbers: Sequence[str]) -> str | None:
    """`#rrggbb` of red, green and blue, each as digits from 0 to 255; None for anything else."""
    if len(numbers) != 3 or not all(n.isascii() and n.isdigit() and len(n) <= 3 for n in numbers):
        return None
    values = [int(n) for n in numbers]
    return "#" + "".join(f"{value:02x}" for value in values) if max(values) <= 255 else None


def _decimal(text: str) -> float | None:
    """A plain number of nought or more, with a point or a comma before its decimals.

    Where both stand in it, the last one is the decimal sign: 1.234,50 and 1,234.50.
    """
    if re.fullmatch(r"\d{1,3}(?:\.\d{3})+,\d+", text):
        text = text.replace(".", "").replace(",", ".")
    elif re.fullmatch(r"\d{1,3}(?:,\d{3})+\.\d+", text):
        text = text.replace(",", "")
    found = re.fullmatch(r"\d{1,9}(?:[.,]\d{1,9})?", text)
    return float(text.replace(",", ".")) if found else None
