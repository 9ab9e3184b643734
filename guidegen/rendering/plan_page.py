"""A plan's page: what `templates/plan.html` shows, from everything that was worked out of the plan."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from guidegen.computing.evenings import Job, Sitting
from guidegen.computing.materials import PaintNeed
from guidegen.computing.project import Project
from guidegen.computing.roster import UnitScheme
from guidegen.computing.shopping import total
from guidegen.rendering.amounts import amount_text
from guidegen.rendering.area_view import Link
from guidegen.rendering.desk import Desk
from guidegen.rendering.frame import is_long
from guidegen.rendering.guide_view import Fact
from guidegen.rendering.months import month_views
from guidegen.rendering.plan_view import (
    JobView,
    NeedView,
    PlanCard,
    PlanView,
    ShoppingView,
    SittingView,
    UnitView,
)
from guidegen.rendering.plan_words import clock_of, full_day, missing, verdict_of
from guidegen.rendering.pots import pot_view
from guidegen.rendering.step_views import length
from guidegen.rendering.unit_names import unit_names
from guidegen.rendering.urls import PLANS, plan_file, relative, step_places, stop_places
from guidegen.rendering.variants import variants

# What a plan's folder offers besides its page, by the key of its label.
EXPORTS = {"export.ics": "plan.ics", "export.shopping": "shopping.csv"}


def without_drafts(project: Project, desk: Desk) -> Project:
    """The project with the words of guides that have no page left unsaid; its times and amounts stay true."""
    unseen = {unit.unit for unit in project.units if unit.guide.slug not in desk.guides}
    if not unseen:
        return project
    name, step = desk.language.t("plan.unpublished"), desk.language.t("plan.unpublished-step")
    worked, mended = project.evenings, project.mending

    def quiet(job: Job) -> Job:
        return replace(job, title=step) if job.unit in unseen else job

    return replace(
        project,
        units=tuple(
            replace(unit, guide=replace(unit.guide, title=name)) if unit.unit in unseen else unit
            for unit in project.units
        ),
        evenings=replace(
            worked,
            sittings=tuple(
                replace(sitting, jobs=tuple(map(quiet, sitting.jobs))) for sitting in worked.sittings
            ),
            stuck=tuple(replace(one, title=step) if one.unit in unseen else one for one in worked.stuck),
        ),
        mending=mended
        and replace(mended, stops=tuple(row for row in mended.stops if row.unit not in unseen)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lead:
    """Where a unit is told of: its guide's page for its choice of variants, and the steps there by number."""

    href: str = ""
    steps: Mapping[int, str]
    stops: tuple[str, ...] = ()


def plan_view(project: Project, desk: Desk) -> PlanView:
    """Everything on the page of one plan."""
    plan, worked, language = project.plan, project.evenings, desk.language
    page = plan_file(plan.slug)
    names = unit_names(project.units, language)
    leads = {unit.unit: _lead(unit, desk, page) for unit in project.units}
    places = {sitting.start: f"#sitting-{n}" for n, sitting in enumerate(worked.sittings, 1)}
    return PlanView(
        title=plan.title,
        long_word=is_long(plan.title),
        facts=_facts(project, desk),
        verdict=verdict_of(project, names, language),
        sums=_sums(project, desk),
        units=tuple(_unit(project, unit, names[unit.unit], leads[unit.unit], desk) for unit in project.units),
        months=month_views(plan, worked, places, language),
        weekdays=tuple(
            (language.t(f"weekday.short.{day}"), language.t(f"weekday.{day}")) for day in range(7)
        ),
        sittings=tuple(
            _sitting(sitting, places[sitting.start], project, names, leads, desk)
            for sitting in worked.sittings
        ),
        shopping=_shopping(project.needs, desk, page),
        exports=tuple(
            Link(text=key, href=relative(plan_file(plan.slug, name), page)) for key, name in EXPORTS.items()
        ),
        # Chromium keeps one store for all pages opened from files, so the key names the site and the plan.
        store=f"guidegen:{desk.site.title}:{plan_file(plan.slug)}",
        ticked=str(language.phrases["plan.ticked"]),
    )


def plan_card(project: Project, desk: Desk) -> PlanCard:
    """A plan in short, for the page of all plans."""
    plan, worked = project.plan, project.evenings
    found = verdict_of(project, unit_names(project.units, desk.language), desk.language)
    return PlanCard(
        title=plan.title,
        href=relative(plan_file(plan.slug), PLANS),
        good=found.good,
        answer=found.answer,
        dates=" – ".join(desk.language.on(day) for day in (plan.start, plan.deadline) if day),
        figures=worked.figures,
        sittings=len(worked.sittings),
    )


def _lead(unit: UnitScheme, desk: Desk, page: str) -> _Lead:
    if unit.guide.slug not in desk.guides:
        return _Lead(steps={})
    wanted = dict(unit.scheme.choice)
    path = next((path for path, choice in variants(unit.guide).items() if dict(choice) == wanted), None)
    if path is None:
        return _Lead(href=relative(next(iter(variants(unit.guide))), page), steps={})
    places = step_places(row.step.title for row in unit.scheme.steps)
    return _Lead(
        href=relative(path, page),
        steps={
            row.n: relative(f"{path}#{place}", page)
            for row, place in zip(unit.scheme.steps, places, strict=True)
        },
        stops=tuple(
            relative(f"{path}#{place}", page)
            for place in stop_places(stop.name for stop in unit.scheme.stops)
        ),
    )


def _facts(project: Project, desk: Desk) -> tuple[Fact, ...]:
    plan, language = project.plan, desk.language
    facts = [Fact(label="plan.start", text=full_day(plan.start, language))]
    if plan.deadline:
        facts.append(Fact(label="plan.deadline", text=full_day(plan.deadline, language)))
    facts.append(Fact(label="plan.figures", text=language.number(project.evenings.figures)))
    return tuple(facts)


def _sums(project: Project, desk: Desk) -> tuple[Fact, ...]:
    worked, language = project.evenings, desk.language
    sums = []
    if worked.finish is not None:
        sums.append(
            Fact(label="plan.finish", text=f"{language.on(worked.finish.date())}, {clock_of(worked.finish)}")
        )
    if worked.short_hours:
        sums.append(Fact(label="plan.short", text=missing(worked, language)))
    elif worked.slack_days is not None and worked.slack_days >= 0:
        sums.append(Fact(label="plan.slack", text=language.t("plan.days", n=worked.slack_days)))
    sums.append(Fact(label="plan.painting", text=language.duration(worked.hands_on)))
    sums.append(Fact(label="plan.sittings", text=language.number(len(worked.sittings))))
    return tuple(sums)


def _unit(project: Project, unit: UnitScheme, name: str, lead: _Lead, desk: Desk) -> UnitView:
    seen = unit.guide.slug in desk.guides
    to = project.plan.units[unit.unit - 1].to
    return UnitView(
        n=unit.unit,
        name=name,
        href=lead.href,
        options=tuple(
            unit.scheme.choice[name] for name, all_of_it in unit.guide.choose.items() if len(all_of_it) > 1
        )
        if seen
        else (),
        figures=unit.figures,
        batches=_batches(unit.batches, desk),
        # The stop is the last that its cut scheme has.
        to=None
        if to is None
        else Link(text=unit.scheme.stops[-1].name, href=lead.stops[-1] if lead.stops else "")
        if seen
        else Link(text=desk.language.t("plan.unpublished-stop"), href=""),
    )


def _batches(batches: tuple[int, ...], desk: Desk) -> str:
    language = desk.language
    if len(batches) < 2:
        return language.t("plan.at-once")
    key = "plan.in-batches" if batches[0] == batches[-1] else "plan.in-batches-last"
    return language.t(key, n=len(batches), size=batches[0], last=batches[-1])


def _sitting(
    sitting: Sitting,
    place: str,
    project: Project,
    names: Mapping[int, str],
    leads: Mapping[int, _Lead],
    desk: Desk,
) -> SittingView:
    language, deadline = desk.language, project.plan.deadline
    before = [sitting.start, *(job.end for job in sitting.jobs)]
    return SittingView(
        anchor=place.removeprefix("#"),
        day=full_day(sitting.date, language),
        iso=sitting.date.isoformat(),
        hours=language.t("day.hours", start=clock_of(sitting.start), end=clock_of(sitting.end)),
        late=deadline is not None and sitting.date > deadline,
        jobs=tuple(
            _job(job, begun, names[job.unit], leads[job.unit], desk)
            for job, begun in zip(sitting.jobs, before, strict=False)
        ),
        brush_down=clock_of(before[-1]),
        hands_on=length(sitting.hands_on, language),
    )


def _job(job: Job, free_from: dt.datetime, name: str, lead: _Lead, desk: Desk) -> JobView:
    language = desk.language
    first, last = job.figures
    figures = "plan.figure" if first == last else "plan.figure-range"
    wait = round((job.start - free_from) / dt.timedelta(milliseconds=1))
    href = lead.steps.get(job.n, "")
    return JobView(
        wait=length(wait, language) if wait else None,
        start=clock_of(job.start),
        iso=job.start.isoformat(timespec="minutes"),
        end=clock_of(job.end),
        title=job.title,
        href=href,
        coat=language.t("plan.coat", coat=job.coat, coats=job.coats) if job.coats > 1 else "",
        figures=language.t(figures, first=first, last=last),
        unit=name,
        set_up=language.t("plan.set-up", length=language.duration(job.once)) if job.once else "",
        work=f"{job.unit}.{href.partition('#')[2] or job.n}.{job.coat}",
        first=first,
        last=last,
    )


def _shopping(needs: Iterable[PaintNeed], desk: Desk, page: str) -> ShoppingView:
    needs = tuple(needs)
    summed = total(needs)
    views = [(need.buy, _need(need, desk, page)) for need in needs]
    return ShoppingView(
        lacking=tuple(view for buy, view in views if buy),
        owned=tuple(view for buy, view in views if not buy),
        pots=summed.pots,
        cost=desk.language.money(summed.cost, desk.site.currency) if summed.cost else "",
        unpriced=len(summed.unpriced),
    )


def _need(need: PaintNeed, desk: Desk, page: str) -> NeedView:
    return NeedView(
        pot=pot_view(need.paint, desk, page),
        amount=amount_text(need, desk.language),
        pots=need.buy,
        cost="" if need.cost is None else desk.language.money(need.cost, desk.site.currency),
    )
