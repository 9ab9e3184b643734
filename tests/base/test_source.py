"""A file's text: places in it by line and column, and back."""

from __future__ import annotations

import pytest

from guidegen.base.source import Source, Span

TEXT = "title: Ferry\nsteps:\n\n  - Käse\n"
SOURCE = Source(file="guides/ferry-watch/guide.md", text=TEXT)


@pytest.mark.parametrize(
    ("offset", "place"),
    [(0, (1, 1)), (7, (1, 8)), (12, (1, 13)), (13, (2, 1)), (20, (3, 1)), (21, (4, 1)), (len(TEXT), (5, 1))],
)
def test_places(offset: int, place: tuple[int, int]):
    assert SOURCE.position(offset) == place
    assert SOURCE.offset(*place) == offset


def test_lines():
    assert [SOURCE.line(number) for number in range(7)] == [
        "",
        "title: Ferry",
        "steps:",
        "",
        "  - Käse",
        "",
        "",
    ]
    assert Source(file="a", text="last").line(1) == "last"
    assert Source(file="a", text="").line(1) == ""


def test_a_span_counts_characters_and_ends_before_its_end():
    start = TEXT.index("Käse")
    assert SOURCE.span(start, start + 4) == Span(
        file="guides/ferry-watch/guide.md", line=4, column=5, end_line=4, end_column=9
    )
    assert SOURCE.span(0, 13).end_line == 2


def test_the_span_of_a_file_is_its_beginning():
    assert Span.of_file("site.yaml") == Span(file="site.yaml", line=1, column=1, end_line=1, end_column=1)


def test_spans_sort_by_file_and_place():
    spans = [Span.of_file("b"), SOURCE.span(13, 14), SOURCE.span(3, 9), SOURCE.span(3, 4), Span.of_file("a")]
    ordered = sorted(spans)
    assert [(span.file, span.line, span.column, span.end_column) for span in ordered] == [
        ("a", 1, 1, 1),
        ("b", 1, 1, 1),
        ("guides/ferry-watch/guide.md", 1, 4, 5),
        ("guides/ferry-watch/guide.md", 1, 4, 10),
        ("guides/ferry-watch/guide.md", 2, 1, 2),
    ]


def test_bytes_lose_their_mark_and_foreign_line_ends():
    source = Source.from_bytes("a", b"\xef\xbb\xbfone\r\ntwo\rthree\n")
    assert source.text == "one\ntwo\nthree\n"
    assert source.position(source.text.index("three")) == (3, 1)


def test_bytes_that_are_no_text():
    with pytest.raises(UnicodeDecodeError):
        Source.from_bytes("a", b"caf\xe9")
