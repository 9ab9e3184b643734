"""A YAML text as a tree of what the author typed, each piece with its place; nothing is guessed about values."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any, NamedTuple, cast

import yaml

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.source import Source, Span
from guidegen.reading.yaml.fault import (
    DEEPEST_NESTING,
    Edit,
    Fault,
    Refusal,
    end_of_line,
    sign_refused,
    too_deep,
)
from guidegen.reading.yaml.fault_explainer import no_space, painters_words
from guidegen.reading.yaml.hash_trap import Reading, cut_short, readings
from guidegen.reading.yaml.indents import FIRST_KEYS, no_dash
from guidegen.reading.yaml.recovery import PatchedText, recovered

# libyaml reads some ten times faster than the readers written in Python; without it those do the same.
_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

# YAML 1.1, rule c-printable, but for the byte order mark, which nobody sees within a text. It takes long to compile.
_UNSEEN = "[^\t\n -~\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
_LINES = str.maketrans("", "", "\t\n")

# A key in braces and its value; an address has its colon too.
_SQUEEZED = re.compile(r"([a-z_]{2,20}):([^\s:/].*)")
_COLON = re.compile(r"\s*:")


class Scalar(NamedTuple):
    """A value or a key as typed. `start` and `end` are character offsets in the file, the end exclusive.

    `style` is '' for a plain value, else the quote or the sign that opens a block of text. `diagnosed` is set where
    the author has been told about it already, so that no reader complains again.
    """

    value: str
    start: int
    end: int
    style: str = ""
    diagnosed: bool = False


class ListNode(NamedTuple):
    """A list; `flow` where it stands in brackets."""

    items: tuple[Node, ...]
    start: int
    end: int
    flow: bool


class Entry(NamedTuple):
    """A key and its value. `colon` is False for a word in braces with no colon after it."""

    key: Scalar
    value: Node
    colon: bool = True


class MapNode(NamedTuple):
    """Keys and values in the order written, doubles included; `flow` where they stand in braces."""

    entries: tuple[Entry, ...]
    start: int
    end: int
    flow: bool


Node = Scalar | ListNode | MapNode


class Tree(NamedTuple):
    """What came out: `root` is None for an empty text, and for one that could not be read.

    `broken` is whether something of it may be missing or otherwise than its author meant; `lost` are the ends of the
    lines below which something was passed over, and of those that may have more in them, as offsets.
    """

    root: Node | None
    diagnostics: tuple[Diagnostic, ...] = ()
    broken: bool = False
    lost: tuple[int, ...] = ()


def tree_of(source: Source, start: int = 0, end: int | None = None) -> Tree:
    """The tree of a file, or of the stretch of it between two offsets. Never raises, whatever the text.

    Reports text-after-hash and bad-colour for values cut short by a #, and a bad-yaml for each fault in the text. What
    is read behind a fault is read as if that had been mended, or without its line.
    """
    stop = len(source.text) if end is None else end
    first = _read(source, start, stop)
    if isinstance(first, Tree):
        return first
    attempt = recovered(source, start, stop, _read, lambda one, other: _says(one.root) == _says(other.root))
    faults = tuple(fault.diagnostic(source) for fault in attempt.faults)
    if attempt.result is None:
        return Tree(None, faults, broken=True)
    found = _Moved(attempt.patched, source).tree(attempt.result)
    return Tree(
        found.root,
        (*found.diagnostics, *faults),
        broken=not attempt.whole,
        lost=tuple(attempt.lost),
    )


def _read(source: Source, start: int, stop: int) -> Tree | Fault:
    """The tree of a stretch of text, or the first fault in it.

    Of several ways to take its # (see `readings`) the first without a fault counts, else the one whose fault is `sure` or
    lies furthest on.
    """
    if not source.text[start:stop].translate(_LINES).isprintable():
        unseen = re.compile(_UNSEEN).search(source.text, start, stop)
        if unseen:
            return _unseen_character(unseen)
    furthest: Fault | None = None
    for reading in readings(source.text, start, stop):
        builder = _TreeBuilder(source, reading, start, stop)
        try:
            root = builder.build()
        except _RefusedError as refused:
            fault = refused.fault
        except yaml.YAMLError as error:
            fault = painters_words(source.text, start, stop, cast("Refusal", error))
        else:
            return Tree(root, tuple(builder.diagnostics))
        if furthest is None or (fault.sure, fault.start) > (furthest.sure, furthest.start):
            furthest = fault
    return furthest or Tree(None)


def _says(node: Node | None) -> object:
    """What a tree says, without its places."""
    if isinstance(node, MapNode):
        return [(entry.key.value, _says(entry.value)) for entry in node.entries]
    if isinstance(node, ListNode):
        return [_says(item) for item in node.items]
    return node and node.value


class _Moved:
    """Moves a tree that was read of a patched text to the places in the author's own text."""

    def __init__(self, text: PatchedText, source: Source) -> None:
        self.text = text
        self.source = source

    def tree(self, tree: Tree) -> Tree:
        diagnostics = tuple(
            replace(
                one,
                span=self._span(one.span),
                fix=one.fix and replace(one.fix, span=self._span(one.fix.span)),
            )
            for one in tree.diagnostics
        )
        return Tree(tree.root and self._node(tree.root), diagnostics)

    def _span(self, span: Span) -> Span:
        column, end = (
            self.text.column(line - 1, at - 1) + 1
            for line, at in ((span.line, span.column), (span.end_line, span.end_column))
        )
        return replace(span, column=column, end_column=end)

    def _node(self, node: Node) -> Node:
        start, end = self.text.origin(node.start), self.text.origin(node.end)
        if isinstance(node, Scalar):
            return node._replace(start=start, end=end)
        if isinstance(node, ListNode):
            return node._replace(items=tuple(map(self._node, node.items)), start=start, end=end)
        entries = tuple(
            Entry(cast("Scalar", self._node(entry.key)), self._node(entry.value), entry.colon)
            for entry in node.entries
        )
        return node._replace(entries=entries, start=start, end=end)


def _unseen_character(found: re.Match[str]) -> Fault:
    return Fault(
        f"An invisible character (U+{ord(found[0]):04X}) stands here, often left by copying from somewhere else.",
        "Delete it; typing the line anew is the surest way.",
        found.start(),
        found.end(),
        edit=Edit(found.start(), found.end(), ""),
    )


class _RefusedError(Exception):
    """Something that YAML allows and guidegen leaves out."""

    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.message)
        self.fault = fault


class _Open(NamedTuple):
    """A list or a map whose end has not come yet; a map's keys and values alternate in `parts`."""

    is_map: bool
    start: int
    flow: bool
    parts: list[Node]


class _TreeBuilder:
    """Builds the tree from YAML's events one by one, so that depth stops at its bound before it costs anything."""

    def __init__(self, source: Source, reading: Reading, start: int, stop: int) -> None:
        self.source = source
        self.text = source.text
        self.reading = reading
        self.base = start
        self.stop = stop
        self.unusual = bool(reading.stand_in or reading.remarks)
        self.open: list[_Open] = []
        self.diagnostics: list[Diagnostic] = []

    def build(self) -> Node | None:
        """The root, None for a text without any value."""
        loader = _LOADER(self.reading.text[self.base : self.stop])
        try:
            root = self._root(loader.get_event)
        finally:
            loader.dispose()
        return None if isinstance(root, Scalar) and not root.value and not root.style else root

    def _root(self, next_event: Callable[[], Any]) -> Node | None:
        root: Node | None = None
        documents = 0
        while True:
            event = next_event()
            node: Node | None = None
            kind = type(event)
            if kind is yaml.ScalarEvent:
                node = self._scalar(event)
            elif kind is yaml.MappingStartEvent or kind is yaml.SequenceStartEvent:
                self._start(event, is_map=kind is yaml.MappingStartEvent)
            elif kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
                node = self._close(self.open.pop(), event.end_mark.index + self.base)
            elif kind is yaml.DocumentStartEvent:
                documents += 1
                if documents > 1:
                    raise _RefusedError(_second_document(event.start_mark.index + self.base, self.stop))
            elif kind is yaml.AliasEvent:
                self._refuse_sign(event)
            elif kind is yaml.StreamEndEvent:
                return root
            if node is not None:
                if self.open:
                    self.open[-1].parts.append(node)
                else:
                    root = node

    def _refuse_sign(self, event: Any) -> None:
        raise _RefusedError(sign_refused(self.text, event.start_mark.index + self.base, self.stop))

    def _start(self, event: Any, *, is_map: bool) -> None:
        if event.anchor is not None or event.tag is not None:
            self._refuse_sign(event)
        start = event.start_mark.index + self.base
        if len(self.open) >= DEEPEST_NESTING:
            raise _RefusedError(too_deep(start))
        self.open.append(_Open(is_map, start, bool(event.flow_style), []))

    def _scalar(self, event: Any) -> Scalar:
        if event.anchor is not None or event.tag is not None:
            self._refuse_sign(event)
        start = event.start_mark.index + self.base
        end = event.end_mark.index + self.base
        style: str = event.style or ""
        if style in {"|", ">"}:
            end = start + len(self.text[start:end].rstrip())
        if self.unusual:
            return self._unusual(event.value, start, end, style)
        return Scalar(event.value, start, end, style)

    def _unusual(self, value: str, start: int, end: int, style: str) -> Scalar:
        """A scalar of a text in which some # needs a look."""
        value = self.reading.restored(value)
        if style:
            return Scalar(value, start, end, style)
        diagnosed = self.reading.is_cut_short(start, end)
        if not diagnosed and end in self.reading.remarks:
            diagnosed = True
            start = self.reading.remarks[end] if start == end else start
            end = self.text.find("\n", end, self.stop)
            end = self.stop if end < 0 else end
            value = self.text[start:end].rstrip()
            end = start + len(value)
        if diagnosed:
            self.diagnostics.append(cut_short(self.source, self._key_before(), value, start, end))
        return Scalar(value, start, end, "", diagnosed)

    def _key_before(self) -> str:
        """The key that the value to come belongs to; '' in a list, and for a key itself."""
        if not self.open:
            return ""
        parts = self.open[-1].parts
        key = parts[-1] if self.open[-1].is_map and len(parts) % 2 else None
        return key.value if isinstance(key, Scalar) else ""

    def _close(self, done: _Open, end: int) -> Node:
        if not done.flow and done.parts:
            end = done.parts[-1].end
        if not done.is_map:
            items = done.parts if done.flow else [one for item in done.parts for one in self._apart(item)]
            return ListNode(tuple(items), done.start, end, done.flow)
        entries = []
        for key, value in zip(done.parts[::2], done.parts[1::2], strict=True):
            if not isinstance(key, Scalar):
                raise _RefusedError(_key_of_several(key))
            if key.value == "<<" and not key.style:
                raise _RefusedError(_merge(key))
            colon = value.start != value.end or self._colon_after(key.end)
            squeezed = _SQUEEZED.fullmatch(key.value) if not (colon or key.style) else None
            entries.append(self._with_space(key, squeezed) if squeezed else Entry(key, value, colon))
        return MapNode(tuple(entries), done.start, end, done.flow)

    def _with_space(self, key: Scalar, squeezed: re.Match[str]) -> Entry:
        """A key and its value that lack the space between them, which is told."""
        fault = no_space(key.start, key.end, "", squeezed[1], squeezed[2])
        self.diagnostics.append(fault.diagnostic(self.source))
        middle = key.start + len(squeezed[1])
        return Entry(Scalar(squeezed[1], key.start, middle), Scalar(squeezed[2], middle + 1, key.end))

    def _apart(self, item: Node) -> Iterator[Node]:
        """The entries of a list that one dash stands for: one, or several where theirs are blanks, which is told."""
        if not isinstance(item, MapNode) or item.flow:
            yield item
            return
        rest = item.entries
        while second := next((n for n, entry in enumerate(rest) if n and self._begins(entry.key)), 0):
            if rest[0].key.value not in FIRST_KEYS:
                break
            yield MapNode(rest[:second], rest[0].key.start, rest[second - 1].value.end, flow=False)
            rest = rest[second:]
            at = rest[0].key.start
            fault = no_dash(self.text, at - 2, at, end_of_line(self.text, at, self.stop), sure=True)
            self.diagnostics.append(fault.diagnostic(self.source))
        yield MapNode(rest, rest[0].key.start, item.end, flow=False) if rest is not item.entries else item

    def _begins(self, key: Scalar) -> bool:
        """Whether it is one by which entries begin, with blanks before it in which there is room for a dash."""
        if key.value not in FIRST_KEYS or key.style:
            return False
        before = self.text[self.text.rfind("\n", self.base, key.start) + 1 : key.start]
        return before.isspace() and before.endswith("  ")

    def _colon_after(self, at: int) -> bool:
        return _COLON.match(self.text, at, self.stop) is not None


def _second_document(at: int, stop: int) -> Fault:
    return Fault(
        "A second part begins here with ---; only one can be read.",
        "Take the line --- out, or put the second part in a file of its own.",
        at,
        min(at + 3, stop),
        is_last=True,
    )


def _key_of_several(key: ListNode | MapNode) -> Fault:
    return Fault(
        "Brackets stand where a key belongs.",
        "A key is one word. If this is meant as text, put it all in quotes.",
        key.start,
        key.end,
    )


def _merge(key: Scalar) -> Fault:
    return Fault(
        "The sign << would copy other keys to this place, which guidegen leaves out.",
        "Write the keys out here. Steps that several guides share go into a file in the shared folder.",
        key.start,
        key.end,
    )
