"""What is wrong with a template of the author's own, and on which line."""

from __future__ import annotations

import re
import sys
import traceback
from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass
from pathlib import PurePosixPath
from typing import TypedDict

from guidegen.base.activity import activity_notes
from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Span
from guidegen.base.suggest import nearest
from guidegen.rendering.theme.template_files import FOLDER
from guidegen.rendering.theme.template_process import BrokenTemplateError, Budget, exceeded_words
from guidegen.rendering.theme.templates import Templates

# What a template says of itself may be of any length.
LONGEST_WORDS = 500

# What jinja2 says of a name that an imported template lacks, and of a macro that is called otherwise than it is made.
_NOT_THERE = re.compile(
    r"the template '([^']+)' \(imported on line \d+ in '([^']+)'\) does not export the requested name '([^']+)'"
)
_MISUSED = re.compile(r"macro '(\w+)' (?:takes|was invoked)")
# What jinja2 says of something that a page is not given: "'guidegen.….HomeView object' has no attribute 'titel'".
_NOT_GIVEN = re.compile(r"'(guidegen\.[\w.]+)\.(\w+) object' has no attribute '(\w+)'")
# The name of a template in another one, and one that is put together there.
_NAMED = re.compile(r"""["']([^"'\n]+\.html)["']""")
_WORKED_OUT = re.compile(
    r"""\{%-?\s*(?:include|import|from|extends)\s+(?:[^"'\s\[(]|["'][^"'\n]*["']\s*[~+|])"""
)
_HELP = "Mend it, or remove the file to have guidegen's own again."


class ExceededError(Exception):
    """A template costs more than it may of what the budget has under that name."""


class Fault(TypedDict):
    """What is told of a template, as plain data: the parts of a BrokenTemplateError."""

    file: str
    line: int
    words: str
    exceeded: bool


def unreadable_templates(files: Iterable[str], templates: Templates) -> Iterator[Diagnostic]:
    """bad-template for each of the author's pages that is no template; `files` are paths relative to content.

    After one that takes more than it may, no others are looked at.
    """
    for file in files:
        name = file.removeprefix(f"{FOLDER}/")
        if not name.endswith(".html"):
            continue
        try:
            templates.load(name)
        except BrokenTemplateError as error:
            yield bad_template(error)
            if error.exceeded:
                return


def unused_templates(templates: Templates) -> Iterator[Diagnostic]:
    """file-not-read for each of the author's pages that takes no page's place, and that none of theirs takes in.

    None where one of theirs works out the name of what it takes in.
    """
    ours, theirs = templates.our_pages(), templates.pages_of_authors()
    if any(_WORKED_OUT.search(page) for page in theirs.values()):
        return
    taken_in = {taken for name, page in theirs.items() for taken in _NAMED.findall(page) if taken != name}
    for name in theirs:
        if name in ours or name in taken_in:
            continue
        near = nearest(name, ours)
        yield Diagnostic(
            code="file-not-read",
            message=f"{FOLDER}/{name} is used by no page.",
            span=Span.of_file(f"{FOLDER}/{name}"),
            help=f"Call it {near}, if that is the one whose place it takes."
            if near
            else f"A page of words is pages/{PurePosixPath(name).stem}.md; a template has the name of the one whose "
            "place it takes, as home.html.",
        )


def bad_template(error: BrokenTemplateError) -> Diagnostic:
    """The diagnostic; of one that costs too much it also names the page."""
    words = " ".join(error.words.split()).rstrip(".")
    page = next(iter(activity_notes(error)), "") if error.exceeded else ""
    return Diagnostic(
        code="bad-template",
        message=f"The template “{error.file.removeprefix(f'{FOLDER}/')}” cannot be used: {words}"
        + (f" (for {page})." if page else "."),
        span=Span(file=error.file, line=error.line, column=1, end_line=error.line, end_column=1),
        help=_HELP,
    )


def fault_of(error: BaseException, name: str, templates: Templates, budget: Budget) -> Fault | None:
    """What a template of the author's ran into while `name` was made; None where the fault lies in none of theirs.

    One that ours take something from, and that has it no longer, is told as well.
    """
    exceeded = isinstance(error, ExceededError | MemoryError)
    words = _words(error, budget)
    for frame in reversed(traceback.extract_tb(error.__traceback__)):
        if frame.filename.startswith(f"{FOLDER}/"):
            return Fault(file=frame.filename, line=frame.lineno or 1, words=words, exceeded=exceeded)
    lacking = _lacking(words, templates)
    if lacking is None and exceeded:
        return Fault(file=templates.blamed(name), line=1, words=words, exceeded=True)
    return lacking


def unreadable(error: BaseException, name: str, budget: Budget) -> Fault:
    """Why a template of the author's cannot be compiled."""
    from jinja2 import TemplateError

    exceeded = isinstance(error, ExceededError | MemoryError)
    line = getattr(error, "lineno", None) or 1 if isinstance(error, TemplateError) else 1
    words = "it is nested too deep" if isinstance(error, RecursionError) else _words(error, budget)
    return Fault(file=f"{FOLDER}/{name}", line=line, words=words, exceeded=exceeded)


def _words(error: BaseException, budget: Budget) -> str:
    from jinja2 import TemplateNotFound

    words = getattr(error, "message", None) or str(error) or type(error).__name__
    if isinstance(error, ExceededError | MemoryError):
        words = exceeded_words(str(error) if isinstance(error, ExceededError) else "memory", budget)
    elif isinstance(error, TemplateNotFound):
        words = f"there is no template “{error.name}” to put in here"
    elif isinstance(error, RecursionError):
        words = "it takes itself in again and again"
    elif isinstance(error, UnicodeDecodeError):
        words = "it is not written in UTF-8"
    words = _NOT_GIVEN.sub(_not_given, words)
    return words if len(words) <= LONGEST_WORDS else f"{words[:LONGEST_WORDS]}…"


def _not_given(found: re.Match[str]) -> str:
    """What is asked for and not there, beside what may be meant."""
    record = getattr(sys.modules.get(found[1]), found[2], None)
    known = (
        [field.name for field in fields(record)] if isinstance(record, type) and is_dataclass(record) else []
    )
    best = nearest(found[3], known)
    return f"there is no “{found[3]}” here" + (f", but “{best}”" if best else "")


def _lacking(words: str, templates: Templates) -> Fault | None:
    """What is told of a file of the author's that lacks a macro, or what one takes, that ours count on."""
    missing = _NOT_THERE.match(words)
    if missing is not None and not templates.is_ours(missing[1]):
        told = f"it has no macro “{missing[3]}”, which {missing[2]} takes from it"
        return Fault(file=f"{FOLDER}/{missing[1]}", line=1, words=told, exceeded=False)
    misused = _MISUSED.match(words)
    for name in templates.of_authors() if misused is not None else ():
        for number, line in enumerate(templates.source(name).splitlines(), 1):
            if misused is not None and re.search(rf"{{%-?\s*macro\s+{re.escape(misused[1])}\b", line):
                return Fault(file=f"{FOLDER}/{name}", line=number, words=words, exceeded=False)
    return None
