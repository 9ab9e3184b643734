"""Reading on behind a fault: the text is put right line by line, so that one reading tells every fault of it.

Only within lines is anything written, so a line keeps its number; each character knows where it stood.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Callable
from dataclasses import dataclass, field
from itertools import accumulate
from typing import Generic, TypeVar

from guidegen.base.source import Source
from guidegen.reading.yaml.fault import Edit, Fault, tab_refused

T = TypeVar("T")

# Reading begins anew behind each fault; together that comes to no more characters than this, which keeps the time
# for a hostile file to a few seconds. A guide of 200 lines can have a hundred faults and more.
MOST_CHARACTERS = 2_000_000
MOST_FAULTS = 200
# A line that was written to so often is passed over.
_MOST_EDITS = 4

# What a tab is taken for; the first by which the lines fit together is the one.
_TAB_WIDTHS = (2, 4, 8)
_SET_IN = re.compile(r"([ \t]*)((?:-[ \t]+)*)(?=[^ \t#])")


@dataclass(slots=True)
class Attempt(Generic[T]):
    """A text as far as it was put right: what came of reading it, None where there was no reading on.

    `tabs` are the faults of tabs that were replaced first; `recovered` puts them among `faults` in the end. All places
    are those in the author's text. `lost` are the ends of the lines above those passed over, and places where a line may
    have more in it than is read; `passed_over` counts such lines.
    """

    patched: PatchedText
    result: T | None = None
    faults: list[Fault] = field(default_factory=list)
    tabs: list[Fault] = field(default_factory=list)
    lost: list[int] = field(default_factory=list)
    passed_over: int = 0

    @property
    def whole(self) -> bool:
        """Whether it now says for sure what its author meant."""
        return self.result is not None and not self.passed_over and all(fault.sure for fault in self.faults)


class PatchedText:
    """The text of a file up to an offset, line by line, with what was written into it.

    `origins` gives for each line that was changed the author's column of every character, `edits` how often it was.
    """

    def __init__(self, source: Source, stop: int) -> None:
        self.file = source.file
        self.lines = source.text[:stop].split("\n")
        self.starts = source.starts
        self.origins: dict[int, list[int]] = {}
        self.edits: dict[int, int] = {}
        self._now = self._starts()

    def _starts(self) -> list[int]:
        return [0, *accumulate(len(line) + 1 for line in self.lines)]

    @property
    def source(self) -> Source:
        """The patched text as a source of its own."""
        return Source(file=self.file, text="\n".join(self.lines))

    def line_of(self, at: int) -> int:
        """The number, from 0, of the line that an offset of this text lies in."""
        return min(bisect_right(self._now, at), len(self.lines)) - 1

    def origin(self, at: int) -> int:
        """Where an offset of this text lies in the author's text."""
        line = self.line_of(at)
        return self.starts[line] + self.column(line, at - self._now[line])

    def column(self, line: int, column: int) -> int:
        """The column in the author's text of one of this text; both from 0, as lines are."""
        origin = self.origins.get(line)
        return column if origin is None else origin[min(column, len(origin) - 1)]

    def put(self, edit: Edit) -> None:
        """Apply an edit, which lies within one line."""
        line = self.line_of(edit.start)
        begin, end = edit.start - self._now[line], edit.end - self._now[line]
        text = self.lines[line]
        origin = self.origins.get(line) or list(range(len(text) + 1))
        self.origins[line] = (
            origin[:begin] + _placed(text[begin:end], edit.text, origin[begin : end + 1]) + origin[end:]
        )
        self.lines[line] = text[:begin] + edit.text + text[end:]
        self.edits[line] = self.edits.get(line, 0) + 1
        self._now = self._starts()

    def take_out(self, line: int) -> None:
        """Remove all that stands in a line."""
        self.put(Edit(self._now[line], self._now[line] + len(self.lines[line]), ""))

    def end_above(self, line: int) -> int:
        """The end, in the author's text, of the nearest line above that says something."""
        while line > 0:
            line -= 1
            if self.lines[line].strip():
                break
        return self.origin(self._now[line] + len(self.lines[line].rstrip()))

    def without_tabs(self, width: int, start: int) -> list[Fault]:
        """Set lines in by spaces where tabs stand, of a text that is still the author's; after a dash one will do."""
        faults: list[Fault] = []
        for number in range(self.line_of(start), len(self.lines)):
            line = self.lines[number]
            found = _SET_IN.match(line)
            if found is None or "\t" not in found[0]:
                continue
            dashes = "".join("- " for _ in range(found[2].count("-")))
            blanks = found[1].replace("\t", " " * width) + dashes
            begin, tab = self.starts[number], self.starts[number] + line.index("\t")
            if len(faults) < MOST_FAULTS:
                edit = Edit(begin, begin + found.end(), blanks)
                faults.append(tab_refused(tab, edit, sure=True))
            origin = list(range(len(line) + 1))
            self.origins[number] = (
                _placed(found[0], blanks, origin[: found.end() + 1]) + origin[found.end() :]
            )
            self.lines[number] = blanks + line[found.end() :]
        self._now = self._starts()
        return faults


def _placed(before: str, after: str, origin: list[int]) -> list[int]:
    """The origins of a text written in the place of another: what is the same at both ends keeps its own."""
    most = min(len(before), len(after))
    head = next((n for n in range(most) if before[n] != after[n]), most)
    tail = next((n for n in range(most - head) if before[-1 - n] != after[-1 - n]), most - head)
    middle = [origin[head]] * (len(after) - head - tail)
    return [*origin[:head], *middle, *origin[len(before) - tail : len(before)]]


def recovered(
    source: Source,
    start: int,
    stop: int,
    read: Callable[[Source, int, int], T | Fault],
    same: Callable[[T, T], bool],
) -> Attempt[T]:
    """The text between two offsets put right so far that it can be read, with every fault that stood in the way.

    `read` gives what comes of a text, or the first fault in it; `same` says whether two results say the same.
    Of several ways to read tabs the one with the fewest faults is taken, for sure where no other is as good.
    """
    plain = _tried(source, start, stop, read, None)
    if "\t" not in source.text[start:stop]:
        return plain
    ways = [plain, *(_tried(source, start, stop, read, width) for width in _TAB_WIDTHS)]
    best = min(ways, key=_badness)
    for way in ways[1:]:
        if way is not best and _badness(way) == _badness(best) and not _alike(best, way, same):
            best.tabs = [fault._replace(sure=False) for fault in best.tabs]
    best.faults = [*best.tabs, *best.faults]
    return best


def _badness(attempt: Attempt[T]) -> tuple[bool, int]:
    return attempt.result is None, len(attempt.faults) + attempt.passed_over


def _alike(one: Attempt[T], other: Attempt[T], same: Callable[[T, T], bool]) -> bool:
    return one.result is not None and other.result is not None and same(one.result, other.result)


def _tried(
    source: Source,
    start: int,
    stop: int,
    read: Callable[[Source, int, int], T | Fault],
    width: int | None,
) -> Attempt[T]:
    attempt: Attempt[T] = Attempt(PatchedText(source, stop))
    patched = attempt.patched
    if width is not None:
        attempt.tabs = patched.without_tabs(width, start)
    gone, doubtful, spent = set[int](), set[int](), 0
    while True:
        now = patched.source
        result = read(now, start, len(now.text))
        if not isinstance(result, Fault):
            attempt.result = result
            return attempt
        spent += len(now.text) - start
        edit = result.edit
        line = patched.line_of(edit.start if edit else result.start)
        follows = _follows(patched, line, gone)
        if line not in doubtful and not follows:
            attempt.faults.append(result.moved(patched.origin))
        if result.is_last or spent > MOST_CHARACTERS or len(attempt.faults) >= MOST_FAULTS:
            return attempt
        if edit is not None and patched.edits.get(line, 0) < _MOST_EDITS and not follows:
            if not result.sure:
                doubtful.add(line)
            if not result.sure or result.tears:
                attempt.lost.append(patched.origin(edit.end))
            patched.put(edit)
            continue
        if not patched.lines[line].strip():
            return attempt
        attempt.lost.append(patched.end_above(line))
        attempt.passed_over += 1
        patched.take_out(line)
        gone.add(line)
        doubtful.add(line)


def _follows(patched: PatchedText, line: int, gone: set[int]) -> bool:
    """Whether a line goes on with what was passed over: all between is empty, and it begins nothing of its own."""
    above = line - 1
    while above >= 0 and above not in gone and not patched.lines[above].strip():
        above -= 1
    text = patched.lines[line]
    return above in gone and text.startswith(" ") and not text.lstrip().startswith("- ")
