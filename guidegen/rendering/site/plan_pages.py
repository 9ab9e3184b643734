"""The pages and files of plans, computed when they are first asked for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cached_property

from guidegen.base.suggest import folded
from guidegen.computing.guide.shopping import shopping_csv
from guidegen.computing.plan.project import Project, project_of
from guidegen.model.guide import Guide
from guidegen.model.plan import Plan
from guidegen.rendering.page.frame import Frame, frame_of
from guidegen.rendering.page.page import Export, LazyPage, Page, digest
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import PLANS, SUMMARY, plan_file
from guidegen.rendering.plan.calendar import calendar
from guidegen.rendering.plan.needs_script import NEEDS_SCRIPT, needs_script, plan_own
from guidegen.rendering.plan.plan_page import plan_card, plan_view, without_drafts
from guidegen.rendering.plan.plan_view import PlanCard
from guidegen.rendering.site.summary_file import KeptPlan, plan_summary_file


class _LazyPlan:
    """A plan that is computed once, when the first of its files is wanted: a late one can take a second."""

    def __init__(self, plan: Plan, guides: Mapping[str, Guide], context: SiteContext, around: str) -> None:
        self.plan, self.context = plan, context
        self.guides = [
            guides[key] for key in {folded(unit.guide.text): None for unit in plan.units} if key in guides
        ]
        seen = [guide.slug for guide in self.guides if guide.slug in context.guides]
        # The order of a set differs from run to run.
        said = replace(plan, skip=frozenset()), sorted(plan.skip)
        self.made_of = digest(around, repr(said), repr(self.guides), repr(seen))

    @cached_property
    def card(self) -> PlanCard:
        return plan_card(self.project, self.context)

    @cached_property
    def project(self) -> Project:
        palette = self.context.palette_tools.palette
        return without_drafts(project_of(self.plan, self.guides, palette), self.context)


def plan_pages(
    plans: Sequence[Plan], guides: Iterable[Guide], context: SiteContext, kept: Sequence[KeptPlan] = ()
) -> Iterator[LazyPage]:
    """Every plan's page, calendar and shopping list, and the page of all plans if there is one.

    `guides` are all that the plans count with, those without a page among them. `kept` are plans whose pages stay as an
    earlier build made them.
    """
    by_name = {folded(guide.slug): guide for guide in guides}
    around = digest(repr(context.site), repr(context.palette_tools.palette)) if plans else ""
    lazy = [_LazyPlan(plan, by_name, context, around) for plan in plans]
    for one in lazy:
        yield from _files(one, context)
    if lazy or kept:
        frame = frame_of(context, PLANS, "plans", title=context.language.t("plans.title"))
        told = map(repr, kept)
        made_of = digest(repr(frame), *(one.made_of for one in lazy), *told)
        yield LazyPage(path=PLANS, made_of=made_of, make=lambda: _all_plans(lazy, kept, frame))


def _all_plans(plans: Iterable[_LazyPlan], kept: Iterable[KeptPlan], frame: Frame) -> Page:
    """The latest start first, plans of one day by their addresses."""
    every = [(plan.slug, plan.start, plan.card) for plan in kept]
    every += [(lazy.plan.slug, lazy.plan.start.isoformat(), lazy.card) for lazy in plans]
    every.sort(key=lambda plan: plan[0])
    every.sort(key=lambda plan: plan[1], reverse=True)
    cards = tuple(card for _, _, card in every)
    return Page(path=PLANS, template="plans.html", values={"frame": frame, "plans": cards})


def _files(lazy: _LazyPlan, context: SiteContext) -> Iterator[LazyPage]:
    slug, site, made_of = lazy.plan.slug, context.site, lazy.made_of
    names = ("index.html", "plan.ics", "shopping.csv", SUMMARY)
    path, sittings, shopping, short = (plan_file(slug, name) for name in names)
    frame = frame_of(context, path, "plan", title=lazy.plan.title, script=context.assets.plan)

    def page() -> Page:
        view = plan_view(lazy.project, context)
        return Page(path=path, template="plan.html", values={"frame": frame, "plan": view})

    def table() -> Export:
        return Export(path=shopping, data=shopping_csv(lazy.project.needs, site.currency).encode())

    own, data = plan_own(slug, context), plan_file(slug, NEEDS_SCRIPT)
    yield LazyPage(path=path, made_of=digest(made_of, repr(frame), repr(own)), make=page)
    yield LazyPage(
        path=data,
        made_of=digest(made_of, context.language.code),
        make=lambda: Export(path=data, data=needs_script(lazy.project, context)),
    )
    yield LazyPage(
        path=sittings,
        made_of=made_of,
        make=lambda: Export(path=sittings, data=calendar(lazy.project, site, context.language)),
    )
    yield LazyPage(path=shopping, made_of=made_of, make=table)
    yield LazyPage(
        path=short,
        made_of=digest(made_of, context.language.code),
        make=lambda: Export(path=short, data=plan_summary_file(lazy.card, lazy.plan.start)),
    )
