"""Notes which entries of the site's tables a page was made from: while these stay the same, so does the page."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, Generic, TypeVar

from guidegen.rendering.page.site_context import SiteContext

V = TypeVar("V")


class Traced(Mapping[str, V], Generic[V]):
    """A mapping that notes what was asked of it, so that it can be seen later whether the answers are still the same."""

    def __init__(self, whole: Mapping[str, V]) -> None:
        """Over the mapping that answers."""
        self._whole = whole
        self.asked: dict[str, V | None] = {}
        self.everything: tuple[tuple[str, V], ...] | None = None

    def __getitem__(self, key: str) -> V:
        self.asked[key] = self._whole.get(key)
        return self._whole[key]

    def __iter__(self) -> Iterator[str]:
        self.everything = tuple(self._whole.items())
        return iter(self._whole)

    def __len__(self) -> int:
        self.everything = tuple(self._whole.items())
        return len(self._whole)


@dataclass(frozen=True, slots=True)
class Trace:
    """The entries that were looked up, by the table's name, with their values then."""

    asked: tuple[tuple[str, Mapping[str, Any], tuple[tuple[str, Any], ...] | None], ...]

    def asked_again(self, context: SiteContext) -> Trace:
        """The same look-ups with the answers of an equal context: its own records in place of their copies."""
        return Trace(
            tuple(
                (
                    table,
                    {key: getattr(context, table).get(key) for key in asked},
                    tuple(getattr(context, table).items()) if everything is not None else None,
                )
                for table, asked, everything in self.asked
            )
        )

    def holds(self, context: SiteContext) -> bool:
        """Whether today's tables give the same answers."""
        for table, asked, everything in self.asked:
            today = getattr(context, table)
            if any(today.get(key) != answer for key, answer in asked.items()):
                return False
            if everything is not None and tuple(today.items()) != everything:
                return False
        return True


def traced(context: SiteContext) -> tuple[SiteContext, Callable[[], Trace]]:
    """The site's context with its tables watched, and the look-ups until the function is called.

    Watched are those that change with other guides, photos and pots; all else is what a guide takes from the palette, or
    changes with the site.
    """
    guides, pictures = Traced(context.guides), Traced(context.pictures)
    charts, shared = Traced(context.charts), Traced(context.shared)
    pots = Traced(context.pots)
    tables: dict[str, Traced[Any]] = {
        "guides": guides,
        "pictures": pictures,
        "charts": charts,
        "shared": shared,
        "pots": pots,
    }
    watched = replace(context, guides=guides, pictures=pictures, charts=charts, shared=shared, pots=pots)
    return watched, lambda: Trace(
        tuple((name, dict(table.asked), table.everything) for name, table in tables.items())
    )
