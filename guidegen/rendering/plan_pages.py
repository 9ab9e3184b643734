"""The pages of plans and of shared lists, and the files that plans offer besides."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from guidegen.computing.project import Project, project_of
from guidegen.computing.shopping import shopping_csv
from guidegen.model.guide import Guide, Shared
from guidegen.model.plan import Plan
from guidegen.rendering.calendar import calendar
from guidegen.rendering.desk import Desk
from guidegen.rendering.frame import frame_of
from guidegen.rendering.pages import Export, Page
from guidegen.rendering.plan_page import plan_card, plan_view, without_drafts
from guidegen.rendering.shared_page import shared_view
from guidegen.rendering.summary import Summary
from guidegen.rendering.urls import PLANS, plan_file


def plan_pages(plans: Iterable[Plan], guides: Iterable[Guide], desk: Desk) -> Iterator[Page | Export]:
    """Every plan's page, calendar and shopping list, and the page of all plans if there is one.

    `guides` are all that the plans count with, those without a page among them.
    """
    every = tuple(guides)
    projects = [without_drafts(project_of(plan, every, desk.workshop.palette), desk) for plan in plans]
    for project in projects:
        yield from _files(project, desk)
    if projects:
        frame = frame_of(desk, PLANS, title=desk.language.t("plans.title"))
        ordered = sorted(projects, key=lambda project: project.plan.start, reverse=True)
        cards = tuple(plan_card(project, desk) for project in ordered)
        yield Page(path=PLANS, template="plans.html", values={"frame": frame, "plans": cards})


def _files(project: Project, desk: Desk) -> Iterator[Page | Export]:
    slug, site = project.plan.slug, desk.site
    path = plan_file(slug)
    frame = frame_of(desk, path, title=project.plan.title, script=desk.assets.plan)
    yield Page(path=path, template="plan.html", values={"frame": frame, "plan": plan_view(project, desk)})
    yield Export(path=plan_file(slug, "plan.ics"), data=calendar(project, site))
    table = shopping_csv(project.needs, site.currency)
    yield Export(path=plan_file(slug, "shopping.csv"), data=table.encode())


def shared_pages(
    lists: Iterable[Shared], guides: Iterable[Guide], summaries: Iterable[Summary], desk: Desk
) -> Iterator[Page]:
    """A page for every shared list that has one. `guides` are those with a page, told of in `summaries`."""
    every, shown, short = tuple(lists), tuple(guides), tuple(summaries)
    for one in every:
        path = desk.shared[one.name]
        view = shared_view(one, every, shown, short, desk)
        frame = frame_of(desk, path, title=view.title)
        yield Page(path=path, template="shared.html", values={"frame": frame, "shared": view})
