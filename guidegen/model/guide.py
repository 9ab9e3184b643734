"""A guide: its steps, stops and inserts, as written."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from guidegen.base.source import Span
from guidegen.model.names import NO_PLACES, Item, Name, Part, Photo
from guidegen.model.web_address import WebAddress

# Combinations of options that each get a page. With more, an option is offered by itself, beside the first of the others.
MOST_VARIANTS = 24


class GuideKind(StrEnum):
    """What a guide is: figures being painted, or a page of words with steps, which has no figures, times or bench."""

    PAINTING = "painting"
    HANDBOOK = "handbook"


class PaintUse(StrEnum):
    """How a step says what it paints with."""

    NONE = "none"
    AS_BEFORE = "as before"
    SIDE_BY_SIDE = "list"  # one name, or several that are each used by themselves
    MIXED = "parts"  # several names mixed in parts


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintChoice:
    """What a step paints with. `parts` is empty for none and as before; in a list every amount is 1."""

    use: PaintUse
    parts: tuple[Part, ...] = ()
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Dry:
    """Milliseconds to dry in the air, which count, and with warm air, where the author gave them."""

    air: int = 0
    warm: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Thin:
    """How a paint is thinned: the text as typed, and the paint's share of it where parts were given."""

    text: str
    paint_share: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Instead:
    """The author's own substitute: one or more names in parts, and a note."""

    parts: tuple[Part, ...]
    note: str = ""
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step. Times in ms, `amount` in ml per figure and coat, `share` from 0 to 1.

    `id` names its place on the page instead of the title. `technique` is as typed, '' if none. `areas` is empty for
    `all`. `paint` is None only where the author left it out or wrote something unreadable. `once`, `each` and `dry` are
    per coat; `holds_area` is True where only the area waits for drying, not the figure; `rest` where the work can lie
    overnight after it; `at` is the place in the video, ms. `spots` says where exactly paint goes, `stray` names areas
    where a slip does no harm. `only` gives for choices the option that has the step.

    `shared` names the shared list that an inserted step comes from; its spans then lie in that list's file. `unread`
    are the keys whose values could not be read, `places` where the values of the others stand, by key.
    """

    title: str
    id: str = ""
    technique: str = ""
    areas: tuple[Name, ...] = ()
    paint: PaintChoice | None = None
    once: int = 0
    each: int = 0
    dry: Dry = field(default_factory=Dry)
    holds_area: bool = False
    rest: bool = False
    coats: int = 1
    brush: str = ""
    thin: Thin | None = None
    share: float | None = None
    amount: float | None = None
    instead: tuple[Instead, ...] = ()
    photos: tuple[Photo, ...] = ()
    at: int | None = None
    mind: str = ""
    look_for: str = ""
    if_wrong: str = ""
    spots: str = ""
    stray: tuple[Name, ...] = ()
    optional: bool = False
    only: Mapping[str, Name] = field(default_factory=dict)
    materials: tuple[Item, ...] = ()
    tools: tuple[Item, ...] = ()
    shared: str | None = None
    unread: frozenset[str] = frozenset()
    span: Span
    places: Mapping[str, Span] = field(default_factory=lambda: NO_PLACES, compare=False)

    @property
    def named_parts(self) -> tuple[Part, ...]:
        """The parts of its paint, then those of its substitutes."""
        own = self.paint.parts if self.paint is not None else ()
        return (*own, *(part for other in self.instead for part in other.parts))


@dataclass(frozen=True, slots=True, kw_only=True)
class StepDefaults:
    """Values for steps that leave them out, by a step's fields, and where each stands, by its key.

    Unlike those of other records these places count in comparing, since steps in other files take them over. A key
    with a place and no value could not be read.
    """

    given: Mapping[str, Any] = field(default_factory=dict)
    places: Mapping[str, Span] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """A point among the steps at which figures can be called done; `name` says what they are fit for by then."""

    name: str
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Insert:
    """The steps of a shared list go here. Inserts are expanded before anything is computed."""

    name: Name


@dataclass(frozen=True, slots=True, kw_only=True)
class Shared:
    """`shared/<name>.yaml`: steps that several guides insert, as written."""

    name: str
    entries: tuple[Step | Stop | Insert, ...]
    span: Span

    @property
    def file(self) -> str:
        """Where it was read."""
        return self.span.file

    @property
    def steps(self) -> tuple[Step, ...]:
        """Its own steps, without stops and what it inserts."""
        return tuple(entry for entry in self.entries if isinstance(entry, Step))


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """The scale as 1:ratio, the words it was written in, and whether anybody gave it."""

    ratio: float = 56.0
    text: str = "1:56"
    given: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Swatch:
    """A colour that the author read off a reference picture."""

    name: str
    colour: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """A picture the scheme follows."""

    photo: Photo
    source: str = ""
    swatches: tuple[Swatch, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class UsedPaint:
    """A pot that a batch was painted with: its range and name, its edition, its colour then as `#rrggbb`."""

    paint: str
    edition: str = ""
    colour: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PaintedBatch:
    """A batch painted so far. `minutes` are the ms that steps took, by title; `choose` and `mixed` its variants.

    `by` is who painted it, '' for the guide's author; `used` are the pots as they were then.
    """

    date: dt.date
    figures: int
    minutes: Mapping[str, int] = field(default_factory=dict)
    choose: Mapping[str, Name] = field(default_factory=dict)
    mixed: Mapping[str, Mapping[str, int]] = field(default_factory=dict)
    by: str = ""
    used: tuple[UsedPaint, ...] = ()
    note: str = ""
    places: Mapping[str, Span] = field(default_factory=lambda: NO_PLACES, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Passage:
    """Part of a guide's text, as safe HTML. Pictures and links in it are place-holders, see
    `reading/markdown/body.py`.

    `photos` are the pictures in it, in order; `links` the addresses of guides that it links to.
    """

    html: str = ""
    plain: str = ""
    photos: tuple[Photo, ...] = ()
    links: tuple[Name, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """The Markdown: what stands before the steps, under each step (by index among the steps), and after them."""

    before: Passage = field(default_factory=Passage)
    under: Mapping[int, Passage] = field(default_factory=dict)
    after: Passage = field(default_factory=Passage)

    @property
    def passages(self) -> tuple[Passage, ...]:
        """Every passage of the text, in order."""
        return (self.before, *self.under.values(), self.after)


@dataclass(frozen=True, slots=True, kw_only=True)
class Meant:
    """A kind of advice that is intended: in one step, or in the whole guide where `step` is None."""

    code: str
    step: Name | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Guide:
    """A guide with its inserts expanded. `base` in mm across, None for none; `surface` in cm². `batch` is how many
    figures plans paint at a time, None for all.

    `authors` are the names of all who made it, `author` the same as one text.
    """

    slug: str
    file: str
    title: str
    kind: GuideKind = GuideKind.PAINTING
    summary: str = ""
    author: str = ""
    authors: tuple[str, ...] = ()
    credit: str = ""
    licence: str = ""
    video: WebAddress | None = None
    language: str = ""
    date: dt.date | None = None
    published: dt.date | None = None
    updated: dt.date | None = None
    tags: tuple[str, ...] = ()
    see: tuple[Name, ...] = ()
    was: tuple[Name, ...] = ()
    draft: bool = False
    scale: Scale = field(default_factory=Scale)
    base: float | None = None
    surface: float | None = None
    figures: int = 1
    batch: int | None = None
    cover: Photo | None = None
    figure: Name | None = None
    materials: tuple[Item, ...] = ()
    tools: tuple[Item, ...] = ()
    reference: tuple[Reference, ...] = ()
    made: tuple[PaintedBatch, ...] = ()
    leave: tuple[Name, ...] = ()
    meant: tuple[Meant, ...] = ()
    choose: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    entries: tuple[Step | Stop, ...] = ()
    inserts: tuple[str, ...] = ()
    body: Body = field(default_factory=Body)
    chart: str | None = None
    span: Span
    places: Mapping[str, Span] = field(default_factory=lambda: NO_PLACES, compare=False)

    @property
    def handbook(self) -> bool:
        """Whether it is a page of words, about no figures."""
        return self.kind is GuideKind.HANDBOOK

    @property
    def steps(self) -> tuple[Step, ...]:
        """The steps of every variant, in order, without stops."""
        return tuple(entry for entry in self.entries if isinstance(entry, Step))

    @property
    def default_choice(self) -> dict[str, str]:
        """The first option of each choice."""
        return {name: options[0] for name, options in self.choose.items() if options}
