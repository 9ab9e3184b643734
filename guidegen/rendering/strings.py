"""Which languages the interface speaks: every word of it stands in one table a language."""

from __future__ import annotations

from guidegen.rendering.english import ENGLISH
from guidegen.rendering.german import GERMAN
from guidegen.rendering.language import Language

LANGUAGES = {language.code: language for language in (ENGLISH, GERMAN)}


def language_of(code: str) -> Language:
    """The interface's language for a language code, English where there is none."""
    return LANGUAGES.get(code.split("-", maxsplit=1)[0].lower(), ENGLISH)
