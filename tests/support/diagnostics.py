"""Diagnostics about the invented town, to be shown, and the full text of some."""

from __future__ import annotations

from guidegen.base.diagnostic import Diagnostic, Related
from guidegen.base.source import Span
from guidegen.reporting.text import as_text


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
