"""The home page: every guide, the newest with picture or colours, and what it is searched and sifted by."""

from __future__ import annotations

import datetime as dt
import json
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from guidegen.base.units import MINUTE
from guidegen.computing.guide.shelf import on_shelf
from guidegen.rendering.guide.figures import FILE
from guidegen.rendering.guide.guide_view import Length
from guidegen.rendering.guide.step_views import length
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.pictures import PictureView
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import COLOURS, HOME, INDEX, KEEP_LIST, NUMBERS, guide_file, relative
from guidegen.rendering.theme.chips import Chip
from guidegen.words.language import Language

# So many guides all have their cards; of more, the newest have: one across, and eight rows of three.
FEW = 36
MOST_CARDS = 25
# The times at the brush that guides are sifted by, in minutes.
TIMES = (30, 60, 120, 240, 480, 960)
# What the script says, by the ends of its keys.
FINDER_WORDS = ("endings", "failed", "found", "lacks", "loading", "more", "pages", "umlauts")

# A card shows no more strokes than fit under its picture.
MOST_COLOURS = 14


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """A guide on the home page."""

    title: str
    href: str
    summary: str
    picture: PictureView | None
    drawing: str
    strip: tuple[Chip, ...]
    figures: int
    timed: bool
    hands_on: Length
    total: Length
    tags: tuple[str, ...]
    draft: bool
    date: str


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideLine:
    """An older guide on the home page, or a page of the handbook; `facts` is the line below its title."""

    title: str
    href: str
    facts: str
    tags: tuple[str, ...]
    draft: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideYear:
    """The older guides of one year; `name` is '' for those without a date."""

    name: str
    lines: tuple[GuideLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FinderView:
    """The search of the home page and its filters, for the script alone.

    `index` is the script to fetch, `words` what the page says, as JSON. Filters: `tags`; `people` who made guides;
    `times`, in minutes and in words; `shelf`, whether the pots at home leave some guides in and some out; and on the
    pages of the shelf `lacks`, how many pots a guide may lack.
    """

    index: str
    tags: tuple[str, ...]
    people: tuple[str, ...]
    times: tuple[tuple[int, str], ...]
    shelf: bool
    words: str
    lacks: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class HomeView:
    """The home page.

    `count` counts guides, `pots` paints and house mixes. `handbook` are the pages of words, on a shelf of their own.
    Links: `colours` to the guides by colour, `numbers` to what was painted, `keep_list` to the list of what can be kept
    for use without a network, '' unless there are several guides.
    """

    title: str
    summary: str
    cards: tuple[Card, ...]
    years: tuple[GuideYear, ...]
    handbook: tuple[GuideLine, ...]
    count: int
    pots: int
    colours: str
    numbers: str
    keep_list: str
    finder: FinderView | None


def newest_first(summaries: Iterable[Summary]) -> tuple[Summary, ...]:
    """The newest guides first, those without a date last, by title where they share one."""
    ordered = sorted(summaries, key=lambda guide: (guide.title.casefold(), guide.slug))
    ordered.sort(key=lambda guide: guide.date or dt.date.min, reverse=True)
    return tuple(ordered)


def home_view(ordered: Sequence[Summary], context: SiteContext) -> HomeView:
    """A card for each guide, in the order given; of many guides the older ones get a line each."""
    palette = context.palette_tools.palette
    every, ordered = ordered, tuple(guide for guide in ordered if not guide.handbook)
    most = len(ordered) if len(ordered) <= FEW else MOST_CARDS
    return HomeView(
        title=context.site.title,
        summary=context.site.summary,
        cards=tuple(_card(guide, context) for guide in ordered[:most]),
        years=_years(ordered[most:], context),
        handbook=tuple(_line(guide, guide.summary) for guide in every if guide.handbook),
        count=len(ordered),
        pots=len(palette.paints) + len(palette.mixes),
        colours=relative(COLOURS, HOME),
        numbers=relative(NUMBERS, HOME),
        keep_list=KEEP_LIST if len(every) > 1 else "",
        finder=finder_of(every, context) if len(every) > 1 else None,
    )


def facts_of(summary: Summary, language: Language) -> str:
    """The line below a guide's title: figures and times, of a handbook's page that it is one."""
    if summary.handbook:
        return language.t("home.handbook")
    said = [language.t("figures.n", n=summary.figures)]
    if summary.total > 0:
        said += [
            f"{language.duration(summary.hands_on)} {language.t('short.hands-on')}",
            f"{language.duration(summary.total)} {language.t('short.clock')}",
        ]
    return " · ".join(said)


def _years(guides: Iterable[Summary], context: SiteContext) -> tuple[GuideYear, ...]:
    lines: dict[str, list[GuideLine]] = {}
    for guide in guides:
        line = _line(guide, facts_of(guide, context.language))
        lines.setdefault(str(guide.date.year) if guide.date else "", []).append(line)
    return tuple(GuideYear(name=name, lines=tuple(those)) for name, those in lines.items())


def _line(guide: Summary, facts: str) -> GuideLine:
    return GuideLine(
        title=guide.title,
        href=relative(guide_file(guide.slug), HOME),
        facts=facts,
        tags=guide.tags,
        draft=guide.draft,
    )


def finder_of(ordered: Sequence[Summary], context: SiteContext, lacks: tuple[int, ...] = ()) -> FinderView:
    """The search and its filters; a filter is only there if it leaves some guides out and some in.

    `lacks` is for the pages of the shelf, which like the home page lie at the site's top.
    """
    tags = Counter(tag for guide in ordered for tag in dict.fromkeys(guide.tags))
    people = {name for guide in ordered for name in guide.authors}
    longest = [guide.hands_on for guide in ordered if guide.total > 0 and not guide.handbook]
    times = [
        (minutes, context.language.duration(minutes * MINUTE))
        for minutes in TIMES
        if longest and min(longest) <= minutes * MINUTE < max(longest)
    ]
    ready = sum(bool(guide.needs) and not on_shelf(guide, guide.needs).missing for guide in ordered)
    words = {name: context.language.phrases[f"find.{name}"] for name in FINDER_WORDS}
    return FinderView(
        index=relative(INDEX, HOME),
        tags=tuple(sorted(tags, key=lambda tag: (tag.casefold(), tag))),
        people=tuple(sorted(people, key=lambda name: (name.casefold(), name))) if len(people) > 1 else (),
        times=tuple(times),
        shelf=not lacks
        and any(paint.owned > 0 for paint in context.palette_tools.palette.paints)
        and 0 < ready < len(ordered),
        words=json.dumps(words | {"signs": context.language.group}, ensure_ascii=False, sort_keys=True),
        lacks=lacks,
    )


def _card(guide: Summary, context: SiteContext) -> Card:
    return Card(
        title=guide.title,
        href=relative(guide_file(guide.slug), HOME),
        summary=guide.summary,
        picture=context.picture(guide.cover, HOME, alt=guide.title),
        drawing=relative(guide_file(guide.slug, FILE), HOME) if guide.drawn else "",
        strip=guide.strip[:MOST_COLOURS],
        figures=guide.figures,
        timed=guide.total > 0,
        hands_on=length(guide.hands_on, context.language),
        total=length(guide.total, context.language),
        tags=guide.tags,
        draft=guide.draft,
        date=context.language.on(guide.date) if guide.date else "",
    )
