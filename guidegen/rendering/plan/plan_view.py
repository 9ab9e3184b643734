"""The values that a plan's page shows: templates only lay them out."""

from __future__ import annotations

from dataclasses import dataclass

from guidegen.rendering.guide.guide_view import Fact, Length
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.own_pots import OwnPots
from guidegen.rendering.page.paint_views import PotView


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """The answer, first in a few words, then in full; `mends` is what would each alone mend a plan that is late."""

    good: bool
    answer: str
    says: tuple[str, ...]
    late: bool
    mends: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitView:
    """A unit. `href` and that of `to` are '' where the guide has no page; `to` is None for the whole guide;
    `times` says whether its times were measured, '' where it has no page.
    """

    n: int
    name: str
    href: str
    options: tuple[str, ...]
    times: str
    figures: int
    batches: str
    to: Link | None


@dataclass(frozen=True, slots=True, kw_only=True)
class DayView:
    """A day of the calendar. `painted` lead to its sittings; `free` are hours of sittings without work."""

    number: int
    iso: str
    name: str
    painted: tuple[Link, ...]
    free: tuple[str, ...]
    deadline: bool
    finish: bool

    @property
    def look(self) -> str:
        """The names of its looks, as classes."""
        looks = {
            "painted": self.painted,
            "free": self.free and not self.painted,
            "due": self.deadline,
            "dry": self.finish,
        }
        return " ".join(name for name, has in looks.items() if has)


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthView:
    """A month in weeks from Monday; None for days of the months beside it."""

    name: str
    weeks: tuple[tuple[DayView | None, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class JobView:
    """A job of a sitting.

    `start` and `end` are to five minutes, `end` '' where that is the same; `iso` is exact. `number`, `batch`, `n` and
    `lays` are its unit, batch, step and coat; `before` and `after` how many figures of the batch have had that coat then.
    `wait` is the gap before it where that is more than changing over; `changed` is whether another pot is opened.
    """

    wait: Length | None
    changed: bool
    start: str
    iso: str
    end: str
    title: str
    href: str
    coat: str
    figures: str
    unit: str
    set_up: str
    number: int
    batch: int
    n: int
    lays: int
    before: int
    after: int


@dataclass(frozen=True, slots=True, kw_only=True)
class SittingView:
    """A sitting with its jobs; `late` if it begins after the deadline. `pots` are in the order of first use."""

    anchor: str
    day: str
    iso: str
    hours: str
    late: bool
    in_short: str
    pots: tuple[PotView, ...]
    jobs: tuple[JobView, ...]
    last_stroke: str
    hands_on: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedView:
    """A paint of the shopping list; `pots` is what to buy."""

    pot: PotView
    amount: str
    pots: int
    cost: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ShoppingView:
    """What to buy and what is there; `unpriced` counts what is to buy and has no price."""

    lacking: tuple[NeedView, ...]
    owned: tuple[NeedView, ...]
    pots: int
    cost: str
    unpriced: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """A plan's page. `ticks` is what its script needs, as JSON."""

    title: str
    long_word: bool
    facts: tuple[Fact, ...]
    verdict: Verdict
    sums: tuple[Fact, ...]
    units: tuple[UnitView, ...]
    months: tuple[MonthView, ...]
    weekdays: tuple[tuple[str, str], ...]
    sittings: tuple[SittingView, ...]
    shopping: ShoppingView
    exports: tuple[Link, ...]
    ticks: str
    own: OwnPots | None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanCard:
    """A plan on the page of all plans."""

    title: str
    href: str
    good: bool = True
    answer: str = ""
    dates: str = ""
    figures: int = 0
    sittings: int = 0
