"""The look of diagnostics in full."""

from __future__ import annotations

import io
import os
import sys
from textwrap import dedent

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.base.diagnostic import Diagnostic, Related
from guidegen.base.source import Source, Span
from guidegen.reporting.cells import ELLIPSIS, fitting, fitting_end, harmless, printable_in, width, wrapped
from guidegen.reporting.terminal import print_diagnostics, width_of
from guidegen.reporting.text import as_text, count_line, excerpt_around


def span(
    file: str, line: int, column: int, end_column: int | None = None, end_line: int | None = None
) -> Span:
    return Span(
        file=file,
        line=line,
        column=column,
        end_line=end_line or line,
        end_column=column if end_column is None else end_column,
    )


def at(
    excerpt: str, meant: str, *, code: str = "bad-value", message: str = "It is so.", **more
) -> Diagnostic:
    column = excerpt.index(meant) + 1
    place = span("guides/x.md", 9, column, column + len(meant))
    return Diagnostic(code=code, message=message, span=place, excerpt=excerpt, **more)


OCRE = Diagnostic(
    code="unknown-paint",
    message="Step 2 paints with “Oilskin Ocre”, which is not in the palette.",
    span=span("guides/ferry-watch/guide.md", 27, 12, 24),
    excerpt="    paint: Oilskin Ocre",
    related=(Related(span=span("palette.yaml", 14, 11, 24), message="has “Oilskin Ochre”."),),
    help="Write Oilskin Ochre, or add Oilskin Ocre to the palette.",
)
UNSEALED = Diagnostic(
    code="unsealed",
    message="“Oilskin Ochre” covers the coat after the last varnish and stays unprotected.",
    span=span("guides/ferry-watch/guide.md", 44, 12, 25),
    excerpt="    paint: Oilskin Ochre",
    help="Varnish after it, or move the step up.",
)
NO_ALT = Diagnostic(
    code="photo-without-alt",
    message="The photo “coats.jpg” says nothing to somebody who cannot see it.",
    span=span("guides/ferry-watch/guide.md", 30, 12, 21),
    excerpt="    photo: coats.jpg",
    help="Add alt: and what the photo shows, as in {file: coats.jpg, alt: Both wet coats of ochre}.",
)


def text(*diagnostics: Diagnostic, cells: int = 80, most: int = 20) -> str:
    return as_text(diagnostics, shown=lambda file: file, cells=cells, most=most)


def block(diagnostic: Diagnostic, cells: int = 80) -> str:
    return text(diagnostic, cells=cells).split("\n\n")[0] + "\n"


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

        1 error, 1 warning, 1 piece of advice
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


def test_at_most_twenty_and_errors_first():
    many = [UNSEALED] * 21 + [NO_ALT] * 3 + [OCRE] * 10
    shown = text(*many)
    assert shown.count("unknown-paint\n") == 10
    assert shown.count("photo-without-alt\n") == 3
    assert shown.count("unsealed\n") == 7
    assert shown.index("unsealed") < shown.index("unknown-paint"), "kept in their order"
    assert shown.endswith(
        "\n\nand 14 more; guidegen check --format line lists them all\n\n"
        "10 errors, 3 warnings, 21 pieces of advice\n"
    )
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


class Terminal(io.TextIOWrapper):
    def __init__(self, encoding: str = "utf-8"):
        super().__init__(io.BytesIO(), encoding=encoding)

    def isatty(self) -> bool:
        return True

    def said(self) -> str:
        self.flush()
        return self.buffer.getvalue().decode(self.encoding)


def printed(stream, environ) -> str:
    print_diagnostics([OCRE, NO_ALT, UNSEALED], shown=lambda file: file, stream=stream, environ=environ)
    return stream.said() if isinstance(stream, Terminal) else stream.getvalue()


def test_colour_only_on_a_terminal(monkeypatch: pytest.MonkeyPatch):
    for name in ("NO_COLOR", "FORCE_COLOR"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    plain = printed(io.StringIO(), {})
    assert "\x1b" not in plain
    assert plain == text(OCRE, NO_ALT, UNSEALED)
    coloured = printed(Terminal(), {"TERM": "xterm-256color"})
    assert "\x1b[" in coloured
    bare = "".join(part.partition("m")[2] if i else part for i, part in enumerate(coloured.split("\x1b[")))
    assert bare == plain
    for environ in ({"NO_COLOR": "1"}, {"TERM": "dumb"}):
        assert printed(Terminal(), environ) == plain
    assert "\x1b[" in printed(Terminal(), {"NO_COLOR": ""}), "an empty one does not count (no-color.org)"


def test_rich_is_left_alone_in_a_pipe():
    import subprocess

    program = (
        "import sys\nfrom guidegen.reporting.terminal import print_diagnostics\n"
        "print_diagnostics([], shown=str, stream=sys.stdout, environ={})\nassert 'rich' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", program], check=True, stdout=subprocess.PIPE)


@pytest.mark.parametrize(("columns", "cells"), [(72, 72), (250, 100), (0, 80)])
def test_as_wide_as_the_terminal_but_not_wider_than_one_reads(
    monkeypatch: pytest.MonkeyPatch, columns: int, cells: int
):
    monkeypatch.setattr(os, "get_terminal_size", lambda number: os.terminal_size((columns, 24)))
    terminal = Terminal()
    terminal.fileno = lambda: 1
    assert width_of(terminal) == cells
    assert width_of(io.StringIO()) == 80


def test_a_stream_that_cannot_hold_it_gets_plainer_characters():
    said = printed(Terminal("latin-1"), {"NO_COLOR": "1"})
    assert said.startswith('Step 2 paints with "Oilskin Ocre", which is not')
    assert printable_in("“…” × – 塗", "ascii") == '"..." x - ?'
    assert printable_in("“…” 塗", "utf-8") == "“…” 塗"


@given(st.text(max_size=60), st.integers(1, 30))
def test_cutting_by_cells(words: str, cells: int):
    for cut in (fitting(words, cells), fitting_end(words, cells)):
        assert width(cut) <= cells
    assert words.startswith(fitting(words, cells))
    assert words.endswith(fitting_end(words, cells))


@given(st.text(max_size=100), st.integers(2, 30))
def test_wrapping_keeps_every_letter(words: str, cells: int):
    lines = wrapped(words, cells)
    assert "".join("".join(lines).split()) == "".join(words.split())
    assert all(width(line) <= cells for line in lines)
