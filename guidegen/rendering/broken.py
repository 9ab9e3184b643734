"""What is wrong with a template of the author's own, and on which line."""

from __future__ import annotations

import re
import sys
import traceback
from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass
from pathlib import Path

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Span
from guidegen.base.suggest import nearest
from guidegen.rendering.environment import Templates
from guidegen.rendering.strings import language_of

FOLDER = "templates"
# What jinja2 says of a name that an imported template lacks, and of a macro that is called otherwise than it is made.
_NOT_THERE = re.compile(
    r"the template '([^']+)' \(imported on line \d+ in '([^']+)'\) does not export the requested name '([^']+)'"
)
_MISUSED = re.compile(r"macro '(\w+)' (?:takes|was invoked)")
# What jinja2 says of something that a page is not given: "'guidegen.….HomeView object' has no attribute 'titel'".
_NOT_GIVEN = re.compile(r"'(guidegen\.[\w.]+)\.(\w+) object' has no attribute '(\w+)'")
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
    """bad-template for what a template of the author's ran into; None where the fault lies in none of theirs.

    One that ours take something from, and that has it no longer, is told as well.
    """
    from jinja2 import TemplateNotFound

    root = authors.resolve()
    for frame in reversed(traceback.extract_tb(error.__traceback__)):
        path = Path(frame.filename)
        if (path.is_absolute() and path.is_relative_to(root)) or path.is_relative_to(authors):
            inside = path.relative_to(root if path.is_absolute() and path.is_relative_to(root) else authors)
            words = getattr(error, "message", None) or str(error)
            if isinstance(error, TemplateNotFound):
                words = f"there is no template “{error.name}” to put in here"
            elif isinstance(error, RecursionError):
                words = "it takes itself in again and again"
            words = _NOT_GIVEN.sub(_not_given, words)
            return _at(f"{FOLDER}/{inside.as_posix()}", frame.lineno or 1, words)
    return _lacking(error, authors)


def _not_given(found: re.Match[str]) -> str:
    """What is asked for and not there, beside what may be meant."""
    record = getattr(sys.modules.get(found[1]), found[2], None)
    known = (
        [field.name for field in fields(record)] if isinstance(record, type) and is_dataclass(record) else []
    )
    best = nearest(found[3], known)
    return f"there is no “{found[3]}” here" + (f", but “{best}”" if best else "")


def _lacking(error: Exception, authors: Path) -> Diagnostic | None:
    """bad-template for a file of the author's that lacks a macro, or what one takes, that ours count on."""
    words = getattr(error, "message", None) or str(error)
    templates = Templates(language_of(""), authors)
    missing = _NOT_THERE.match(words)
    if missing is not None and not templates.is_ours(missing[1]):
        told = f"it has no macro “{missing[3]}”, which {missing[2]} takes from it"
        return _at(f"{FOLDER}/{missing[1]}", 1, told)
    misused = _MISUSED.match(words)
    for name in templates.of_authors() if misused is not None else ():
        for number, line in enumerate(templates.source(name).splitlines(), 1):
            if misused is not None and re.search(rf"{{%-?\s*macro\s+{re.escape(misused[1])}\b", line):
                return _at(f"{FOLDER}/{name}", number, words)
    return None


def _at(file: str, line: int, words: str) -> Diagnostic:
    return Diagnostic(
        code="bad-template",
        message=f"The template “{file.removeprefix(f'{FOLDER}/')}” cannot be used: {' '.join(words.split()).rstrip('.')}.",
        span=Span(file=file, line=line, column=1, end_line=line, end_column=1),
        help=_HELP,
    )
