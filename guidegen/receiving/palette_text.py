"""The palette file of a member's new pots."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from guidegen.base.csv_cells import number
from guidegen.base.source import Source, Span
from guidegen.base.suggest import folded
from guidegen.model.names import Part
from guidegen.model.paint import Mix, Paint, Palette
from guidegen.reading.editing.written import (
    entries_of_palette,
    in_braces,
    in_brackets,
    one_line,
    ranges_of_palette,
    values_of,
    yaml_text,
)
from guidegen.reading.yaml.nodes import Node
from guidegen.receiving.pots import PotMerge

# Keys that are written from the merged pot, or left out since they are about the member's shelf; the rest is copied.
_DECIDED = frozenset(
    {"name", "range", "edition", "aliases", "code", "was", "twin_of", "let_down", "parts", "owned", "usual"}
)


def palette_text(
    merge: PotMerge, club: Palette, sources: Mapping[str, Source], *, prices: bool
) -> str | None:
    """The file, or None where nothing is new. `sources` are the member's palette files; `prices` are kept or left out."""
    if not merge.new:
        return None
    nodes: dict[Span, Mapping[str, Node]] = {}
    ranges: dict[str, Node] = {}
    for source in sources.values():
        nodes |= dict(entries_of_palette(source))
        ranges = {folded(name): node for name, node in ranges_of_palette(source).items()} | ranges
    paints = [(new, own) for new, own in merge.new if isinstance(new, Paint)]
    mixes = [(new, own) for new, own in merge.new if isinstance(new, Mix)]
    lines = [f"# Pots of {merge.by}’s that the archive did not have."]
    there = {folded(one.name) for one in club.ranges}
    found = dict(_ranges(paints, ranges, there, prices=prices))
    if found:
        lines += ["ranges:", *(f"  {yaml_text(name)}: {text}" for name, text in found.items())]
    if paints:
        lines.append("paints:")
        for new, own in paints:
            values = nodes.get(own.span, {}) if own is not None else {}
            pairs = [*_paint(new, merge), *_others(values, prices=prices)]
            if own is not None and folded(new.range or "") in there:
                pairs += _sizes(new, values, prices=prices)
            lines.append(f"  - {in_braces(pairs)}")
    if mixes:
        lines.append("mixes:")
        for mix, own in mixes:
            values = nodes.get(own.span, {}) if own is not None else {}
            lines.append(f"  - {in_braces([*_mix(mix, merge), *_others(values, prices=prices)])}")
    return "\n".join(lines) + "\n"


def _ranges(
    paints: list[tuple[Paint, Paint | Mix | None]],
    nodes: Mapping[str, Node],
    there: set[str],
    *,
    prices: bool,
) -> Iterator[tuple[str, str]]:
    for new, own in paints:
        if new.range and folded(new.range) not in there and isinstance(own, Paint) and own.range:
            values = values_of(nodes.get(folded(own.range)))
            pairs = [(key, one_line(node)) for key, node in values.items() if prices or key != "price"]
            if pairs:
                yield new.range, in_braces(pairs)


def _paint(paint: Paint, merge: PotMerge) -> Iterator[tuple[str, str]]:
    yield "name", yaml_text(paint.name)
    yield "range", yaml_text(paint.range) if paint.range else '""'
    for key, text in (("edition", paint.edition), ("code", paint.code)):
        if text:
            yield key, yaml_text(text)
    if paint.aliases:
        yield "aliases", in_brackets(paint.aliases)
    if paint.twin_of is not None:
        yield "twin_of", yaml_text(merge.label(paint.twin_of.text))
    if paint.let_down is not None:
        down = paint.let_down
        pairs = [
            ("colour", yaml_text(down.colour)),
            ("parts", yaml_text(f"{down.paint_parts:g}:{down.white_parts:g}")),
        ]
        if down.white is not None:
            pairs.append(("white", yaml_text(merge.label(down.white.text))))
        yield "let_down", in_braces(pairs)


def _mix(mix: Mix, merge: PotMerge) -> Iterator[tuple[str, str]]:
    yield "name", yaml_text(mix.name)
    yield "parts", parts_text(mix.parts, merge)
    if mix.aliases:
        yield "aliases", in_brackets(mix.aliases)


def parts_text(parts: tuple[Part, ...], merge: PotMerge) -> str:
    """Parts as they are typed, under the names that the archive has for them."""
    return in_braces(
        (merge.label(part.name.text), "a touch" if part.touch else f"{part.amount:g}") for part in parts
    )


def _others(values: Mapping[str, Node], *, prices: bool) -> Iterator[tuple[str, str]]:
    for key, node in values.items():
        if key not in _DECIDED and (prices or key != "price"):
            yield key, one_line(node)


def _sizes(paint: Paint, values: Mapping[str, Node], *, prices: bool) -> Iterator[tuple[str, str]]:
    """The size and price that the member's range gives, for a paint that comes into a range of the club's."""
    if "size" not in values and paint.size is not None:
        yield "size", f"{number(paint.size)} ml"
    if prices and "price" not in values and paint.price is not None:
        yield "price", number(paint.price)
