"""A plan as text for a terminal, in English as all that terminals say: sittings, verdict, remedies, shopping."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from guidegen.computing.guide.materials import PaintNeed
from guidegen.computing.guide.shopping import to_buy, total
from guidegen.computing.plan.jobs import Sitting
from guidegen.computing.plan.project import Project
from guidegen.rendering.page.amounts import volume_text
from guidegen.rendering.plan.plan_words import clock_of, coat_of, figures_of, full_day, unit_names, verdict_of
from guidegen.words.language import language_of

_ENGLISH = language_of("en")


def plan_text(project: Project, currency: str) -> str:
    """The whole answer of `guidegen plan`."""
    names = unit_names(project.units, _ENGLISH)
    parts = [
        project.plan.title,
        *(_sitting(sitting, names) for sitting in project.schedule.sittings),
        "\n".join(_verdict(project, names)),
        "\n".join(_shopping(project.needs, currency)),
    ]
    # Blanks that hold a figure and its unit together do so on a page alone.
    return "\n\n".join(part for part in parts if part).replace("\u00a0", " ") + "\n"


def _columns(rows: Sequence[Sequence[str]]) -> Iterator[str]:
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    for row in rows:
        yield "  " + "   ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()


def _sitting(sitting: Sitting, names: Mapping[int, str]) -> str:
    t = _ENGLISH.t
    hours = t("day.hours", start=clock_of(sitting.start), end=clock_of(sitting.end))
    rows = [
        (
            clock_of(job.start),
            ", ".join(filter(None, (job.title, coat_of(job, _ENGLISH)))),
            figures_of(job, _ENGLISH),
            names[job.unit],
        )
        for job in sitting.jobs
    ]
    done = t("plan.brush-down", length=_ENGLISH.duration(sitting.hands_on))
    lines = (*_columns(rows), f"  {clock_of(sitting.jobs[-1].end)}   {done}")
    return "\n".join((f"{full_day(sitting.date, _ENGLISH)}, {hours}", *lines))


def _verdict(project: Project, names: Mapping[int, str]) -> Iterator[str]:
    computed, verdict = project.schedule, verdict_of(project, names, _ENGLISH)
    yield f"{verdict.answer}."
    yield from verdict.says
    if computed.sittings:
        sittings = _ENGLISH.t("plans.sittings", n=len(computed.sittings))
        yield f"{_ENGLISH.duration(computed.hands_on)} of painting in {sittings}."
    if verdict.mends:
        yield _ENGLISH.t("mend.title") + ":"
        yield from (f"  - {line}" for line in verdict.mends)
    elif verdict.late:
        yield _ENGLISH.t("mend.none")


def _shopping(needs: Iterable[PaintNeed], currency: str) -> Iterator[str]:
    needs = tuple(needs)
    lacking, summed, t = to_buy(needs), total(needs), _ENGLISH.t
    if not needs:
        return
    yield t("plan.to-buy")
    if not lacking:
        yield "  " + t("plan.nothing-to-buy")
        return
    yield from _columns(
        [
            (
                need.paint.full_name,
                t("pot.owned", n=need.buy),
                volume_text(need.ml, _ENGLISH),
                t("plan.no-price") if need.cost is None else _ENGLISH.money(need.cost, currency),
            )
            for need in lacking
        ]
    )
    cost = f", {_ENGLISH.money(summed.cost, currency)}" if summed.cost else ""
    yield f"  {t('plan.together')} {t('pot.owned', n=summed.pots)}{cost}."
    if summed.unpriced:
        yield "  " + t("plan.unpriced", n=len(summed.unpriced))
    yield "  " + t("plan.estimate")
