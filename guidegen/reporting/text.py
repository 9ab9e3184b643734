"""Diagnostics in full, for a painter: a sentence, the place with what is meant underlined, and what to do."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

from guidegen.base.codes import Severity
from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Span
from guidegen.reporting.cells import (
    ELLIPSIS,
    TAB,
    fitting,
    fitting_end,
    harmless,
    width,
    with_tabs_widened,
    wrapped,
)

# Diagnostics that are shown in full, and the cells of a line where there is no terminal.
MOST = 20
PIPE_WIDTH = 80

_INDENT = "    "
_GAP = "     "
# Less room than this beside the place, and the excerpt goes on a line of its own.
_LEAST_EXCERPT = 28
_LEAST_WIDTH = 40
# A value of many pages, quoted or pointed into, is not shown whole; nor is it looked through.
_LONGEST_SAID = 1_000

Role = Literal["plain", "sentence", "place", "excerpt", "error", "warning", "advice", "help", "quiet"]
Shown = Callable[[str], str]


@dataclass(frozen=True, slots=True)
class Piece:
    """Some text of a line and what it is, from which a terminal takes its colour."""

    text: str
    role: Role = "plain"


Line = tuple[Piece, ...]

_ROLES: dict[Severity, Role] = {
    Severity.ERROR: "error",
    Severity.WARNING: "warning",
    Severity.ADVICE: "advice",
}


def as_text(
    diagnostics: Sequence[Diagnostic], *, shown: Shown, cells: int = PIPE_WIDTH, most: int = MOST
) -> str:
    """The full text without colour: the count, then at most `most` of them, a blank line before each.

    `shown` gives the name under which a file is shown; `cells` is the width to keep within. Empty without
    diagnostics.
    """
    return "".join(
        "".join(piece.text for piece in line).rstrip() + "\n"
        for line in lines_of(diagnostics, shown=shown, cells=cells, most=most)
    )


def lines_of(
    diagnostics: Sequence[Diagnostic], *, shown: Shown, cells: int = PIPE_WIDTH, most: int = MOST
) -> list[Line]:
    """The same as lines of pieces, for whoever colours them."""
    cells = max(cells, _LEAST_WIDTH)
    if not diagnostics:
        return []
    lines: list[Line] = [(Piece(count_line(diagnostics)),)]
    for diagnostic in diagnostics[:most]:
        lines += [(), *_block(diagnostic, shown, cells)]
    if len(diagnostics) > most:
        rest = f"and {len(diagnostics) - most} more; guidegen check --format line lists them all"
        lines += [(), (Piece(rest, "quiet"),)]
    return lines


def counts_of(diagnostics: Iterable[Diagnostic]) -> dict[Severity, int]:
    """How many there are of each weight, noughts too, errors first."""
    counted = Counter(diagnostic.severity for diagnostic in diagnostics)
    return {severity: counted[severity] for severity in Severity}


def count_line(diagnostics: Iterable[Diagnostic]) -> str:
    """`3 errors, 2 warnings, 1 piece of advice`; `Nothing to mend.` if there are none."""
    names = {
        Severity.ERROR: ("error", "errors"),
        Severity.WARNING: ("warning", "warnings"),
        Severity.ADVICE: ("piece of advice", "pieces of advice"),
    }
    counted = counts_of(diagnostics)
    parts = [f"{count} {names[severity][count != 1]}" for severity, count in counted.items() if count]
    return ", ".join(parts) or "Nothing to mend."


def _block(diagnostic: Diagnostic, shown: Shown, cells: int) -> list[Line]:
    room = cells - len(_INDENT)
    lines: list[Line] = [(Piece(line, "sentence"),) for line in wrapped(said(diagnostic.message), cells)]
    lines += _place_and_excerpt(diagnostic, shown, cells)
    remarks = [f"{_place(r.span, shown)} {said(r.message)}" for r in diagnostic.related]
    remarks += [said(note) for note in diagnostic.notes]
    lines += [(Piece(_INDENT), Piece(line)) for remark in remarks for line in wrapped(remark, room)]
    return lines + _help_and_code(diagnostic, cells)


def said(text: str) -> str:
    """The words of a diagnostic without signs that steer a terminal, cut after 1,000 characters."""
    return harmless(text if len(text) <= _LONGEST_SAID else text[: _LONGEST_SAID - 1] + ELLIPSIS)


def _place(span: Span, shown: Shown) -> str:
    file = harmless(shown(span.file))
    return file if span == Span.of_file(span.file) else f"{file}, line {span.line}"


def _place_and_excerpt(diagnostic: Diagnostic, shown: Shown, cells: int) -> list[Line]:
    place = _place(diagnostic.span, shown)
    lines: list[Line] = [
        (Piece(_INDENT), Piece(line, "place")) for line in wrapped(place, cells - len(_INDENT))
    ]
    if not diagnostic.excerpt.strip() or diagnostic.span == Span.of_file(diagnostic.span.file):
        return lines
    start = len(_INDENT) + width(place) + len(_GAP)
    whole = with_tabs_widened(diagnostic.excerpt[:_LONGEST_SAID].strip())
    beside = cells - start >= min(_LEAST_EXCERPT, width(whole))
    if not beside:
        start = 2 * len(_INDENT)
    excerpt, before, under = excerpt_around(diagnostic, cells - start)
    underline = (Piece(" " * (start + before)), Piece("~" * under, _ROLES[diagnostic.severity]))
    if beside:
        return [(Piece(_INDENT), Piece(place, "place"), Piece(_GAP), Piece(excerpt, "excerpt")), underline]
    return [*lines, (Piece(" " * start), Piece(excerpt, "excerpt")), underline]


def excerpt_around(diagnostic: Diagnostic, cells: int) -> tuple[str, int, int]:
    """The line of the file as shown in that many cells, the cells before the underline, and the cells under it.

    What is meant stays in sight: text before and after it gives way first, an ellipsis in its place. A stretch
    over several lines is underlined to the end of its first; a place between two characters has one cell.
    """
    line, span = diagnostic.excerpt, diagnostic.span
    first = min(span.column - 1, len(line))
    last = len(line.rstrip()) if span.end_line > span.line else min(span.end_column - 1, len(line))
    # The indent goes, but for what the underline stands under.
    cut = min(len(line) - len(line.lstrip()), first)
    last = max(first, last)
    before, meant, after = (
        harmless(with_tabs_widened(part))
        for part in (
            line[max(cut, first - _LONGEST_SAID) : first],
            line[first : min(last, first + _LONGEST_SAID)],
            line[last : last + _LONGEST_SAID].rstrip(),
        )
    )
    if width(before) + width(meant) + width(after) > cells:
        before, meant, after = _shortened(before, meant, after, cells)
    return before + meant + after, width(before), max(width(meant), 1)


def _shortened(before: str, meant: str, after: str, cells: int) -> tuple[str, str, str]:
    """The three pieces of a line cut so that together they stand in that many cells."""
    if width(meant) > cells - 2 * TAB:
        meant = fitting(meant, cells - 2 * TAB - 1) + ELLIPSIS
    room = cells - width(meant)
    # Words before it say most about where it is; what follows has the rest, but at least a quarter.
    for_after = max(room - width(before), room // 4)
    if width(after) > for_after:
        after = fitting(after, for_after - 1).rstrip() + ELLIPSIS
    room -= width(after)
    if width(before) > room:
        before = ELLIPSIS + fitting_end(before, room - 1).lstrip()
    return before, meant, after


def _help_and_code(diagnostic: Diagnostic, cells: int) -> list[Line]:
    code = diagnostic.code
    if diagnostic.severity is not Severity.ERROR:
        code = f"{diagnostic.severity}: {code}"
    text = wrapped(said(diagnostic.help), cells - len(_INDENT))
    if not text or len(_INDENT) + width(text[-1]) + 2 + len(code) > cells:
        text.append("")
    *lines, last = text
    gap = " " * (cells - len(_INDENT) - width(last) - len(code))
    return [
        *[(Piece(_INDENT), Piece(line, "help")) for line in lines],
        (Piece(_INDENT), Piece(last, "help"), Piece(gap), Piece(code, _ROLES[diagnostic.severity])),
    ]


def as_lines(diagnostics: Iterable[Diagnostic], *, shown: Shown) -> str:
    """`file:line:column: severity: message [code]`, each ended by a line feed; none left out."""
    return "".join(
        f"{harmless(shown(d.span.file))}:{d.span.line}:{d.span.column}:"
        f" {d.severity}: {said(d.message)} [{d.code}]\n"
        for d in diagnostics
    )
