"""The templates that pages of a content folder are made with, and what is wrong with those of an author's own."""

from __future__ import annotations

from pathlib import Path

from guidegen import __version__
from guidegen.base.diagnostic import Diagnostic
from guidegen.building.memory import Memory
from guidegen.model.site import Archive
from guidegen.rendering.theme.templates import Templates
from guidegen.words.language import language_of


def templates_for(archive: Archive, content: Path, memory: Memory) -> tuple[Templates, str]:
    """The templates, and a text that changes with them and with the program; those of the last build if they are the same."""
    templates = _templates(archive, content)
    ready = templates, f"{__version__} {templates.digest()}"
    if memory.templates != ready:
        memory.templates = ready
    return memory.templates


def templates_told(archive: Archive, content: Path, memory: Memory) -> tuple[Diagnostic, ...]:
    """What is wrong with the author's own templates, as far as reading them tells."""
    if not archive.templates:
        return ()
    from guidegen.rendering.theme.broken_templates import unreadable_templates, unused_templates

    templates, _ = templates_for(archive, content, memory)
    return (*unreadable_templates(archive.templates, templates), *unused_templates(templates))


def tokens_told(archive: Archive, content: Path) -> tuple[Diagnostic, ...]:
    """What is wrong with the tokens of the style that the site changes."""
    if not archive.site.tokens:
        return ()
    from guidegen.rendering.theme.tokens import tokens_of, wrong_tokens

    return tuple(wrong_tokens(archive.site, tokens_of(_templates(archive, content))))


def _templates(archive: Archive, content: Path) -> Templates:
    authors = content / "templates" if archive.templates else None
    return Templates(language_of(archive.site.language), authors)
