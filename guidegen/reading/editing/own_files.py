"""The files of content that one guide is made from, with no more in them than concerns it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from guidegen.base.paths import slug
from guidegen.base.source import Source, Span
from guidegen.base.suggest import folded
from guidegen.model.guide import Guide
from guidegen.model.paint import Mix, Paint
from guidegen.model.site import Archive
from guidegen.reading.editing.written import (
    entries_of_palette,
    in_braces,
    one_line,
    ranges_of_palette,
    values_of,
    yaml_text,
)
from guidegen.reading.yaml.nodes import Node, tree_of

# What site.yaml says that a guide takes over; where the site lies and looks like concerns no guide.
_OF_SITE = ("author", "people", "licence", "language", "currency", "format", "defaults", "meant")

Pot = Paint | Mix


def files_of(guide: Guide, archive: Archive) -> dict[str, str]:
    """The guide's text, its chart, its lists, the pots that it names and what they are made of, by path."""
    sources = archive.sources
    found = {guide.file: sources[guide.file].text}
    if guide.chart is not None and guide.chart in sources:
        found[guide.chart] = sources[guide.chart].text
    for path, source in sources.items():
        if (
            path.startswith("shared/")
            and slug(path.removeprefix("shared/").rpartition(".")[0]) in guide.inserts
        ):
            found[path] = source.text
    found["palette.yaml"] = _palette(guide, archive)
    site = next((sources[path] for path in ("site.yaml", "site.yml") if path in sources), None)
    if site is not None:
        values = values_of(tree_of(site).root)
        lines = [f"{key}: {one_line(values[key])}" for key in _OF_SITE if key in values]
        found["site.yaml"] = "\n".join(lines) + "\n"
    return found


def _palette(guide: Guide, archive: Archive) -> str:
    sources = [source for path, source in archive.sources.items() if path.startswith("palette")]
    nodes = {span: values for source in sources for span, values in entries_of_palette(source)}
    pots = list(_pots(guide, archive))
    lines: list[str] = []
    ranges = dict(_ranges(pots, sources))
    if ranges:
        lines += ["ranges:", *(f"  {yaml_text(name)}: {one_line(node)}" for name, node in ranges.items())]
    for key, kind in (("paints", Paint), ("mixes", Mix)):
        entries = [_entry(pot, nodes) for pot in pots if isinstance(pot, kind)]
        lines += [f"{key}:", *(f"  - {entry}" for entry in entries)] if entries else []
    return "\n".join(lines or ["paints: []"]) + "\n"


def _entry(pot: Pot, nodes: Mapping[Span, Mapping[str, Node]]) -> str:
    """A pot as it is written, but for how many stand on the shelf, which is nobody else's."""
    return in_braces((key, one_line(node)) for key, node in nodes.get(pot.span, {}).items() if key != "owned")


def _ranges(pots: list[Pot], sources: list[Source]) -> Iterator[tuple[str, Node]]:
    wanted = {folded(pot.range) for pot in pots if isinstance(pot, Paint) and pot.range}
    seen: set[str] = set()
    for source in sources:
        for name, node in ranges_of_palette(source).items():
            if folded(name) in wanted - seen:
                seen.add(folded(name))
                yield name, node


def _pots(guide: Guide, archive: Archive) -> Iterator[Pot]:
    """Every pot that a guide names, and those that these are mixed with, let down with, or twins of."""
    ahead = [part.name.text for step in guide.steps for part in step.named_parts]
    seen: set[int] = set()
    while ahead:
        pot = archive.palette.find(ahead.pop(0))
        if not isinstance(pot, Paint | Mix) or id(pot) in seen:
            continue
        seen.add(id(pot))
        yield pot
        if isinstance(pot, Mix):
            ahead += [part.name.text for part in pot.parts]
        else:
            ahead += [name.text for name in (pot.twin_of, pot.let_down and pot.let_down.white) if name]
