"""Small guides and plans for tests, written short: times in minutes, evenings in hours."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from typing import Any

from guidegen.base.source import Span
from guidegen.base.units import MINUTE
from guidegen.computing.plan.jobs import Schedule
from guidegen.computing.plan.schedule import schedule
from guidegen.computing.plan.units import unit_schemes
from guidegen.model.guide import Dry, Guide, PaintChoice, PaintUse, Step, Stop
from guidegen.model.names import Name, Part
from guidegen.model.paint import Kind, Paint, Palette
from guidegen.model.plan import Hours, Plan, Timetable, Unit

PLACE = Span.of_file("plans/regatta.yaml")

Week = Mapping[int, tuple[Hours, ...]]


def name(text: str) -> Name:
    return Name(text=text, span=PLACE)


def step(
    title: str,
    once: float,
    each: float,
    dry: float,
    areas: str = "",
    only: Mapping[str, str] | None = None,
    **more: Any,
) -> Step:
    return Step(
        title=title,
        once=round(once * MINUTE),
        each=round(each * MINUTE),
        dry=Dry(air=round(dry * MINUTE)),
        areas=tuple(name(area) for area in areas.split()),
        only={choice: name(option) for choice, option in (only or {}).items()},
        span=PLACE,
        **more,
    )


def painted(*names: str, mixed: bool = False) -> PaintChoice:
    """Paints side by side, or one mixture of them in equal parts."""
    use = PaintUse.MIXED if mixed or len(names) == 1 else PaintUse.SIDE_BY_SIDE
    return PaintChoice(use=use, parts=tuple(Part(name=name(text), amount=1.0) for text in names), span=PLACE)


def stop(title: str) -> Stop:
    return Stop(name=title, span=PLACE)


def guide_of(slug: str, *entries: Step | Stop, **more: Any) -> Guide:
    return Guide(slug=slug, file=f"guides/{slug}.md", title=slug, entries=entries, span=PLACE, **more)


def unit(
    guide: Guide,
    figures: int,
    batch: int | None = None,
    to: str | None = None,
    choose: Mapping[str, str] | None = None,
    **more: Any,
) -> Unit:
    return Unit(
        guide=name(guide.slug),
        figures=figures,
        batch=batch,
        to=None if to is None else name(to),
        choose={choice: name(option) for choice, option in (choose or {}).items()},
        span=PLACE,
        **more,
    )


def evening(start: int, end: int) -> tuple[Hours, ...]:
    """One sitting from hour to hour."""
    return ((start * 60, end * 60),)


def plan_of(
    *units: Unit,
    start: dt.date = dt.date(2026, 4, 6),
    week: Week | None = None,
    dated: Mapping[dt.date, tuple[Hours, ...]] | None = None,
    spraying: Week | None = None,
    **more: Any,
) -> Plan:
    """A plan from Monday 6 April 2026, with a sitting of two hours on Mondays unless told otherwise."""
    return Plan(
        slug="regatta",
        file=PLACE.file,
        title="Regatta",
        start=start,
        sittings=Timetable(weekly={0: evening(20, 22)} if week is None else week, dated=dated or {}),
        spraying=None if spraying is None else Timetable(weekly=spraying),
        units=units,
        span=PLACE,
        **more,
    )


def computed(plan: Plan, *guides: Guide, palette: Palette | None = None) -> Schedule:
    return schedule(plan, unit_schemes(plan, {guide.slug: guide for guide in guides}, palette or Palette()))


def shelf(**kinds: Kind) -> Palette:
    """A palette of pots by name, each of a kind."""
    return Palette(
        paints=tuple(
            Paint(name=name, kind=kind, colour="#806040", span=Span.of_file("palette.yaml"))
            for name, kind in kinds.items()
        )
    )


JETTY = guide_of("toll-house", step("Paste", 5, 10, 8 * 60), step("Wash", 0, 10, 40))


def to_do(found: Schedule) -> list[list[tuple[int, int, str, tuple[int, int], str, str]]]:
    """Per sitting, its jobs: unit, batch, step, figures, from, to."""
    return [
        [
            (job.unit, job.batch, job.title, job.figures, f"{job.start:%H:%M}", f"{job.end:%H:%M}")
            for job in sitting.jobs
        ]
        for sitting in found.sittings
    ]
