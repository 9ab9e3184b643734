"""Diagnostics as values: their order, their excerpts, their table, and how they speak."""

from __future__ import annotations

import re

import pytest

from guidegen.base.codes import CODES, Severity
from guidegen.base.diagnostic import Diagnostic, Related, has_errors, in_order, with_excerpts
from guidegen.base.errors import GuidegenError, MachineError, OutputRefusedError
from guidegen.base.source import Source, Span


def at(line: int, file: str = "palette.yaml") -> Span:
    return Span(file=file, line=line, column=1, end_line=line, end_column=5)


def told(code: str = "unknown-paint", message: str = "Nothing.", span: Span | None = None) -> Diagnostic:
    return Diagnostic(code=code, message=message, span=span or at(1))


def test_severity_comes_from_the_table():
    assert told("unknown-paint").severity is Severity.ERROR
    assert told("empty-value").severity is Severity.WARNING
    assert told("unsealed").severity is Severity.ADVICE


def test_a_code_outside_the_table_is_our_own_mistake():
    with pytest.raises(ValueError, match="no such diagnostic: unknown-pot"):
        told("unknown-pot")


def test_order_does_not_depend_on_who_spoke_first():
    many = [
        told(span=at(7)),
        told(span=at(2), code="empty-value"),
        told(span=at(2), code="bad-value", message="b"),
        told(span=at(2), code="bad-value", message="a"),
        told(span=at(9, "guides/a.md")),
    ]
    ordered = in_order(many)
    assert ordered == in_order(reversed(many))
    assert [(d.span.file, d.span.line, d.code, d.message) for d in ordered] == [
        ("guides/a.md", 9, "unknown-paint", "Nothing."),
        ("palette.yaml", 2, "bad-value", "a"),
        ("palette.yaml", 2, "bad-value", "b"),
        ("palette.yaml", 7, "unknown-paint", "Nothing."),
        ("palette.yaml", 2, "empty-value", "Nothing."),
    ]


def test_the_same_is_said_once():
    first = Diagnostic(code="bad-value", message="a", span=at(1), help="Do this.")
    again = Diagnostic(code="bad-value", message="a", span=at(1), help="Do that.")
    assert in_order([first, again]) == (first,)


def test_excerpts_are_the_lines_pointed_into():
    source = Source(file="palette.yaml", text="paints:\n  - name: Fog\n")
    plain = told(span=at(2))
    kept = Diagnostic(code="bad-value", message="a", span=at(1), excerpt="as it was")
    elsewhere = told(span=at(2, "site.yaml"))
    found = with_excerpts([plain, kept, elsewhere], {"palette.yaml": source})
    assert [d.excerpt for d in found] == ["  - name: Fog", "as it was", ""]


def test_a_line_that_many_point_into_is_kept_once():
    source = Source(file="palette.yaml", text="paints:\n" + "![](../../x)" * 10)
    first, second = with_excerpts([told(span=at(2)), told("bad-value", span=at(2))], {"palette.yaml": source})
    assert first.excerpt is second.excerpt


def test_errors_stop_a_build_and_nothing_else_does():
    assert not has_errors([])
    assert not has_errors([told("unsealed"), told("empty-value")])
    assert has_errors([told("unsealed"), told("bad-colour")])


def test_a_second_place_is_kept():
    related = Related(span=at(3), message="palette.yaml has it here.")
    assert Diagnostic(code="duplicate-paint", message="Twice.", span=at(9), related=(related,)).related == (
        related,
    )


@pytest.mark.parametrize("slug", CODES)
def test_slugs_and_explanations(slug: str):
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", slug)
    explanation = CODES[slug].explanation
    assert explanation.endswith(".")
    assert explanation[0].isupper() or explanation.startswith("guidegen ")
    assert not re.search(r"\b(pars|schema|null|mapping|invalid)", explanation, re.IGNORECASE)


def test_failures_of_the_tool_have_a_sentence_and_a_way_out():
    error = OutputRefusedError("The folder holds other files.", "Choose an empty one with --out.")
    assert isinstance(error, GuidegenError)
    assert (str(error), error.help_line) == (
        "The folder holds other files.",
        "Choose an empty one with --out.",
    )
    assert MachineError("The disk is full.").help_line == ""
