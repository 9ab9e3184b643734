"""Tables of keys, and reading a group of keys by its table: unknown, missing, doubled and empty ones are told."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterator
from dataclasses import KW_ONLY, dataclass, field
from itertools import takewhile
from typing import Any, TypeVar

from guidegen.base.diagnostic import Fix
from guidegen.base.listed import list_of_words
from guidegen.base.slips import is_sure
from guidegen.base.source import Span
from guidegen.base.suggest import all_near
from guidegen.reading.types.base import Fields, Label, PeopleOf, Text, Type, is_empty
from guidegen.reading.types.german_keys import german_key
from guidegen.reading.types.key_messages import tell_double, tell_empty, tell_needed
from guidegen.reading.types.parse_context import LONGEST_NAME, ParseContext, near
from guidegen.reading.yaml.nodes import Entry, ListNode, MapNode, Node, Scalar
from guidegen.reading.yaml.quoting import quoted, shortened

T = TypeVar("T")

# A key behind another value.
_INNER_KEY = re.compile(r"(?<=[\s,;|])([a-z_]{2,20}):(?=\s)")

# As many keys as fit into a help line.
_FEW = 14
# More entries than a group with a slip of the pen has; beyond, nobody guesses which key was meant.
_MANY = 40


@dataclass(frozen=True, slots=True)
class Key:
    """One row: what may be written, of which type, and what it is for.

    `default` says in words what holds where it is left out, '' for nothing. `also` are other spellings.
    `field` is the record's field that the value goes to, where it has another name. `diagnosed_by_rules` marks a
    required key whose absence `checking` tells, since it knows how to word it. `example` is a value as typed, where that of its
    type does not say enough. `instead_of` are words of other meanings by which authors look for it.
    """

    name: str
    type: Type[Any]
    about: str
    _: KW_ONLY
    required: bool = False
    diagnosed_by_rules: bool = False
    default: str = ""
    also: tuple[str, ...] = ()
    field: str = ""
    example: str = ""
    instead_of: tuple[str, ...] = ()

    @property
    def teaches(self) -> str:
        """A few plain sentences: what it is for, what holds where it is left out, and how it is typed."""
        left_out = f" Left out: {self.default}." if self.default else ""
        example = self.example or self.type.example
        return f"{self.about}{left_out}" + (f" For example {self.name}: {example}" if example else "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """A table. `noun` names one such thing in a sentence; the first key holds what tells it from others.

    `beside` are tables whose keys get mixed up with these, for the help of an unknown one.
    """

    noun: str
    about: str
    keys: tuple[Key, ...]
    beside: tuple[Record, ...] = ()
    by_word: dict[str, Key] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        words = {word: key for key in self.keys for word in (key.name, *key.also)}
        object.__setattr__(self, "by_word", words)

    @property
    def article(self) -> str:
        """`a paint`, `an entry`."""
        return f"{'an' if self.noun[0] in 'aeio' else 'a'} {self.noun}"


def read_record(record: Record, node: Node, key: str, context: ParseContext) -> Fields | None:
    """Read a group of keys by its table; None where there is no group.

    A key whose value could not be read has a place but no value; one that stands empty has neither.
    """
    if not isinstance(node, MapNode):
        _tell_no_keys(record, node, key, context)
        return None
    values: dict[str, Any] = {}
    places: dict[str, Span] = {}
    seen: dict[str, Scalar] = {}
    meant, empty = set[str](), set[str]()
    for entry in entries_of(node):
        row = record.by_word.get(entry.key.value.strip())
        if row is None:
            meant |= _read_unknown(record, node, entry, context, seen.keys())
        elif row.name in seen:
            tell_double(entry.key, seen[row.name], context)
        else:
            seen[row.name] = entry.key
            if _is_told(record, row, entry, context):
                meant.add(row.name)
                continue
            if is_empty(entry.value) and not _may_be_blank(row, entry.value):
                tell_empty(row.name, entry, context, _example(row))
                empty.add(row.name)
                continue
            places[row.name] = context.span(entry.value)
            value = row.type.read(entry.value, row.name, context)
            if value == () and row.required and not getattr(entry.value, "items", None):
                del places[row.name]
            elif value is not None:
                values[row.field or row.name] = value
    span = _span(record, node, places, context)
    if context.is_torn(node):
        meant |= {row.name for row in record.keys if row.name not in places}
    for row in _missing(record, meant.union(places)):
        tell_missing(record, row, _title(record, values), span, context)
    lost = meant | _unread(record, places, values)
    return Fields(values, places, span, frozenset(lost), context, frozenset(empty))


def _unread(record: Record, places: Collection[str], values: Collection[str]) -> set[str]:
    return {row.name for row in record.keys if row.name in places and (row.field or row.name) not in values}


def _missing(record: Record, there: Collection[str]) -> list[Key]:
    return [
        row for row in record.keys if row.required and not row.diagnosed_by_rules and row.name not in there
    ]


def _is_told(record: Record, row: Key, entry: Entry, context: ParseContext) -> bool:
    """Whether the value of a key is none and that is told: it has more keys in it, or `checking` would miss it.

    Quotes that are not its author's stand around what was torn, so it is no text.
    """
    node = entry.value
    if row.diagnosed_by_rules and is_empty(node):
        tell_needed(row.name, entry, context)
        return True
    if not isinstance(node, Scalar) or not node.style or context.source.text[node.start] in "\"'":
        return False
    inner = any(word in record.by_word for word in _INNER_KEY.findall(node.value))
    return inner and row is not record.keys[0] and context.is_torn(node)


def _tell_no_keys(record: Record, node: Node, key: str, context: ParseContext) -> None:
    names = [row.name for row in record.keys if row.required] or [record.keys[0].name]
    lists = [row.name for row in record.keys if row.type.expected.startswith("a list of")]
    bare = isinstance(node, ListNode) and not node.flow and not key and lists
    context.bad(
        node,
        key or record.noun,
        f"{record.article} with its keys",
        f"Put a line {lists[0]}: above it, if these are the {lists[0]}."
        if bare
        else f"Give it {list_of_words([f'{name}:' for name in names])} and the like, each with its value.",
    )


def entries_of(node: MapNode) -> Iterator[Entry]:
    """The entries, with `2,80` put together again where braces took its comma for the end of a value."""
    waiting: Entry | None = None
    for entry in node.entries:
        if waiting is not None and _is_torn(waiting, entry):
            value = waiting.value
            joined = Scalar(f"{value.value},{entry.key.value}", value.start, entry.key.end)  # type: ignore[union-attr]
            waiting = waiting._replace(value=joined)
            continue
        if waiting is not None:
            yield waiting
        waiting = entry
    if waiting is not None:
        yield waiting


def _is_torn(before: Entry, entry: Entry) -> bool:
    """Whether an entry is what follows a decimal comma of the one before: `80` of `{price: 2,80}`."""
    value = before.value
    return (
        not entry.colon
        and isinstance(value, Scalar)
        and not value.style
        and value.end + 1 == entry.key.start
        and value.value[-1:].isdigit()
        and entry.key.value[:1].isdigit()
    )


def tell_missing(record: Record, row: Key, title: str, span: Span, context: ParseContext) -> None:
    """missing-key, at what stands for the record."""
    whose = f"The {record.noun} “{shortened(title)}”" if title else f"This {record.noun}"
    about = f"{row.about[0].lower()}{row.about[1:]}"
    # The example of a name is one of the handbook's, and none of theirs.
    example = "" if isinstance(row.type, Label) else row.type.example
    what = f", as in {row.name}: {example}" if example else f" and {about}"
    context.say("missing-key", f"{whose} has no {row.name}.", span, f"Add {row.name}:{what}")


def _may_be_blank(row: Key, node: Node) -> bool:
    """Empty quotes say on purpose that there is none, where text may be left out."""
    return (
        isinstance(node, Scalar)
        and bool(node.style)
        and isinstance(row.type, Text | PeopleOf)
        and not row.required
    )


def _example(row: Key) -> str:
    """What most authors mean by a key alone: yes."""
    return "yes" if row.type.expected == "yes or no" else ""


def _span(record: Record, node: MapNode, places: dict[str, Span], context: ParseContext) -> Span:
    """The place that stands for a record: its first key's value, else whatever it begins with."""
    first = record.keys[0].name
    if first in places:
        return places[first]
    return context.span(node.entries[0].key if node.entries else node)


def _title(record: Record, values: dict[str, Any]) -> str:
    """The value of its first key if that is text, '' otherwise."""
    first = record.keys[0]
    title = values.get(first.field or first.name)
    return title if isinstance(title, str) and isinstance(first.type, Text) else ""


def _read_unknown(
    record: Record, node: MapNode, entry: Entry, context: ParseContext, seen: Collection[str]
) -> set[str]:
    """As `_unknown`; where one row is meant that is not written besides, mistakes in its value are told as well."""
    named = _unknown(record, node, entry, context)
    if len(named) == 1 and named.isdisjoint(seen) and isinstance(entry.value, ListNode | MapNode):
        record.by_word[next(iter(named))].type.read(entry.value, entry.key.value, context)
    return named


def _unknown(record: Record, node: MapNode, entry: Entry, context: ParseContext) -> set[str]:
    """Tell about a key that the table lacks; returns the name of the row that was meant, if any."""
    word = entry.key.value.strip()
    best = near(word, tuple(record.by_word)) if context.may_guess else None
    if entry.key.diagnosed:
        return {record.by_word[best].name} if best else set()
    span = context.span(entry.key)
    if not entry.colon and node.flow:
        return _without_colon(record, node, entry, context)
    beside = next((other for other in record.beside if word in other.by_word), None)
    if best and record.by_word[best].required and isinstance(entry.value, ListNode):
        beside = None  # step: for steps:
    sought = _sought(record, node, word, german=best is None)
    if sought is not None:
        best, help_line = None, f"Write {sought.name} ({sought.about[0].lower()}{sought.about[1:-1]})."
    elif beside is not None:
        best, help_line = None, f"It belongs to {beside.article}; look how far the line is set in."
    elif not word:
        help_line = "Write a key before the colon."
    elif best:
        help_line = f"Write {best}."
    else:
        help_line = _known(record)
    meant = _meant(record, node, word) if best else None
    context.say(
        "unknown-key",
        f"“{shortened(word)}” is no key of {record.article}.",
        span,
        help_line,
        fix=Fix(span=span, text=meant) if meant else None,
    )
    return {sought.name} if sought is not None else {record.by_word[best].name} if best else set()


def _sought(record: Record, node: MapNode, word: str, *, german: bool) -> Key | None:
    """The row, not written yet, that a word of another meaning or language looks for."""
    there = {other.key.value.strip() for other in node.entries}
    translated = german_key(word, record.by_word) if german else ""
    return next(
        (
            row
            for row in record.keys
            if row.name not in there and (word.casefold() in row.instead_of or row.name == translated)
        ),
        None,
    )


def _without_colon(record: Record, node: MapNode, entry: Entry, context: ParseContext) -> set[str]:
    """Tell about a word in braces that no colon stands behind; returns the name of the row that was meant, if any."""
    word, span = entry.key.value.strip(), context.span(entry.key)
    first = record.keys[0].name
    if entry is node.entries[0]:
        context.say(
            "unknown-key", f"“{shortened(word)}” has no key before it.", span, f"Write {first}: {word}."
        )
        return {first}
    if not _before(node, entry).colon:
        return set()  # told with the one before
    key, _, value = word.partition(" ")
    row = record.by_word.get(key)
    if row is not None and value and row.name not in {other.key.value.strip() for other in node.entries}:
        context.say(
            "unknown-key",
            f"“{shortened(word)}” has no colon after its key.",
            span,
            f"Write {key}: {shortened(value.strip())}.",
        )
        return {row.name}
    context.say(
        "unknown-key",
        f"“{shortened(word)}” stands between commas with no colon after it.",
        span,
        _comma_help(record, node, entry),
    )
    return set()


def _meant(record: Record, node: MapNode, word: str) -> str | None:
    """The one key that can be meant by a word, unless it may stand there already."""
    if len(node.entries) > _MANY:
        return None
    rows = [_rows_near(record, entry.key.value.strip()) for entry in node.entries]
    near_ones = all_near(word, {*record.by_word, *(w for other in record.beside for w in other.by_word)})
    if any(other not in record.by_word for other in near_ones):
        return None
    mine = {record.by_word[other].name for other in near_ones}
    alone = len(mine) == 1 and sum(bool(mine & row) for row in rows) == 1
    return near_ones[0] if alone and is_sure(word, near_ones[0], ours=True) else None


def _rows_near(record: Record, word: str) -> set[str]:
    """The rows that a written key is, or may be a slip of the pen for."""
    if word in record.by_word:
        return {record.by_word[word].name}
    return {record.by_word[near].name for near in all_near(word[: LONGEST_NAME + 1], record.by_word)}


def _known(record: Record) -> str:
    """The help for a key that nothing is near to: the keys there are, if they are few."""
    if len(record.keys) <= _FEW:
        return f"Known here: {', '.join(row.name for row in record.keys)}."
    return "Take it out, or make it a remark with a # and a space before it."


def _before(node: MapNode, entry: Entry) -> Entry:
    """The entry before one, or the first itself."""
    return node.entries[max(0, node.entries.index(entry) - 1)]


def _comma_help(record: Record, node: MapNode, entry: Entry) -> str:
    """The help for a word in braces without a colon, which may belong to the text before its comma."""
    before = _before(node, entry)
    if not isinstance(before.value, Scalar) or not before.colon:
        return "Put a colon and its value after it, or take it out."
    behind = takewhile(lambda one: not one.colon, node.entries[node.entries.index(entry) :])
    whole = ", ".join((before.value.value, *(one.key.value for one in behind)))
    row = record.by_word.get(before.key.value.strip())
    if row is not None and "list" in row.type.expected:
        return f"Put the list in brackets: {before.key.value}: [{shortened(whole)}]"
    return f"If the comma belongs to the text, put that in quotes: {before.key.value}: {quoted(whole)}"


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordOf(Type[T]):
    """A group of keys by a table, made into a value by `build`."""

    record: Record
    build: Callable[[Fields], T | None]

    def read(self, node: Node, key: str, context: ParseContext) -> T | None:
        fields = read_record(self.record, node, "" if key == self.record.noun else key, context)
        return None if fields is None else self.build(fields)


def record_of(record: Record, build: Callable[[Fields], T | None]) -> RecordOf[T]:
    """The type of a group of keys."""
    return RecordOf(record=record, build=build, expected=f"{record.article} with its keys")


def read_whole(record: Record, context: ParseContext, *, empty: str, help_line: str) -> Fields | None:
    """The keys that a whole file is made of; None where they cannot be read. An empty file is told with the message `empty`."""
    tree = context.tree()
    if tree.root is not None:
        return read_record(record, tree.root, "", context)
    if not tree.broken:
        context.say("missing-key", empty, context.source.span(0, 0), help_line)
    return None
