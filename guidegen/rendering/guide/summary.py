"""A guide's summary: what other pages show of it, such as its card, its colours and the pots it uses."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator
from dataclasses import dataclass, field

from guidegen.base.suggest import folded
from guidegen.computing.colour.blend import Blend
from guidegen.computing.guide.batch import guide_times
from guidegen.computing.guide.colour_families import Cover, MainFamily, covers, families_of
from guidegen.computing.guide.computed_guide import ComputedGuide
from guidegen.computing.guide.materials import PaintNeed
from guidegen.model.guide import Guide
from guidegen.model.names import Photo
from guidegen.model.paint import Mix
from guidegen.rendering.page.chips import Chips
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.social_pictures import SocialPicture
from guidegen.rendering.page.urls import step_places
from guidegen.rendering.theme.chips import Chip


@dataclass(frozen=True, slots=True, kw_only=True)
class StepPlace:
    """A step that uses something: its number, title and place on the guide's page."""

    n: int
    title: str
    anchor: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Painted:
    """A batch painted by a guide: who did it, in which year, how many figures, and the ms at the brush.

    These are as they were measured where every step was timed, else as they are worked out.
    """

    by: tuple[str, ...]
    year: int
    figures: int
    hands_on: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """What other pages show of one guide. Times, in ms, and needs are for its own number of figures.

    `handbook` is whether it is a page of words without figures, `drawn` whether its finished figure lies beside it as a
    drawing. `pots` are by full name, with the steps that use them; `techniques` by name; `inserted` are shared lists with
    the steps that come from them. `covers` and `families` are its colours by how much they cover. `authors` made it, `painted` are
    the batches painted by it. `sets` is JSON: what a page needs to find stand-ins for its paints. `entry` is its part of
    the search index, which no page shows, so that two summaries are equal without it.
    """

    slug: str
    title: str
    handbook: bool = False
    summary: str = ""
    tags: tuple[str, ...] = ()
    date: dt.date | None = None
    published: dt.date | None = None
    updated: dt.date | None = None
    draft: bool = False
    figures: int = 1
    hands_on: int = 0
    total: int = 0
    cover: Photo | None = None
    strip: tuple[Chip, ...] = ()
    pots: tuple[tuple[str, tuple[StepPlace, ...]], ...] = ()
    techniques: tuple[str, ...] = ()
    needs: tuple[PaintNeed, ...] = ()
    inserted: tuple[tuple[str, StepPlace], ...] = ()
    drawn: bool = False
    covers: tuple[Cover, ...] = ()
    families: tuple[MainFamily, ...] = ()
    authors: tuple[str, ...] = ()
    painted: tuple[Painted, ...] = ()
    sets: str = ""
    entry: str = field(default="", compare=False, repr=False)

    @property
    def latest(self) -> dt.date | None:
        """The last day on which there was something new about it; None where no day is told."""
        return max(filter(None, (self.date, self.published, self.updated)), default=None)


def summary_of(computed: ComputedGuide, chips: Chips, *, author: str = "", drawn: bool = False) -> Summary:
    """The summary of a guide's default variant. `author` is the site's, of guides that name nobody."""
    guide, steps = computed.guide, computed.scheme.steps
    places = {
        row.n: StepPlace(n=row.n, title=row.step.title, anchor=anchor)
        for row, anchor in zip(steps, step_anchors(computed), strict=True)
    }
    authors = guide.authors or tuple(filter(None, (author,)))
    shown = covers(computed.scheme, computed.states)
    uses = {need.paint.full_name: need.steps for need in computed.needs}
    for use in computed.blends:
        for mix in _house_mixes(use.blend):
            uses[mix.full_name] = tuple(sorted({*uses.get(mix.full_name, ()), *use.steps}))
    return Summary(
        slug=guide.slug,
        title=guide.title,
        handbook=guide.handbook,
        summary=guide.summary,
        tags=guide.tags,
        date=guide.date,
        published=guide.published,
        updated=guide.updated,
        draft=guide.draft,
        figures=computed.figures,
        hands_on=computed.times.whole.hands_on,
        total=computed.times.whole.total,
        cover=picture_of(guide),
        strip=strip_of(computed, chips),
        pots=tuple((name, tuple(places[n] for n in numbers)) for name, numbers in uses.items()),
        techniques=tuple(dict.fromkeys(row.technique.name for row in steps if row.step.technique)),
        needs=computed.needs,
        inserted=tuple((row.step.shared, places[row.n]) for row in steps if row.step.shared),
        drawn=drawn,
        covers=shown,
        families=families_of(shown),
        authors=authors,
        painted=tuple(_painted(computed, authors)),
    )


def _painted(computed: ComputedGuide, authors: tuple[str, ...]) -> Iterator[Painted]:
    titles = {folded(row.step.title) for row in computed.scheme.steps}
    for batch in computed.guide.made:
        timed = titles <= set(map(folded, batch.minutes))
        reckoned = 0 if timed else guide_times(computed.scheme, batch.figures).whole.hands_on
        yield Painted(
            by=(batch.by,) if batch.by else authors,
            year=batch.date.year,
            figures=batch.figures,
            hands_on=sum(batch.minutes.values()) if timed else reckoned,
        )


def social_of(guide: Summary, context: SiteContext) -> SocialPicture | None:
    """A guide's picture for sharing, None where none are made."""
    if context.socials is None:
        return None
    colours = tuple(chip.fill for chip in guide.strip if chip.fill)
    return context.socials.of_guide(guide.title, guide.cover, colours, context.pictures, context.language)


def step_anchors(computed: ComputedGuide) -> tuple[str, ...]:
    """The places of a guide's steps on its page."""
    return step_places(row.step.id or row.step.title for row in computed.scheme.steps)


def picture_of(guide: Guide) -> Photo | None:
    """The photo that stands for a guide: its cover, else the last of its steps' photos."""
    if guide.cover is not None:
        return guide.cover
    photos = [photo for step in guide.steps for photo in step.photos]
    return photos[-1] if photos else None


def strip_of(computed: ComputedGuide, chips: Chips) -> tuple[Chip, ...]:
    """The guide's colours: every blend that has one, in the order of first use, no colour twice."""
    shown: dict[str, Chip] = {}
    for row in computed.scheme.steps:
        for blend in row.brushed:
            chip = chips.of(blend)
            if chip.fill:
                shown.setdefault(chip.fill, chip)
    return tuple(shown.values())


def _house_mixes(blend: Blend) -> tuple[Mix, ...]:
    return tuple(part.pot for part in blend.parts if isinstance(part.pot, Mix))
