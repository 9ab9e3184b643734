"""What a plan comes to, in a reader's words: the answer first, and what would mend it if it is late."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from guidegen.base.units import HOUR
from guidegen.computing.plan.jobs import Job, Schedule, Sitting
from guidegen.computing.plan.project import Project
from guidegen.computing.plan.remedies import Remedies
from guidegen.computing.plan.units import UnitScheme
from guidegen.rendering.plan.plan_view import Verdict
from guidegen.words.language import Language

# What a page tells times to.
FIVE = dt.timedelta(minutes=5)

# The most jobs that a sitting is summed up in.
MOST_IN_SHORT = 6


def unit_names(units: Sequence[UnitScheme], language: Language) -> dict[int, str]:
    """A name for each unit by its number in the plan: its guide, and the number too where others paint the same guide."""
    titles = Counter(unit.guide.title for unit in units)
    return {
        unit.unit: unit.guide.title
        if titles[unit.guide.title] == 1
        else language.t("plan.unit-named", guide=unit.guide.title, n=unit.unit)
        for unit in units
    }


def full_day(day: dt.date, language: Language) -> str:
    """`Monday, 6 April 2026`."""
    return language.t("day.full", weekday=language.t(f"weekday.{day.weekday()}"), date=language.on(day))


def clock_of(moment: dt.datetime) -> str:
    """`20:05`."""
    return f"{moment:%H:%M}"


def about(moment: dt.datetime, language: Language) -> str:
    """`about 20:35`: nobody paints to the minute, so a page tells its times to five, on the day that they are."""
    return language.t("plan.about", clock=clock_of(to_five(moment)))


def to_five(moment: dt.datetime) -> dt.datetime:
    """A moment to five minutes, never on the next day."""
    midnight = dt.datetime.combine(moment.date(), dt.time())
    fives = min(round((moment - midnight) / FIVE), dt.timedelta(days=1) // FIVE - 1)
    return midnight + fives * FIVE


def in_short(sitting: Sitting, names: Mapping[int, str], language: Language) -> str:
    """A sitting's jobs in one sentence, unit by unit: up to six of them, the longest where there are more."""
    spent: Counter[tuple[int, str]] = Counter()
    for job in sitting.jobs:
        spent[job.unit, job.title] += job.length
    left = len(spent) - MOST_IN_SHORT
    shown = {key for key, _ in spent.most_common(MOST_IN_SHORT - 1)} if left > 0 else set(spent)
    steps: dict[int, list[str]] = {}
    for unit, title in spent:
        if (unit, title) in shown:
            steps.setdefault(unit, []).append(title)
    said = [f"{names[unit]}: {listed(titles, language)}" for unit, titles in steps.items()]
    if left > 0:
        said.append(language.t("plan.in-short-more", n=left + 1))
    return "; ".join(said)


def coat_of(job: Job, language: Language) -> str:
    """Which coat a job lays, '' where there is one alone."""
    return language.t("plan.coat", coat=job.coat, coats=job.coats) if job.coats > 1 else ""


def figures_of(job: Job, language: Language) -> str:
    """Which figures of the unit a job paints."""
    first, last = job.figures
    return language.t("plan.figure" if first == last else "plan.figure-range", first=first, last=last)


def verdict_of(
    project: Project, names: Mapping[int, str], language: Language, *, exact: bool = True
) -> Verdict:
    """Whether it is done in time, when the last figure is dry, what is missing, and what would mend that.

    Times are `exact`, or told to five minutes.
    """
    computed, mended = project.schedule, project.remedies
    return Verdict(
        good=computed.in_time,
        answer=_answer(computed, language),
        says=tuple(_says(project, names, language, exact=exact)),
        late=mended is not None,
        mends=() if mended is None else tuple(_mends(mended, names, language)),
    )


def _answer(computed: Schedule, language: Language) -> str:
    slack = computed.slack_days
    if computed.stuck:
        return language.t("plan.never")
    if computed.finish is None:
        return language.t("plan.nothing")
    if slack is None:
        return language.t("plan.done", day=full_day(computed.finish.date(), language))
    if slack < 0:
        return language.t("plan.late", n=-slack)
    return language.t("plan.in-time", n=slack) if slack else language.t("plan.just-in-time")


def _says(project: Project, names: Mapping[int, str], language: Language, *, exact: bool) -> Iterator[str]:
    computed, deadline = project.schedule, project.plan.deadline
    # Batches of a unit that stay at the same step are one thing to say.
    for unit, n, title, airborne in dict.fromkeys((s.unit, s.n, s.title, s.airborne) for s in computed.stuck):
        key = "plan.stuck-spraying" if airborne else "plan.stuck"
        yield language.t(key, unit=names[unit], n=n, step=title)
    if computed.finish is not None:
        day = full_day(computed.finish.date(), language)
        clock = clock_of(computed.finish) if exact else about(computed.finish, language)
        yield language.t("plan.dry-at", day=day, clock=clock)
    if deadline is None or computed.in_time:
        return
    by = full_day(deadline, language)
    if computed.short_hours:
        yield language.t("plan.missing", length=missing(computed, language), day=by)
    else:
        yield language.t("plan.only-drying", day=by)
    yield language.t("plan.ready", n=computed.figures, done=computed.ready)


def missing(computed: Schedule, language: Language) -> str:
    """The hands-on time that falls after the deadline."""
    return language.duration(round(computed.short_hours * HOUR))


def _mends(mended: Remedies, names: Mapping[int, str], language: Language) -> Iterator[str]:
    for fewer in mended.figures:
        unit = names[fewer.unit]
        if fewer.figures:
            yield language.t("mend.fewer", n=fewer.figures, unit=unit, of=fewer.of)
        else:
            yield language.t("mend.leave-out", unit=unit)
    for row in mended.stops:
        yield language.t("mend.stop", unit=names[row.unit], stop=row.stop)
    if mended.sittings is not None:
        start, end = (f"{minute // 60 % 24:02}:{minute % 60:02}" for minute in mended.sittings.hours)
        days = listed([_short_day(date, language) for date in mended.sittings.dates], language)
        yield language.t("mend.sittings", n=len(mended.sittings.dates), start=start, end=end, days=days)


def _short_day(day: dt.date, language: Language) -> str:
    weekday, month = language.t(f"weekday.short.{day.weekday()}"), language.months[day.month - 1]
    return language.t("day.short", weekday=weekday, day=day.day, month=month)


def listed(words: Sequence[str], language: Language) -> str:
    """`one, two and three`."""
    if len(words) < 2:
        return "".join(words)
    return language.t("list.and", first=", ".join(words[:-1]), last=words[-1])
