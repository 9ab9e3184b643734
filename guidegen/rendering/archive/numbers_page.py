"""The archive in numbers: figures and hours by year and by person, what is used most, what nobody uses."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from guidegen.rendering.guide.summary import Painted, Summary
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import NUMBERS, relative, technique_place

# Rows of what is used most.
_MOST = 20
# A bar's whole length, in the units of its drawing.
_LENGTH = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class NumberRow:
    """A row of a table: what it is about, its numbers as text, and how long its bar is of 100."""

    name: Link
    numbers: tuple[str, ...]
    bar: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NumbersView:
    """The page of numbers. `unused` are pots that are owned and in no guide."""

    years: tuple[NumberRow, ...]
    people: tuple[NumberRow, ...]
    paints: tuple[NumberRow, ...]
    techniques: tuple[NumberRow, ...]
    unused: tuple[Link, ...]


def numbers_view(summaries: Sequence[Summary], context: SiteContext) -> NumbersView:
    """The numbers of all guides and of all batches that were painted by them."""
    batches = [batch for guide in summaries for batch in guide.painted]
    years = {
        str(year): [one for one in batches if one.year == year] for year in sorted({b.year for b in batches})
    }
    names = sorted({name for batch in batches for name in batch.by}, key=lambda name: (name.casefold(), name))
    people = {name: [one for one in batches if name in one.by] for name in names}
    pots = Counter(name for guide in summaries for name, _ in guide.pots)
    techniques = Counter(name for guide in summaries for name in guide.techniques)
    t = context.language.t
    return NumbersView(
        years=_painted(years, {}, context),
        people=_painted(people, {name: context.person_page(name) for name in names}, context),
        paints=_counted(((name, name, context.pots.get(name, "")) for name in pots), pots, context),
        techniques=_counted(
            ((name, t(f"technique.name.{name}"), technique_place(name)) for name in techniques),
            techniques,
            context,
        ),
        unused=tuple(
            Link(text=paint.full_name, href=relative(context.pots[paint.full_name], NUMBERS))
            for paint in context.palette_tools.palette.paints
            if paint.owned > 0 and paint.full_name not in pots
        ),
    )


def _painted(
    groups: Mapping[str, Sequence[Painted]], pages: Mapping[str, str], context: SiteContext
) -> tuple[NumberRow, ...]:
    figures = {name: sum(one.figures for one in several) for name, several in groups.items()}
    longest = max(figures.values(), default=1)
    return tuple(
        NumberRow(
            name=_link(name, pages.get(name, "")),
            numbers=(
                context.language.number(figures[name]),
                context.language.duration(sum(one.hands_on for one in several)),
            ),
            bar=_bar(figures[name], longest),
        )
        for name, several in groups.items()
    )


def _counted(
    named: Iterable[tuple[str, str, str]], counts: Counter[str], context: SiteContext
) -> tuple[NumberRow, ...]:
    """Rows of what most guides use, each with its name and its page."""
    ordered = sorted(named, key=lambda one: (-counts[one[0]], one[1].casefold()))[:_MOST]
    longest = max(counts.values(), default=1)
    return tuple(
        NumberRow(
            name=_link(name, page),
            numbers=(context.language.number(counts[key]),),
            bar=_bar(counts[key], longest),
        )
        for key, name, page in ordered
    )


def _link(name: str, page: str) -> Link:
    return Link(text=name, href=relative(page, NUMBERS) if page else "")


def _bar(number: int, longest: int) -> str:
    return f"{_LENGTH * number / max(longest, 1):.1f}"
