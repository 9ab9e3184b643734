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
class Fix:
    """What to write in place of `span` where there is one safe way to mend it, as it has to be typed in YAML."""

    span: Span
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnostic:
    """A sentence about one place, and an action that mends it.

    `code` is a slug of `base.codes.CODES`, which gives the severity. `excerpt` is the line of the file
    that `span` starts in, filled in by `with_excerpts` once the file's text is at hand. `fix` mends it by itself.
    What is wrong with a draft stops nothing, so its errors (`of_draft`) count as warnings.
    """

    code: str
    message: str
    span: Span
    help: str = ""
    notes: tuple[str, ...] = ()
    related: tuple[Related, ...] = ()
    excerpt: str = ""
    fix: Fix | None = None
    of_draft: bool = False

    def __post_init__(self) -> None:
        if self.code not in CODES:
            raise ValueError(f"no such diagnostic: {self.code}")

    @property
    def severity(self) -> Severity:
        """Error, warning or advice, by the code."""
        return Severity.WARNING if self.of_draft and self.is_fault else CODES[self.code].severity

    @property
    def is_fault(self) -> bool:
        """Whether no page can be made of what it tells of; unlike `severity`, in a draft too."""
        return CODES[self.code].severity is Severity.ERROR

    @property
    def is_guess(self) -> bool:
        """Whether it tells of YAML that was read by guessing, so that what else is told of its line may be wrong."""
        end = (self.span.end_line, self.span.end_column)
        return self.code == "bad-yaml" and self.fix is None and (self.span.line, self.span.column) != end


def in_order(diagnostics: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Without repeats, the weightiest first, then by file, place, code and words, whatever order they came in.

    Of a line with a guess (`is_guess`) only its bad-yaml is kept.
    """
    kept: dict[tuple[str, Span, str], Diagnostic] = {}
    several = tuple(diagnostics)
    guessed = {(one.span.file, one.span.line) for one in several if one.is_guess}
    for diagnostic in several:
        if diagnostic.code == "bad-yaml" or (diagnostic.span.file, diagnostic.span.line) not in guessed:
            kept.setdefault((diagnostic.code, diagnostic.span, diagnostic.message), diagnostic)
    weight = list(Severity)
    return tuple(sorted(kept.values(), key=lambda d: (weight.index(d.severity), d.span, d.code, d.message)))


def with_excerpts(diagnostics: Iterable[Diagnostic], sources: Mapping[str, Source]) -> tuple[Diagnostic, ...]:
    """Give each diagnostic the line of text that it points into, where the file was read.

    The text of a fix takes over the quotes that stand around the value it replaces.
    """
    # A line that thousands point into is kept once.
    lines: dict[tuple[str, int], str] = {}

    def with_excerpt(d: Diagnostic) -> Diagnostic:
        source = sources.get(d.span.file)
        if d.excerpt or source is None:
            return d
        place = d.span.file, d.span.line
        if place not in lines:
            lines[place] = source.line(d.span.line)
        return replace(d, excerpt=lines[place], fix=d.fix and _quoted_as_before(d.fix, source))

    return tuple(map(with_excerpt, diagnostics))


def _quoted_as_before(fix: Fix, source: Source) -> Fix:
    """A fix that needs no quotes of its own in those that the author had."""
    span = fix.span
    if fix.text[:1] in "\"'" or span.line != span.end_line:
        return fix
    before = source.line(span.line)[span.column - 1 : span.end_column - 1]
    quote = before[:1]
    if len(before) < 2 or quote not in "\"'" or before[-1] != quote:
        return fix
    inside = fix.text.replace("'", "''") if quote == "'" else fix.text
    return replace(fix, text=f"{quote}{inside}{quote}")


def has_errors(diagnostics: Iterable[Diagnostic]) -> bool:
    """Whether any of them stops a build."""
    return any(d.severity is Severity.ERROR for d in diagnostics)
