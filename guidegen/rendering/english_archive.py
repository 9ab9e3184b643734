"""Searching, sifting, and schemes by colour, in English."""

from __future__ import annotations

from guidegen.rendering.language import Phrase

ARCHIVE: dict[str, Phrase] = {
    # Searching and sifting on the home page
    "find.label": "Find a guide",
    "find.hint": "A title, an area, a paint, a technique, a word from a step",
    "find.tag": "Tag",
    "find.any-tag": "Any tag",
    "find.time": "Time at the brush",
    "find.any-time": "Any time",
    "find.up-to": "Up to {time}",
    "find.shelf": "Only with paints on the shelf",
    "find.clear": "Show all guides",
    "find.results": "Guides found",
    "find.found": {"one": "{n} of {all} guides", "other": "{n} of {all} guides"},
    "find.none": "No guide has all of that; leave out a word or a choice, or go back to the whole list.",
    "find.more": {"one": "Show {n} more", "other": "Show {n} more"},
    "find.lacks": {"one": "lacks {n} pot", "other": "lacks {n} pots"},
    "find.loading": "Fetching the index …",
    "find.failed": "The index could not be fetched, so the whole list stands below.",
    # Ends of words that a search may do without, and letters that are also written as two
    "find.endings": "s es",
    "find.umlauts": "-",
    # The older guides of a large archive
    "home.undated": "Without a date",
    "home.years": "Years",
    "home.by-colour": "Schemes by colour",
    # Schemes by colour
    "nav.colours": "Colours",
    "colours.title": "Schemes by colour",
    "colours.rule": "A guide stands under each family of colour that covers a quarter or more of its finished figure, or else under its largest; areas count alike where the guide does not say how large they are, and guides go from dark to light.",
    "colours.strip": "Each strip shows a figure’s colours as wide as what they cover.",
    "colours.plain": "Without a known colour",
    "colours.none": "No guide has a colour yet.",
    "family.reds": "Reds",
    "family.pinks": "Pinks",
    "family.oranges": "Oranges",
    "family.browns": "Browns",
    "family.ochres": "Ochres and buffs",
    "family.yellows": "Yellows",
    "family.greens": "Greens",
    "family.blue-greens": "Blue-greens",
    "family.blues": "Blues",
    "family.purples": "Purples",
    "family.blacks": "Blacks",
    "family.greys": "Greys",
    "family.whites": "Whites",
    "family.metals": "Metals",
    # Techniques
    "technique.all": {"one": "{n} guide", "other": "all {n} guides"},
}
