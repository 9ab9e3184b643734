"""Searching, sifting, and schemes by colour, in German."""

from __future__ import annotations

from guidegen.rendering.language import Phrase

ARCHIVE: dict[str, Phrase] = {
    # Searching and sifting on the home page
    "find.label": "Anleitung finden",
    "find.hint": "Titel, Bereich, Farbe, Technik oder ein Wort aus einem Schritt",
    "find.tag": "Schlagwort",
    "find.any-tag": "Jedes Schlagwort",
    "find.time": "Zeit am Pinsel",
    "find.any-time": "Beliebig lange",
    "find.up-to": "Bis {time}",
    "find.shelf": "Nur mit Farben aus dem Regal",
    "find.clear": "Alle Anleitungen zeigen",
    "find.results": "Gefundene Anleitungen",
    "find.found": {"one": "{n} von {all} Anleitungen", "other": "{n} von {all} Anleitungen"},
    "find.none": "Keine Anleitung hat das alles; lass ein Wort oder eine Auswahl weg, oder geh zurück zur ganzen Liste.",
    "find.more": {"one": "{n} weitere zeigen", "other": "{n} weitere zeigen"},
    "find.lacks": {"one": "es fehlt {n} Topf", "other": "es fehlen {n} Töpfe"},
    "find.loading": "Das Verzeichnis wird geholt …",
    "find.failed": "Das Verzeichnis ließ sich nicht holen, darum steht unten die ganze Liste.",
    # Ends of words that a search may do without, and letters that are also written as two
    "find.endings": "en er es e n s",
    "find.umlauts": "ae oe ue",
    # The older guides of a large archive
    "home.undated": "Ohne Datum",
    "home.years": "Jahre",
    "home.by-colour": "Schemata nach Farben",
    # Schemes by colour
    "nav.colours": "Farbtöne",
    "colours.title": "Schemata nach Farben",
    "colours.rule": "Eine Anleitung steht unter jeder Farbfamilie, die mindestens ein Viertel ihrer fertigen Figur bedeckt, sonst unter ihrer größten; Bereiche zählen gleich viel, wo die Anleitung ihre Größe nicht nennt, und innerhalb einer Familie geht es von dunkel nach hell.",
    "colours.strip": "Jeder Streifen zeigt die Farben einer Figur, so breit wie das, was sie bedecken.",
    "colours.plain": "Ohne bekannten Farbton",
    "colours.none": "Noch hat keine Anleitung einen Farbton.",
    "family.reds": "Rottöne",
    "family.pinks": "Rosatöne",
    "family.oranges": "Orangetöne",
    "family.browns": "Brauntöne",
    "family.ochres": "Ocker- und Sandtöne",
    "family.yellows": "Gelbtöne",
    "family.greens": "Grüntöne",
    "family.blue-greens": "Blaugrüntöne",
    "family.blues": "Blautöne",
    "family.purples": "Violetttöne",
    "family.blacks": "Schwarztöne",
    "family.greys": "Grautöne",
    "family.whites": "Weißtöne",
    "family.metals": "Metalltöne",
    # Techniques
    "technique.all": {"one": "{n} Anleitung", "other": "alle {n} Anleitungen"},
}
