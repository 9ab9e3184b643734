"""The site's own settings, and the archive as a whole."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.base.source import Source, Span
from guidegen.base.units import DAY
from guidegen.model.chart import Chart
from guidegen.model.guide import Guide, Passage, Scale, Shared, StepDefaults
from guidegen.model.names import NO_PLACES
from guidegen.model.paint import Palette
from guidegen.model.plan import Plan
from guidegen.model.web_address import WebAddress

# The rules that content is written by, named by `format` in site.yaml: the ones of today, and those of content that
# names none. The first grows when the same text would be read differently, the second never.
FORMAT = 1
FIRST_FORMAT = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Defaults:
    """What a guide, a step, a plan's unit or a paint takes where it says nothing. `base` in mm across."""

    figures: int = 1
    scale: Scale = field(default_factory=Scale)
    base: float | None = None
    batch: int | None = None
    range: str | None = None
    steps: StepDefaults = field(default_factory=StepDefaults)


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Somebody who paints or writes here: the key that guides may name them by, and their name."""

    key: str = ""
    name: str
    link: WebAddress | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Gone:
    """What stands where a guide was that is no more, and the day on which it went, if anybody says."""

    words: str
    date: dt.date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """`site.yaml`. `licence` holds for guides that say none, `contact` is whom to write to. `gone` has the guides that are
    no more by their addresses. `meant` are the codes of advice that is intended everywhere, `cure` the ms that plans let paint cure.
    """

    title: str = "Painting guides"
    summary: str = ""
    author: str = ""
    people: tuple[Person, ...] = ()
    licence: str = ""
    contact: str = ""
    url: WebAddress | None = None
    feed_id: str = ""
    gone: Mapping[str, Gone] = field(default_factory=dict)
    language: str = "en"
    timezone: str = "UTC"
    currency: str = "EUR"
    format: int = FIRST_FORMAT
    tokens: Mapping[str, str] = field(default_factory=dict)
    defaults: Defaults = field(default_factory=Defaults)
    meant: tuple[str, ...] = ()
    cure: int = DAY
    span: Span = field(default_factory=lambda: Span.of_file("site.yaml"))
    places: Mapping[str, Span] = field(default_factory=lambda: NO_PLACES, compare=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class TextPage:
    """`pages/<slug>.md`: a page of words, in the menu or in the foot of every page; `order` is among its like."""

    slug: str
    file: str
    title: str
    menu: bool = False
    order: int = 0
    text: Passage = field(default_factory=Passage)
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Archive:
    """All content, read. Guides, shared lists, plans and pages are sorted by slug; a faulty one may be left out.

    `sources` has every text file that was read, by its path. `loose` are the files to copy as they are (`as-is/`),
    and `templates` the author's own, both relative to content. `addresses` are the slugs of all guides, those too
    faulty to be read among them. `unread` are the files of which something could not be read, so that a name that
    is missing may stand in them.
    """

    site: Site = field(default_factory=Site)
    palette: Palette = field(default_factory=Palette)
    guides: tuple[Guide, ...] = ()
    shared: tuple[Shared, ...] = ()
    plans: tuple[Plan, ...] = ()
    pages: tuple[TextPage, ...] = ()
    loose: tuple[str, ...] = ()
    templates: tuple[str, ...] = ()
    charts: Mapping[str, Chart] = field(default_factory=dict)
    sources: Mapping[str, Source] = field(default_factory=dict)
    addresses: frozenset[str] = frozenset()
    unread: frozenset[str] = frozenset()

    def guide(self, slug: str) -> Guide | None:
        """The guide at an address."""
        return next((guide for guide in self.guides if guide.slug == slug), None)
