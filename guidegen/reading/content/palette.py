"""The palette: what palette.yaml and palette/*.yaml hold together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import NamedTuple

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source
from guidegen.base.suggest import folded
from guidegen.model.paint import Mix, Paint, Palette, Range
from guidegen.reading.content.paints import PALETTE
from guidegen.reading.content.palette_names import check_names, doubles, range_again
from guidegen.reading.content.written_mixes import mixes_apart
from guidegen.reading.types.keys import read_record
from guidegen.reading.types.parse_context import ParseContext


class PaletteFile(NamedTuple):
    """What one palette file holds, as written; `whole` is False where some of it could not be read."""

    ranges: tuple[Range, ...] = ()
    paints: tuple[Paint, ...] = ()
    mixes: tuple[Mix, ...] = ()
    whole: bool = True


def read_palette_file(source: Source) -> tuple[PaletteFile, tuple[Diagnostic, ...]]:
    """One file of the palette, a pure function of its text. What its names lead to is for `palette_of` to see."""
    context = ParseContext(source)
    tree = context.tree()
    if tree.root is None:
        return PaletteFile(whole=not tree.broken), tuple(context.diagnostics)
    fields = read_record(PALETTE, tree.root, "", context)
    if fields is None:
        return PaletteFile(whole=False), tuple(context.diagnostics)
    whole = not tree.broken and not fields.lost & {"paints", "mixes"}
    return PaletteFile(**fields.values, whole=whole), tuple(context.diagnostics)


def palette_of(
    files: Iterable[PaletteFile],
    default_range: str | None = None,
    *,
    whole: bool = True,
    sources: Mapping[str, Source] = MappingProxyType({}),
) -> tuple[Palette, tuple[Diagnostic, ...]]:
    """The palette of all files in order, ranges' values filled in, and what its names tell.

    Tells ranges and pots given twice, of which only the first is kept, circles of mixes, and names within the palette
    that lead nowhere or to two pots. `sources` are the palette's files, for mixes whose parts were written as one text.
    With `whole` False, or a file that is not whole, unknown names are not told: what was not read may have them.
    """
    several = tuple(files)
    diagnostics: list[Diagnostic] = []
    ranges: dict[str, Range] = {}
    for one in (r for file in several for r in file.ranges):
        first = ranges.setdefault(folded(one.name), one)
        if first is not one:
            diagnostics.append(range_again(one, first))
    paints = tuple(_filled(paint, ranges, default_range) for file in several for paint in file.paints)
    mixes = tuple(mix for file in several for mix in file.mixes)
    again = {id(pot): diagnostic for pot, diagnostic in doubles(paints, mixes)}
    diagnostics += again.values()
    paints = tuple(paint for paint in paints if id(paint) not in again)
    mixes = tuple(mix for mix in mixes if id(mix) not in again)
    whole = whole and all(file.whole for file in several)
    palette = Palette(ranges=tuple(ranges.values()), paints=paints, mixes=mixes, whole=whole)
    apart = mixes_apart(mixes, palette.find, sources)
    if any(one is not other for one, other in zip(apart, mixes, strict=True)):
        palette = replace(palette, mixes=apart)
    diagnostics += check_names(palette, whole=whole)
    return palette, tuple(diagnostics)


def _filled(paint: Paint, ranges: Mapping[str, Range], default_range: str | None) -> Paint:
    """A paint with its range, the default one if it names none, and with what that range says of its paints."""
    name = paint.range or (default_range if "range" not in paint.places else None)
    found = ranges.get(folded(name)) if name else None
    if found is None:
        return replace(paint, range=name) if name != paint.range else paint
    return replace(
        paint,
        range=name,
        size=paint.size if "size" in paint.places else found.size,
        price=paint.price if "price" in paint.places else found.price,
        drop=found.drop,
        thinner=found.thinner,
    )
