"""What guidegen tells an author: one mistake, one value."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from guidegen.base.codes import CODES, Severity
from guidegen.base.source import Source, Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Related:
    """A second place that explains the first."""

    span: Span
    message: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnostic:
    """A sentence about one place, and an action that mends it.

    `code` is a slug of `base.codes.CODES`, which gives the severity. `excerpt` is the line of the file
    that `span` starts in, filled in by `with_excerpts` once the file's text is at hand.
    """

    code: str
    message: str
    span: Span
    help: str = ""
    notes: tuple[str, ...] = ()
    related: tuple[Related, ...] = ()
    excerpt: str = ""

    def __post_init__(self) -> None:
        """A slug that is not in the table is our own mistake."""
        if self.code not in CODES:
            raise ValueError(f"no such diagnostic: {self.code}")

    @property
    def severity(self) -> Severity:
        """Error, warning or advice, by the code."""
        return CODES[self.code].severity


def in_order(diagnostics: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Without repeats, sorted by file, place, code and words: the same whatever order they came in."""
    kept: dict[tuple[str, Span, str], Diagnostic] = {}
    for diagnostic in diagnostics:
        kept.setdefault((diagnostic.code, diagnostic.span, diagnostic.message), diagnostic)
    return tuple(sorted(kept.values(), key=lambda d: (d.span, d.code, d.message)))


def with_excerpts(diagnostics: Iterable[Diagnostic], sources: Mapping[str, Source]) -> tuple[Diagnostic, ...]:
    """Give each diagnostic the line of text that it points into, where the file was read."""
    return tuple(
        replace(d, excerpt=sources[d.span.file].line(d.span.line))
        if not d.excerpt and d.span.file in sources
        else d
        for d in diagnostics
    )


def has_errors(diagnostics: Iterable[Diagnostic]) -> bool:
    """Whether any of them stops a build."""
    return any(d.severity is Severity.ERROR for d in diagnostics)
