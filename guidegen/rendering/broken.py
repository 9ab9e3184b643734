"""What is wrong with a template of the author's own, and on which line."""

from __future__ import annotations

import traceback
from collections.abc import Iterable, Iterator
from pathlib import Path

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Span
from guidegen.rendering.environment import Templates

FOLDER = "templates"
_HELP = "Mend it, or remove the file to have guidegen's own again."


def unreadable_templates(files: Iterable[str], templates: Templates) -> Iterator[Diagnostic]:
    """bad-template for each of the author's pages that is no template; `files` are paths relative to content."""
    from jinja2 import TemplateError

    for file in files:
        name = file.removeprefix(f"{FOLDER}/")
        if not name.endswith(".html"):
            continue
        try:
            templates.load(name)
        except TemplateError as error:
            yield _at(file, getattr(error, "lineno", None) or 1, str(error.message or error))
        except UnicodeDecodeError:
            yield _at(file, 1, "it is not written in UTF-8")


def broken_template(error: Exception, authors: Path) -> Diagnostic | None:
    """bad-template for what a template of the author's ran into; None where the fault lies in none of theirs."""
    root = authors.resolve()
    for frame in reversed(traceback.extract_tb(error.__traceback__)):
        path = Path(frame.filename)
        if (path.is_absolute() and path.is_relative_to(root)) or path.is_relative_to(authors):
            inside = path.relative_to(root if path.is_absolute() and path.is_relative_to(root) else authors)
            words = getattr(error, "message", None) or str(error)
            return _at(f"{FOLDER}/{inside.as_posix()}", frame.lineno or 1, words)
    return None


def _at(file: str, line: int, words: str) -> Diagnostic:
    return Diagnostic(
        code="bad-template",
        message=f"The template “{file.removeprefix(f'{FOLDER}/')}” cannot be used: {' '.join(words.split()).rstrip('.')}.",
        span=Span(file=file, line=line, column=1, end_line=line, end_column=1),
        help=_HELP,
    )
