"""Diagnostics as SARIF 2.1.0 (OASIS, errata 01, 2023), for code hosts and editors that show them in place."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any
from urllib.parse import quote

from guidegen.base.codes import CODES, Code, Severity
from guidegen.base.diagnostic import Diagnostic, Fix
from guidegen.base.source import Span
from guidegen.reporting.as_json import dumped
from guidegen.reporting.text import Shown

SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"

# Section 3.27.10: what is neither wrong nor doubtful is a note.
_LEVELS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.ADVICE: "note"}
_INDEX = {code: at for at, code in enumerate(CODES)}


def as_sarif(diagnostics: Sequence[Diagnostic], *, shown: Shown, version: str) -> str:
    """One SARIF log with one run and every rule, used or not; in ASCII, ended by a line feed.

    Columns are characters, as the run says, and ends are exclusive (3.30.8).
    """
    driver = {
        "name": "guidegen",
        "version": version,
        "rules": [_rule(slug, code) for slug, code in CODES.items()],
    }
    run = {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "results": [_result(diagnostic, shown) for diagnostic in diagnostics],
    }
    return dumped({"$schema": SCHEMA, "version": "2.1.0", "runs": [run]})


def _rule(slug: str, code: Code) -> dict[str, Any]:
    sentence, _, _ = code.explanation.partition(". ")
    return {
        "id": slug,
        "shortDescription": {"text": sentence.rstrip(".") + "."},
        "fullDescription": {"text": code.explanation},
        "help": {"text": code.explanation},
        "defaultConfiguration": {"level": _LEVELS[code.severity]},
    }


def _result(diagnostic: Diagnostic, shown: Shown) -> dict[str, Any]:
    # 3.11.3: the first sentence says it all in short; viewers show the rest beside it.
    said = [diagnostic.message, *diagnostic.notes, diagnostic.help]
    result: dict[str, Any] = {
        "ruleId": diagnostic.code,
        "ruleIndex": _INDEX[diagnostic.code],
        "level": _LEVELS[diagnostic.severity],
        "message": {"text": " ".join(part for part in said if part)},
        "locations": [{"physicalLocation": _place(diagnostic.span, shown)}],
    }
    if diagnostic.fix is not None:
        result["fixes"] = [_fix(diagnostic.fix, diagnostic.help, shown)]
    if diagnostic.related:
        result["relatedLocations"] = [
            {
                "id": number,
                "physicalLocation": _place(related.span, shown),
                "message": {"text": related.message},
            }
            for number, related in enumerate(diagnostic.related, 1)
        ]
    return result


def _fix(fix: Fix, said: str, shown: Shown) -> dict[str, Any]:
    # Section 3.55: what to put in the place of a region of the file.
    place = _place(fix.span, shown)
    change = {"deletedRegion": place["region"], "insertedContent": {"text": fix.text}}
    return {
        "description": {"text": said},
        "artifactChanges": [{"artifactLocation": place["artifactLocation"], "replacements": [change]}],
    }


def _place(span: Span, shown: Shown) -> dict[str, Any]:
    # Section 3.4.3: a relative reference as in RFC 3986, so a colon or a space in a name is escaped.
    place: dict[str, Any] = {"artifactLocation": {"uri": quote(shown(span.file), errors="replace")}}
    if span != Span.of_file(span.file):
        place["region"] = {
            "startLine": span.line,
            "startColumn": span.column,
            "endLine": span.end_line,
            "endColumn": span.end_column,
        }
    return place
