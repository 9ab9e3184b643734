"""Other times in the steps of a guide: the fixes that put them in its file."""

from __future__ import annotations

from collections.abc import Iterator

from guidegen.base.diagnostic import Fix
from guidegen.base.source import Source, Span
from guidegen.base.units import print_duration
from guidegen.model.guide import Step
from guidegen.reading.editing.fixes import root_of
from guidegen.reading.types.keys import entries_of
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node

TIME_KEYS = ("once", "each")


def time_fixes(source: Source, step: Step, once: int, each: int) -> Iterator[Fix]:
    """What makes a step of this file say other times, in ms; a time of 0 that is not written stays so.

    A value that is there is written over. A key that is not comes in beside the other one, else below the title: in
    braces after a comma, otherwise on a line of its own; a step with none of the three gets none.
    """
    for key, now, time in (("once", step.once, once), ("each", step.each, each)):
        place = step.places.get(key)
        if place is not None and now != time:
            yield Fix(span=place, text=print_duration(time))
    added = [
        f"{key}: {print_duration(time)}"
        for key, time in (("once", once), ("each", each))
        if time and key not in step.places
    ]
    anchor = next((key for key in ("each", "once", "step") if key in step.places), None)
    if added and anchor is not None:
        yield _addition(source, step, anchor, added)


def _addition(source: Source, step: Step, anchor: str, added: list[str]) -> Fix:
    """Keys of a step that come in beside its key `anchor`."""
    node, (key, value, _) = next(
        (node, entry)
        for node in _maps(root_of(source))
        for entry in entries_of(node)
        if entry.key.value.strip() == anchor
        and source.span(entry.value.start, entry.value.end) == step.places[anchor]
    )
    if anchor == "each":
        column = source.position(key.start)[1]
        text = "".join(f"{one}, " if node.flow else f"{one}\n{' ' * (column - 1)}" for one in added)
        return Fix(span=source.span(key.start, key.start), text=text)
    if node.flow:
        return Fix(span=source.span(value.end, value.end), text="".join(f", {one}" for one in added))
    column = source.position(key.start)[1]
    line = source.position(value.end)[0]
    end = len(source.line(line)) + 1
    place = Span(file=source.file, line=line, column=end, end_line=line, end_column=end)
    return Fix(span=place, text="".join(f"\n{' ' * (column - 1)}{one}" for one in added))


def _maps(node: Node | None) -> Iterator[MapNode]:
    """Every group of keys in a tree."""
    ahead = [node]
    while ahead:
        one = ahead.pop()
        if isinstance(one, MapNode):
            yield one
            ahead += (entry.value for entry in one.entries)
        elif isinstance(one, ListNode):
            ahead += one.items
