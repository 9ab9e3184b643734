"""Our own templates, with the phrases in them that are the same on every page."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from jinja2 import Environment, FileSystemLoader
from markupsafe import escape

from guidegen.words.language import Language, PhraseKey

# A phrase that takes no values; a page has hundreds of them.
_PHRASE = re.compile(r"""\{\{ t\("([^"]+)"\) \}\}""")


class OurTemplates(FileSystemLoader):
    """Our folder. Phrases without values are put in when a template is read, not each time that it is rendered."""

    def __init__(self, folder: Path, language: Language) -> None:
        super().__init__(folder)
        self._language = language

    def get_source(self, environment: Environment, template: str) -> tuple[str, str, Callable[[], bool]]:
        """The text of a template. Raises TemplateNotFound where there is none."""
        text, file, is_current = super().get_source(environment, template)
        return _PHRASE.sub(self._phrase, text), file, is_current

    def _phrase(self, call: re.Match[str]) -> str:
        said = str(escape(self._language.t(PhraseKey(call[1]))))
        return call[0] if "{" in said else said
