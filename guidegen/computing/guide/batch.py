"""How long a batch takes: one painter, some figures, drying beside painting, and when nobody ever waits.

The browser counts in the same way, in whole milliseconds (`templates/scripts/clock.js`); a test compares the two.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.computing.guide.scheme import Scheme
from guidegen.model.technique import AIRBORNE

# A batch that no table holds; past it "never wait" is no advice any more. Common practice, no source.
LARGEST_BATCH = 500


@dataclass(frozen=True, slots=True, kw_only=True)
class Pass:
    """One coat of one step over the whole batch. Times in ms; `areas` are places in the scheme's areas."""

    n: int
    coat: int = 1
    coats: int = 1
    title: str = ""
    areas: tuple[int, ...]
    once: int = 0
    each: int = 0
    dry: int = 0
    holds_area: bool = False
    airborne: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """A pass on the clock, ms from the first stroke. From `start` to `end` lie `hands_on` and `waited` together.

    The waiting falls into `gaps` pieces; the longest begins at `longest_at` (0 and 0 where nobody waits).
    `dry_until` is when the last figure is dry.
    """

    n: int
    coat: int
    start: int
    end: int
    hands_on: int
    waited: int
    gaps: int
    longest: int
    longest_at: int
    dry_until: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Times:
    """What a number of figures takes, ms: hands on, waiting, until the last stroke, until the last is dry."""

    figures: int
    hands_on: int
    waiting: int
    last_stroke: int
    total: int


@dataclass(frozen=True, slots=True, kw_only=True)
class StopTimes:
    """The times up to a stop; `after` is the last step before it."""

    name: str
    after: int
    times: Times
    no_wait: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Steps `first` to `last`, both painted, between two places where the work can lie."""

    first: int
    last: int
    no_wait: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class GuideTimes:
    """The times of a whole guide, of each stop, and the batch that never waits in each stretch."""

    whole: Times
    no_wait: int | None
    stops: tuple[StopTimes, ...]
    stretches: tuple[Stretch, ...]


def passes_of(scheme: Scheme) -> tuple[Pass, ...]:
    """One pass per coat; what is done once is done with the first coat."""
    place = {area: at for at, area in enumerate(scheme.areas)}
    return tuple(
        Pass(
            n=step.n,
            coat=coat,
            coats=step.step.coats,
            title=step.step.title,
            areas=tuple(place[area] for area in step.areas),
            once=step.step.once if coat == 1 else 0,
            each=step.step.each,
            dry=step.step.dry.air,
            holds_area=step.step.holds_area,
            airborne=step.technique.name in AIRBORNE,
        )
        for step in scheme.steps
        for coat in range(1, step.step.coats + 1)
    )


def as_data(passes: Sequence[Pass]) -> list[dict[str, int | bool | list[int]]]:
    """The passes as the browser's clock reads them, ready for JSON."""
    return [
        {
            "n": p.n,
            "coat": p.coat,
            "once": p.once,
            "each": p.each,
            "dry": p.dry,
            "on": list(p.areas),
            "area": p.holds_area,
        }
        for p in passes
    ]


def pass_bars(passes: Sequence[Pass], figures: int) -> tuple[Bar, ...]:
    """Where each pass lies on the clock. Figures are painted in order; a wet one is waited for.

    Each figure has one clock for the whole of it and one for each area, and a pass looks at the first and at those
    of its own areas. Nothing lies on the clock of no figures.
    """
    if figures < 1:
        return ()
    bars = []
    whole = [0] * figures
    area: dict[int, list[int]] = {a: [0] * figures for p in passes if p.holds_area for a in p.areas}
    t = 0
    for p in passes:
        start = t
        t += p.once
        clocks = [area[a] for a in p.areas if a in area]
        waited = gaps = longest = longest_at = 0
        for i in range(figures):
            ready = whole[i]
            for clock in clocks:
                ready = max(ready, clock[i])
            if ready > t:
                gap = ready - t
                waited += gap
                gaps += 1
                if gap > longest:
                    longest, longest_at = gap, t
                t = ready
            t += p.each
            dry = t + p.dry
            if p.holds_area:
                for clock in clocks:
                    clock[i] = max(clock[i], dry)
            elif whole[i] < dry:
                whole[i] = dry
        bars.append(
            Bar(
                n=p.n,
                coat=p.coat,
                start=start,
                end=t,
                hands_on=p.once + figures * p.each,
                waited=waited,
                gaps=gaps,
                longest=longest,
                longest_at=longest_at,
                dry_until=t + p.dry,
            )
        )
    return tuple(bars)


def times(passes: Sequence[Pass], figures: int) -> Times:
    """The sums over the clock; all nought for no figures or no passes."""
    return _sum(pass_bars(passes, figures), figures)


def _sum(bars: Sequence[Bar], figures: int) -> Times:
    return Times(
        figures=figures,
        hands_on=sum(bar.hands_on for bar in bars),
        waiting=sum(bar.waited for bar in bars),
        last_stroke=bars[-1].end if bars else 0,
        # Within a pass the last figure dries last, and a pass that dries at once ends no later than it dries.
        total=max((bar.dry_until for bar in bars), default=0),
    )


def no_wait(passes: Sequence[Pass]) -> int | None:
    """The smallest batch, up to 500, that never waits for anything to dry; None if there is none. 1 for no passes.

    While nobody waits, figure i of N begins pass k at Σ(once up to k) + N·Σ(each before k) + (i-1)·each(k). What
    pass j wets is met again first by the next pass k that has to look at its clock; later ones begin later still.
    Figure i is dry in time if that start is no earlier than its end in pass j plus the drying. Both sides are
    linear in i, so the first and the last figure decide, and for both the slack grows with N (or stays):

        first figure:  once(j+1..k) + N·each(j..k-1) ≥ each(j) + dry(j)
        last figure:   once(j+1..k) + N·each(j+1..k) ≥ each(k) + dry(j)

    So a batch larger than the smallest one never waits either.
    """
    smallest = 1
    for j, wet in enumerate(passes):
        k = _met_again(passes, j)
        if k is None:
            continue
        once = sum(p.once for p in passes[j + 1 : k + 1])
        between = sum(p.each for p in passes[j + 1 : k])
        for per_figure, need in (
            (wet.each + between, wet.each + wet.dry - once),
            (between + passes[k].each, passes[k].each + wet.dry - once),
        ):
            if need <= 0:
                continue
            if per_figure == 0:
                return None
            smallest = max(smallest, -(-need // per_figure))
    return smallest if smallest <= LARGEST_BATCH else None


def _met_again(passes: Sequence[Pass], j: int) -> int | None:
    """The next pass that looks at a clock which pass `j` sets."""
    if not passes[j].holds_area:
        return j + 1 if j + 1 < len(passes) else None
    wet = frozenset(passes[j].areas)
    return next((k for k in range(j + 1, len(passes)) if not wet.isdisjoint(passes[k].areas)), None)


def guide_times(scheme: Scheme, figures: int) -> GuideTimes:
    """The times of a scheme for a number of figures, of its stops, and its stretches."""
    passes = passes_of(scheme)
    bars = pass_bars(passes, figures)

    def upto(n: int) -> int:
        return sum(p.n <= n for p in passes)

    return GuideTimes(
        whole=_sum(bars, figures),
        no_wait=no_wait(passes),
        stops=tuple(
            StopTimes(
                name=stop.name,
                after=stop.after,
                times=_sum(bars[: upto(stop.after)], figures),
                no_wait=no_wait(passes[: upto(stop.after)]),
            )
            for stop in scheme.stops
        ),
        stretches=tuple(
            Stretch(first=first, last=last, no_wait=no_wait([p for p in passes if first <= p.n <= last]))
            for first, last in stretches(scheme)
        ),
    )


def stretches(scheme: Scheme) -> tuple[tuple[int, int], ...]:
    """First and last step of each stretch: a stop ends one, and so does a step after which the work can rest."""
    ends = {stop.after for stop in scheme.stops} | {step.n for step in scheme.steps if step.step.rest}
    ends = {end for end in ends if end > 0} | ({len(scheme.steps)} if scheme.steps else set())
    firsts = (1, *(end + 1 for end in sorted(ends)))
    return tuple(zip(firsts, sorted(ends), strict=False))
