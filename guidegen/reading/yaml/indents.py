"""Lines that are set in wrongly, and lines that lack their dash: where each belongs, by the lines around it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from guidegen.reading.yaml.fault import Edit, Fault, RefusedAt
from guidegen.reading.yaml.quoting import shortened

_DASHES = re.compile(r"(?:- +)*")
# With or without its space after the colon; an address has a / there.
_KEY = re.compile(r"([^\W\d][\w ]{0,40}?):(?=[^:/]|\Z)")
_FIRST_IN_BRACES = re.compile(r"\{\s*([a-z]+):\s")
_OTHER_SIGN = re.compile(r"((?:[*•–—+]|\d{1,3}[.)])[ \t]*)\{?[ \t]*([a-z]+):(?=\s)")
# The keys by which the entries of lists begin in the content's files.
FIRST_KEYS = frozenset({"step", "stop", "insert", "name", "guide", "file", "date"})
_TIGHT_DASH = re.compile(r"-[^\W\d_{\[\"'-]|-[{\[\"']")


class _Column(NamedTuple):
    """A column in which entries of a list (`dash`) or keys of one thing begin, counted from 0."""

    at: int
    dash: bool


class _Line:
    """A line by what it begins with: dashes, then maybe a key, then maybe a value."""

    def __init__(self, place: RefusedAt, start: int) -> None:
        self.start = start
        self.content, self.end = place.content(start)
        self.indent = self.content - start
        dashes = _DASHES.match(place.text, self.content, self.end)
        self.key_at = (dashes.end() if dashes else self.content) - start
        self.dash = self.key_at > self.indent
        found = _KEY.match(place.text, start + self.key_at, self.end)
        self.key = found[1] if found else ""
        self.has_value = not found or bool(place.text[found.end() : self.end].strip())

    @property
    def column(self) -> _Column:
        """The column in which it begins."""
        return _Column(self.indent, self.dash)

    @property
    def columns(self) -> tuple[_Column, ...]:
        """Where its key and its dash begin, the inner one first."""
        key = _Column(self.key_at, dash=False)
        return (key, self.column) if self.dash else (key,)


def set_in(place: RefusedAt, line_start: int) -> Fault:
    """What is wrong where a line is not set in as its neighbours are, or a dash is missing."""
    here = _Line(place, line_start)
    wrong_sign = other_sign(place, line_start)
    if wrong_sign is not None:
        return wrong_sign
    at = place.line_above(here.content)
    above = None if at is None else _Line(place, at)
    for look in (_tight_dash, _needless_dash, _missing_dash, _not_far_enough):
        fault = look(place, here, above)
        if fault is not None:
            return fault
    return _moved(place, here, above)


def other_sign(place: RefusedAt, line_start: int) -> Fault | None:
    """A line that begins an entry with another sign than a dash: * step:, – step:, 1. step:."""
    content, end = place.content(line_start)
    found = _OTHER_SIGN.match(place.text, content, end)
    if found is None or found[2] not in FIRST_KEYS:
        return None
    right = f"- {place.text[found.end(1) : end]}"
    return Fault(
        f"“{found[1].strip()}” begins no entry of a list; a dash and a space do.",
        f"Write {shortened(right)}.",
        content,
        end,
        edit=Edit(content, end, right),
        sure=True,
    )


def _tight_dash(place: RefusedAt, here: _Line, above: _Line | None) -> Fault | None:
    """A dash with no space after it, in this line or the one above."""
    for line in filter(None, (here, above)):
        if _TIGHT_DASH.match(place.text, line.content, line.end):
            right = f"- {place.text[line.content + 1 : line.end]}"
            return Fault(
                "There is no space after the dash.",
                f"Write {shortened(right)}.",
                line.content,
                line.end,
                edit=Edit(line.content, line.end, right),
                sure=True,
            )
    return None


def _needless_dash(place: RefusedAt, here: _Line, above: _Line | None) -> Fault | None:
    """A dash before one more key of the thing above, in the column of its keys."""
    if above is None or not above.has_value or above.key_at != here.indent:
        return None
    if not here.dash or not here.key or here.key in FIRST_KEYS:
        return None
    right = place.text[here.start + here.key_at : here.end]
    return Fault(
        "A dash begins a new entry, but this line is one more key of the one above.",
        f"Write {shortened(right)}.",
        here.content,
        here.end,
        edit=Edit(here.content, here.end, right),
        sure=True,
    )


def _missing_dash(place: RefusedAt, here: _Line, above: _Line | None) -> Fault | None:
    """A line that begins as other entries of the list do, but for their dash."""
    for line, first in ((here, False), (above, True)):
        if line is None or line.dash or not _begins_entries(place, line):
            continue
        below = place.after_line(line.end)
        following = _Line(place, below) if below < place.stop else None
        if first and (following is None or following.indent != line.indent + 2):
            continue
        at = place.line_above(line.content)
        before = None if at is None else _Line(place, at)
        dashes = {column.at for column in _open_columns(place, line.start) if column.dash}
        is_child = before is not None and not before.has_value and before.key_at < line.indent
        # In the column of the dashes; or in that of the keys, where two blanks stand in the dash's place.
        if line.indent in dashes or is_child:
            begin = line.content
        elif line.indent - 2 in dashes:
            begin = line.content - 2
        else:
            continue
        indent = begin - line.start + 2
        sure = following is None or following.indent == indent or following.indent < indent - 1
        return no_dash(place.text, begin, line.content, line.end, sure=sure)
    return None


def no_dash(text: str, begin: int, content: int, end: int, *, sure: bool) -> Fault:
    """A line, from its first sign to its end, that has to have its dash at `begin`."""
    right = f"- {text[content:end]}"
    return Fault(
        "The dash is missing: this line begins as the entries of the list do.",
        f"Write {shortened(right)}.",
        content,
        end,
        edit=Edit(begin, end, right),
        sure=sure,
    )


def _begins_entries(place: RefusedAt, line: _Line) -> bool:
    """Whether a line begins with a key that entries begin with, in braces or not."""
    found = _FIRST_IN_BRACES.match(place.text, line.content, line.end)
    key = found[1] if found else line.key if line.has_value else ""
    return key in FIRST_KEYS


def _not_far_enough(place: RefusedAt, here: _Line, above: _Line | None) -> Fault | None:
    """The line above, where it is that which stands too far to the left, and this one goes on where it should be."""
    if above is None or above.dash or not above.key or not above.has_value:
        return None
    open_there = tuple(_open_columns(place, above.start))
    if here.column not in open_there or here.indent <= above.indent or open_there[0].at <= above.indent:
        return None
    return _set_to(
        above, open_there[0].at, "This line is not set in as far as those it belongs to.", sure=True
    )


def _moved(place: RefusedAt, here: _Line, above: _Line | None) -> Fault:
    """A line that belongs into the nearest column in which something can go on."""
    message, other = "This line is set in differently from those it belongs to.", None
    if above is not None:
        other = (above.content, "is the line above.")
        if here.indent > above.key_at:
            message = "This line is set in further than the one above, which has its value already."
    columns = [column for column in _open_columns(place, here.start) if column.dash == here.dash]
    if not columns or not (here.key or here.dash):
        return Fault(
            message,
            "Keys of one thing begin in the same column; set this line in as its neighbours are.",
            here.content,
            max(here.content, here.end),
            other,
        )
    best = min(columns, key=lambda column: abs(column.at - here.indent))
    below = place.after_line(here.end)
    goes_on = below < place.stop and _Line(place, below).indent >= here.indent
    # The line below stands where this one is moved, or where the key behind its dash is.
    fits = {best.at, best.at + here.key_at - here.indent}
    # Nothing can belong to a line that has its value, so that one further in can only belong beside it.
    only_beside = above is not None and above.has_value and here.indent > above.key_at and not here.dash
    sure = not goes_on or only_beside or _Line(place, below).indent in fits
    return _set_to(here, best.at, message, other, sure=sure)


def _set_to(
    line: _Line,
    column: int,
    message: str,
    other: tuple[int, str] | None = None,
    *,
    sure: bool,
) -> Fault:
    """A line that has to begin in another column, counted from 0."""
    blanks = "no space" if not column else "one space" if column == 1 else f"{column} spaces"
    return Fault(
        message,
        f"Keys of one thing begin in the same column: put {blanks} before this line.",
        line.content,
        max(line.content, line.end),
        other,
        edit=None if column == line.indent else Edit(line.start, line.content, " " * column),
        sure=sure and column != line.indent,
    )


def _open_columns(place: RefusedAt, line_start: int) -> Iterator[_Column]:
    """The columns in which something can go on at a line, the innermost first."""
    least: _Column | None = None
    at = place.line_above(line_start)
    while at is not None and (least is None or least.at > 0 or least.dash):
        start, _ = place.content(at)
        columns = _Line(place, at).columns if least is None or start - at <= least.at else ()
        for column in columns:
            if (
                least is None
                or column.at < least.at
                or (column.at == least.at and least.dash and not column.dash)
            ):
                yield column
                least = column
        at = place.line_above(at)
