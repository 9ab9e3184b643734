"""A palette file out of plain values: YAML that says the same whatever a paint is called."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from guidegen.base.csv_cells import number
from guidegen.model.paint import Kind
from guidegen.reading.paint_lists.rows import PaintRow, tidy

_ESCAPES = {'"': '\\"', "\\": "\\\\"}


def double_quoted(text: str) -> str:
    """A text as a double-double_quoted YAML 1.2 scalar on one line; what cannot be printed is escaped."""
    return '"' + "".join(_escaped(c) for c in text) + '"'


def _escaped(character: str) -> str:
    if character in _ESCAPES:
        return _ESCAPES[character]
    if character.isprintable():
        return character
    code = ord(character)
    return f"\\u{code:04x}" if code <= 0xFFFF else f"\\U{code:08x}"


def palette_yaml(paints: Iterable[PaintRow], heading: Iterable[str] = ()) -> str:
    """The text of a palette file, `heading` as remarks before it; what a paint leaves open is left out."""
    lines = [f"# {tidy(line)}".rstrip() for line in heading]
    entries = entries_yaml(paints)
    lines += ["paints:", *entries] if entries else ["paints: []"]
    return "\n".join(lines) + "\n"


def entries_yaml(paints: Iterable[PaintRow], indent: str = "  ") -> list[str]:
    """The lines of paints as entries of a palette's list."""
    return [line for paint in paints for line in _entry(paint, indent)]


def _entry(paint: PaintRow, indent: str) -> Iterator[str]:
    lead = f"{indent}- "
    for key, value in _values(paint):
        yield f"{lead}{key}: {value}"
        lead = f"{indent}  "


def _values(paint: PaintRow) -> Iterator[tuple[str, str]]:
    yield "name", double_quoted(paint.name)
    for key in ("range", "code", "edition"):
        text = getattr(paint, key)
        if text:
            yield key, double_quoted(text)
    if paint.aliases:
        yield "aliases", _listed(paint.aliases)
    if paint.kind is not Kind.PAINT:
        yield "kind", paint.kind.value
    if paint.colour:
        yield "colour", double_quoted(paint.colour)
    for key in ("finish", "covers", "binder", "comes_as"):
        text = getattr(paint, key)
        if text:
            yield key, double_quoted(text)
    if paint.size is not None:
        yield "size", f"{number(paint.size)} ml"
    if paint.price is not None:
        yield "price", number(paint.price)
    if paint.owned:
        yield "owned", str(paint.owned)
    if paint.discontinued:
        yield "discontinued", "yes"
    if paint.hazards:
        yield "hazards", _listed(paint.hazards)
    if paint.note:
        yield "note", double_quoted(paint.note)


def _listed(texts: Iterable[str]) -> str:
    return "[" + ", ".join(map(double_quoted, texts)) + "]"
