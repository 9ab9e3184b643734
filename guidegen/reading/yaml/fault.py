"""What is wrong with a YAML text, as one sentence about one place, and the place where YAML stopped."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple, Protocol

from guidegen.base.diagnostic import Diagnostic, Fix, Related
from guidegen.base.source import Source
from guidegen.reading.yaml.quoting import in_quotes, quoted


class _Mark(Protocol):
    index: int


class Refusal(Protocol):
    """What YAML's reader raises: what it was doing, what it met, and where."""

    context: str | None
    context_mark: _Mark | None
    problem: str | None
    problem_mark: _Mark | None


class Edit(NamedTuple):
    """What to write in place of a stretch of one line."""

    start: int
    end: int
    text: str


class Fault(NamedTuple):
    """One sentence and one action about a stretch of a file; `other` is a second place that explains it.

    `edit` lets reading go on; where it is `sure`, it is what the author meant. Without one the line is passed over,
    and after one that `is_last` so is all the rest. One that `tears` may have other keys in what it is read as.
    """

    message: str
    help: str
    start: int
    end: int
    other: tuple[int, str] | None = None
    edit: Edit | None = None
    sure: bool = False
    is_last: bool = False
    tears: bool = False

    def moved(self, at: Callable[[int], int]) -> Fault:
        """The same fault, with every place where `at` leads from it."""
        return self._replace(
            start=at(self.start),
            end=at(self.end),
            other=self.other and (at(self.other[0]), self.other[1]),
            edit=self.edit and Edit(at(self.edit.start), at(self.edit.end), self.edit.text),
        )

    def diagnostic(self, source: Source) -> Diagnostic:
        """The fault as a bad-yaml diagnostic."""
        related: tuple[Related, ...] = ()
        if self.other is not None:
            at, message = self.other
            related = (Related(span=source.span(at, min(at + 1, len(source.text))), message=message),)
        edit = self.edit if self.sure else None
        return Diagnostic(
            code="bad-yaml",
            message=self.message,
            span=source.span(self.start, self.end),
            help=self.help,
            related=related,
            fix=Fix(span=source.span(edit.start, edit.end), text=edit.text) if edit else None,
        )


# Deeper than any content goes (the tables of keys reach five), and far from what a recursive reader could not bear.
DEEPEST_NESTING = 50


def too_deep(at: int) -> Fault:
    """Lists within lists beyond `DEEPEST_NESTING`."""
    return Fault(
        f"Lists and braces stand more than {DEEPEST_NESTING} deep in one another here.",
        "Nothing in a guide goes that deep; take some of the brackets out.",
        at,
        at + 1,
        is_last=True,
    )


def tab_refused(at: int, edit: Edit, *, sure: bool = False) -> Fault:
    """A tab where a line is set in."""
    return Fault(
        "A tab stands where the line is set in; only spaces count there.",
        "Delete the tab and set the line in with spaces.",
        at,
        at + 1,
        edit=edit,
        sure=sure,
    )


def sign_refused(text: str, at: int, stop: int) -> Fault:
    """A value that begins with one of YAML's signs for anchors, aliases and tags."""
    end = end_of_line(text, at, stop)
    value = text[at:end].rstrip(",]}") or text[at:end]
    start = text.rfind("\n", 0, at) + 1
    own = len(text[start:at]) - len(text[start:at].lstrip())
    # Where the value stands on the lines below, the sign stands before it and is no part of a text.
    goes_on = re.match(rf"[ \t]*\n(?: *\n)* {{{own + 1}}}", text[end:stop])
    return Fault(
        f"A value that begins with {text[at]} has a special meaning in such files, which guidegen leaves out.",
        f"If it is meant as text, put it in quotes: {quoted(value)}. Otherwise write the value out.",
        at,
        at + len(value),
        edit=Edit(at, at + len(value), "" if goes_on else in_quotes(value)),
    )


class RefusedAt:
    """Where YAML refused a text: `at` the offset of what it met, `since` of what that is in; and the lines around."""

    def __init__(self, text: str, start: int, stop: int, refusal: Refusal) -> None:
        self.text, self.start, self.stop = text, start, stop
        self.context = refusal.context or ""
        self.problem = refusal.problem or ""
        met = refusal.problem_mark or refusal.context_mark
        self.at = min(start + (met.index if met else 0), stop)
        since = refusal.context_mark
        self.since = min(start + since.index, stop) if since else None

    @property
    def sign(self) -> str:
        """The character that was met, '' at the end of the text."""
        return self.text[self.at] if self.at < self.stop else ""

    def start_of_line(self, at: int) -> int:
        return max(self.text.rfind("\n", self.start, at) + 1, self.start)

    def end_of_line(self, at: int) -> int:
        return end_of_line(self.text, at, self.stop)

    def line(self, at: int) -> str:
        return self.text[self.start_of_line(at) : self.end_of_line(at)]

    def line_above(self, at: int) -> int | None:
        """The start of the nearest line above that is neither blank nor a remark."""
        here = self.start_of_line(at)
        while here > self.start:
            here = self.start_of_line(here - 1)
            content = self.line(here).strip()
            if content and not content.startswith("#"):
                return here
        return None

    def after_line(self, at: int) -> int:
        """The start of the nearest line below that is neither blank nor a remark, or the end of the text."""
        while (end := self.text.find("\n", at, self.stop)) >= 0:
            at = end + 1
            content = self.line(at).strip()
            if content and not content.startswith("#"):
                return at
        return self.stop

    def content(self, line_start: int) -> tuple[int, int]:
        """The offsets of a line's first sign and of its end, blanks aside."""
        end = self.end_of_line(line_start)
        return end - len(self.text[line_start:end].lstrip()), end


def end_of_line(text: str, at: int, stop: int) -> int:
    """Where the line that `at` lies in ends, without blanks at its end; `at` itself where only blanks follow."""
    end = text.find("\n", at, stop)
    end = stop if end < 0 else end
    return max(at, at + len(text[at:end].rstrip()))
