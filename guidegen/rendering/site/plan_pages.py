"""The pages of plans and of shared lists, and the files that plans offer besides."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from guidegen.base.suggest import folded
from guidegen.computing.guide.shopping import shopping_csv
from guidegen.computing.plan.project import Project, project_of
from guidegen.model.guide import Guide, Shared
from guidegen.model.plan import Plan
from guidegen.rendering.archive.shared_page import Inserting, shared_view
from guidegen.rendering.guide.summary import Summary
from guidegen.rendering.page.frame import Frame, frame_of
from guidegen.rendering.page.page import Export, Page, digest
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import PLANS, SUMMARY, plan_file
from guidegen.rendering.plan.calendar import calendar
from guidegen.rendering.plan.plan_page import plan_card, plan_view, without_drafts
from guidegen.rendering.plan.plan_view import PlanCard
from guidegen.rendering.site.summary_file import KeptPlan, plan_in_short
from guidegen.rendering.theme.templates import Templates


@dataclass(frozen=True, slots=True, kw_only=True)
class LazyPage:
    """A page or file that is worked out only when it is wanted; `made_of` stands for all that it is made from."""

    path: str
    made_of: str
    make: Callable[[], Page | Export]

    def key(self, version: str) -> str:
        """The same for files made from the same; `version` stands for the templates and the program."""
        return digest(version, self.path, self.made_of)

    def render(self, templates: Templates) -> bytes:
        """The file's bytes."""
        return self.make().render(templates)


class _LazyPlan:
    """A plan that is worked out once, when the first of its files is wanted: late ones take a second."""

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
    every = {folded(guide.slug): guide for guide in guides}
    around = digest(repr(context.site), repr(context.palette_tools.palette)) if plans else ""
    promises = [_LazyPlan(plan, every, context, around) for plan in plans]
    for promise in promises:
        yield from _files(promise, context)
    if promises or kept:
        frame = frame_of(context, PLANS, "plans", title=context.language.t("plans.title"))
        told = map(repr, kept)
        made_of = digest(repr(frame), *(promise.made_of for promise in _latest_first(promises)), *told)
        yield LazyPage(path=PLANS, made_of=made_of, make=lambda: _all_plans(promises, kept, frame))


def _latest_first(promises: Iterable[_LazyPlan]) -> list[_LazyPlan]:
    return sorted(promises, key=lambda promise: promise.plan.start, reverse=True)


def _all_plans(promises: Iterable[_LazyPlan], kept: Iterable[KeptPlan], frame: Frame) -> Page:
    found = [(promise.plan.start.isoformat(), promise.plan.slug, promise.card) for promise in promises]
    found += [(plan.start, plan.slug, plan.card) for plan in kept]
    found.sort(key=lambda plan: plan[1])
    found.sort(key=lambda plan: plan[0], reverse=True)
    cards = tuple(card for _, _, card in found)
    return Page(path=PLANS, template="plans.html", values={"frame": frame, "plans": cards})


def _files(promise: _LazyPlan, context: SiteContext) -> Iterator[LazyPage]:
    slug, site, made_of = promise.plan.slug, context.site, promise.made_of
    names = ("index.html", "plan.ics", "shopping.csv", SUMMARY)
    path, sittings, shopping, short = (plan_file(slug, name) for name in names)
    frame = frame_of(context, path, "plan", title=promise.plan.title, script=context.assets.plan)

    def page() -> Page:
        view = plan_view(promise.project, context)
        return Page(path=path, template="plan.html", values={"frame": frame, "plan": view})

    def table() -> Export:
        return Export(path=shopping, data=shopping_csv(promise.project.needs, site.currency).encode())

    yield LazyPage(path=path, made_of=digest(made_of, repr(frame)), make=page)
    yield LazyPage(
        path=sittings,
        made_of=made_of,
        make=lambda: Export(path=sittings, data=calendar(promise.project, site, context.language)),
    )
    yield LazyPage(path=shopping, made_of=made_of, make=table)
    yield LazyPage(
        path=short,
        made_of=digest(made_of, context.language.code),
        make=lambda: Export(path=short, data=plan_in_short(promise.card, promise.plan.start)),
    )


def shared_pages(
    lists: Sequence[Shared],
    guides: Iterable[Inserting],
    summaries: Iterable[Summary],
    context: SiteContext,
    kept: Iterable[Shared] = (),
) -> Iterator[Page]:
    """A page for every shared list that has one. `guides` are those with a page, told of in `summaries`.

    `kept` are lists whose pages stay as an earlier build made them.
    """
    every = sorted((*lists, *kept), key=lambda one: one.name)
    shown, short = tuple(guides), tuple(summaries)
    for one in lists:
        path = context.shared[one.name]
        view = shared_view(one, every, shown, short, context)
        frame = frame_of(context, path, "shared", title=view.title)
        yield Page(path=path, template="shared.html", values={"frame": frame, "shared": view})
