"""The interface's languages, for tests that compare words."""

from __future__ import annotations

from guidegen.words.language import language_of, languages

LANGUAGES = {code: language_of(code) for code in languages()}
ENGLISH, GERMAN = LANGUAGES["en"], LANGUAGES["de"]
