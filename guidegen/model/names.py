"""Records that guides and palettes share: names with their places, parts of mixtures, items, photos."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from guidegen.base.source import Span

NO_PLACES: Mapping[str, Span] = MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Name:
    """A word as typed, and where it stands; `key` is where the word before its colon stands, if it has one."""

    text: str
    span: Span
    key: Span | None = field(default=None, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One name in a mixture. `amount` is its parts; a touch counts 0.1 and keeps `touch` set."""

    name: Name
    amount: float
    touch: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """A material or a tool: what it is, what for, how much, what to beware of."""

    name: str
    purpose: str = ""
    amount: str = ""
    cautions: tuple[str, ...] = ()
    span: Span
    places: Mapping[str, Span] = field(default_factory=lambda: NO_PLACES, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """A picture that a guide shows. `file` is as typed; `path` is relative to content, None if not found.

    `caption` is text; `alt` is empty where the author gave none. `by` is who took it, `licence` on what terms.
    """

    file: str
    path: str | None
    alt: str = ""
    caption: str = ""
    by: str = ""
    licence: str = ""
    span: Span
