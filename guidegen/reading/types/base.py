"""What may stand after a key: the base of every type in the tables of keys.

A type tells what it expects, gives an example, and reads a node into a value. A schema for editors can be made
from the types as well: each is a small frozen record whose class and fields say everything.
"""

from __future__ import annotations

import re
from abc import ABC, abstractmethod
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Generic, NamedTuple, TypeVar

from guidegen.base.listed import list_of_words
from guidegen.base.slips import only_meant
from guidegen.base.source import Span
from guidegen.base.suggest import folded
from guidegen.model.names import Name
from guidegen.reading.types.parse_context import LONGEST_NAME, ParseContext, near
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, Scalar
from guidegen.reading.yaml.quoting import shortened

T = TypeVar("T")

# A note of two printed pages; more is the guide's text, which has a place of its own.
LONGEST_TEXT = 5_000

# Tags, old addresses, areas, substitutes, batches painted: nobody has a hundred, and some of them make a page each.
MOST_ENTRIES = 200

_BLANKS = re.compile("[ \t\n\r\x0b\x0c\x85\u2028\u2029]+")
# Control characters come in by way of escapes in double quotes; no page and no feed may carry them.
_CONTROL = re.compile("[\x00-\x08\x0e-\x1f\x7f-\x84\x86-\x9f\ufffe\uffff]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Type(ABC, Generic[T]):
    """`expected` completes “needs …”, `example` is a value as typed, `code` is what a bad value is told as."""

    expected: str = ""
    example: str = ""
    code: str = "bad-value"

    @abstractmethod
    def read(self, node: Node, key: str, context: ParseContext) -> T | None:
        """The value, or None after telling why there is none."""

    def refuse(
        self, node: Node, key: str, context: ParseContext, help_line: str = "", meant: str | None = None
    ) -> None:
        """Tell that the node is not of this type; `meant` is the one value that can be meant, if it is known."""
        example = f"Write it as in {key}: {self.example}" if self.example else f"Write {self.expected} there."
        context.bad(node, key, self.expected, help_line or example, self.code, meant)


class Complaint(NamedTuple):
    """Why a word was not taken: an action, and a sentence where the usual one does not say enough.

    `meant` is the one word that can be meant instead, where that is known.
    """

    help: str = ""
    message: str = ""
    meant: str | None = None


def words_of(node: Node) -> str | None:
    """The text of a scalar on one line, None for a list or a group of keys, or with control characters in it."""
    if not isinstance(node, Scalar) or (node.style == '"' and _CONTROL.search(node.value)):
        return None
    value = node.value
    if value.isprintable() and "  " not in value:  # nearly every value, and the same there
        return value.strip(" ")
    return _BLANKS.sub(" ", value).strip()


# Quotes as word processors type them, each with those that close it.
_CURLY = {"“": "”“", "„": "“”", "‘": "’", "‚": "‘’", "«": "»", "»": "«"}


def without_quotes(node: Node, text: str) -> str:
    """A value without the curly quotes around all of it, which were meant as the straight ones that YAML takes off.

    Within straight quotes they are meant to be seen, and so are quotes around parts of it.
    """
    if not isinstance(node, Scalar) or node.style or len(text) < 3:
        return text
    inside = text[1:-1]
    closing = _CURLY.get(text[0], "")
    whole = text[-1] in closing and not any(sign in inside for sign in (text[0], *closing))
    return inside.strip() if whole and inside.strip() else text


@dataclass(frozen=True, slots=True, kw_only=True)
class Words(Type[T]):
    """A type whose values are one piece of text."""

    @abstractmethod
    def of(self, text: str) -> T | Complaint:
        """The value of a text without blanks at its ends."""

    def read(self, node: Node, key: str, context: ParseContext) -> T | None:
        text = words_of(node)
        if text is None:
            self.refuse(node, key, context, _shape_help(node, key, self.example))
            return None
        value = self.of(text)
        if isinstance(value, Complaint) and (bare := without_quotes(node, text)) != text:
            value = self.of(bare)
        if isinstance(value, Complaint):
            if value.message and not (isinstance(node, Scalar) and node.diagnosed):
                context.say(self.code, value.message, context.span(node), value.help)
            else:
                self.refuse(node, key, context, value.help, value.meant)
            return None
        return value


def _shape_help(node: Node, key: str, example: str) -> str:
    """The help for a list or a group of keys where one value is needed, or for an invisible character."""
    if isinstance(node, Scalar):
        return "Take the invisible character out of it."
    if isinstance(node, MapNode) and node.flow and not node.entries:
        return f"Write it as in {key}: {example}" if example else "Fill it in, or take it out."
    sign = "brackets" if isinstance(node, ListNode) else "braces"
    if example:
        return f"Write one value, as in {key}: {example}"
    if node.flow:
        return f"Take the {sign} away, or put quotes around it all if they are part of the text."
    return "Write it on one line."


@dataclass(frozen=True, slots=True, kw_only=True)
class Text(Words[str]):
    """Any words, on one line once read."""

    expected: str = "text"
    most: int = LONGEST_TEXT

    def of(self, text: str) -> str | Complaint:
        return text if len(text) <= self.most else too_long(text, self.most)


@dataclass(frozen=True, slots=True, kw_only=True)
class NameText(Text):
    """A name, which loses the curly quotes around it."""

    most: int = LONGEST_NAME

    def read(self, node: Node, key: str, context: ParseContext) -> str | None:
        text = super(NameText, self).read(node, key, context)
        return None if text is None else without_quotes(node, text)


def too_long(text: str, most: int) -> Complaint:
    """For a text of more characters than there is a use for."""
    return Complaint(
        f"Shorten it to {most:,} characters.",
        f"“{shortened(text)[:30]}…” goes on for {len(text):,} characters, {most:,} at most can stand here.",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Label(Type[Name]):
    """A word that points at something, kept as typed with its place."""

    expected: str = "a name"

    def read(self, node: Node, key: str, context: ParseContext) -> Name | None:
        """The name, up to 200 characters."""
        if not isinstance(node, Scalar):
            self.refuse(node, key, context, _shape_help(node, key, self.example))
            return None
        text = NAME_TEXT.read(node, key, context)
        return Name(text=text, span=context.span(node)) if text is not None else None


@dataclass(frozen=True, slots=True, kw_only=True)
class PersonName(Text):
    """Somebody: a key of the site's people, read as the name that stands there, or the name itself."""

    expected: str = "a name"
    example: str = "Odda of the lock"
    most: int = LONGEST_NAME

    def read(self, node: Node, key: str, context: ParseContext) -> str | None:
        text = super(PersonName, self).read(node, key, context)
        return None if text is None else context.people.get(folded(text), text)


TEXT = Text()
SHORT_TEXT = Text(most=LONGEST_NAME)
PERSON = PersonName()
NAME_TEXT = NameText()


@dataclass(frozen=True, slots=True, kw_only=True)
class OneOf(Words[T]):
    """One of a few words, each with what it means; case makes no difference."""

    words: Mapping[str, T]

    def __post_init__(self) -> None:
        if not self.expected:
            listed = list_of_words(tuple(self.words), "or")
            object.__setattr__(self, "expected", listed if len(self.words) == 2 else f"one of {listed}")
            object.__setattr__(self, "example", next(iter(self.words)))

    def of(self, text: str) -> T | Complaint:
        word = text.casefold()
        if word in self.words:
            return self.words[word]
        best = near(text, tuple(self.words)) or self._part_of(word)
        return Complaint(
            f"Write {best}." if best else f"Write {list_of_words(tuple(self.words), 'or')}.",
            meant=only_meant(text, self.words, ours=True) if best else None,
        )

    def _part_of(self, text: str) -> str | None:
        """The one of the words that is among these, or that begins with them: `matt varnish`, `metal`."""
        said = set(re.findall(r"\w+", text))
        found = [word for word in self.words if word in said or (len(text) > 2 and word.startswith(text))]
        return found[0] if len(found) == 1 else None


@dataclass(frozen=True, slots=True, kw_only=True)
class ListOf(Type[tuple[T, ...]]):
    """A list. Where `lone` is set a single value will do as a list of one; where `commas` is, even one with a comma."""

    item: Type[T]
    lone: bool = True
    commas: bool = False
    most: int | None = MOST_ENTRIES

    def read(self, node: Node, key: str, context: ParseContext) -> tuple[T, ...] | None:
        """What could be read of the entries; None where there is no list."""
        if isinstance(node, ListNode):
            nodes = node.items
        elif not self.lone:
            self.refuse(node, key, context, "Begin a line with - for each of them, set in below the key.")
            return None
        elif isinstance(node, Scalar) and not node.style and "," in node.value and not self.commas:
            self.refuse(node, key, context, f"Put it in brackets: {key}: [{shortened(node.value)}]")
            return None
        else:
            nodes = (node,)
        if self.most is not None and len(nodes) > self.most:
            context.say(
                self.code,
                f"There are {len(nodes):,} entries under {key}, {self.most:,} at most can stand there.",
                context.span(nodes[self.most]),
                "Take some of them out.",
            )
            nodes = nodes[: self.most]
        values = []
        for item in nodes:
            if is_empty(item):
                context.say(
                    "empty-value",
                    f"An entry of {key} is empty.",
                    context.span(item),
                    "Take it out or fill it in.",
                )
                continue
            value = self.item.read(item, key, context)
            if value is not None:
                values.append(value)
        return tuple(values)


@dataclass(frozen=True, slots=True, kw_only=True)
class PeopleOf(ListOf[str]):
    """Somebody, or several; empty quotes say on purpose that nobody is named."""

    expected: str = "a name, or a list of names"
    item: Type[str] = PERSON
    commas: bool = True

    def read(self, node: Node, key: str, context: ParseContext) -> tuple[str, ...] | None:
        return () if is_empty(node) else super(PeopleOf, self).read(node, key, context)


def list_of(
    item: Type[T],
    expected: str = "",
    *,
    lone: bool = True,
    commas: bool = False,
    most: int | None = MOST_ENTRIES,
) -> ListOf[T]:
    """A list of one type; what it expects is told from its entries. `most` None is for lists that are bounded elsewhere."""
    expected = expected or f"a list, each {item.expected}"
    return ListOf(item=item, lone=lone, commas=commas, most=most, expected=expected, example="")


def is_empty(node: Node) -> bool:
    """Whether nothing stands there, or only blanks in quotes."""
    return isinstance(node, Scalar) and not node.value.strip()


class Fields(NamedTuple):
    """A record as read: values by the field they belong to, places by key, and the place that stands for it all.

    `lost` are keys whose value is not among the values though the author meant to give one, `empty` those that
    stand without any, which was told.
    """

    values: dict[str, Any]
    places: dict[str, Span]
    span: Span
    lost: frozenset[str]
    context: ParseContext
    empty: frozenset[str] = frozenset()
