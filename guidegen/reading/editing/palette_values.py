"""A palette file with other values or more names in some of its pots: nothing else of it changes by a single byte."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from guidegen.base.diagnostic import has_errors
from guidegen.base.source import Source, Span
from guidegen.model.paint import LetDown, Paint
from guidegen.reading.content.paints import LET_DOWN, PAINT
from guidegen.reading.content.palette import PaletteFile, read_palette_file
from guidegen.reading.editing.raw_text import RawText
from guidegen.reading.editing.written import values_of
from guidegen.reading.paint_lists.palette_file import double_quoted
from guidegen.reading.types.keys import Record
from guidegen.reading.yaml.nodes import Entry, ListNode, MapNode, Node, Scalar, tree_of

_PLAIN_NAME = re.compile(r"[^\W\d_][\w '’-]*(?<! )")


@dataclass(frozen=True, slots=True, kw_only=True)
class NewValues:
    """What a pot, found by the place of its name, is to have; None is left as it is.

    `let_down` is the colour of the two together, the paint's parts, the white's parts, and the white's name, '' for pure
    white. A house mix takes `aliases` only, which come behind those it has.
    """

    name: Span
    colour: str | None = None
    colour_from: str | None = None
    strength: float | None = None
    let_down: tuple[str, float, float, str] | None = None
    aliases: tuple[str, ...] = ()


class _Edit(NamedTuple):
    """Text in the place of a stretch of the file, by character offsets."""

    start: int
    end: int
    text: str


def with_values(file: str, data: bytes, changes: Iterable[NewValues]) -> bytes | None:
    """The bytes of a palette file with these values; None where they cannot be put in for certain."""
    wanted = tuple(changes)
    try:
        source = Source.from_bytes(file, data)
    except UnicodeDecodeError:
        return None
    nodes = _nodes(source)
    edits: list[_Edit] = []
    for change in wanted:
        node = nodes.get(change.name)
        if node is None:
            return None
        made = list(_edits(source, node, change))
        if any("\n" in source.text[edit.start : edit.end] for edit in made):
            return None
        edits += made
    raw = RawText(data)
    # From the end on; of two at one place the value comes before the keys added behind it.
    edits.sort(key=lambda edit: edit.start)
    for edit in reversed(edits):
        begin, end = (raw.offset(*source.position(at)) for at in (edit.start, edit.end))
        raw.replace(begin, end, edit.text)
    after = raw.text.encode()
    return after if _only_these(source, Source.from_bytes(file, after), wanted) else None


def _nodes(source: Source) -> dict[Span, MapNode]:
    """The paints and house mixes of a file by the places of their names."""
    tree = tree_of(source)
    if tree.broken:
        return {}
    found = {}
    for key in ("paints", "mixes"):
        pots = values_of(tree.root).get(key)
        for item in pots.items if isinstance(pots, ListNode) else ():
            name = _value(item, "name") if isinstance(item, MapNode) else None
            if isinstance(item, MapNode) and name is not None:
                found[source.span(name.value.start, name.value.end)] = item
    return found


def _value(node: MapNode, key: str, record: Record = PAINT) -> Entry | None:
    """The entry of a key, in whichever spelling it has."""
    words = {key, *record.by_word[key].also}
    return next((entry for entry in node.entries if entry.key.value.strip() in words), None)


def _edits(source: Source, node: MapNode, change: NewValues) -> Iterator[_Edit]:
    """What is to be written, and where; what the paint lacks comes after its colour, else after its name."""
    after = _value(node, "colour") or _value(node, "name")
    added: list[str] = []
    for key, text in _texts(change):
        entry = _value(node, key)
        if entry is None:
            added.append(f"{key}: {text}")
        elif isinstance(entry.value, Scalar):
            yield _in_place(source, entry.value, text)
    if change.aliases:
        known, names = _value(node, "aliases"), [_name(name) for name in change.aliases]
        if known is None:
            added.append(f"aliases: [{', '.join(names)}]")
        else:
            yield _more_names(source, known.value, names)
    if change.let_down is not None:
        down = _value(node, "let_down")
        if down is None:
            added.append(f"let_down: {_let_down(change.let_down)}")
        elif isinstance(down.value, MapNode) and down.value.entries:
            yield from _let_down_edits(source, down.value, change.let_down)
    if added and after is not None:
        yield _added(source, node, after, added)


def _more_names(source: Source, old: Node, names: Sequence[str]) -> _Edit:
    """More names behind those that stand there: in brackets, one a line, or where there was one without a list."""
    if not isinstance(old, ListNode) or not old.items:
        there = [] if isinstance(old, ListNode) else [source.text[old.start : old.end]]
        return _Edit(old.start, old.end, f"[{', '.join([*filter(None, there), *names])}]")
    last = old.items[-1]
    if old.flow:
        return _Edit(last.end, last.end, "".join(f", {name}" for name in names))
    line, column = source.position(last.start)
    dash = source.line(line)[: column - 1]
    at = source.starts[line - 1] + len(source.line(line))
    return _Edit(at, at, "".join(f"\n{dash}{name}" for name in names))


def _texts(change: NewValues) -> Iterator[tuple[str, str]]:
    if change.colour is not None:
        yield "colour", f'"{change.colour}"'
    if change.colour_from is not None:
        yield "colour_from", change.colour_from
    if change.strength is not None:
        yield "strength", f"{change.strength:g}"


def _in_place(source: Source, old: Scalar, text: str) -> _Edit:
    """A value in the place of another, in the quotes and with or without the # that stood there."""
    written = source.text[old.start : old.end]
    if not written:
        return _Edit(old.start, old.end, f" {text}")
    bare = text.strip('"')
    if old.style in ("'", '"'):
        colour = bare if not bare.startswith("#") or old.value.startswith("#") else bare[1:]
        return _Edit(old.start, old.end, old.style + colour + old.style)
    if bare.startswith("#") and not written.startswith("#"):
        return _Edit(old.start, old.end, bare[1:])
    return _Edit(old.start, old.end, text)


def _let_down(values: tuple[str, float, float, str]) -> str:
    colour, paint, white_parts, white = values
    named = f", white: {_name(white)}" if white else ""
    return f'{{colour: "{colour}", parts: {paint:g}:{white_parts:g}{named}}}'


def _name(name: str) -> str:
    return name if _PLAIN_NAME.fullmatch(name) and name.casefold() not in _WORDS else double_quoted(name)


_WORDS = frozenset({"yes", "no", "true", "false", "on", "off", "null"})


def _let_down_edits(source: Source, node: MapNode, values: tuple[str, float, float, str]) -> Iterator[_Edit]:
    colour, paint, white_parts, white = values
    texts = {"colour": f'"{colour}"', "parts": f"{paint:g}:{white_parts:g}"}
    if white:
        texts["white"] = _name(white)
    missing = []
    for key, text in texts.items():
        entry = _value(node, key, LET_DOWN)
        if entry is None:
            missing.append(f"{key}: {text}")
        elif isinstance(entry.value, Scalar):
            yield (
                _in_place(source, entry.value, text)
                if key == "colour"
                else _Edit(entry.value.start, entry.value.end, text)
            )
    if missing:
        yield _added(source, node, node.entries[-1], missing)


def _added(source: Source, node: MapNode, after: Entry, texts: list[str]) -> _Edit:
    """Keys after another: behind a comma in braces, else each on a line of its own, set in like the others."""
    end = max(after.value.end, after.key.end)
    if node.flow:
        return _Edit(end, end, "".join(f", {text}" for text in texts))
    line, _ = source.position(max(end - 1, 0) if isinstance(after.value, Scalar) else after.key.end)
    begin = source.starts[line - 1]
    at = begin + len(source.line(line))
    column = source.position(node.entries[0].key.start)[1] - 1
    return _Edit(at, at, "".join(f"\n{' ' * column}{text}" for text in texts))


def _only_these(old: Source, new: Source, changes: tuple[NewValues, ...]) -> bool:
    """Whether the file reads as before but for the values asked for, which are now there."""
    (before, told), (after, told_now) = read_palette_file(old), read_palette_file(new)
    if has_errors(told_now) and not has_errors(told):
        return False
    wanted = {change.name: change for change in changes}
    if len(before.paints) != len(after.paints) or _beside(before, wanted) != _beside(after, {}):
        return False
    return all(
        _plain(_changed(one, wanted.get(one.places["name"]))) == _plain(other)
        for one, other in zip(before.paints, after.paints, strict=True)
    )


def _beside(file: PaletteFile, wanted: Mapping[Span, NewValues]) -> object:
    """What a file says besides its paints, with the names that house mixes are to have."""
    mixes = []
    for mix in file.mixes:
        place = mix.places.get("name")
        change = wanted.get(place) if place is not None else None
        names = (*mix.aliases, *(change.aliases if change is not None else ()))
        mixes.append((mix.name, mix.colour, mix.kind, mix.strength, mix.note, names))
    return mixes, [(one.name, one.size, one.price, one.note) for one in file.ranges], file.whole


def _changed(paint: Paint, change: NewValues | None) -> Paint:
    """A paint as it should be read after the change."""
    if change is None:
        return paint
    values: Mapping[str, object] = {
        key: value
        for key, value in (
            ("colour", change.colour),
            ("colour_from", change.colour_from),
            ("strength", change.strength),
        )
        if value is not None
    }
    changed = replace(paint, aliases=(*paint.aliases, *change.aliases), **values)  # type: ignore[arg-type]
    if change.let_down is None:
        return changed
    colour, parts, white_parts, _ = change.let_down
    down = LetDown(colour=colour, paint_parts=parts, white_parts=white_parts, span=paint.span)
    return replace(changed, let_down=down)


def _plain(paint: Paint) -> object:
    """All that a paint says, without places."""
    down = paint.let_down
    names = tuple(name.text for name in paint.hazards)
    return (
        replace(paint, span=_HERE, let_down=None, twin_of=None, hazards=()),
        names,
        paint.twin_of.text if paint.twin_of is not None else None,
        None if down is None else (down.colour, down.paint_parts, down.white_parts),
    )


_HERE = Span.of_file("")
