"""Rules on the palette by itself; what its names lead to has been told while it was read."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from guidegen.base.diagnostic import Diagnostic, Related
from guidegen.base.source import Span
from guidegen.base.suggest import folded, nearest
from guidegen.checking.case import quoted_name
from guidegen.computing.guide.hazards import known, nearest_code
from guidegen.model.guide import Step
from guidegen.model.paint import Palette
from guidegen.model.site import Archive
from guidegen.reading.yaml.quoting import typed


def known_hazards(palette: Palette) -> Iterator[Diagnostic]:
    """unknown-hazard: codes are those that labels carry."""
    for paint in palette.paints:
        for code in paint.hazards:
            if not known(code.text):
                near = nearest_code(code.text)
                yield Diagnostic(
                    code="unknown-hazard",
                    message=f"{paint.full_name} carries the hazard code {quoted_name(code)}, which no label has.",
                    span=code.span,
                    help=f"Copy the code from the label; {near} comes close."
                    if near
                    else "Copy the code from the label, such as H222 or EUH208.",
                )


def lists_paints(archive: Archive, files: Sequence[str]) -> Iterator[Diagnostic]:
    """no-palette: steps name paints, and none of the palette's files lists any."""
    if archive.palette.paints or archive.palette.mixes or archive.unread.intersection(files):
        return
    lists = [entry for one in archive.shared for entry in one.entries]
    steps = [entry for one in archive.guides for entry in one.entries] + lists
    named = (
        part.name
        for step in steps
        if isinstance(step, Step)
        for part in (step.paint.parts if step.paint is not None else ())
    )
    first = next(named, None)
    if first is not None:
        colour = "{name: " + typed(first.text) + ', colour: "#8a4b2a"}'
        yield Diagnostic(
            code="no-palette",
            message=f"{'The palette lists no paint' if files else 'There is no palette'}, and steps name some.",
            span=Span.of_file(files[0] if files else "palette.yaml"),
            help=f"{'Write' if files else 'Make a file palette.yaml with'} a line paints: and below it one for each: "
            f"- {colour}. Of a list guidegen start --palette-from FILE makes it.",
            related=(Related(span=first.span, message=f"names {quoted_name(first)}."),),
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
