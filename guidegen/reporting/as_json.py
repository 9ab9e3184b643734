"""Diagnostics as JSON, for programs."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from typing import Any

from guidegen.base.codes import Severity
from guidegen.base.diagnostic import Diagnostic
from guidegen.reporting.text import Shown, counts_of

_LONE_SURROGATE = re.compile("[\ud800-\udfff]")


def as_json(diagnostics: Sequence[Diagnostic], *, shown: Shown) -> str:
    """One JSON object with every diagnostic and the counts, in ASCII, ended by a line feed.

    Lines and columns count from 1, in characters, ends exclusive.
    """
    counted = counts_of(diagnostics)
    return dumped(
        {
            "diagnostics": [_diagnostic(diagnostic, shown) for diagnostic in diagnostics],
            "errors": counted[Severity.ERROR],
            "warnings": counted[Severity.WARNING],
            "advice": counted[Severity.ADVICE],
        }
    )


def dumped(value: Any) -> str:
    """JSON in ASCII, so that any terminal, pipe or locale carries it; ended by a line feed.

    A lone surrogate, as a file name outside Unicode leaves, becomes U+FFFD: RFC 8259, section 8.2.
    """
    text = json.dumps(value, indent=2, ensure_ascii=False, allow_nan=False)
    text = _LONE_SURROGATE.sub("\ufffd", text)
    return re.sub(r"[^\x00-\x7e]", _escaped, text) + "\n"


def _escaped(found: re.Match[str]) -> str:
    # The one control sign of ASCII that JSON lets stand.
    return "\\u007f" if found[0] == "\x7f" else json.dumps(found[0])[1:-1]


def _diagnostic(diagnostic: Diagnostic, shown: Shown) -> dict[str, Any]:
    span = diagnostic.span
    return {
        "code": diagnostic.code,
        "severity": diagnostic.severity.value,
        "message": diagnostic.message,
        "file": shown(span.file),
        "line": span.line,
        "column": span.column,
        "end_line": span.end_line,
        "end_column": span.end_column,
        "help": diagnostic.help,
        "notes": list(diagnostic.notes),
        "related": [
            {
                "file": shown(related.span.file),
                "line": related.span.line,
                "column": related.span.column,
                "message": related.message,
            }
            for related in diagnostic.related
        ],
    }
