"""Diagnostics one a line, in the form that editors and search tools jump to."""

from __future__ import annotations

from collections.abc import Iterable

from guidegen.base.diagnostic import Diagnostic
from guidegen.reporting.cells import harmless
from guidegen.reporting.text import Shown, said


def as_lines(diagnostics: Iterable[Diagnostic], *, shown: Shown) -> str:
    """`file:line:column: severity: message [code]`, each ended by a line feed; none left out."""
    return "".join(
        f"{harmless(shown(d.span.file))}:{d.span.line}:{d.span.column}:"
        f" {d.severity}: {said(d.message)} [{d.code}]\n"
        for d in diagnostics
    )
