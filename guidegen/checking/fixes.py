"""Fixes that only all content together can judge: those whose slip of the pen is a word somewhere else."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass, replace
from functools import lru_cache
from typing import Any

from guidegen.base.diagnostic import Diagnostic, Fix
from guidegen.base.slips import alike, can_be_meant, slipped, words_in
from guidegen.base.source import Source
from guidegen.model.guide import Step, Stop
from guidegen.model.site import Archive
from guidegen.reading.content.guide import GUIDE
from guidegen.reading.content.paints import PALETTE
from guidegen.reading.content.plan import PLAN
from guidegen.reading.content.shared import SHARED
from guidegen.reading.content.site import SITE
from guidegen.reading.types.base import Text
from guidegen.reading.types.keys import Key

# Diagnostics about names that authors give: what is named may simply not be listed yet.
_NAMED = frozenset({"unknown-paint", "unknown-insert", "unknown-guide", "unknown-stop", "unknown-choice"})

_KEY = re.compile(r"([^\s:]+):[ \t]+$")
_SQUEEZED_KEY = re.compile(r"(?:- +)*([a-z_]+):")
# What people part keys with that share a line.
_BEFORE_KEY = re.compile(r"(?:\s*[,;|]\s*|\t+\s*|\s{2,})(?=[a-z_]+:[ \t])")
_BRACKETED = re.compile(r"(?:^[ \t]*-|([a-z_]+):)[ \t]+[\[{][^\[\]{}]*$")
_INNER_KEY = re.compile(r"(?<!\S)([a-z_]+):(?=[ \t])")


def only_sure_fixes(diagnostics: Iterable[Diagnostic], archive: Archive) -> Iterator[Diagnostic]:
    """The diagnostics, without the fixes that would change what the author meant.

    A name is left alone where its slip is a word of another name; a value with a colon in it where it is no text, or
    may be two keys that share a line.
    """
    words: frozenset[str] | None = None
    for diagnostic in diagnostics:
        fix = diagnostic.fix
        source = archive.sources.get(fix.span.file) if fix is not None else None
        if fix is None or source is None:
            yield diagnostic
        elif diagnostic.code == "bad-yaml":
            yield diagnostic if _is_meant(fix, source) else _for_its_author(diagnostic, fix, source)
        elif diagnostic.code in _NAMED:
            words = frozenset(_words(archive)) if words is None else words
            typed, known = _before(fix, source).strip("\"'"), fix.text.strip("\"'")
            doubtful = not alike(typed, known) and slipped(typed, known) in words
            yield replace(diagnostic, fix=None) if doubtful else diagnostic
        else:
            yield diagnostic


def _before(fix: Fix, source: Source) -> str:
    """What stands where the fix is to be put."""
    return source.line(fix.span.line)[fix.span.column - 1 : fix.span.end_column - 1]


def _words(archive: Archive) -> Iterator[str]:
    """Every word of the names that stand where something gets its name."""
    palette = archive.palette
    for label in (
        archive.site.title,
        *(one.name for one in palette.ranges),
        *(
            text
            for paint in palette.paints
            for text in (paint.name, paint.code, paint.edition, *paint.aliases)
        ),
        *(text for mix in palette.mixes for text in (mix.name, *mix.aliases)),
        *archive.addresses,
        *(one.name for one in archive.shared),
        *(plan.title for plan in archive.plans),
    ):
        yield from words_in(label)
    for guide in archive.guides:
        yield from words_in(guide.title)
        for name, options in guide.choose.items():
            for text in (name, *options):
                yield from words_in(text)
        for entry in guide.entries:
            if isinstance(entry, Stop):
                yield from words_in(entry.name)
            elif isinstance(entry, Step):
                for text in (entry.title, *(area.text for area in entry.areas)):
                    yield from words_in(text)


def _for_its_author(diagnostic: Diagnostic, fix: Fix, source: Source) -> Diagnostic:
    """Without the fix, or with lines for the keys that share one; where keys of ours may do so, that is said."""
    apart = _keys_apart(fix, source)
    if apart:
        return replace(diagnostic, help=apart[0], fix=replace(fix, text=apart[1]))
    inner = next((word for word in _INNER_KEY.findall(_before(fix, source)) if word in _keys()[1]), None)
    if inner is None or not diagnostic.help.startswith("Put it in quotes"):
        return replace(diagnostic, fix=None)
    help_line = f"Begin a new line before {inner}:, or p{diagnostic.help[1:]}"
    return replace(diagnostic, fix=None, help=help_line)


def _keys_apart(fix: Fix, source: Source) -> tuple[str, str] | None:
    """A help and a text for a value that holds more keys, each behind a comma, a semicolon or a tab; None for others."""
    line, before = source.line(fix.span.line), _before(fix, source)
    key = _KEY.search(line[: fix.span.column - 1])
    keys = _keys()[1]
    pieces = [piece.strip() for piece in _BEFORE_KEY.split(before)]
    inner = [_INNER_KEY.match(piece) for piece in pieces[1:]]
    if key is None or key[1] not in keys or not inner or not pieces[0] or _INNER_KEY.search(pieces[0]):
        return None
    if not all(found and found[1] in keys and len(_INNER_KEY.findall(found.string)) == 1 for found in inner):
        return None
    sign = _BEFORE_KEY.search(before)[0].strip()  # type: ignore[index]
    if re.search(r"[{\[]", line[: fix.span.column - 1]):
        instead = f"Write a comma instead of the {sign}" if sign else "Put a comma"
        return f"{instead} before {inner[0][1]}:.", ", ".join(pieces)  # type: ignore[index]
    indent = " " * key.start()
    left_out = f", and leave the {sign} out" if sign else ""
    return f"Begin a new line before {inner[0][1]}:{left_out}.", f"\n{indent}".join(pieces)  # type: ignore[index]


def _is_meant(fix: Fix, source: Source) -> bool:
    """Whether a fix of bad-yaml writes what the author surely meant, and not just something that can be read."""
    before = _before(fix, source)
    if fix.text == f"{before}:":
        return before in _keys()[1]
    squeezed = _SQUEEZED_KEY.match(before)
    if squeezed and fix.text == before.replace(squeezed[0], f"{squeezed[0]} ", 1):
        return squeezed[1] in _keys()[1]
    if fix.text in {"]", "}"}:
        opened = _BRACKETED.search(source.line(fix.span.line)[: fix.span.column - 1])
        return opened is not None and (opened[1] is None or opened[1] in _keys()[1] - _keys()[0])
    return fix.text[:1] not in "\"'" or before[:1] in {'"', "'"} or _is_text(fix, source)


def _is_text(fix: Fix, source: Source) -> bool:
    """Whether a value that gets quotes stands where any text may, and has no key of ours in it."""
    key = _KEY.search(source.line(fix.span.line)[: fix.span.column - 1])
    texts, keys = _keys()
    inner = _INNER_KEY.findall(_before(fix, source))
    return (
        key is not None and key[1] in texts and not any(can_be_meant(word, keys, ours=True) for word in inner)
    )


@lru_cache(maxsize=1)
def _keys() -> tuple[frozenset[str], frozenset[str]]:
    """The keys that take any text wherever they stand, and all keys there are."""
    rows = [row for record in (GUIDE, PLAN, PALETTE, SHARED, SITE) for row in _rows(record)]
    others = {word for row in rows for word in (row.name, *row.also) if not isinstance(row.type, Text)}
    every = {word for row in rows for word in (row.name, *row.also)}
    return frozenset(every - others), frozenset(every)


def _rows(value: Any) -> Iterator[Key]:
    """The rows of a table and of those within it."""
    if isinstance(value, Key):
        yield value
    if isinstance(value, tuple):
        for item in value:
            yield from _rows(item)
    elif is_dataclass(value):
        for field in fields(value):
            if field.name != "beside":
                yield from _rows(getattr(value, field.name))
