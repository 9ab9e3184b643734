"""An author's file with single places of it written anew, and nothing else of it changed."""

from __future__ import annotations

from dataclasses import dataclass, field

from guidegen.base.source import Source, Span
from guidegen.model.guide import Step
from guidegen.model.names import Photo
from guidegen.reading.editing.written import yaml_text
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, Scalar
from guidegen.receiving.palette_text import parts_text
from guidegen.receiving.pots import PotMerge


@dataclass(slots=True, kw_only=True)
class Edits:
    """What goes where, by offsets in the text; of two over one place the first counts."""

    source: Source
    root: Node | None
    scalars: frozenset[tuple[int, int]] = frozenset()
    done: dict[tuple[int, int], str] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.scalars = frozenset(_scalars(self.root))

    def put(self, span: Span, text: str) -> None:
        """Write a text where something else stands."""
        self.done.setdefault(self._at(span), text)

    def insert(self, at: int, text: str) -> None:
        """Write a text at an offset, behind what was inserted there before."""
        self.done[at, at] = self.done.get((at, at), "") + text

    def is_scalar(self, span: Span) -> bool:
        """Whether a place is one whole value or key, with its quotes."""
        return self._at(span) in self.scalars

    def text(self) -> str:
        """The file with everything put in."""
        text = self.source.text
        end = len(text) + 1
        for (start, stop), new in sorted(self.done.items(), reverse=True):
            if stop <= end:
                text = text[:start] + new + text[stop:]
                end = start
        return text

    def _at(self, span: Span) -> tuple[int, int]:
        offset = self.source.offset
        return offset(span.line, span.column), offset(span.end_line, span.end_column)


def _scalars(node: Node | None) -> list[tuple[int, int]]:
    ahead = [node] if node is not None else []
    found = []
    while ahead:
        one = ahead.pop()
        if isinstance(one, Scalar):
            found.append((one.start, one.end))
        elif isinstance(one, ListNode):
            ahead += one.items
        elif isinstance(one, MapNode):
            ahead += [part for entry in one.entries for part in (entry.key, entry.value)]
    return found


def rename_paints(edits: Edits, step: Step, merge: PotMerge) -> None:
    """Write the names of a step's paints as the archive has them, where that is another."""
    groups = [(step.paint.parts, step.paint.span)] if step.paint is not None else []
    groups += [(one.parts, one.span) for one in step.instead]
    for parts, span in groups:
        changed = [part for part in parts if merge.label(part.name.text) != part.name.text]
        if not changed:
            continue
        if all(edits.is_scalar(part.name.span) for part in changed):
            for part in changed:
                edits.put(part.name.span, yaml_text(merge.label(part.name.text)))
        elif edits.is_scalar(span) and (step.thin is None or "thin" in step.places):
            edits.put(span, parts_text(parts, merge))
        else:  # water among the parts is told by the words around their names
            for part in changed:
                edits.put(part.name.span, merge.label(part.name.text))


def rename_photo(edits: Edits, photo: Photo, file: str) -> None:
    """Write a photo's file under the name that it has got, where that is another."""
    if file != photo.file:
        edits.put(photo.span, yaml_text(file) if edits.is_scalar(photo.span) else file)
