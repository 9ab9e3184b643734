"""A plan in plain words for a terminal, in English as all that terminals say: sittings, finish, mending, shopping."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping, Sequence

from guidegen.base.units import HOUR, MINUTE, print_duration
from guidegen.computing.guide.materials import PaintNeed
from guidegen.computing.guide.shopping import to_buy, total
from guidegen.computing.plan.project import Project
from guidegen.computing.plan.remedies import Remedies
from guidegen.computing.plan.schedule import Job, Schedule, Sitting
from guidegen.model.plan import Plan
from guidegen.rendering.page.amounts import volume_text
from guidegen.rendering.plan.plan_words import unit_names
from guidegen.words.catalogue import language_of

DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")


def plan_text(project: Project, currency: str) -> str:
    """The whole answer of `guidegen plan`."""
    plan, computed, names = project.plan, project.schedule, unit_names(project.units, language_of("en"))
    parts = [
        plan.title,
        *_sittings(computed.sittings, names),
        "\n".join((*_verdict(plan, computed, names), *_mending(project.remedies, names))),
        "\n".join(_shopping(project.needs, currency)),
    ]
    return "\n\n".join(part for part in parts if part) + "\n"


def on(day: dt.date) -> str:
    """`Mon 6 April 2026`."""
    return f"{DAYS[day.weekday()]} {language_of('en').on(day)}"


def _at(moment: dt.datetime) -> str:
    return f"{on(moment.date())} at {moment:%H:%M}"


def _many(count: int, one: str, more: str = "") -> str:
    return f"{count} {one if count == 1 else more or one + 's'}"


def _minutes(ms: float) -> str:
    return print_duration(round(ms / MINUTE) * MINUTE)


def _sittings(sittings: Iterable[Sitting], names: Mapping[int, str]) -> Iterator[str]:
    for sitting in sittings:
        rows = [(f"{job.start:%H:%M}", _what(job), _figures(job), names[job.unit]) for job in sitting.jobs]
        widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
        lines = [
            "   ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)) for row in rows
        ]
        head = f"{on(sitting.date)}, {sitting.start:%H:%M} to {sitting.end:%H:%M}"
        last = f"{sitting.jobs[-1].end:%H:%M}   brush down, {_minutes(sitting.hands_on)} of painting"
        yield "\n".join((head, *(f"  {line.rstrip()}" for line in (*lines, last))))


def _what(job: Job) -> str:
    return f"{job.title}, coat {job.coat} of {job.coats}" if job.coats > 1 else job.title


def _figures(job: Job) -> str:
    first, last = job.figures
    return f"figure {first}" if first == last else f"figures {first} to {last}"


def _verdict(plan: Plan, computed: Schedule, names: Mapping[int, str]) -> Iterator[str]:
    # Batches of a unit that stay at the same step are one thing to say.
    for unit, n, title, airborne in dict.fromkeys((s.unit, s.n, s.title, s.airborne) for s in computed.stuck):
        room = (
            "No spraying hours in a sitting still to come have"
            if airborne
            else "No sitting still to come has"
        )
        yield f"Never finished: {names[unit]} stays at step {n}, “{title}”."
        yield f"{room} room for it."
    if computed.finish is None:
        if not computed.stuck:
            yield "There is nothing to paint."
        return
    dry = f"The last figure is dry on {_at(computed.finish)}"
    if computed.slack_days is None or plan.deadline is None:
        yield f"{dry}."
    elif computed.slack_days >= 0:
        spare = (
            "the very day of" if computed.slack_days == 0 else f"{_many(computed.slack_days, 'day')} before"
        )
        yield f"In time. {dry}, {spare} the deadline."
    else:
        yield f"Too late. {dry}, {_many(-computed.slack_days, 'day')} after the deadline of {on(plan.deadline)}."
        short = computed.short_hours * HOUR
        missing = f"{_minutes(short)} of painting falls after it" if short else "Only drying falls after it"
        yield f"{missing}. Done and dry by then: {computed.ready} of {_many(computed.figures, 'figure')}."
    yield f"{_minutes(computed.hands_on)} of painting in {_many(len(computed.sittings), 'sitting')}."


def _mending(mended: Remedies | None, names: Mapping[int, str]) -> Iterator[str]:
    if mended is None:
        return
    lines = []
    for fewer in mended.figures:
        unit = names[fewer.unit]
        lines.append(
            f"paint {fewer.figures} of {unit} instead of {fewer.of}" if fewer.figures else f"leave out {unit}"
        )
    lines += [f"stop {names[row.unit]} at “{row.stop}”" for row in mended.stops]
    if mended.sittings is not None:
        start, end = (f"{minute // 60 % 24:02}:{minute % 60:02}" for minute in mended.sittings.hours)
        dates = [on(date) for date in mended.sittings.dates]
        days = dates[0] if len(dates) == 1 else f"{', '.join(dates[:-1])} and {dates[-1]}"
        lines.append(
            f"sit down {_many(len(dates), 'more time')} from {start} to {end}, for instance on {days}"
        )
    if lines:
        yield "Each of these would mend it:"
        yield from (f"  - {line}" for line in lines)
    else:
        yield "Neither fewer figures of one unit, nor one earlier stop, nor the free days would mend it alone."


def _shopping(needs: Sequence[PaintNeed], currency: str) -> Iterator[str]:
    lacking = to_buy(needs)
    if not needs:
        return
    if not lacking:
        yield "Nothing to buy: the shelf has every paint."
        return
    yield "To buy"
    rows = [
        (
            need.paint.full_name,
            _many(need.buy, "pot"),
            volume_text(need.ml, language_of("en")),
            "" if need.cost is None else f"{need.cost:.2f} {currency}",
        )
        for need in lacking
    ]
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for row in rows:
        yield "  " + "   ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
    summed = total(needs)
    price = f", {summed.cost:.2f} {currency}" if summed.cost else ""
    unknown = f"; {_many(len(summed.unpriced), 'paint')} without a price" if summed.unpriced else ""
    yield f"  Together {_many(summed.pots, 'pot')}{price}{unknown}. Amounts are estimates."
