"""Rules on the palette by itself; what its names lead to has been told while it was read."""

from __future__ import annotations

from collections.abc import Iterator

from guidegen.base.diagnostic import Diagnostic, Related
from guidegen.base.suggest import folded, nearest
from guidegen.checking.case import said
from guidegen.computing.guide.hazards import known, nearest_code
from guidegen.model.paint import Palette


def known_hazards(palette: Palette) -> Iterator[Diagnostic]:
    """unknown-hazard: codes are those that labels carry."""
    for paint in palette.paints:
        for code in paint.hazards:
            if not known(code.text):
                near = nearest_code(code.text)
                yield Diagnostic(
                    code="unknown-hazard",
                    message=f"{paint.full_name} carries the hazard code {said(code)}, which no label has.",
                    span=code.span,
                    help=f"Copy the code from the label; {near} comes close."
                    if near
                    else "Copy the code from the label, such as H222 or EUH208.",
                )


def ranges_are_spelt(palette: Palette) -> Iterator[Diagnostic]:
    """range-near-another: a range need not be listed, but one that nearly is was meant to be; told once a spelling."""
    listed = {folded(one.name): one for one in palette.ranges}
    diagnosed: set[str] = set()
    for paint in palette.paints:
        spelt = folded(paint.range or "")
        if not spelt or spelt in listed or spelt in diagnosed or "range" not in paint.places:
            continue
        diagnosed.add(spelt)
        near = nearest(paint.range or "", [one.name for one in palette.ranges])
        if near is not None:
            yield Diagnostic(
                code="range-near-another",
                message=f"“{paint.range}” is not among the ranges, so “{paint.name}” has nothing of what “{near}” says.",
                span=paint.places["range"],
                help=f"Write {near}, or list {paint.range} under ranges:.",
                related=(Related(span=listed[folded(near)].span, message=f"has “{near}”."),),
            )
