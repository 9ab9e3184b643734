"""Keys as people who write German look for them, each with the key that is meant."""

from __future__ import annotations

from collections.abc import Collection

_WORDS = {
    "title": "titel überschrift",
    "name": "bezeichnung",
    "summary": "zusammenfassung beschreibung kurztext",
    "author": "autor autorin verfasser",
    "language": "sprache",
    "date": "datum",
    "tags": "schlagwörter stichwörter stichworte",
    "see": "siehe",
    "draft": "entwurf",
    "scale": "maßstab massstab",
    "base": "sockel",
    "surface": "fläche oberfläche",
    "figures": "figuren anzahl",
    "cover": "titelbild deckblatt",
    "materials": "material materialien",
    "tools": "werkzeug werkzeuge",
    "steps": "schritte arbeitsschritte",
    "step": "schritt arbeitsschritt titel",
    "stop": "halt stopp",
    "technique": "technik methode",
    "area": "bereich stelle teil",
    "paint": "farbe farben topf",
    "paints": "farben",
    "mixes": "mischungen",
    "parts": "teile anteile",
    "colour": "farbe farbton",
    "once": "einmal",
    "each": "je jeweils dauer zeit",
    "dry": "trocknen trocknung trockenzeit trocknet wartezeit",
    "coats": "schichten lagen",
    "brush": "pinsel",
    "thin": "verdünnung verdünnt verdünnen",
    "share": "anteil",
    "amount": "menge",
    "instead": "ersatz statt stattdessen alternative alternativen",
    "photo": "foto bild",
    "alt": "bildtext",
    "at": "filmzeit",
    "mind": "achtung vorsicht hinweis tipp notiz",
    "optional": "freiwillig",
    "only": "nur",
    "range": "reihe marke hersteller",
    "code": "nummer",
    "kind": "art typ",
    "size": "größe inhalt",
    "price": "preis",
    "owned": "vorhanden besitz",
    "note": "bemerkung notiz",
    "start": "beginn",
    "deadline": "ende frist",
    "sittings": "sitzungen abende zeiten",
    "units": "einheiten",
    "guide": "anleitung",
    "to": "bis",
}


def german_key(word: str, known: Collection[str]) -> str:
    """The one of the known keys that a German word stands for, '' if none."""
    folded = word.casefold()
    return next((key for key, words in _WORDS.items() if folded in words.split() and key in known), "")
