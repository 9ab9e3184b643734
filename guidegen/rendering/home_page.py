"""The home page: every guide with its picture or its colours."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from guidegen.rendering.archive_view import Card, HomeView
from guidegen.rendering.desk import Desk
from guidegen.rendering.figures import FILE
from guidegen.rendering.pictures import picture_view
from guidegen.rendering.step_views import length
from guidegen.rendering.summary import Summary
from guidegen.rendering.urls import HOME, guide_file, relative

# A card shows no more strokes than fit under its picture.
MOST_COLOURS = 14


def newest_first(summaries: Iterable[Summary]) -> tuple[Summary, ...]:
    """The newest guides first, those without a date last, by title where they share one."""
    ordered = sorted(summaries, key=lambda guide: (guide.title.casefold(), guide.slug))
    ordered.sort(key=lambda guide: guide.date or dt.date.min, reverse=True)
    return tuple(ordered)


def home_view(ordered: Sequence[Summary], desk: Desk) -> HomeView:
    """A card for each guide, in the order given."""
    palette = desk.workshop.palette
    return HomeView(
        title=desk.site.title,
        cards=tuple(_card(guide, desk) for guide in ordered),
        count=len(ordered),
        pots=len(palette.paints) + len(palette.mixes),
    )


def _card(guide: Summary, desk: Desk) -> Card:
    return Card(
        title=guide.title,
        href=relative(guide_file(guide.slug), HOME),
        summary=guide.summary,
        picture=picture_view(guide.cover, desk.pictures, HOME, alt=guide.title),
        drawing=relative(guide_file(guide.slug, FILE), HOME) if guide.drawn else "",
        strip=guide.strip[:MOST_COLOURS],
        figures=guide.figures,
        timed=guide.total > 0,
        hands_on=length(guide.hands_on, desk.language),
        total=length(guide.total, desk.language),
        tags=guide.tags,
        draft=guide.draft,
        date=desk.language.on(guide.date) if guide.date else "",
    )
