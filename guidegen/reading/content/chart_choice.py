"""Which chart a guide has: the figure.svg beside it, or one of the starter charts by name."""

from __future__ import annotations

from collections.abc import Callable

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.listed import list_of_words
from guidegen.base.paths import slug
from guidegen.base.source import Source
from guidegen.model.chart import Chart
from guidegen.model.guide import Guide
from guidegen.model.names import Name
from guidegen.reading.content.chart import read_chart
from guidegen.reading.content.discover import starter_chart, starter_charts
from guidegen.reading.types.parse_context import near


def chart_of(
    guide: Guide, source_of: Callable[[str], Source | None]
) -> tuple[Chart | None, tuple[Diagnostic, ...]]:
    """The guide's chart and what is wrong with it; None without one.

    `source_of` gives the text of a file, None after telling why it cannot be read.
    """
    if guide.chart is not None:
        source = source_of(guide.chart)
        return read_chart(source) if source is not None else (None, ())
    if guide.figure is None:
        return None, ()
    names = starter_charts()
    name = slug(guide.figure.text)
    if name not in names:
        return None, (_no_such_chart(guide.figure, names),)
    text = starter_chart(name)
    return (None, ()) if isinstance(text, Diagnostic) else read_chart(text)


def _no_such_chart(figure: Name, names: tuple[str, ...]) -> Diagnostic:
    best = near(slug(figure.text), names)
    return Diagnostic(
        code="bad-chart",
        message=f"There is no starter chart “{figure.text}”, and no figure.svg beside the guide.",
        span=figure.span,
        help=f"Write figures: {figure.text} for how many there are."
        if figure.text.isdecimal()
        else f"Write {best}."
        if best
        else f"There is {list_of_words(names)}; or draw a figure.svg.",
    )
