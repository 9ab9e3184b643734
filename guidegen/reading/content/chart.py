"""A figure chart from an SVG file: what may stand in one is listed here, and nothing else is let through."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from html import escape
from typing import Any

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source, Span
from guidegen.base.units import read_colour
from guidegen.model.chart import AreaPart, Chart, Piece

# A chart is inlined once in its guide's page, so one this large would outweigh all else on it.
LONGEST_CHART = 400_000
# Written out, with what groups and the file's own defaults add to every shape.
LONGEST_WRITTEN = 2 * LONGEST_CHART
MOST_SHAPES = 4_000
DEEPEST_GROUP = 40
# What groups hand down is written again with every shape: long dashes or a chain of turns would make of a small file a
# page of gigabytes. Drawing programs write a few dozen characters.
LONGEST_HANDED_DOWN = 500
# A figure has some ten areas, a diorama some fifty; each is coloured after every step.
MOST_AREAS = 200
LONGEST_AREA = 200

# Elements (SVG 2) that draw, with the attributes that give them their form.
SHAPES: Mapping[str, frozenset[str]] = {
    "path": frozenset({"d"}),
    "circle": frozenset({"cx", "cy", "r"}),
    "ellipse": frozenset({"cx", "cy", "rx", "ry"}),
    "rect": frozenset({"x", "y", "width", "height", "rx", "ry"}),
    "polygon": frozenset({"points"}),
    "polyline": frozenset({"points"}),
    "line": frozenset({"x1", "y1", "x2", "y2"}),
}
GROUPS = frozenset({"svg", "g"})
# What drawing programs leave in a file and no reader sees: passed over with all that is in it.
UNSEEN = frozenset({"title", "desc", "metadata", "defs"})
# Attributes that say how a shape is painted; groups hand them down.
PRESENTATION = frozenset(
    {
        "fill", "fill-rule", "fill-opacity", "opacity", "stroke", "stroke-width", "stroke-linecap",
        "stroke-linejoin", "stroke-miterlimit", "stroke-opacity", "stroke-dasharray",
    }
)  # fmt: skip


SVG = "http://www.w3.org/2000/svg"

# Letters, digits and signs of paths, lists of numbers, colours and transforms: no quote, no url(), no entity.
_PLAIN = re.compile(r"[-+.,#%()\w\s]*")
_NUMBERS = re.compile(r"[\s,]+")


@dataclass(slots=True)
class _Context:
    """What a group hands down to the shapes in it."""

    paint: dict[str, str] = field(default_factory=dict)
    transform: str = ""
    area: str = ""
    relief: AreaPart = AreaPart.FLATS
    only: tuple[str, str] | None = None


def read_chart(source: Source) -> tuple[Chart | None, tuple[Diagnostic, ...]]:
    """A chart, a pure function of its text. None where it cannot be used; whatever is not let through is told."""
    if len(source.text) > LONGEST_CHART:
        message = f"The chart is longer than {LONGEST_CHART:,} characters."
        return None, (_bad(source, None, message, "Simplify its shapes."),)
    from xml.etree.ElementTree import ParseError

    from defusedxml.common import DefusedXmlException
    from defusedxml.ElementTree import DefusedXMLParser

    builder = _ChartParser(source)
    parser = DefusedXMLParser(target=builder, forbid_dtd=False, forbid_entities=True, forbid_external=True)
    builder.parser = parser
    try:
        parser.feed(source.text)
        parser.close()
    except ParseError as error:
        line, column = error.position
        message = "The chart cannot be read from here on: it is no well-formed drawing."
        return None, (_bad(source, (line, column), message, "Save it again as a plain SVG file."),)
    except DefusedXmlException:
        message = "The chart defines abbreviations of its own or reaches for other files, which is refused."
        return None, (_bad(source, None, message, "Save it again as a plain SVG file."),)
    except _StoppedError:
        return None, tuple(builder.diagnostics)
    chart = builder.chart()
    return chart, tuple(builder.diagnostics)


def _bad(source: Source, at: tuple[int, int] | None, message: str, help_line: str) -> Diagnostic:
    span = Span.of_file(source.file)
    if at is not None:
        line, column = max(1, at[0]), at[1] + 1
        end = max(column + 1, len(source.line(line)) + 1) if column <= len(source.line(line)) else column
        span = Span(file=source.file, line=line, column=column, end_line=line, end_column=end)
    return Diagnostic(code="bad-chart", message=message, span=span, help=help_line)


class _StoppedError(Exception):
    """The drawing is past a bound; what went wrong has been told."""


class _ChartParser:
    """Hears of each element, and keeps the shapes that may stand in a chart."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.diagnostics: list[Diagnostic] = []
        self.parser: Any = None
        self.view_box: tuple[float, float, float, float] | None = None
        self.ground = "#b4afa3"
        self.title = ""
        self.pieces: list[Piece] = []
        self._open: list[_Context | None] = []
        self._words: list[str] | None = None
        self._shapes = self._written = 0
        self._areas: set[str] = set()
        self._diagnosed: set[str] = set()

    def start(self, tag: str, attributes: dict[str, str]) -> None:
        space, _, name = tag.rpartition("}")
        above = self._open[-1] if self._open else _Context()
        if len(self._open) >= DEEPEST_GROUP:
            self._refuse(
                "depth", f"The chart has groups more than {DEEPEST_GROUP} deep.", "Ungroup some of them."
            )
            raise _StoppedError
        if above is None or (space.lstrip("{") not in {"", SVG}):
            self._open.append(None)
            return
        if name in UNSEEN:
            if name == "title" and len(self._open) == 1:
                self._words = []
            self._open.append(None)
            return
        if name not in GROUPS and name not in SHAPES:
            self._refuse(
                name,
                f"The chart has a “{name[:60]}”, which is left out: only plain shapes may stand in one.",
                "Convert it to a path, or delete it.",
            )
            self._open.append(None)
            return
        context = self._context(above, attributes)
        if name == "svg" and not self._open:
            self._root(attributes)
        if name in SHAPES:
            self._shape(name, attributes, context)
        self._open.append(context)

    def data(self, text: str) -> None:
        if self._words is not None:
            self._words.append(text)

    def end(self, tag: str) -> None:
        self._open.pop()
        if self._words is not None and tag.rpartition("}")[2] == "title":
            self.title = " ".join("".join(self._words).split())[:200]
            self._words = None

    def close(self) -> None:
        """Called by the XML parser at the end of the file."""

    def chart(self) -> Chart | None:
        """What was drawn; None where there is no shape or no size."""
        if self.view_box is None:
            self._refuse(
                "size", "The chart does not say how large it is.", 'Give it viewBox="0 0 width height".'
            )
            return None
        if not self.pieces:
            self._refuse("empty", "The chart has no shapes.", "Draw some, or remove the file.")
            return None
        return Chart(
            title=self.title,
            view_box=self.view_box,
            ground=self.ground,
            pieces=tuple(self.pieces),
            span=Span.of_file(self.source.file),
        )

    def _root(self, attributes: Mapping[str, str]) -> None:
        numbers = _floats(attributes.get("viewBox", ""))
        if len(numbers) != 4:
            numbers = [
                0.0,
                0.0,
                *_floats(attributes.get("width", "")),
                *_floats(attributes.get("height", "")),
            ]
        if len(numbers) == 4 and 0 < numbers[2] < 1e6 and 0 < numbers[3] < 1e6:
            self.view_box = (numbers[0], numbers[1], numbers[2], numbers[3])
        self.ground = read_colour(attributes.get("fill", "")) or self.ground

    def _context(self, above: _Context, attributes: Mapping[str, str]) -> _Context:
        """What holds for an element and all in it. Whatever could act or fetch is told, and goes no further."""
        own: dict[str, str] = {}
        transform = ""
        for key, value in (*attributes.items(), *_declarations(attributes.get("style", ""))):
            name = key.rpartition("}")[2]
            if name == "style":
                continue
            if name.lower().startswith("on") or name == "href" or "url(" in value.lower():
                self._refuse(
                    name,
                    f"The chart has “{name[:60]}” on a shape, which could act or fetch something, and is left out.",
                    "Delete it; a chart only needs plain shapes with plain colours.",
                )
            elif name in PRESENTATION and _PLAIN.fullmatch(value):
                own[name] = value.strip()
            elif name == "transform" and _PLAIN.fullmatch(value):
                transform = value.strip()
        transform = f"{above.transform} {transform}".strip()
        if len(transform) + sum(map(len, own.values())) > LONGEST_HANDED_DOWN:
            self._refuse(
                "handed down",
                f"What the chart says of one shape's paint and place is longer than {LONGEST_HANDED_DOWN} characters.",
                "Save it again as a plain SVG file, with transforms applied.",
            )
            raise _StoppedError
        only = attributes.get("data-only", "")
        choice, colon, option = only.partition(":")
        return _Context(
            paint={**above.paint, **own},
            transform=transform,
            area=self._area(attributes.get("data-area"), above.area),
            relief=_relief(attributes.get("data-part", ""), above.relief),
            only=(choice.strip(), option.strip()) if colon else above.only,
        )

    def _area(self, typed: str | None, above: str) -> str:
        if typed is None:
            return above
        area = " ".join(typed.split())
        if len(area) > LONGEST_AREA:
            self._refuse(
                "area",
                f"An area's name goes on for {len(area):,} characters, {LONGEST_AREA} at most can stand in a chart.",
                "Shorten it.",
            )
            return above
        self._areas.add(area)
        if len(self._areas) > MOST_AREAS:
            self._refuse(
                "areas",
                f"The chart has more than {MOST_AREAS} areas.",
                "Give one name to areas that are painted alike.",
            )
            raise _StoppedError
        return area

    def _shape(self, name: str, attributes: Mapping[str, str], context: _Context) -> None:
        self._shapes += 1
        if self._shapes > MOST_SHAPES:
            self._refuse("shapes", f"The chart has more than {MOST_SHAPES:,} shapes.", "Simplify it.")
            raise _StoppedError
        # A shape without a fill is a line, and lines stay as they are drawn.
        area = context.area if context.paint.get("fill") != "none" else ""
        paint = {key: value for key, value in context.paint.items() if not (area and key == "fill")}
        form = {
            key: value for key, value in attributes.items() if key in SHAPES[name] and _PLAIN.fullmatch(value)
        }
        if context.transform:
            paint["transform"] = context.transform
        written = "".join(f' {key}="{escape(value)}"' for key, value in {**paint, **form}.items())
        markup = f"<{name}{written}/>"
        self._written += len(markup)
        if self._written > LONGEST_WRITTEN:
            message = f"The shapes of the chart come to more than {LONGEST_WRITTEN:,} characters once each is written out."
            self._refuse("written", message, "Simplify them.")
            raise _StoppedError
        piece = Piece(
            markup=markup, area=area, relief=context.relief if area else AreaPart.FLATS, only=context.only
        )
        last = self.pieces[-1] if self.pieces else None
        if last is not None and (last.area, last.relief, last.only) == (piece.area, piece.relief, piece.only):
            self.pieces[-1] = replace(last, markup=last.markup + markup)
        else:
            self.pieces.append(piece)

    def _refuse(self, what: str, message: str, help_line: str) -> None:
        """Tell once for each kind of thing."""
        if what in self._diagnosed:
            return
        self._diagnosed.add(what)
        expat = getattr(self.parser, "parser", None)
        at = (expat.CurrentLineNumber, expat.CurrentColumnNumber) if expat is not None else None
        self.diagnostics.append(_bad(self.source, at, message, help_line))


def _declarations(style: str) -> list[tuple[str, str]]:
    """The declarations of a style attribute, as drawing programs write them."""
    pairs = (part.partition(":") for part in style.split(";"))
    return [(name.strip(), value.strip()) for name, _, value in pairs if name.strip()]


def _relief(text: str, above: AreaPart) -> AreaPart:
    try:
        return AreaPart(text.strip().lower())
    except ValueError:
        return above


def _floats(text: str) -> list[float]:
    numbers = []
    for part in _NUMBERS.split(text.strip()):
        digits = part.removesuffix("px")
        if re.fullmatch(r"[-+]?\d{1,7}(?:\.\d{1,9})?", digits):
            numbers.append(float(digits))
    return numbers
