"""The look of diagnostics in full."""

from __future__ import annotations

from textwrap import dedent

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.diagnostics import NO_ALT, OCRE, UNSEALED, at, span, text

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source, Span
from guidegen.reporting.cells import ELLIPSIS, fitting, harmless, width
from guidegen.reporting.text import count_line, excerpt_around


def block(diagnostic: Diagnostic, cells: int = 80) -> str:
    return text(diagnostic, cells=cells).split("\n\n")[1]


def test_the_documented_look():
    """A sentence, the place with what is meant, what explains it, what to do."""
    assert block(OCRE, 87) == dedent("""\
        Step 2 paints with “Oilskin Ocre”, which is not in the palette.
            guides/ferry-watch/guide.md, line 27     paint: Oilskin Ocre
                                                            ~~~~~~~~~~~~
            palette.yaml, line 14 has “Oilskin Ochre”.
            Write Oilskin Ochre, or add Oilskin Ocre to the palette.              unknown-paint
        """)


def test_all_of_it():
    assert text(OCRE, NO_ALT, UNSEALED) == dedent("""\
        1 error, 1 warning, 1 piece of advice

        Step 2 paints with “Oilskin Ocre”, which is not in the palette.
            guides/ferry-watch/guide.md, line 27     paint: Oilskin Ocre
                                                            ~~~~~~~~~~~~
            palette.yaml, line 14 has “Oilskin Ochre”.
            Write Oilskin Ochre, or add Oilskin Ocre to the palette.       unknown-paint

        The photo “coats.jpg” says nothing to somebody who cannot see it.
            guides/ferry-watch/guide.md, line 30     photo: coats.jpg
                                                            ~~~~~~~~~
            Add alt: and what the photo shows, as in {file: coats.jpg, alt: Both wet
            coats of ochre}.                                  warning: photo-without-alt

        “Oilskin Ochre” covers the coat after the last varnish and stays unprotected.
            guides/ferry-watch/guide.md, line 44     paint: Oilskin Ochre
                                                            ~~~~~~~~~~~~~
            Varnish after it, or move the step up.                      advice: unsealed
        """)


def test_a_narrow_terminal():
    assert block(OCRE, 50) == dedent("""\
        Step 2 paints with “Oilskin Ocre”, which is not in
        the palette.
            guides/ferry-watch/guide.md, line 27
                paint: Oilskin Ocre
                       ~~~~~~~~~~~~
            palette.yaml, line 14 has “Oilskin Ochre”.
            Write Oilskin Ochre, or add Oilskin Ocre to
            the palette.                     unknown-paint
        """)


def test_a_file_as_a_whole_and_no_help():
    missing = Diagnostic(
        code="missing-key",
        message="The guide has no title.",
        span=Span.of_file("guides/x.md"),
        notes=("A note.",),
    )
    assert block(missing, 40) == dedent("""\
        The guide has no title.
            guides/x.md
            A note.
                                     missing-key
        """)


@pytest.mark.parametrize(
    ("excerpt", "meant", "shown", "under"),
    [
        ("\t\tpaint:\tOcre\t# so", "Ocre", "paint:    Ocre    # so", "          ~~~~"),
        (
            "  - {step: 塗装, paint: 黄土}",
            "黄土",
            "- {step: 塗装, paint: 黄土}",
            "                      ~~~~",
        ),
        ("note: cafe\u0301 Ocre", "Ocre", "note: cafe\u0301 Ocre", "           ~~~~"),
        ("note: Ocre\u0301 x", "Ocre\u0301", "note: Ocre\u0301 x", "      ~~~~"),
        ("a: 🎨 Ocre", "Ocre", "a: 🎨 Ocre", "      ~~~~"),
        ("   key: x", " key", " key: x", "~~~~"),
        ("a: \x1b[31mOcre\x1b[0m", "Ocre", "a: ␛[31mOcre␛[0m", "        ~~~~"),
        ("a: \u202eOcre", "Ocre", "a: \ufffdOcre", "    ~~~~"),
    ],
)
def test_the_underline_stands_under_what_is_meant(excerpt: str, meant: str, shown: str, under: str):
    line, before, cells = excerpt_around(at(excerpt, meant), 60)
    assert line == shown
    assert " " * before + "~" * cells == under


def test_a_place_between_characters_has_one_mark():
    for column in (22, 30):
        unclosed = Diagnostic(
            code="bad-yaml",
            message="It is open.",
            span=span("site.yaml", 2, column),
            excerpt="tokens: {ink: 202124}",
        )
        assert excerpt_around(unclosed, 60) == ("tokens: {ink: 202124}", 21, 1)


def test_a_stretch_over_lines_is_marked_to_the_end_of_the_first():
    long = Diagnostic(
        code="bad-value",
        message="It runs on.",
        span=span("x.md", 1, 7, 3, end_line=4),
        excerpt='mind: "the collar   ',
    )
    assert excerpt_around(long, 60) == ('mind: "the collar', 6, 11)


def test_a_long_line_is_shortened_around_what_is_meant():
    line = "  - {step: Coats, technique: base coat, area: [coat, hood], each: 1:30, dry: 15 min, coats: 2}"
    assert block(at(line, "1:30", help="Write 1 h 30 min.")).splitlines()[1:3] == [
        "    guides/x.md, line 9     …se coat, area: [coat, hood], each: 1:30, dry: 15 m…",
        "                                                                ~~~~",
    ]


@given(
    before=st.text(max_size=80),
    meant=st.text(min_size=1, max_size=80),
    after=st.text(max_size=80),
    cells=st.integers(28, 100),
)
def test_any_line_fits_and_keeps_what_is_meant_in_sight(before: str, meant: str, after: str, cells: int):
    line = Source(file="x", text=(before + meant + after).replace("\n", " ")).line(1)
    place = span("x", 1, len(before) + 1, len(before) + len(meant) + 1)
    shown, start, under = excerpt_around(
        Diagnostic(code="bad-value", message="", span=place, excerpt=line), cells
    )
    assert width(shown) <= cells
    assert start + under <= cells + 1
    assert harmless(shown) == shown
    plain = harmless(meant.replace("\n", " ").replace("\t", "    "))
    sight = fitting(plain, cells - 9)
    assert sight in shown


@given(st.lists(st.text(max_size=60), min_size=1, max_size=3), st.integers(40, 100))
def test_nothing_stands_past_the_edge(words: list[str], cells: int):
    diagnostic = Diagnostic(
        code="bad-value",
        message=words[0],
        span=span("guides/" + "".join(words) + ".md", 3, 2, 5),
        excerpt=words[-1],
        notes=tuple(words),
        help=words[-1],
    )
    for line in text(diagnostic, cells=cells).splitlines():
        assert width(line) <= cells
        assert line == harmless(line) == line.rstrip()


def test_far_too_much_is_cut_short_without_being_looked_through():
    endless = "x" * 1_000_000
    place = span("x.md", 1, 500_000, 500_004)
    shown = text(
        Diagnostic(code="bad-value", message=endless, span=place, excerpt="\t" + endless, help=endless)
    )
    assert len(shown) < 4_000
    assert ELLIPSIS in shown


def test_at_most_twenty_and_their_count_first():
    many = [OCRE] * 10 + [NO_ALT] * 3 + [UNSEALED] * 21
    shown = text(*many)
    assert shown.count("unknown-paint\n") == 10
    assert shown.count("photo-without-alt\n") == 3
    assert shown.count("unsealed\n") == 7
    assert shown.startswith("10 errors, 3 warnings, 21 pieces of advice\n\n")
    assert shown.endswith("\n\nand 14 more; guidegen check --format line lists them all\n")
    assert "more;" not in text(*many[:20])


@pytest.mark.parametrize(
    ("diagnostics", "said"),
    [
        ([], "Nothing to mend."),
        ([OCRE], "1 error"),
        ([OCRE] * 3 + [NO_ALT] * 2 + [UNSEALED], "3 errors, 2 warnings, 1 piece of advice"),
        ([UNSEALED] * 2, "2 pieces of advice"),
    ],
)
def test_the_count_in_good_english(diagnostics: list[Diagnostic], said: str):
    assert count_line(diagnostics) == said


def test_nothing_is_said_of_nothing():
    assert text() == ""
