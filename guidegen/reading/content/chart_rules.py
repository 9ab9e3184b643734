"""What may stand in a figure chart, and how much of it."""

from __future__ import annotations

from collections.abc import Mapping

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
