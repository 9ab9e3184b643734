"""A plan's page: what `templates/plan.html` shows, from the computed plan."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from guidegen.base.suggest import folded
from guidegen.base.units import MINUTE
from guidegen.computing.guide.materials import PaintNeed
from guidegen.computing.guide.scheme import Scheme, scheme_of
from guidegen.computing.guide.shopping import total
from guidegen.computing.plan.jobs import MS, Job, Sitting
from guidegen.computing.plan.project import Project
from guidegen.computing.plan.units import UnitScheme
from guidegen.model.guide import Step
from guidegen.model.paint import Palette
from guidegen.rendering.guide.guide_view import Fact
from guidegen.rendering.guide.step_views import length, times_said
from guidegen.rendering.guide.variants import variants
from guidegen.rendering.page.amounts import amount_text
from guidegen.rendering.page.frame import is_long
from guidegen.rendering.page.links import Link
from guidegen.rendering.page.paint_views import PotView, pot_view
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import PLANS, plan_file, relative, step_places, stop_places
from guidegen.rendering.plan.months import month_views
from guidegen.rendering.plan.needs_script import plan_own
from guidegen.rendering.plan.plan_ticks import UnitTicks, all_ticks, ticks_data
from guidegen.rendering.plan.plan_view import (
    JobView,
    NeedView,
    PlanCard,
    PlanView,
    ShoppingView,
    SittingView,
    UnitView,
)
from guidegen.rendering.plan.plan_words import (
    about,
    clock_of,
    coat_of,
    figures_of,
    full_day,
    in_short,
    missing,
    to_five,
    unit_names,
    verdict_of,
)
from guidegen.words.language import PhraseKey

# What a plan's folder offers besides its page, by the key of its label.
EXPORTS = {"export.ics": "plan.ics", "export.shopping": "shopping.csv"}


def without_drafts(project: Project, context: SiteContext) -> Project:
    """The project without the titles of steps and guides that have no page; times and amounts stay."""
    unseen = {unit.unit for unit in project.units if unit.guide.slug not in context.guides}
    if not unseen:
        return project
    name, step = context.language.t("plan.unpublished"), context.language.t("plan.unpublished-step")
    computed, mended = project.schedule, project.remedies

    def quiet(job: Job) -> Job:
        return replace(job, title=step) if job.unit in unseen else job

    return replace(
        project,
        units=tuple(
            replace(unit, guide=replace(unit.guide, title=name)) if unit.unit in unseen else unit
            for unit in project.units
        ),
        schedule=replace(
            computed,
            sittings=tuple(
                replace(sitting, jobs=tuple(map(quiet, sitting.jobs))) for sitting in computed.sittings
            ),
            stuck=tuple(replace(one, title=step) if one.unit in unseen else one for one in computed.stuck),
        ),
        remedies=mended
        and replace(mended, stops=tuple(row for row in mended.stops if row.unit not in unseen)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Lead:
    """The page of a unit's guide for its variant, '' for none, links to the steps there by number, and its stops."""

    href: str = ""
    steps: Mapping[int, str]
    stops: tuple[str, ...] = ()


def plan_view(project: Project, context: SiteContext) -> PlanView:
    """Everything on the page of one plan."""
    plan, computed, language = project.plan, project.schedule, context.language
    page = plan_file(plan.slug)
    names = unit_names(project.units, language)
    leads = {unit.unit: _lead(unit, context, page) for unit in project.units}
    ticks = all_ticks(project)
    places = {sitting.start: f"#sitting-{n}" for n, sitting in enumerate(computed.sittings, 1)}
    return PlanView(
        title=plan.title,
        long_word=is_long(plan.title),
        facts=_facts(project, context),
        verdict=verdict_of(project, names, language, exact=False),
        sums=_sums(project, context),
        units=tuple(
            _unit(project, unit, names[unit.unit], leads[unit.unit], context) for unit in project.units
        ),
        months=month_views(plan, computed, places, language),
        weekdays=tuple(
            (language.t(f"weekday.short.{day}"), language.t(f"weekday.{day}")) for day in range(7)
        ),
        sittings=tuple(
            _sitting(sitting, places[sitting.start], project, names, leads, ticks, context)
            for sitting in computed.sittings
        ),
        shopping=_shopping(project.needs, context, page),
        own=plan_own(plan.slug, context) if project.needs else None,
        exports=tuple(
            Link(text=key, href=relative(plan_file(plan.slug, name), page)) for key, name in EXPORTS.items()
        ),
        ticks=ticks_data(project, ticks, names, {n: lead.steps for n, lead in leads.items()}, context),
    )


def plan_card(project: Project, context: SiteContext) -> PlanCard:
    """A plan in short, for the page of all plans."""
    plan, computed = project.plan, project.schedule
    found = verdict_of(project, unit_names(project.units, context.language), context.language)
    return PlanCard(
        title=plan.title,
        href=relative(plan_file(plan.slug), PLANS),
        good=found.good,
        answer=found.answer,
        dates=" – ".join(context.language.on(day) for day in (plan.start, plan.deadline) if day),
        figures=computed.figures,
        sittings=len(computed.sittings),
    )


def _lead(unit: UnitScheme, context: SiteContext, page: str) -> _Lead:
    if unit.guide.slug not in context.guides:
        return _Lead(steps={})
    paths = {tuple(sorted(choice.items())): path for path, choice in variants(unit.guide).items()}
    options = [one.option for one in unit.varieties] or [unit.scheme.choice.get(unit.choice, "")]
    every = _whole_scheme(unit, {unit.choice: options} if unit.choice else None, unit.scheme.choice)
    lead = _Lead(href=relative(next(iter(variants(unit.guide))), page), steps={})
    # Steps of several options lead to the page of the first.
    for option in reversed(options):
        choice = {**unit.scheme.choice, **({unit.choice: option} if unit.choice else {})}
        path = paths.get(tuple(sorted(choice.items())))
        if path is None:
            continue
        rows = _whole_scheme(unit, None, choice).steps
        mine = [row.n for row in every.steps if _is_of(row.step, unit.choice, option)]
        places = step_places(row.step.id or row.step.title for row in rows)
        lead = _Lead(
            href=relative(path, page),
            steps={
                **lead.steps,
                **{n: relative(f"{path}#{place}", page) for n, place in zip(mine, places, strict=True)},
            },
            stops=tuple(
                relative(f"{path}#{place}", page)
                for place in stop_places(stop.name for stop in unit.scheme.stops)
            ),
        )
    return lead


def _whole_scheme(
    unit: UnitScheme, mixed: Mapping[str, Sequence[str]] | None, choice: Mapping[str, str]
) -> Scheme:
    """The guide's steps by their numbers and titles; what they paint with is no matter here."""
    return scheme_of(unit.guide, Palette(), choice, mixed)


def _is_of(step: Step, choice: str, option: str) -> bool:
    only = step.only.get(choice)
    return only is None or folded(only.text) == folded(option)


def _facts(project: Project, context: SiteContext) -> tuple[Fact, ...]:
    plan, language = project.plan, context.language
    facts = [Fact(label=PhraseKey("plan.start"), text=full_day(plan.start, language))]
    if plan.deadline:
        facts.append(Fact(label=PhraseKey("plan.deadline"), text=full_day(plan.deadline, language)))
    facts.append(Fact(label=PhraseKey("plan.figures"), text=language.number(project.schedule.figures)))
    return tuple(facts)


def _sums(project: Project, context: SiteContext) -> tuple[Fact, ...]:
    computed, language = project.schedule, context.language
    sums = []
    if computed.finish is not None:
        sums.append(
            Fact(
                label=PhraseKey("plan.finish"),
                text=f"{language.on(computed.finish.date())}, {about(computed.finish, language)}",
            )
        )
    if computed.short_hours:
        sums.append(Fact(label=PhraseKey("plan.short"), text=missing(computed, language)))
    elif computed.slack_days is not None and computed.slack_days >= 0:
        sums.append(Fact(label=PhraseKey("plan.slack"), text=language.t("plan.days", n=computed.slack_days)))
    sums.append(Fact(label=PhraseKey("plan.painting"), text=language.duration(computed.hands_on)))
    if computed.changing:
        sums.append(Fact(label=PhraseKey("plan.changing"), text=language.duration(computed.changing)))
    sums.append(Fact(label=PhraseKey("plan.sittings"), text=language.number(len(computed.sittings))))
    return tuple(sums)


def _unit(project: Project, unit: UnitScheme, name: str, lead: _Lead, context: SiteContext) -> UnitView:
    seen = unit.guide.slug in context.guides
    to = project.plan.units[unit.unit - 1].to
    return UnitView(
        n=unit.unit,
        name=name,
        href=lead.href,
        options=(
            *(f"{one.figures} × {one.option}" for one in unit.varieties),
            *(
                unit.scheme.choice[name]
                for name, all_of_it in unit.guide.choose.items()
                if len(all_of_it) > 1 and name != unit.choice
            ),
        )
        if seen
        else (),
        times=times_said(unit.guide, context.language) if seen else "",
        figures=unit.figures,
        batches=_batches(unit.batches, context),
        # The stop is the last that its cut scheme has.
        to=None
        if to is None
        else Link(text=unit.scheme.stops[-1].name, href=lead.stops[-1] if lead.stops else "")
        if seen
        else Link(text=context.language.t("plan.unpublished-stop"), href=""),
    )


def _batches(batches: tuple[int, ...], context: SiteContext) -> str:
    language = context.language
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
    ticks: Mapping[int, UnitTicks],
    context: SiteContext,
) -> SittingView:
    language, deadline = context.language, project.plan.deadline
    set_up = project.plan.set_up * MS
    return SittingView(
        anchor=place.removeprefix("#"),
        day=full_day(sitting.date, language),
        iso=sitting.date.isoformat(),
        hours=language.t("day.hours", start=clock_of(sitting.start), end=clock_of(sitting.end)),
        late=deadline is not None and sitting.date > deadline,
        in_short=in_short(sitting, names, language),
        pots=_pots(sitting, project, context),
        jobs=tuple(
            _job(
                job,
                sitting.start + set_up,
                names[job.unit],
                leads[job.unit],
                ticks[job.unit].of_job(job),
                context,
            )
            for job in sitting.jobs
        ),
        last_stroke=about(sitting.jobs[-1].end, language),
        hands_on=length(sitting.hands_on, language),
    )


def _job(
    job: Job,
    begin: dt.datetime,
    name: str,
    lead: _Lead,
    count: tuple[int, int],
    context: SiteContext,
) -> JobView:
    language = context.language
    href = lead.steps.get(job.n, "")
    return JobView(
        # Where the clock tells five minutes nobody waits for seconds.
        wait=length(-(-job.pause // MINUTE) * MINUTE, language) if job.pause > job.change else None,
        changed=job.change > 0,
        start=clock_of(job.start) if job.start == begin else about(job.start, language),
        iso=job.start.isoformat(timespec="minutes"),
        end=clock_of(to_five(job.end)) if to_five(job.end) > to_five(job.start) else "",
        title=job.title,
        href=href,
        coat=coat_of(job, language),
        figures=figures_of(job, language),
        unit=name,
        set_up=language.t("plan.set-up", length=language.duration(job.once)) if job.once else "",
        number=job.unit,
        batch=job.batch,
        n=job.n,
        lays=job.coat,
        before=count[0],
        after=count[1],
    )


def _pots(sitting: Sitting, project: Project, context: SiteContext) -> tuple[PotView, ...]:
    """What is opened in a sitting, in order; one that stays open or is opened again stands once."""
    brushed = {(unit.unit, step.n): step.brushed for unit in project.units for step in unit.scheme.steps}
    pots = {
        part.pot.full_name: part.pot
        for job in sitting.jobs
        for blend in brushed[job.unit, job.n]
        for part in blend.parts
    }
    page = plan_file(project.plan.slug)
    return tuple(pot_view(pot, context, page) for pot in pots.values())


def _shopping(needs: Iterable[PaintNeed], context: SiteContext, page: str) -> ShoppingView:
    needs = tuple(needs)
    summed = total(needs)
    views = [(need.buy, _need(need, context, page)) for need in needs]
    return ShoppingView(
        lacking=tuple(view for buy, view in views if buy),
        owned=tuple(view for buy, view in views if not buy),
        pots=summed.pots,
        cost=context.language.money(summed.cost, context.site.currency) if summed.cost else "",
        unpriced=len(summed.unpriced),
    )


def _need(need: PaintNeed, context: SiteContext, page: str) -> NeedView:
    return NeedView(
        pot=pot_view(need.paint, context, page),
        amount=amount_text(need, context.language),
        pots=need.buy,
        cost="" if need.cost is None else context.language.money(need.cost, context.site.currency),
    )
