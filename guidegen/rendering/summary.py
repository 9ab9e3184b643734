"""What the other pages of a site have to know of a guide: its card, its colours, the pots it uses."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field

from guidegen.computing.families import Cover, MainFamily, covers, families_of
from guidegen.computing.materials import PaintNeed
from guidegen.computing.scheme import Blend
from guidegen.computing.worked import Worked
from guidegen.model.guide import Guide
from guidegen.model.names import Photo
from guidegen.model.paint import Mix
from guidegen.rendering.chips import Chip
from guidegen.rendering.desk import Chips
from guidegen.rendering.urls import step_places


@dataclass(frozen=True, slots=True, kw_only=True)
class StepPlace:
    """A step that uses something: its number, title and place on the guide's page."""

    n: int
    title: str
    anchor: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Summary:
    """One guide in short. Times and needs for its own number of figures, in ms; `pots` by full name, `techniques` by
    name. `drawn` is whether its finished figure lies beside it as a drawing. `covers` and `families` are its colours
    by how much they cover. `entry` is its part of the index to search by: no page shows it, so two guides in short
    are the same without it.
    """

    slug: str
    title: str
    summary: str
    tags: tuple[str, ...]
    date: dt.date | None
    draft: bool
    figures: int
    hands_on: int
    total: int
    cover: Photo | None
    strip: tuple[Chip, ...]
    pots: tuple[tuple[str, tuple[StepPlace, ...]], ...]
    techniques: tuple[str, ...]
    needs: tuple[PaintNeed, ...]
    inserted: tuple[tuple[str, StepPlace], ...] = ()
    drawn: bool = False
    covers: tuple[Cover, ...] = ()
    families: tuple[MainFamily, ...] = ()
    entry: str = field(default="", compare=False, repr=False)


def summary_of(worked: Worked, chips: Chips, *, drawn: bool = False) -> Summary:
    """A guide in short, from its default variant."""
    guide, steps = worked.guide, worked.scheme.steps
    places = {
        row.n: StepPlace(n=row.n, title=row.step.title, anchor=anchor)
        for row, anchor in zip(steps, step_anchors(worked), strict=True)
    }
    shown = covers(worked.scheme, worked.states)
    uses = {need.paint.full_name: need.steps for need in worked.needs}
    for use in worked.blends:
        for mix in _house_mixes(use.blend):
            uses[mix.full_name] = tuple(sorted({*uses.get(mix.full_name, ()), *use.steps}))
    return Summary(
        slug=guide.slug,
        title=guide.title,
        summary=guide.summary,
        tags=guide.tags,
        date=guide.date,
        draft=guide.draft,
        figures=worked.figures,
        hands_on=worked.times.whole.hands_on,
        total=worked.times.whole.total,
        cover=picture_of(guide),
        strip=strip_of(worked, chips),
        pots=tuple((name, tuple(places[n] for n in numbers)) for name, numbers in uses.items()),
        techniques=tuple(dict.fromkeys(row.technique.name for row in steps if row.step.technique)),
        needs=worked.needs,
        inserted=tuple((row.step.shared, places[row.n]) for row in steps if row.step.shared),
        drawn=drawn,
        covers=shown,
        families=families_of(shown),
    )


def step_anchors(worked: Worked) -> tuple[str, ...]:
    """The places of a guide's steps on its page."""
    return step_places(row.step.title for row in worked.scheme.steps)


def picture_of(guide: Guide) -> Photo | None:
    """The photo that stands for a guide: its cover, else the last of its steps' photos."""
    if guide.cover is not None:
        return guide.cover
    photos = [photo for step in guide.steps for photo in step.photos]
    return photos[-1] if photos else None


def strip_of(worked: Worked, chips: Chips) -> tuple[Chip, ...]:
    """The guide's colours: every blend that has one, in the order of first use, no colour twice."""
    shown: dict[str, Chip] = {}
    for row in worked.scheme.steps:
        for blend in row.brushed:
            chip = chips.of(blend)
            if chip.fill:
                shown.setdefault(chip.fill, chip)
    return tuple(shown.values())


def _house_mixes(blend: Blend) -> tuple[Mix, ...]:
    return tuple(part.pot for part in blend.parts if isinstance(part.pot, Mix))
