"""A file with its fixes put in: nothing else of it changes by a single byte, and where that is in doubt nothing at all."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from guidegen.base.diagnostic import Diagnostic, Fix
from guidegen.base.source import Source, Span
from guidegen.reading.editing.raw_text import RawText
from guidegen.reading.types.keys import entries_of
from guidegen.reading.yaml.front_matter import split
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, Scalar, Tree, tree_of


class AppliedFix(NamedTuple):
    """A fix that was put in, and what stood there before."""

    fix: Fix
    before: str


def with_fixes(
    source: Source, data: bytes, fixes: Iterable[Fix], *, may_add: Container[str] = ()
) -> tuple[bytes, tuple[AppliedFix, ...]]:
    """The bytes of a file with its fixes put in, and which they are, in the order of the file.

    `source` is what was read of these bytes; `may_add` are keys that fixes may put in where there were none. A fix over
    several lines, two that overlap and two that disagree are left out. Line ends, a byte order mark and everything else
    stay. Nothing is put in where the file would then be read otherwise in any other place, or where these are not the
    bytes that were read.
    """
    wanted = tuple(_apart(fixes))
    if not wanted or Source.from_bytes(source.file, data).text != source.text:
        return data, ()
    raw = RawText(data)
    applied = []
    for fix in reversed(wanted):
        begin, end = (raw.offset(fix.span.line, column) for column in (fix.span.column, fix.span.end_column))
        applied.append(AppliedFix(fix, raw.replace(begin, end, fix.text)))
    after = raw.text.encode()
    now = Source.from_bytes(source.file, after)
    if _faults(now) > _faults(source) or not _same_elsewhere(
        source, now, {fix.span for fix in wanted}, may_add
    ):
        return data, ()
    return after, tuple(reversed(applied))


def _apart(fixes: Iterable[Fix]) -> Iterator[Fix]:
    """Those on one line that neither overlap nor disagree, each once, in order."""
    once = sorted(
        {(fix.span, fix.text) for fix in fixes if fix.span.line == fix.span.end_line}, key=lambda one: one[0]
    )
    clash = {
        one
        for before, after in pairwise(once)
        if (before[0].end_line, before[0].end_column) > (after[0].line, after[0].column)
        for one in (before, after)
    }
    for span, text in once:
        if (span, text) not in clash:
            yield Fix(span=span, text=text)


def _same_elsewhere(before: Source, after: Source, fixed_at: set[Span], may_add: Container[str]) -> bool:
    """Whether two texts are the same trees, but for single values at the places that were mended, and keys added."""
    old, new = root_of(before), root_of(after)
    if old is None or new is None:
        return False
    ahead: list[tuple[Node, Node]] = [(old, new)]
    while ahead:
        one, other = ahead.pop()
        if isinstance(one, Scalar):
            there = before.span(one.start, one.end) in fixed_at
            if not isinstance(other, Scalar) or (one.value != other.value and not there):
                return False
        elif isinstance(one, ListNode):
            if not isinstance(other, ListNode) or len(one.items) != len(other.items):
                return False
            ahead += zip(one.items, other.items, strict=True)
        else:
            if not isinstance(other, MapNode):
                return False
            there_were = list(entries_of(one))
            known = {entry.key.value for entry in there_were}
            kept = [b for b in entries_of(other) if b.key.value in known or b.key.value not in may_add]
            if len(there_were) != len(kept):
                return False
            for a, b in zip(there_were, kept, strict=True):
                ahead += [(a.key, b.key), (a.value, b.value)]
    return True


def _faults(source: Source) -> int:
    """How many places of a file cannot be read as YAML."""
    return sum(one.code == "bad-yaml" for one in _tree(source).diagnostics)


def root_of(source: Source) -> Node | None:
    """The root of a file's tree, of a Markdown file's front matter; None where it cannot be read."""
    return _tree(source).root


@lru_cache(maxsize=4)
def _tree(source: Source) -> Tree:
    if not source.file.casefold().endswith(".md"):
        return tree_of(source)
    parts = split(source)
    return Tree(None, (parts,)) if isinstance(parts, Diagnostic) else tree_of(source, parts.start, parts.end)
